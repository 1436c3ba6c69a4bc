"""What is overdue, due and next, across all batches, by the clock on the wall."""

from collections.abc import Iterable
from typing import Literal

from attrs import frozen

from app.journal.chain import RUNNING, STAGES, active, begins_s, waits_for
from app.journal.records import Batch, Stage, Step
from app.journal.wall import (
    instant_s,
    minutes_between,
    read_wall,
    say_minutes,
    say_wall,
    wall_at,
    write_wall,
)

When = Literal["overdue", "due", "next", "later"]

GRACE_MIN = 15.0
"""So many minutes past its time a step is still due, not late; our own choice."""

SOON_MIN = 60.0
"""So many minutes before its time a step counts as due; our own choice."""


@frozen
class Due:
    """A step that waits to be done, and how it stands by the clock.

    `late_min` is negative while there is still time. `words` say it: "2 h late".
    """

    batch_id: str
    batch_name: str
    step: Step
    when: When
    late_min: float
    words: str


@frozen
class UnderWay:
    """A stage that is running by itself, since when and until when (wall clock)."""

    batch_id: str
    batch_name: str
    step: Step
    since: str
    until: str
    part: float
    words: str


def due_words(due: str, now: str, zone: str = "") -> str:
    """How a time stands to now, in plain words.

    Examples
    --------
    >>> due_words("2027-03-06T18:00", "2027-03-06T20:00")
    '2 h late'
    >>> due_words("2027-03-06T18:00", "2027-03-06T17:20")
    'in 40 min'
    >>> due_words("2027-03-06T18:00", "2027-03-03T09:00")
    'Saturday 18:00'
    """
    late = minutes_between(now, due, zone) * -1.0
    if abs(late) < 1:
        return "now"
    if late > 0:
        return f"{say_minutes(late)} late"
    return f"in {say_minutes(-late)}" if late > -180 else say_wall(due, now)


def waiting(batch: Batch) -> tuple[Step, ...]:
    """The steps of a batch still to be done, soonest first.

    A turning missed before the meat came out of the cure is past doing, and passed over.
    """
    if batch.finished:
        return ()
    steps = active(batch.plan)
    out = any(step.done is not None and _after_cure(step.stage) for step in steps)
    return tuple(
        sorted(
            (s for s in steps if s.done is None and not (out and s.stage == "turn")),
            key=lambda step: step.due,
        )
    )


def _after_cure(stage: Stage) -> bool:
    return STAGES.index(stage) > STAGES.index("turn")


def due_list(batches: Iterable[Batch], now: str, zone: str = "") -> tuple[Due, ...]:
    """Every step still to be done, soonest first.

    Of what lies further ahead than an hour, the first of each batch is "next".
    """
    now = write_wall(read_wall(now))
    found: list[Due] = []
    for batch in batches:
        next_said = False
        for step in waiting(batch):
            late = minutes_between(step.due, now, zone)
            when: When
            if late > GRACE_MIN:
                when = "overdue"
            elif late >= -SOON_MIN:
                when = "due"
            else:
                when, next_said = ("later" if next_said else "next"), True
            words = due_words(step.due, now, zone)
            found.append(Due(batch.id, batch.name, step, when, late, words))
    return tuple(sorted(found, key=_order))


def _order(one: Due) -> tuple[str, str, str, int]:
    """By time; what is due at once by batch, and there in the order it is done."""
    return one.step.due, one.batch_name, one.batch_id, STAGES.index(one.step.stage)


def under_way(batches: Iterable[Batch], now: str, zone: str = "") -> tuple[UnderWay, ...]:
    """Stages begun and not yet followed by what comes after them, the first to end first."""
    now_s = instant_s(now, zone)
    found: list[UnderWay] = []
    for batch in batches:
        if batch.finished:
            continue
        steps = active(batch.plan)
        present = frozenset(step.stage for step in steps)
        begun: set[Stage] = {step.stage for step in steps if step.done and step.stage != "turn"}
        for step in steps:
            if step.done is None or step.stage not in RUNNING:
                continue
            if any(step.stage in waits_for(later, present) for later in begun):
                continue
            since_s = begins_s(step, zone)
            until_s = since_s + 60.0 * step.minutes
            part = (now_s - since_s) / (until_s - since_s) if until_s > since_s else 1.0
            until = wall_at(until_s, zone)
            found.append(
                UnderWay(
                    batch.id,
                    batch.name,
                    step,
                    wall_at(since_s, zone),
                    until,
                    min(1.0, max(0.0, part)),
                    _so_far(step, (now_s - since_s) / 60.0, until, write_wall(read_wall(now))),
                )
            )
    return tuple(sorted(found, key=lambda one: (one.until, one.batch_name)))


def _so_far(step: Step, gone_min: float, until: str, now: str) -> str:
    """ "day 3 of 7, until Saturday 18:00"; by hours when it is a matter of hours."""
    if gone_min < 0:
        return f"until {say_wall(until, now)}"
    if step.minutes >= 2880:
        day = int(gone_min // 1440) + 1
        days = round(step.minutes / 1440, 1)
        if day <= days:
            return f"day {day} of {days:g}, until {say_wall(until, now)}"
    if gone_min <= step.minutes:
        return f"{say_minutes(gone_min)} so far, until {say_wall(until, now)}"
    return f"{say_minutes(gone_min)} so far, {say_minutes(gone_min - step.minutes)} over"
