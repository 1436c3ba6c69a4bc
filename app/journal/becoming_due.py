"""What became due between two looks at the clock, for a notice; and the number on the icon."""

from collections.abc import Iterable

from app.journal.due import Due, due_list
from app.journal.records import Batch
from app.journal.wall import minutes_between

LONGEST_LOOK_MIN = 12 * 60.0
"""After a longer sleep of the program, Now says what is late; a row of notices would not help."""


def became_due(batches: Iterable[Batch], since: str, now: str, zone: str = "") -> tuple[Due, ...]:
    """Steps whose time came after `since` and not after `now`, their reminder on.

    Empty when the clock was set back, or stood still.

    Examples
    --------
    >>> became_due([], "2027-03-06T18:00", "2027-03-06T18:01")
    ()
    """
    if not since or not 0 < minutes_between(since, now, zone) <= LONGEST_LOOK_MIN:
        return ()
    return tuple(
        one
        for one in due_list(batches, now, zone)
        if one.step.reminder
        and minutes_between(since, one.step.due, zone) > 0
        and minutes_between(one.step.due, now, zone) >= 0
    )


def pressing(batches: Iterable[Batch], now: str, zone: str = "") -> int:
    """How many steps are due or overdue, with their reminder on."""
    waits = due_list(batches, now, zone)
    return sum(1 for one in waits if one.when in ("due", "overdue") and one.step.reminder)
