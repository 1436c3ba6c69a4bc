"""The plan as a calendar file (RFC 5545), for the one clock that wakes a closed phone.

Times are written floating, without a zone (RFC 5545, 3.3.5, form 1): they stand by the clock
on the wall, as the plan does. Each step keeps its name (UID) and a number that grows with each
change (SEQUENCE), so that a second import brings up to date and does not double.
"""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

from icalendar import Alarm, Calendar, Event

from app.journal.chain import RUNNING, in_order
from app.journal.records import Batch, Moment, Step
from app.journal.wall import read_wall

PRODUCT = "-//Brinewright//Plan of a batch//EN"
LEAD_MIN = 15
"""Alarms ring so many minutes before a step, unless asked otherwise; our own choice."""

_LONGEST_MIN = 60.0
_SHORTEST_MIN = 15.0


def calendar_text(
    batches: Iterable[Batch], now: Moment, *, lead_min: int = LEAD_MIN, cancelled: bool = False
) -> str:
    """The plans of these batches as one iCalendar file, lines ended as the standard asks.

    Parameters
    ----------
    batches : whose steps to write; demonstration batches are passed over
    now : this instant, the stamp of the file
    lead_min : alarms ring so many minutes before a step [min]
    cancelled : take every step out of the calendar again, for a batch given up

    Raises
    ------
    ValueError : `lead_min` is not from 0 to a week

    Notes
    -----
    A step left out is written as cancelled, one done keeps its place but rings no more. A
    stage that runs for days is written by its beginning alone.

    References
    ----------
    RFC 5545, Internet Calendaring and Scheduling Core Object Specification (from memory).
    """
    if not 0 <= lead_min <= 7 * 1440:
        raise ValueError(f"An alarm from 0 min to a week ahead is possible; not {lead_min} min.")
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    for batch in batches:
        if batch.demonstration:
            continue
        for step in in_order(batch.plan):
            calendar.add_component(_event(batch, step, now, lead_min, cancelled))
    written: bytes = calendar.to_ical()
    return written.decode("utf-8")


def uid_of(batch: Batch, step: Step) -> str:
    """The name a step keeps in every export."""
    return f"{step.id}-{batch.id}@brinewright"


def sequence_of(batch: Batch) -> int:
    """A number that grows with each change of a batch: whole seconds since it was made."""
    return max(0, int(batch.changed.utc_s - batch.created.utc_s))


def _event(batch: Batch, step: Step, now: Moment, lead_min: int, cancelled: bool) -> Event:
    event = Event()
    gone = cancelled or step.skipped
    title = f"{step.title}: {batch.name}"
    begin = read_wall(step.due)
    event.add("uid", uid_of(batch, step))
    event.add("sequence", sequence_of(batch) + (1 if cancelled else 0))
    event.add("dtstamp", _utc(now))
    event.add("last-modified", _utc(batch.changed))
    event.add("dtstart", begin)
    event.add("dtend", begin + timedelta(minutes=_shown_min(step)))
    event.add("summary", title)
    event.add("status", "CANCELLED" if gone else "CONFIRMED")
    event.add("transp", "TRANSPARENT")
    if step.reminder and step.done is None and not gone:
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", title)
        alarm.add("trigger", -timedelta(minutes=lead_min))
        event.add_component(alarm)
    return event


def _shown_min(step: Step) -> float:
    if step.stage in RUNNING:
        return _SHORTEST_MIN
    return min(_LONGEST_MIN, max(_SHORTEST_MIN, float(round(step.minutes))))


def _utc(moment: Moment) -> datetime:
    return datetime.fromtimestamp(int(moment.utc_s), UTC)
