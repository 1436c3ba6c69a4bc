"""Wall-clock times and real hours, around the nights the clock changes."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.journal.records import Moment
from app.journal.wall import (
    days_later,
    instant_s,
    minutes_between,
    next_quarter,
    plus,
    read_wall,
    say_minutes,
    say_wall,
    wall_at,
    wall_of,
    zone_named,
)
from tests.journal.made import BERLIN

ZONES = ["", BERLIN, "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu"]
NEAR = {"min_value": datetime(2020, 1, 1), "max_value": datetime(2035, 1, 1)}


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ("Saturday", "2027-03-06T18:00 was expected"),
        ("", "2027-03-06T18:00 was expected"),
        ("2027-02-30T18:00", "2027-03-06T18:00 was expected"),
        ("2027-03-06T18:00+01:00", "without a zone"),
        (None, "2027-03-06T18:00 was expected"),
    ],
)
def test_what_is_no_time_is_refused_with_a_sentence(wrong: str, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        read_wall(wrong)


@pytest.mark.parametrize("zone", ["Europe/Nowhere", "../etc/passwd", "x" * 300])
def test_an_unknown_zone_is_refused_with_a_sentence(zone: str) -> None:
    with pytest.raises(ValueError, match="time zone like Europe/Berlin"):
        zone_named(zone)


@pytest.mark.parametrize("utc_s", [float("nan"), float("inf"), 1e18])
def test_an_instant_beyond_the_calendar_is_refused(utc_s: float) -> None:
    with pytest.raises(ValueError, match=r"instant|calendar"):
        wall_at(utc_s)


def test_a_day_is_24_real_hours_on_the_short_and_the_long_day() -> None:
    assert plus("2027-03-27T18:00", 1440, BERLIN) == "2027-03-28T19:00"
    assert plus("2027-10-30T18:00", 1440, BERLIN) == "2027-10-31T17:00"
    assert minutes_between("2027-03-27T18:00", "2027-03-28T18:00", BERLIN) == 23 * 60
    assert minutes_between("2027-10-30T18:00", "2027-10-31T18:00", BERLIN) == 25 * 60
    assert minutes_between("2027-03-27T18:00", "2027-03-28T18:00") == 24 * 60


def test_the_hour_left_out_in_spring_and_the_hour_shown_twice_in_autumn() -> None:
    assert wall_at(instant_s("2027-03-28T02:30", BERLIN), BERLIN) == "2027-03-28T03:30"
    assert plus("2027-03-28T01:30", 60, BERLIN) == "2027-03-28T03:30"
    # Half past two comes twice; the first is meant, and an hour on the clock shows it again.
    assert plus("2027-10-31T02:30", 60, BERLIN) == "2027-10-31T02:30"
    assert plus("2027-10-31T02:30", 120, BERLIN) == "2027-10-31T03:30"


@given(st.datetimes(**NEAR), st.sampled_from(ZONES))
def test_instants_agree_with_the_standard_library(when: datetime, zone: str) -> None:
    when = when.replace(second=0, microsecond=0)
    wall = when.isoformat(timespec="minutes")
    expected = when.replace(tzinfo=ZoneInfo(zone or "UTC")).timestamp()
    assert instant_s(wall, zone) == expected


@given(st.datetimes(**NEAR), st.integers(0, 40 * 1440), st.sampled_from(ZONES))
def test_going_on_and_measuring_back_agree_to_the_doubled_hour(
    when: datetime, minutes: int, zone: str
) -> None:
    wall = wall_at(instant_s(when.isoformat(timespec="minutes"), zone), zone)
    measured = minutes_between(wall, plus(wall, minutes, zone), zone)
    # An hour shown twice is read as its first showing, so up to an hour may be lost there.
    assert measured in (minutes, minutes - 60, minutes - 30)


def test_the_wall_clock_of_a_moment_is_told_by_its_own_offset() -> None:
    assert wall_of(Moment(0.0, 60)) == "1970-01-01T01:00"
    assert wall_of(Moment(0.0, -150)) == "1969-12-31T21:30"


def test_quarters_and_days_by_the_clock() -> None:
    assert next_quarter("2027-03-06T18:00") == "2027-03-06T18:00"
    assert next_quarter("2027-03-06T18:01") == "2027-03-06T18:15"
    assert next_quarter("2027-12-31T23:50") == "2028-01-01T00:00"
    assert days_later("2027-03-27T18:00", 1) == "2027-03-28T18:00"


@pytest.mark.parametrize(
    ("wall", "said"),
    [
        ("2027-03-03T18:00", "today 18:00"),
        ("2027-03-02T18:00", "yesterday 18:00"),
        ("2027-03-04T07:05", "tomorrow 07:05"),
        ("2027-03-06T18:00", "Saturday 18:00"),
        ("2027-03-09T18:00", "Tuesday 18:00"),
        ("2027-03-10T18:00", "Wednesday 10 March 18:00"),
        ("2027-03-01T18:00", "Monday 1 March 18:00"),
        ("2028-01-01T18:00", "Saturday 1 January 2028 18:00"),
    ],
)
def test_a_time_is_said_as_near_as_it_is(wall: str, said: str) -> None:
    assert say_wall(wall, now="2027-03-03T09:00") == said


@pytest.mark.parametrize(
    ("minutes", "said"),
    [(59.4, "59 min"), (60, "1 h"), (-125, "2 h 5 min"), (47 * 60, "47 h"), (60 * 60, "2.5 days")],
)
def test_a_length_is_said_to_the_precision_that_matters(minutes: float, said: str) -> None:
    assert say_minutes(minutes) == said
