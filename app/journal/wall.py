"""Wall-clock times: what people agree on, and the real hours between two of them.

A wall-clock time is text without a zone, "2027-03-06T18:00". Lengths are real minutes. The
two meet only here, and only here a zone's name ("Europe/Berlin") is looked up; an empty name
counts plainly, as if no clock ever changed.
"""

from datetime import UTC, datetime, timedelta
from math import isfinite
from zoneinfo import ZoneInfo

from app.journal.records import Moment

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)


def read_wall(text: str) -> datetime:
    """The wall-clock time a text names; ValueError with a sentence when it names none."""
    try:
        when = datetime.fromisoformat(text)
    except (ValueError, TypeError):
        raise ValueError(
            f"A date and time like 2027-03-06T18:00 was expected; {text!r} was given."
        ) from None
    if when.tzinfo is not None:
        raise ValueError(f"A time without a zone was expected; {text!r} was given.")
    return when.replace(second=0, microsecond=0)


def write_wall(when: datetime) -> str:
    """A wall-clock time as it is kept, to the minute."""
    return when.replace(tzinfo=None, second=0, microsecond=0).isoformat(timespec="minutes")


def zone_named(zone: str) -> ZoneInfo | None:
    """The zone of that name, None for the empty name; ValueError when there is none."""
    if not zone:
        return None
    try:
        return ZoneInfo(zone)
    except (KeyError, ValueError, OSError):
        raise ValueError(
            f"A time zone like Europe/Berlin was expected; {zone!r} was given."
        ) from None


def instant_s(wall: str, zone: str = "") -> float:
    """Seconds since 1970 UTC at which the clock on the wall shows `wall`.

    A time the clock shows twice in autumn is its first showing; a time it leaves out in
    spring is counted on from before the gap, so 02:30 falls where the clock shows 03:30.
    """
    when = read_wall(wall).replace(tzinfo=zone_named(zone) or UTC)
    return (when.astimezone(UTC) - _EPOCH).total_seconds()


def wall_at(utc_s: float, zone: str = "") -> str:
    """What the clock on the wall shows at an instant, to the minute, rounded to the nearest."""
    if not isfinite(utc_s):
        raise ValueError(f"An instant in seconds was expected; {utc_s} was given.")
    try:
        when = _EPOCH + timedelta(seconds=60.0 * round(utc_s / 60.0))
        return write_wall(when.astimezone(zone_named(zone) or UTC))
    except OverflowError:
        raise ValueError(f"{utc_s:g} s lies beyond any calendar.") from None


def wall_of(moment: Moment) -> str:
    """What the clock on the wall showed at a recorded moment, by the offset kept beside it."""
    return wall_at(moment.utc_s + 60.0 * moment.offset_min)


def plus(wall: str, minutes: float, zone: str = "") -> str:
    """The wall-clock time so many real minutes later.

    Examples
    --------
    >>> plus("2027-03-27T18:00", 24 * 60, "Europe/Berlin")  # the clock goes forward that night
    '2027-03-28T19:00'
    >>> plus("2027-03-27T18:00", 24 * 60)
    '2027-03-28T18:00'
    """
    return wall_at(instant_s(wall, zone) + 60.0 * minutes, zone)


def minutes_between(earlier: str, later: str, zone: str = "") -> float:
    """Real minutes from one wall-clock time to another."""
    return (instant_s(later, zone) - instant_s(earlier, zone)) / 60.0


def next_quarter(wall: str) -> str:
    """The time itself or the next full quarter of an hour, as people agree on times."""
    when = read_wall(wall)
    return write_wall(when + timedelta(minutes=-when.minute % 15))


def days_later(wall: str, days: int) -> str:
    """The same time by the clock, so many days on."""
    return write_wall(read_wall(wall) + timedelta(days=days))


def say_wall(wall: str, now: str) -> str:
    """A time in plain words, as near to now as it is: "today 18:00", "Saturday 18:00".

    A weekday alone is said only within six days ahead, so that it names one day only.

    Examples
    --------
    >>> say_wall("2027-03-06T18:00", now="2027-03-03T09:00")
    'Saturday 18:00'
    >>> say_wall("2027-03-16T18:00", now="2027-03-03T09:00")
    'Tuesday 16 March 18:00'
    """
    when, today = read_wall(wall), read_wall(now)
    days = (when.date() - today.date()).days
    clock = f"{when:%H:%M}"
    near = {-1: "yesterday", 0: "today", 1: "tomorrow"}
    if days in near:
        return f"{near[days]} {clock}"
    weekday = _DAYS[when.weekday()]
    if 1 < days < 7:
        return f"{weekday} {clock}"
    year = "" if when.year == today.year else f" {when.year}"
    return f"{weekday} {when.day} {_MONTHS[when.month - 1]}{year} {clock}"


def say_minutes(minutes: float) -> str:
    """A length in plain words, to the precision that matters: "40 min", "2 h", "3 days".

    Examples
    --------
    >>> [say_minutes(m) for m in (0, 40, 90, 120, 26 * 60, 7 * 1440)]
    ['0 min', '40 min', '1 h 30 min', '2 h', '26 h', '7 days']
    """
    whole = round(abs(minutes))
    if whole < 60:
        return f"{whole} min"
    if whole < 600:
        hours, rest = divmod(whole, 60)
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    hours = round(whole / 60)
    if hours < 48:
        return f"{hours} h"
    days = round(2 * hours / 24) / 2
    return f"{days:g} days"
