"""What the log of a batch says of thawing, done, safe, hot and cold, each with its working."""

import flet as ft

from app.heat.cooling import HOT_C as BEGIN_C
from app.heat.cooling import MIDDLE_C, Cooling
from app.heat.lethality import TARGET_LOG
from app.journal.heat_told import HeatTold
from app.journal.records import Batch
from app.journal.thaw_told import ThawTold
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench
from app.screens.journal.told import degrees, in_units
from app.widgets import fields, panels, words

HOT_DAY_C = 35.0
"""Stands for "above 90 °F": the two hours are then one (FSIS)."""

MILD_C = 21.0


def thawing(bench: Bench, batch: Batch, thaw: ThawTold | None) -> list[ft.Control]:
    """How long it thaws, and until when once it was put there."""
    if thaw is None:
        return []
    said = thaw.time.says
    if thaw.begun is not None and thaw.ready is not None:
        since, ready = (say_wall(wall_of(at), bench.wall()) for at in (thaw.begun, thaw.ready))
        said = f"In the fridge since {since}, likely thawed {ready}. {said}"
    title = "Thawing" if thaw.planned else "If it is frozen"
    return [panels.panel([_told(bench, batch, "thaw", "In the fridge", said)], title=title)]


def done(bench: Bench, batch: Batch, told: HeatTold) -> list[ft.Control]:
    """By feel first; then the stall, and the finish by the cook's own batches."""
    rows: list[ft.Control] = []
    if told.finish is not None:
        rows.append(_told(bench, batch, "finish", "By your own batches", told.finish.says))
    if told.stall is not None:
        rows.append(_told(bench, batch, "stall", "The stall", told.stall.says))
    if not rows:
        return []
    return [panels.panel([words.body(told.by_feel, bold=True), *rows], title="When is it done?")]


def safe(bench: Bench, batch: Batch, told: HeatTold) -> list[ft.Control]:
    """Reduction by time and temperature, and the home rule, with the moment each was met."""
    if told.log is None:
        return []
    says = told.lethality.says
    if told.lethality.reached_min is not None:
        says = f"Reached {_at(bench, told, told.lethality.reached_min)}. {says}"
    home = told.consumer.says
    if told.consumer.met_min is not None:
        home = f"Met {_at(bench, told, told.consumer.met_min)}. {home}"
    return [
        panels.panel(
            [
                panels.figure("Reduction of Salmonella", _log(told.lethality.log_reduction)),
                _told(bench, batch, "safe", "By time and temperature", says),
                _told(bench, batch, "home", "The rule for the home kitchen", home),
            ],
            title="Safe?",
        )
    ]


def after(
    bench: Bench, batch: Batch, told: HeatTold, room_c: float, set_room: object
) -> list[ft.Control]:
    """Rest, the two hours, and both cooling clocks with the one that holds."""
    kit = bench.shown.kit
    rows: list[ft.Control] = []
    if told.off_guessed:
        rows.append(
            words.small(
                "Nobody marked it as pulled; it is taken as off the fire since its hottest reading."
            )
        )
    if told.rest is not None:
        rows.append(_told(bench, batch, "rest", "Resting hot", told.rest.says))
    if told.out is not None:
        rows.append(_told(bench, batch, "out", "Two hours out of the cold", told.out.says))
        ninety = degrees((90.0 - 32.0) / 1.8, kit)
        rows.append(
            fields.choice(
                "Where it stands",
                (("mild", f"up to {ninety}"), ("hot", f"above {ninety}")),
                "hot" if room_c > MILD_C else "mild",
                lambda key: set_room(HOT_DAY_C if key == "hot" else MILD_C),  # type: ignore[operator]
            )
        )
    out: list[ft.Control] = [panels.panel(rows, title="After the fire")] if rows else []
    if told.cooling_plain is not None and told.cooling_cured is not None:
        out.append(
            panels.panel(
                [
                    words.body(in_units(told.applies, kit), bold=True),
                    *_nitrite(bench, batch, told),
                    *_cooling(bench, batch, "cooling", "Plain limit", told.cooling_plain),
                    *_cooling(bench, batch, "cooling-cured", "Cured limit", told.cooling_cured),
                ],
                title="Cooling clocks",
            )
        )
    return out


def _nitrite(bench: Bench, batch: Batch, told: HeatTold) -> list[ft.Control]:
    """Each nitrite by its own name, so that none is taken for another."""
    return [
        panels.figure(
            one.name,
            f"{one.ppm:.0f} ppm",
            note=one.note,
            on_open=lambda key=one.key: bench.go(f"/journal/{batch.id}/heat/how/{key}"),  # type: ignore[misc]
        )
        for one in told.nitrite
    ]


def _cooling(bench: Bench, batch: Batch, key: str, name: str, cooling: Cooling) -> list[ft.Control]:
    kit = bench.shown.kit
    begin, middle, end = (degrees(c, kit) for c in (BEGIN_C, MIDDLE_C, cooling.limit.end_c))
    limits = (
        f"{begin} to {middle} in {cooling.limit.first_minutes / 60:g} h, then on to {end} in "
        f"{cooling.limit.second_minutes / 60:g} h"
    )
    if cooling.state == "not_begun":
        return [_told(bench, batch, key, f"{name}: {limits}", cooling.says)]
    return [
        _told(bench, batch, key, f"{name}: {limits}", cooling.says),
        words.small(f"First stage: {in_units(cooling.first.says, kit)}"),
        words.small(f"Second stage: {in_units(cooling.second.says, kit)}"),
    ]


def _at(bench: Bench, told: HeatTold, minute: float) -> str:
    return say_wall(wall_of(told.moment_of(minute)), bench.wall())


def _log(reduction: float) -> str:
    return f"{TARGET_LOG:g} log or more" if reduction >= TARGET_LOG else f"{reduction:.1f} log"


def _told(bench: Bench, batch: Batch, key: str, name: str, says: str) -> ft.Control:
    says = in_units(says, bench.shown.kit)
    return panels.pressable_plain(
        ft.Column([words.small(name), words.body(says)], spacing=2),
        lambda: bench.go(f"/journal/{batch.id}/heat/how/{key}"),
        label=f"{name}: {says} How it was worked out",
    )
