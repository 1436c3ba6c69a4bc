"""The temperatures of a batch as a chart: the cook from the smoke on, or the cold days before."""

import flet as ft

from app.journal.chain import active
from app.journal.records import Batch, Entry, Kit, Moment
from app.journal.timeline import Mark as StageMark
from app.journal.timeline import Reading, chart
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench
from app.screens.journal.told import SPOTS, degrees
from app.widgets import panels, words
from app.widgets.temperature_chart import Mark, Series, TemperatureChart

Drawn = tuple[Moment, tuple[Reading, ...], tuple[StageMark, ...]]


def charts(batch: Batch, entries: tuple[Entry, ...]) -> dict[str, Drawn]:
    """What can be drawn: "cook" and "cold", each with two readings at least."""
    smoke = next((s.done for s in active(batch.plan) if s.stage == "smoke" and s.done), None)
    parts = {"cook": (smoke, None), "cold": (None, smoke)} if smoke else {"cook": (None, None)}
    found: dict[str, Drawn] = {}
    for key, (since, until) in parts.items():
        readings, marks = chart(batch, entries, since, until)
        if len({one.minutes for one in readings}) > 1:
            at = next(entry.at for entry in entries if entry.id == readings[0].entry_id)
            start = Moment(at.utc_s - 60.0 * readings[0].minutes, at.offset_min)
            found[key] = (start, readings, marks)
    return found


def chart_panel(bench: Bench, drawn: Drawn) -> ft.Control:
    """The chart, with the stages listed under it by their numbers."""
    start, readings, marks = drawn
    kit = bench.shown.kit
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
    stages = [
        f"{number}  {mark.title}, {_mark_wall(bench, start, mark)}"
        for number, mark in enumerate(marks, 1)
    ]
    return panels.panel(
        [
            TemperatureChart(
                series,
                [Mark(round(mark.minutes), number) for number, mark in enumerate(marks, 1)],
                bench.temperature_unit,
                spoken(readings, marks, kit),
            ),
            *(words.small(stage) for stage in stages),
        ]
    )


def _shown_degrees(celsius: float, kit: Kit) -> float:
    return celsius if kit.system == "metric" else celsius * 1.8 + 32.0


def _mark_wall(bench: Bench, start: Moment, mark: StageMark) -> str:
    at = Moment(start.utc_s + 60.0 * mark.minutes, start.offset_min)
    return say_wall(wall_of(at), bench.wall())


def spoken(readings: tuple[Reading, ...], marks: tuple[StageMark, ...], kit: Kit) -> str:
    """What the chart shows, for who listens to it."""
    parts = []
    for spot in dict.fromkeys(one.spot for one in readings):
        of_spot = [one.celsius for one in readings if one.spot == spot]
        parts.append(
            f"{SPOTS[spot]} from {degrees(of_spot[0], kit)} to {degrees(of_spot[-1], kit)}, "
            f"highest {degrees(max(of_spot), kit)}"
        )
    begun = [f"{mark.title} after {mark.minutes / 60.0:.1f} hours" for mark in marks]
    hours = readings[-1].minutes / 60.0
    said = f"Chart of temperatures over {hours:.1f} hours. {'; '.join(parts)}."
    return said + (f" Stages: {'; '.join(begun)}." if begun else "")
