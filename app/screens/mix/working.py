"""How a number was worked out, opened from the number it explains."""

from collections.abc import Callable, Mapping

import flet as ft

from app.cure.working import Working
from app.screens.bench import Bench, use_bench
from app.screens.in_units import degrees_beside
from app.screens.mix import buying, found_recipe, how_long, profile, soak
from app.screens.mix.mix import answer
from app.screens.mix.mix_results import mix_workings
from app.widgets import panels
from app.widgets.frame import screen


def mix_known(bench: Bench) -> Mapping[str, Working]:
    """The workings of the mix as it stands."""
    mix = answer(bench.shown.draft, bench.shown.kit).mix
    return mix_workings(mix) if mix is not None else {}


KNOWN: Mapping[str, Callable[[Bench], Mapping[str, Working]]] = {
    "mix": mix_known,
    "buy": buying.workings,
    "days": how_long.workings,
    "face": profile.workings,
    "recipe": found_recipe.workings,
    "soak": soak.workings,
}
"""The screens with numbers to explain, by the last part of their address."""


@ft.component
def WorkingScreen() -> ft.View:
    """One working."""
    bench = use_bench()
    route = ft.use_route_params()
    part = route.get("part", "mix")
    back = "/mix" if part == "mix" else f"/mix/{part}"
    known = KNOWN[part](bench) if part in KNOWN else {}
    working = known.get(route.get("key", ""))
    if working is None:
        return screen(
            "How it was worked out",
            [panels.empty("There is no such number now.", "Go back to the screen before.")],
            place="/mix",
            back=back,
        )
    working = degrees_beside(working, bench.kit)
    return screen(working.title, panels.working_view(working), place="/mix", back=back)
