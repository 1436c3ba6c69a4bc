"""Fridge and brine too warm while the meat lies in its cure."""

from app.heat.chill import COLD_C
from app.journal.entries import measured
from app.journal.marks import mark_done
from app.journal.records import Batch, Entry
from app.journal.too_warm import too_warm
from tests.journal.made import BERLIN, batch, moment, step


def line(celsius: float, spot: str, at: str) -> Entry:
    when = moment(at)
    return Entry(f"{at}{spot}", "s1", when, "cure", measured(celsius, spot), when)


def in_cure() -> Batch:
    made = batch()
    return mark_done(made, step(made, "cure").id, moment("2027-02-21T06:00"), BERLIN)


def test_the_last_reading_of_fridge_or_brine_counts() -> None:
    warm = line(14.0, "fridge", "2027-02-22T08:00")
    assert too_warm(in_cure(), [warm]) == warm
    assert too_warm(in_cure(), [warm, line(3.0, "brine", "2027-02-22T09:00")]) is None
    assert too_warm(in_cure(), [line(3.0, "brine", "2027-02-22T07:00"), warm]) == warm


def test_the_bound_is_that_of_a_safe_refrigerator() -> None:
    assert round(COLD_C * 1.8 + 32.0) == 40  # FSIS: 40 °F
    assert too_warm(in_cure(), [line(4.4, "fridge", "2027-02-22T08:00")]) is None
    assert too_warm(in_cure(), [line(5.0, "fridge", "2027-02-22T08:00")]) is not None


def test_what_is_no_matter_of_the_cure_says_nothing() -> None:
    warm = line(14.0, "fridge", "2027-02-22T08:00")
    assert too_warm(batch(), [warm]) is None
    assert too_warm(in_cure(), [line(14.0, "fridge", "2027-02-20T08:00")]) is None
    assert too_warm(in_cure(), [line(120.0, "pit", "2027-02-22T08:00")]) is None
    out = mark_done(in_cure(), step(in_cure(), "end").id, moment("2027-02-28T07:00"), BERLIN)
    assert too_warm(out, [warm]) is None
