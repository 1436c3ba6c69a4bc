"""A batch's page as one line through time: what was planned and what happened."""

from collections.abc import Iterable
from typing import Literal

from attrs import frozen

from app.journal.chain import STAGES, in_order
from app.journal.records import Batch, Entry, Moment, Spot, Stage, Step, Temperature
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
    """One point of the temperature chart, minutes counted from its first point."""

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


def chart(
    batch: Batch, entries: Iterable[Entry], since: Moment | None = None
) -> tuple[tuple[Reading, ...], tuple[Mark, ...]]:
    """Temperatures in the order of time, and the stages begun while they were taken.

    Minutes are real ones, counted from the first reading at or after `since`.
    """
    taken = sorted(
        (
            entry
            for entry in entries
            if isinstance(entry.body, Temperature)
            and entry.batch_id == batch.id
            and (since is None or entry.at.utc_s >= since.utc_s)
        ),
        key=lambda entry: (entry.at.utc_s, entry.id),
    )
    if not taken:
        return (), ()
    first, last = taken[0].at.utc_s, taken[-1].at.utc_s
    readings = tuple(
        Reading((entry.at.utc_s - first) / 60.0, entry.body.celsius, entry.body.spot, entry.id)
        for entry in taken
        if isinstance(entry.body, Temperature)
    )
    marks = tuple(
        Mark((step.done.utc_s - first) / 60.0, step.stage, step.title)
        for step in in_order(batch.plan)
        if step.done is not None and first <= step.done.utc_s <= last
    )
    return readings, marks


def wall_now(now: Moment, zone: str = "") -> str:
    """The wall clock at a moment: by the zone if it is known, else by the kept offset."""
    return wall_at(now.utc_s, zone) if zone else wall_of(now)
