"""Temperatures of a batch: the log as a chart, and what it says of safe, tender, hot and cold."""

from collections.abc import Mapping

import flet as ft

from app.cure.working import Working
from app.heat.cooling import HOT_C as BEGIN_C
from app.heat.cooling import MIDDLE_C, Cooling
from app.heat.lethality import TARGET_LOG
from app.journal.chain import active
from app.journal.entries import by_time, clock_set_back
from app.journal.heat_told import HeatTold, heat_told
from app.journal.records import Batch, Entry, Kit, Temperature
from app.journal.timeline import Mark as StageMark
from app.journal.timeline import Reading, chart
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.told import SPOTS, degrees, in_units
from app.widgets import panels, words
from app.widgets.frame import Act, quiet_button, screen
from app.widgets.temperature_chart import Mark, Series, temperature_chart

SHOWN_READINGS = 12


def heat_of(bench: Bench, batch: Batch) -> HeatTold:
    """What the log of a batch says, the cook's other batches beside it."""
    others = [one for one in bench.shown.batches if one.cut.casefold() == batch.cut.casefold()]
    records = {one.id: bench.entries(one.id) for one in others}
    return heat_told(batch, bench.entries(batch.id), bench.now(), others, records)


def workings(bench: Bench, batch: Batch) -> Mapping[str, Working]:
    """The workings of this screen, by the last part of their address."""
    told = heat_of(bench, batch)
    found: dict[str, Working | None] = {
        "safe": told.lethality.working,
        "home": told.consumer.working,
        "stall": told.stall.working if told.stall else None,
        "finish": told.finish.working if told.finish else None,
        "rest": told.rest.working if told.rest else None,
        "cooling": told.cooling_plain.working if told.cooling_plain else None,
        "cooling-cured": told.cooling_cured.working if told.cooling_cured else None,
        "out": told.out.working if told.out else None,
    }
    return {key: working for key, working in found.items() if working is not None}


