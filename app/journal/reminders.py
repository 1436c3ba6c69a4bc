"""The plan as a calendar file (RFC 5545), for the one clock that wakes a closed phone.

Times are written floating, without a zone (RFC 5545, 3.3.5, form 1): they stand by the clock
on the wall, as the plan does. Each step keeps its name (UID) and a number that grows with each
change (SEQUENCE), so that a second import brings up to date and does not double. What a file
once put in and is no longer planned is written as cancelled, without its alarm.
"""

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime, timedelta

from attrs import evolve, frozen
from icalendar import Alarm, Calendar, Event

from app.journal.chain import RUNNING, in_order
from app.journal.records import Batch, InCalendar, Moment, Step
from app.journal.wall import days_later, plus, read_wall, wall_of

PRODUCT = "-//Brinewright//Plan of a batch//EN"
LEAD_MIN = 15
"""Alarms ring so many minutes before a step, unless asked otherwise; our own choice."""

KEPT_DAYS = 30
"""So long past its time a step in the phone's calendar is still remembered; our own choice."""

_LONGEST_MIN = 60.0
_SHORTEST_MIN = 15.0


@frozen
class CalendarFile:
    """A file for the phone's calendar, and what the calendar holds once it was opened."""

    text: str
    written: tuple[InCalendar, ...]


def calendar_file(
    batches: Iterable[Batch],
    now: Moment,
    *,
    lead_min: int = LEAD_MIN,
    written: Sequence[InCalendar] = (),
    every: Iterable[Batch] = (),
) -> CalendarFile:
    """These batches' plans, and what has to go of all that earlier files put in.

    Parameters
    ----------
    batches : whose steps to write; demonstration batches are passed over
    now : this instant, the stamp of the file
    lead_min : alarms ring so many minutes before a step [min]
    written : what earlier files put into the calendar
    every : all batches in the journal; a step written of a batch not among them is taken out

    Returns
    -------
    The file, lines ended as the standard asks, and what to give as `written` next time

    Raises
    ------
    ValueError : `lead_min` is not from 0 to a week

    Notes
    -----
    A step left out, or open in a batch that is finished, is taken out if it was put in. One
    done keeps its place but rings no more. A stage that runs for days is written by its
    beginning alone. No METHOD: the file is opened by the cook, not sent by an organizer.

    References
    ----------
    RFC 5545, Internet Calendaring and Scheduling Core Object Specification (from memory).
    """
    check_lead(lead_min)
    chosen = tuple(batch for batch in batches if not batch.demonstration)
    writes = {batch.id for batch in chosen}
    there = {batch.id: batch for batch in (*every, *chosen) if not batch.demonstration}
    remembered_from = days_later(wall_of(now), -KEPT_DAYS)
    before = {one.uid: one for one in written}
    after: list[InCalendar] = []
    events: list[Event] = []
    for batch in there.values():
        for step in in_order(batch.plan):
            wanted = entry_of(batch, step, lead_min)
            was = before.pop(wanted.uid, None)
            if was is None and (wanted.gone or batch.id not in writes):
                continue
            if was is not None and not wanted.gone and batch.id not in writes:
                # Not asked for, so it stays in the calendar as it is.
                after += [was] if was.due >= remembered_from else []
                continue
            after.append(numbered(wanted, was))
            events.append(_event(after[-1], _shown_min(step), now, batch.changed))
    for was in before.values():
        if was.due >= remembered_from:
            after.append(numbered(evolve(was, gone=True, lead_min=None), was))
            events.append(_event(after[-1], _SHORTEST_MIN, now, now))
    return CalendarFile(_text(events), tuple(after))


def calendar_text(
    batches: Iterable[Batch], now: Moment, *, lead_min: int = LEAD_MIN, cancelled: bool = False
) -> str:
    """The plans of these batches as one iCalendar file, without regard to earlier files.

    As `calendar_file`; `cancelled` takes every step out again, for a batch given up

    Raises
    ------
    ValueError : `lead_min` is not from 0 to a week
    """
    check_lead(lead_min)
    events: list[Event] = []
    for batch in batches:
        for step in () if batch.demonstration else in_order(batch.plan):
            one = entry_of(batch, step, lead_min)
            if cancelled:
                one = evolve(one, gone=True, lead_min=None, sequence=one.sequence + 1)
            events.append(_event(one, _shown_min(step), now, batch.changed))
    return _text(events)


TRIAL_MIN = 5
"""A trial alarm rings after so many minutes; our own choice."""


def trial_file(now: Moment) -> str:
    """A calendar file with one alarm in a few minutes, to see whether the phone rings."""
    due = plus(wall_of(now), TRIAL_MIN)
    uid = f"trial-{int(now.utc_s)}@brinewright"
    one = InCalendar(uid, "", "This alarm works", due, 0, lead_min=0)
    return _text([_event(one, _SHORTEST_MIN, now, now)])


def check_lead(lead_min: int) -> None:
    """ValueError unless an alarm can ring so many minutes ahead."""
    if not 0 <= lead_min <= 7 * 1440:
        raise ValueError(f"An alarm from 0 min to a week ahead is possible; not {lead_min} min.")


def uid_of(batch: Batch, step: Step) -> str:
    """The name a step keeps in every export."""
    return f"{step.id}-{batch.id}@brinewright"


def sequence_of(batch: Batch) -> int:
    """A number that grows with each change of a batch: whole seconds since it was made."""
    return max(0, int(batch.changed.utc_s - batch.created.utc_s))


def entry_of(batch: Batch, step: Step, lead_min: int) -> InCalendar:
    """A step as the calendar should have it now."""
    gone = step.skipped or (batch.finished and step.done is None)
    rings = step.reminder and step.done is None and not gone
    return InCalendar(
        uid_of(batch, step),
        batch.id,
        f"{step.title}: {batch.name}",
        step.due,
        sequence_of(batch),
        lead_min if rings else None,
        gone,
    )


def numbered(wanted: InCalendar, was: InCalendar | None) -> InCalendar:
    """With a number above the last file's when anything changed, whatever the clock did."""
    if was is None:
        return wanted
    same = evolve(wanted, sequence=was.sequence) == was
    return evolve(wanted, sequence=max(wanted.sequence, was.sequence + (0 if same else 1)))


def _event(one: InCalendar, shown_min: float, now: Moment, changed: Moment) -> Event:
    event = Event()
    # A calendar that keeps what is cancelled shows at least that it is.
    title = f"Cancelled: {one.title}" if one.gone else one.title
    begin = read_wall(one.due)
    event.add("uid", one.uid)
    event.add("sequence", one.sequence)
    event.add("dtstamp", _utc(now))
    event.add("last-modified", _utc(changed))
    event.add("dtstart", begin)
    event.add("dtend", begin + timedelta(minutes=shown_min))
    event.add("summary", title)
    event.add("status", "CANCELLED" if one.gone else "CONFIRMED")
    event.add("transp", "TRANSPARENT")
    if one.lead_min is not None:
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", title)
        alarm.add("trigger", -timedelta(minutes=one.lead_min))
        event.add_component(alarm)
    return event


def _text(events: Iterable[Event]) -> str:
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    for event in events:
        calendar.add_component(event)
    written: bytes = calendar.to_ical()
    return written.decode("utf-8")


def _shown_min(step: Step) -> float:
    if step.stage in RUNNING:
        return _SHORTEST_MIN
    return min(_LONGEST_MIN, max(_SHORTEST_MIN, float(round(step.minutes))))


def _utc(moment: Moment) -> datetime:
    return datetime.fromtimestamp(int(moment.utc_s), UTC)
