"""Temperatures of a batch: the log as a chart, and what it says of safe, tender, hot and cold."""

from collections.abc import Mapping

import flet as ft

from app.cure.working import Working
from app.journal.entries import by_time, clock_set_back
from app.journal.heat_told import HeatTold, heat_told
from app.journal.records import Batch, Entry, Feel, Spot
from app.journal.thaw_told import ThawTold, thaw_told
from app.journal.timeline import temperatures_in
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.journal import heat_panels
from app.screens.journal.heat_chart import chart_panel, charts
from app.screens.journal.missing import no_batch
from app.screens.journal.told import FEELS, SPOTS, degrees
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen

SHOWN_READINGS = 12
CHARTS = {"cook": "The cook", "cold": "The cold days before"}


def heat_of(bench: Bench, batch: Batch, room_c: float = heat_panels.MILD_C) -> HeatTold:
    """What the log of a batch says, the cook's other batches beside it."""
    others = [one for one in bench.shown.batches if one.cut.casefold() == batch.cut.casefold()]
    records = {one.id: bench.entries(one.id) for one in others}
    return heat_told(batch, bench.entries(batch.id), bench.now(), others, records, room_c)


def thaw_of(bench: Bench, batch: Batch) -> ThawTold | None:
    """How long it thaws; nothing for a batch whose weight is not known."""
    try:
        return thaw_told(batch, bench.entries(batch.id))
    except ValueError:
        return None


def workings(bench: Bench, batch: Batch) -> Mapping[str, Working]:
    """The workings of this screen, by the last part of their address."""
    told, thaw = heat_of(bench, batch), thaw_of(bench, batch)
    found: dict[str, Working | None] = {
        "thaw": thaw.time.working if thaw else None,
        "safe": told.lethality.working,
        "home": told.consumer.working,
        "stall": told.stall.working if told.stall else None,
        "finish": told.finish.working if told.finish else None,
        "rest": told.rest.working if told.rest else None,
        "cooling": told.cooling_plain.working if told.cooling_plain else None,
        "cooling-cured": told.cooling_cured.working if told.cooling_cured else None,
        "out": told.out.working if told.out else None,
        **{one.key: one.working for one in told.nitrite},
    }
    return {key: working for key, working in found.items() if working is not None}


@ft.component
def TemperaturesScreen() -> ft.View:
    """The chart above, what it means below, the readings last."""
    bench = use_bench()
    batch = use_batch()
    every, set_every = ft.use_state(False)
    part, set_part = ft.use_state("cook")
    room_c, set_room = ft.use_state(heat_panels.MILD_C)
    if batch is None:
        return no_batch()
    entries = bench.entries(batch.id)
    told = heat_of(bench, batch, room_c)
    behind = clock_set_back(entries, bench.now())
    body: list[ft.Control] = [words.small(batch.name)]
    if behind:
        body.append(panels.notice(behind, "attention"))
    read = [
        (entry, spot, celsius)
        for entry in by_time(entries)
        for spot, celsius in temperatures_in(entry)
    ]
    drawn = charts(batch, entries)
    if len(drawn) > 1:
        body.append(fields.choice("Chart", list(CHARTS.items()), part, set_part))
    if drawn:
        body.append(chart_panel(bench, drawn.get(part) or next(iter(drawn.values()))))
    elif read:
        body.append(words.small("The chart begins with the second reading."))
    else:
        body.append(
            panels.empty(
                "No temperature yet.",
                "Log the core, the pit or the fridge: the chart and what it means grow here.",
            )
        )
    body += [
        *heat_panels.thawing(bench, batch, thaw_of(bench, batch)),
        *heat_panels.done(bench, batch, told),
        *heat_panels.safe(bench, batch, told),
        *heat_panels.after(bench, batch, told, room_c, set_room),
        panels.door(
            "How long it keeps",
            "fridge and freezer, with a label",
            lambda: bench.go(f"/journal/{batch.id}/store"),
            ft.Icons.KITCHEN_OUTLINED,
        ),
    ]
    if read:
        shown = read[::-1] if every else read[: -SHOWN_READINGS - 1 : -1]
        body.append(
            panels.panel(
                [
                    *(_reading(bench, batch, *one) for one in shown),
                    *(
                        [quiet_button(Act(f"All {len(read)} readings", lambda: set_every(True)))]
                        if len(shown) < len(read)
                        else []
                    ),
                ],
                title="Readings",
            )
        )
    return screen(
        "Temperatures",
        body,
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act(
            "Log a temperature",
            lambda: bench.go(f"/journal/{batch.id}/add/temperature"),
            icon=ft.Icons.DEVICE_THERMOSTAT,
        ),
    )


def _reading(bench: Bench, batch: Batch, entry: Entry, spot: Spot, celsius: float) -> ft.Control:
    note = say_wall(wall_of(entry.at), bench.wall())
    if isinstance(entry.body, Feel):
        note = f"{FEELS[entry.body.step].split(':')[0]} · {note}"
    return panels.figure(
        SPOTS[spot],
        degrees(celsius, bench.shown.kit),
        note=note,
        on_open=lambda: bench.go(f"/journal/{batch.id}/entry/{entry.id}"),
    )