@ft.component
def TemperaturesScreen() -> ft.View:
    """The chart above, what it means below, the readings last."""
    bench = use_bench()
    batch = use_batch()
    every, set_every = ft.use_state(False)
    if batch is None:
        return no_batch()
    entries = bench.entries(batch.id)
    told = heat_of(bench, batch)
    behind = clock_set_back(entries, bench.now())
    body: list[ft.Control] = [words.small(batch.name)]
    if behind:
        body.append(panels.notice(behind, "attention"))
    read = [entry for entry in by_time(entries) if isinstance(entry.body, Temperature)]
    body += _chart(bench, batch, entries)
    if not read:
        body.append(
            panels.empty(
                "No temperature yet.",
                "Log the core, the pit or the fridge: the chart and what it means grow here.",
            )
        )
    body += [*_done(bench, batch, told), *_safe(bench, batch, told), *_after(bench, batch, told)]
    if read:
        shown = read[::-1] if every else read[: -SHOWN_READINGS - 1 : -1]
        body.append(
            panels.panel(
                [
                    *(_reading(bench, batch, entry) for entry in shown),
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


def _shown_degrees(celsius: float, kit: Kit) -> float:
    return celsius if kit.system == "metric" else celsius * 1.8 + 32.0


def _chart(bench: Bench, batch: Batch, entries: tuple[Entry, ...]) -> list[ft.Control]:
    kit = bench.shown.kit
    since = next((s.done for s in active(batch.plan) if s.stage == "smoke" and s.done), None)
    readings, marks = chart(batch, entries, since)
    if len(readings) < 2:
        return []
    series = [
        Series(
            SPOTS[spot],
            tuple(
                (round(one.minutes), _shown_degrees(one.celsius, kit))
                for one in readings
                if one.spot == spot
            ),
        )
        for spot in dict.fromkeys(one.spot for one in readings)
    ]
    first = min(e.at.utc_s for e in entries if any(r.entry_id == e.id for r in readings))
    return [
        panels.panel(
            [
                temperature_chart(
                    series,
                    [Mark(round(mark.minutes), n) for n, mark in enumerate(marks, 1)],
                    bench.temperature_unit,
                    _spoken(readings, kit),
                ),
                *(
                    words.small(f"{n}  {mark.title}, {_mark_wall(bench, first, mark)}")
                    for n, mark in enumerate(marks, 1)
                ),
            ]
        )
    ]


def _mark_wall(bench: Bench, first_s: float, mark: StageMark) -> str:
    now = bench.now()
    at = type(now)(first_s + 60.0 * mark.minutes, now.offset_min)
    return say_wall(wall_of(at), bench.wall())


def _spoken(readings: tuple[Reading, ...], kit: Kit) -> str:
    parts = []
    for spot in dict.fromkeys(one.spot for one in readings):
        of_spot = [one for one in readings if one.spot == spot]
        parts.append(
            f"{SPOTS[spot]} from {degrees(of_spot[0].celsius, kit)} "
            f"to {degrees(of_spot[-1].celsius, kit)}"
        )
    hours = readings[-1].minutes / 60.0
    return f"Chart of temperatures over {hours:.1f} hours. " + "; ".join(parts) + "."


def _told(bench: Bench, batch: Batch, key: str, name: str, says: str) -> ft.Control:
    says = in_units(says, bench.shown.kit)
    return panels.pressable_plain(
        ft.Column([words.small(name), words.body(says)], spacing=2),
        lambda: bench.go(f"/journal/{batch.id}/heat/how/{key}"),
        label=f"{name}: {says} How it was worked out",
    )


def _done(bench: Bench, batch: Batch, told: HeatTold) -> list[ft.Control]:
    rows: list[ft.Control] = []
    if told.finish is not None:
        rows.append(_told(bench, batch, "finish", "By your own batches", told.finish.says))
    if told.stall is not None:
        rows.append(_told(bench, batch, "stall", "The stall", told.stall.says))
    if not rows:
        return []
    return [panels.panel([words.body(told.by_feel, bold=True), *rows], title="When is it done?")]


def _safe(bench: Bench, batch: Batch, told: HeatTold) -> list[ft.Control]:
    if told.log is None:
        return []
    says = told.lethality.says
    if told.lethality.reached_min is not None:
        at = say_wall(wall_of(told.moment_of(told.lethality.reached_min)), bench.wall())
        says = f"Reached {at}. {says}"
    home = told.consumer.says
    if told.consumer.met_min is not None:
        at = say_wall(wall_of(told.moment_of(told.consumer.met_min)), bench.wall())
        home = f"Met {at}. {home}"
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


def _log(reduction: float) -> str:
    return f"{TARGET_LOG:g} log or more" if reduction >= TARGET_LOG else f"{reduction:.1f} log"


def _after(bench: Bench, batch: Batch, told: HeatTold) -> list[ft.Control]:
    rows: list[ft.Control] = []
    if told.rest is not None:
        rows.append(_told(bench, batch, "rest", "Resting hot", told.rest.says))
    if told.out is not None:
        rows.append(_told(bench, batch, "out", "Two hours out of the cold", told.out.says))
    out: list[ft.Control] = [panels.panel(rows, title="After the fire")] if rows else []
    if told.cooling_plain is not None and told.cooling_cured is not None:
        out.append(
            panels.panel(
                [
                    words.body(in_units(told.applies, bench.shown.kit), bold=True),
                    *_cooling(bench, batch, "cooling", "Plain limit", told.cooling_plain),
                    *_cooling(bench, batch, "cooling-cured", "Cured limit", told.cooling_cured),
                ],
                title="Cooling clocks",
            )
        )
    return out


def _cooling(bench: Bench, batch: Batch, key: str, name: str, cooling: Cooling) -> list[ft.Control]:
    kit = bench.shown.kit
    from_c, middle_c, end_c = BEGIN_C, MIDDLE_C, cooling.limit.end_c
    return [
        _told(bench, batch, key, name, cooling.says),
        words.small(
            f"{degrees(from_c, kit)} to {degrees(middle_c, kit)}, at most "
            f"{cooling.limit.first_minutes / 60:g} h: {in_units(cooling.first.says, kit)}"
        ),
        words.small(
            f"{degrees(middle_c, kit)} to {degrees(end_c, kit)}, at most "
            f"{cooling.limit.second_minutes / 60:g} h: {in_units(cooling.second.says, kit)}"
        ),
    ]


def _reading(bench: Bench, batch: Batch, entry: Entry) -> ft.Control:
    assert isinstance(entry.body, Temperature)
    return panels.figure(
        SPOTS[entry.body.spot],
        degrees(entry.body.celsius, bench.shown.kit),
        note=say_wall(wall_of(entry.at), bench.wall()),
        on_open=lambda: bench.go(f"/journal/{batch.id}/entry/{entry.id}"),
    )
