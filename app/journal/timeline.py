"""A batch's page as one line through time: what was planned and what happened."""

from collections.abc import Iterable
from typing import Literal

from attrs import frozen

from app.journal.chain import STAGES, in_order
from app.journal.entries import by_time
from app.journal.records import (
    Batch,
    Decision,
    Entry,
    Feel,
    Moment,
    Spot,
    Stage,
    Step,
    Temperature,
)
from app.journal.wall import minutes_between, say_minutes, wall_at, wall_of

RowKind = Literal["step_done", "step_due", "step_left_out", "entry", "tasted"]


@frozen
class Row:
    """One row of the timeline.

    wall : when, by the clock on the wall
    late_min : for a step done, minutes after its time; negative for early
    words : planned against actual, in plain words; empty when there is nothing to say
    """

    kind: RowKind
    wall: str
    stage: Stage
    step: Step | None = None
    entry: Entry | None = None
    late_min: float | None = None
    words: str = ""


def timeline(batch: Batch, entries: Iterable[Entry], zone: str = "") -> tuple[Row, ...]:
    """Steps, entries and the tasting in the order of time."""
    rows = [_step_row(step, zone) for step in in_order(batch.plan)]
    rows += [
        Row("entry", wall_of(entry.at), entry.stage, entry=entry)
        for entry in entries
        if entry.batch_id == batch.id
    ]
    if batch.outcome is not None:
        rows.append(Row("tasted", wall_of(batch.outcome.at), "slice"))
    return tuple(sorted(rows, key=_place))


def _place(row: Row) -> tuple[str, int, float, str]:
    # Of one minute: what was done, what was written of it, what is still to do.
    rank = {"step_done": 0, "entry": 1, "tasted": 1}.get(row.kind, 2)
    written = row.entry.at.utc_s if row.entry else 0.0
    name = row.entry.id if row.entry else row.step.id if row.step else ""
    return (row.wall, rank, written + STAGES.index(row.stage), name)


def _step_row(step: Step, zone: str) -> Row:
    if step.skipped:
        return Row("step_left_out", step.due, step.stage, step, words="left out")
    if step.done is None:
        return Row("step_due", step.due, step.stage, step)
    wall = wall_of(step.done)
    late = minutes_between(step.due, wall, zone)
    if abs(late) < 5:
        words = "as planned"
    else:
        words = f"{say_minutes(late)} {'later' if late > 0 else 'earlier'} than planned"
    return Row("step_done", wall, step.stage, step, late_min=late, words=words)


@frozen
class Reading:
    """One point of the temperature chart, minutes counted from its beginning."""

    minutes: float
    celsius: float
    spot: Spot
    entry_id: str


@frozen
class Mark:
    """Where a stage begins on the temperature chart."""

    minutes: float
    stage: Stage
    title: str


MARKS_AFTER_S = 3 * 3600.0
"""So long after the last reading a stage is still marked on the chart; our own choice."""


def temperatures_in(entry: Entry) -> tuple[tuple[Spot, float], ...]:
    """Every temperature a line of the record holds, with where it was taken.

    A check of feel and a decision hold readings too; of a decision the core counts as the middle.
    """
    match entry.body:
        case Temperature(celsius=celsius, spot=spot):
            return ((spot, celsius),)
        case Feel(celsius=float(celsius), spot=spot):
            return ((spot, celsius),)
        case Decision(pit_c=pit_c, core_c=core_c):
            both: tuple[tuple[Spot, float | None], ...] = (("pit", pit_c), ("middle", core_c))
            return tuple((spot, read) for spot, read in both if read is not None)
        case _:
            return ()


def chart(
    batch: Batch,
    entries: Iterable[Entry],
    since: Moment | None = None,
    until: Moment | None = None,
) -> tuple[tuple[Reading, ...], tuple[Mark, ...]]:
    """Temperatures in the order of time, and the stages begun while they were taken.

    Minutes are real ones, counted from `since`, else from the first reading. Readings at `until`
    and later are left out. Stages begun soon after the last reading are marked too.
    """
    taken = [
        entry
        for entry in by_time(entries)
        if entry.batch_id == batch.id
        and temperatures_in(entry)
        and (since is None or entry.at.utc_s >= since.utc_s)
        and (until is None or entry.at.utc_s < until.utc_s)
    ]
    if not taken:
        return (), ()
    first = taken[0].at.utc_s if since is None else since.utc_s
    last = taken[-1].at.utc_s + MARKS_AFTER_S
    if until is not None:
        last = min(last, until.utc_s)
    readings = tuple(
        Reading((entry.at.utc_s - first) / 60.0, celsius, spot, entry.id)
        for entry in taken
        for spot, celsius in temperatures_in(entry)
    )
    begun = [
        (step.done.utc_s, step)
        for step in in_order(batch.plan)
        if step.done is not None and first <= step.done.utc_s <= last
    ]
    marks = tuple(
        Mark((at - first) / 60.0, step.stage, step.title)
        for at, step in sorted(begun, key=lambda one: one[0])
    )
    return readings, marks


def wall_now(now: Moment, zone: str = "") -> str:
    """The wall clock at a moment: by the zone if it is known, else by the kept offset."""
    return wall_at(now.utc_s, zone) if zone else wall_of(now)
