"""How a number of the mix was worked out."""

import flet as ft

from app.screens.bench import use_bench
from app.screens.mix import answer
from app.widgets import panels
from app.widgets.frame import screen


@ft.component
def WorkingScreen() -> ft.View:
    """One working, opened from the number it explains."""
    bench = use_bench()
    mix = answer(bench.shown.draft, bench.shown.kit).mix
    working = mix.workings.get(ft.use_route_params().get("key", "")) if mix else None
    if working is None:
        return screen(
            "How it was worked out",
            [panels.empty("There is no such number now.", "Go back to the mix.")],
            place="/mix",
            back="/mix",
        )
    return screen(working.title, panels.working_view(working), place="/mix", back="/mix")
