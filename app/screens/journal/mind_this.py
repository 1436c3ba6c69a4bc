"""What a batch's own record calls for: a mix for the trimmed weight, a colder fridge."""

import flet as ft

from app.heat.chill import COLD_C
from app.journal.records import Batch, Entry, Temperature
from app.journal.too_warm import too_warm
from app.journal.trimmed import OtherWeight, mixed_for, other_weight
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench
from app.screens.journal.told import SPOTS, degrees
from app.screens.masses import grams
from app.widgets import panels
from app.widgets.frame import Act, side_button


def mind_this(bench: Bench, batch: Batch, entries: tuple[Entry, ...]) -> list[ft.Control]:
    """The notices, each with what mends it; empty when there is nothing to mind."""
    found: list[ft.Control] = []
    warm = too_warm(batch, entries)
    if warm is not None and isinstance(warm.body, Temperature):
        kit = bench.shown.kit
        found.append(
            panels.notice(
                f"{SPOTS[warm.body.spot]} at {degrees(warm.body.celsius, kit)}, "
                f"{say_wall(wall_of(warm.at), bench.wall())}: too warm for meat in a cure. Bring "
                f"it to {degrees(COLD_C, kit)} or below and log it again. Throw the meat away "
                "when nobody knows how long it lay warm.",
                "danger",
            )
        )
    other = other_weight(batch, entries)
    if other is not None:
        found += _other_weight(bench, batch, other)
    return found


def _other_weight(bench: Bench, batch: Batch, other: OtherWeight) -> list[ft.Control]:
    kit = bench.shown.kit
    has, made_for = grams(other.trimmed_g, kit), grams(other.mixed_g, kit)
    part = f"{100.0 * other.trimmed_g / other.mixed_g:.0f} %"
    doubt = f" That is {part} of it: check the number and its unit first." if other.doubtful else ""
    if other.in_cure:
        says = (
            f"The meat weighs {has}, the cure was mixed for {made_for}: counted on what it weighs "
            f"that is {other.ppm:.0f} ppm of nitrite"
        )
        limit = f"the limit of {other.most_ppm:.0f} ppm"
        if other.over_limit:
            return [
                panels.notice(
                    f"{says}, above {limit}. Take it out of this cure and mix a new one for {has}."
                    f"{doubt}",
                    "danger",
                )
            ]
        return [panels.notice(f"{says}, within {limit}.{doubt}", "attention")]

    def mix_anew() -> None:
        again = mixed_for(batch, other.trimmed_g)
        called = f" It is called “{again.name}” now." if again.name != batch.name else ""
        bench.save_batch(again, f"The mix is now for {has}.{called}")

    return [
        panels.notice(
            f"Trimmed it weighs {has}, and the mix is for {made_for}.{doubt}",
            "danger" if other.doubtful else "attention",
        ),
        side_button(Act(f"Work the mix out for {has}", mix_anew, ft.Icons.SCALE)),
    ]
