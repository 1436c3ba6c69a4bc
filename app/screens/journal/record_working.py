"""How a number of a batch's record was worked out."""

from collections.abc import Callable, Mapping

import flet as ft

from app.cure.working import Working
from app.journal.records import Batch
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.in_units import working_in_units
from app.screens.journal import advised, storing, temperatures
from app.screens.journal.missing import no_batch
from app.screens.mix import soak
from app.widgets import panels
from app.widgets.frame import screen

KNOWN: Mapping[str, tuple[str, Callable[[Bench, Batch], Mapping[str, Working]]]] = {
    "soak": ("soak", soak.workings),
    "heat": ("heat", temperatures.workings),
    "advice": ("", advised.workings),
    "store": ("store", storing.workings),
}
"""The parts of a record with numbers to explain: the address to go back to, and the numbers."""


@ft.component
def RecordWorkingScreen() -> ft.View:
    """One working of a batch."""
    bench = use_bench()
    batch = use_batch()
    route = ft.use_route_params()
    if batch is None:
        return no_batch()
    from_part, known = KNOWN.get(route.get("part", ""), ("", lambda _bench, _batch: {}))
    back = f"/journal/{batch.id}/{from_part}".rstrip("/")
    working = known(bench, batch).get(route.get("key", ""))
    if working is None:
        return screen(
            "How it was worked out",
            [panels.empty("There is no such number now.", "Go back to the screen before.")],
            place="/journal",
            back=back,
        )
    working = working_in_units(working, bench.shown.kit)
    return screen(working.title, panels.working_view(working), place="/journal", back=back)
