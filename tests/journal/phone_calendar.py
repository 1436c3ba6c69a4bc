"""A phone's calendar by RFC 5545, that opens files with two readers of other people."""

from datetime import datetime
from typing import Any

import vobject
from icalendar import Calendar


class PhoneCalendar:
    """A higher SEQUENCE of a UID replaces what was there; CANCELLED takes it out."""

    def __init__(self) -> None:
        self.sequences: dict[str, int] = {}
        self.events: dict[str, tuple[datetime, str, bool]] = {}

    def opens(self, text: str) -> None:
        """Open a file; both readers have to agree on it."""
        for event in Calendar.from_ical(text).walk("VEVENT"):
            uid, sequence = str(event["UID"]), int(event["SEQUENCE"])
            if sequence <= self.sequences.get(uid, -1):
                continue
            self.sequences[uid] = sequence
            self.events.pop(uid, None)
            if event["STATUS"] != "CANCELLED":
                rings = bool(event.walk("VALARM"))
                self.events[uid] = (event.decoded("DTSTART"), str(event["SUMMARY"]), rings)
        assert by_vobject(text) == by_icalendar(text)


def by_vobject(text: str) -> list[tuple[Any, ...]]:
    """What vobject reads of each event."""
    read = vobject.readOne(text)
    return [
        (
            one.uid.value,
            int(one.sequence.value),
            one.status.value,
            one.dtstart.value,
            one.dtend.value,
            one.summary.value,
            one.valarm.trigger.value if hasattr(one, "valarm") else None,
        )
        for one in getattr(read, "vevent_list", [])
    ]


def by_icalendar(text: str) -> list[tuple[Any, ...]]:
    """What icalendar reads of each event."""
    return [
        (
            str(one["UID"]),
            int(one["SEQUENCE"]),
            str(one["STATUS"]),
            one.decoded("DTSTART"),
            one.decoded("DTEND"),
            str(one["SUMMARY"]),
            next((alarm.decoded("TRIGGER") for alarm in one.walk("VALARM")), None),
        )
        for one in Calendar.from_ical(text).walk("VEVENT")
    ]
