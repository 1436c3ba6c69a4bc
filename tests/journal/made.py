"""Batches made for the tests of the journal, and how their times are written."""

from collections.abc import Callable
from datetime import datetime
from itertools import count
from typing import Any
from zoneinfo import ZoneInfo

from app.cure.request import MixRequest
from app.journal.lengths import Length
from app.journal.plan import new_batch
from app.journal.records import Batch, Moment, Stage, Step

BERLIN = "Europe/Berlin"


def names(prefix: str = "s") -> Callable[[], str]:
    numbers = count(1)
    return lambda: f"{prefix}{next(numbers)}"


def moment(wall: str, zone: str = BERLIN) -> Moment:
    """The instant a wall clock in a zone shows a time, told by the standard library alone."""
    when = datetime.fromisoformat(wall).replace(tzinfo=ZoneInfo(zone))
    offset = when.utcoffset()
    assert offset is not None
    return Moment(when.timestamp(), int(offset.total_seconds() // 60))


NOW = moment("2027-02-20T09:00")


def batch(name: str = "Flat for Easter", cut: str = "Brisket flat", **given: Any) -> Batch:
    given = {"ids": names(), "zone": BERLIN, "start": "2027-02-20T09:00", **given}
    usual: dict[Stage, Length] = {"cure": Length(7 * 1440.0), "chill": Length(12 * 60.0)}
    given["own_lengths"] = usual | given.get("own_lengths", {})
    mix = given.pop("mix", MixRequest(3000.0))
    return new_batch(mix, cut, name, given.pop("now", NOW), **given)


def step(of: Batch, stage: Stage) -> Step:
    return next(one for one in of.plan if one.stage == stage)


def due(of: Batch, stage: Stage) -> str:
    return step(of, stage).due
