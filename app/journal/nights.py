"""Keeping a plan's handling out of the night, where nothing is lost by it."""

from collections.abc import Mapping
from datetime import timedelta

from app.journal.records import Stage
from app.journal.wall import instant_s, read_wall, wall_at, write_wall

BY_DAY: Mapping[Stage, tuple[int, int]] = {
    "trim": (7, 21),
    "cure": (6, 23),
    "end": (7, 21),
    "rub": (6, 10),
}
"""Handling that can wait for the morning, and the hours of the clock it is planned to begin in.

What is before it loses nothing by waiting; the rub begins the smoker's long day. Our own choice.
"""


def by_day(stage: Stage, earliest_s: float, zone: str = "") -> float:
    """The instant itself, or the next morning when this handling would fall in the night."""
    when = read_wall(wall_at(earliest_s, zone))
    from_h, to_h = BY_DAY.get(stage, (0, 24))
    if from_h <= when.hour < to_h:
        return earliest_s
    morning = when.replace(hour=from_h, minute=0)
    morning += timedelta(days=1 if when.hour >= to_h else 0)
    return instant_s(write_wall(morning), zone)


BY_EVENING: Mapping[Stage, tuple[int, int]] = {
    "buy": (8, 21),
    "thaw": (7, 22),
    "trim": (7, 21),
    "mix": (7, 22),
    "end": (7, 21),
    "rub": (5, 22),
}
"""Handling that is rather done the evening before than in the night; our own choice."""


def by_evening(stage: Stage, latest_s: float, zone: str = "") -> float:
    """The instant itself, or the evening before when this handling would fall in the night."""
    when = read_wall(wall_at(latest_s, zone))
    from_h, to_h = BY_EVENING.get(stage, (0, 24))
    if from_h <= when.hour < to_h:
        return latest_s
    evening = when.replace(hour=to_h - 1, minute=0)
    evening -= timedelta(days=1 if when.hour < from_h else 0)
    return instant_s(write_wall(evening), zone)


TURN_HOURS = (7, 21)
"""The meat is turned in waking hours; our own choice."""


def waking(wall: str) -> str:
    """A turning's time by the clock, drawn into waking hours of the same day.

    Examples
    --------
    >>> waking("2027-03-06T23:30"), waking("2027-03-06T02:15"), waking("2027-03-06T18:45")
    ('2027-03-06T21:00', '2027-03-06T07:00', '2027-03-06T18:45')
    """
    when = read_wall(wall)
    from_h, to_h = TURN_HOURS
    first, last = (when.replace(hour=hour, minute=0) for hour in (from_h, to_h))
    return write_wall(min(last, max(first, when)))
