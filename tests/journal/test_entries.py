"""Entries made, refused, put right and taken back."""

from collections.abc import Callable

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from app.journal.entries import (
    Change,
    apply,
    by_time,
    check_time,
    clock_set_back,
    corrected,
    decided,
    felt,
    measured,
    new_entry,
    noted,
    paid,
    pictured,
    stage_now,
    weighed,
)
from app.journal.marks import mark_done, skip
from app.journal.records import (
    Cost,
    Decision,
    Entry,
    Feel,
    Moment,
    Note,
    PhotoTaken,
    Temperature,
    Weight,
)
from tests.journal.made import BERLIN, NOW, batch, moment, step

NAN, INF = float("nan"), float("inf")


def test_bodies_come_out_as_they_were_read() -> None:
    assert weighed(3200, "trimmed") == Weight(3200.0, "trimmed")
    assert measured(121, "pit") == Temperature(121.0, "pit")
    assert felt("soft", "point", 95) == Feel("soft", "point", 95.0)
    assert felt("hard") == Feel("hard", "flat", None)
    assert decided("wrapped", 124, 71) == Decision("wrapped", 124.0, 71.0)
    assert decided("not_yet") == Decision("not_yet")
    assert noted("  smells good ") == Note("smells good")
    assert pictured("p1", " bark ") == PhotoTaken("p1", "bark")
    assert paid(12.5, " EUR ", " salt ") == Cost(12.5, "EUR", "salt")


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: weighed(0), "above 0 and up to 50 kg"),
        (lambda: weighed(-5), "above 0 and up to 50 kg"),
        (lambda: weighed(NAN), "above 0 and up to 50 kg"),
        (lambda: weighed(60_000), "up to 50 kg"),
        (lambda: weighed(100, "boiled"), "one of green, trimmed"),
        (lambda: measured(205, "flat"), "of the meat from -30 to 110 °C"),
        (lambda: measured(160, "brine"), "of the brine"),
        (lambda: measured(45, "fridge"), "Is the unit right"),
        (lambda: measured(INF, "pit"), "of the pit"),
        (lambda: measured(NAN, "other"), "of the place"),
        (lambda: measured(20, "moon"), "place must be one of"),
        (lambda: felt("mushy"), "hard, firm, nearly or soft"),
        (lambda: felt("soft", "moon"), "place must be one of"),
        (lambda: felt("soft", "flat", 203), "203 °C was given"),
        (lambda: decided("maybe"), "Wrapped, not yet, pulled or keep going"),
        (lambda: decided("wrapped", 900), "of the pit"),
        (lambda: decided("wrapped", 120, 160), "of the meat"),
        (lambda: noted(" \n "), "note is empty"),
        (lambda: noted("x" * 10_001), "10,001"),
        (lambda: pictured(""), "photo was not stored"),
        (lambda: paid(-1), "from 0 to 100,000"),
        (lambda: paid(NAN), "from 0 to 100,000"),
    ],
)
def test_nonsense_is_refused_with_a_sentence(make: Callable[[], object], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        make()


def test_an_entry_belongs_to_the_stage_last_marked() -> None:
    made = batch()
    assert stage_now(made) == "buy"
    assert stage_now(skip(made, step(made, "buy").id, BERLIN)) == "trim"
    assert stage_now(evolve(made, plan=())) == "store"
    curing = mark_done(made, step(made, "cure").id, moment("2027-02-20T22:30"), BERLIN)
    curing = mark_done(curing, step(made, "mix").id, moment("2027-02-20T12:30"), BERLIN)
    assert stage_now(curing) == "cure"
    line = new_entry("e1", curing, noted("cold"), NOW, NOW)
    assert line == Entry("e1", made.id, NOW, "cure", Note("cold"), NOW)
    assert new_entry("e1", curing, noted("cold"), NOW, NOW, "turn").stage == "turn"


def test_a_time_ahead_of_the_clock_or_long_before_the_batch_is_refused() -> None:
    made = batch()
    later = evolve(NOW, utc_s=NOW.utc_s + 3600)
    with pytest.raises(ValueError, match=r"ahead of this device's clock.*is kept"):
        check_time(made, later, NOW)
    with pytest.raises(ValueError, match="90 days before Flat for Easter"):
        check_time(made, evolve(NOW, utc_s=NOW.utc_s - 91 * 86400), NOW)
    with pytest.raises(ValueError, match="not a number"):
        check_time(made, Moment(NAN), NOW)
    check_time(made, evolve(NOW, utc_s=NOW.utc_s + 240), NOW)
    check_time(made, evolve(NOW, utc_s=NOW.utc_s - 86400), NOW)


def line(name: str, at_s: float, changed_s: float = 0.0) -> Entry:
    return Entry(name, "b", Moment(at_s), "smoke", Note(name), Moment(changed_s))


def test_a_clock_set_back_is_told_and_nothing_is_lost() -> None:
    assert clock_set_back([line("a", 100)], Moment(100)) is None
    assert "One line of" in (clock_set_back([line("a", 5000)], Moment(100)) or "")
    said = clock_set_back([line("a", 5000), line("b", 6000)], Moment(100))
    assert said is not None
    assert "2 lines of" in said
    assert "Nothing is lost" in said


def test_a_line_is_added_put_right_removed_and_each_is_taken_back() -> None:
    made = batch()
    first = new_entry("e1", made, measured(60), NOW, NOW)
    added = Change(None, first)
    put_right = corrected(
        first, made, NOW, body=measured(62), at=moment("2027-02-20T08:30"), stage="smoke"
    )
    removed = Change(put_right.after, None)
    assert (added.kind, put_right.kind, removed.kind) == ("added", "corrected", "removed")
    record = apply((), added)
    assert record == (first,)
    record = apply(record, put_right)
    assert record[0].body == Temperature(62.0, "flat")
    assert record[0].stage == "smoke"
    assert apply(record, removed) == ()
    assert apply(apply(record, removed), removed.undone()) == record
    assert apply(record, put_right.undone()) == (first,)
    assert apply((first,), added.undone()) == ()
    assert apply((first,), Change(None, None)) == (first,)
    assert corrected(first, made, NOW).after == first


def test_a_line_cannot_become_another_kind_nor_move_into_the_future() -> None:
    made = batch()
    first = new_entry("e1", made, measured(60), NOW, NOW)
    with pytest.raises(ValueError, match="another kind"):
        corrected(first, made, NOW, body=noted("x"))
    with pytest.raises(ValueError, match="ahead of this device's clock"):
        corrected(first, made, NOW, at=evolve(NOW, utc_s=NOW.utc_s + 9999))


@given(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), max_size=12), st.randoms())
def test_the_order_of_a_record_hangs_on_times_alone(times: list[tuple[int, int]], chance) -> None:  # type: ignore[no-untyped-def]
    lines = [line(f"e{i:02d}", at, changed) for i, (at, changed) in enumerate(times)]
    ordered = by_time(lines)
    chance.shuffle(lines)
    assert by_time(lines) == ordered
    assert [one.at.utc_s for one in ordered] == sorted(one.at.utc_s for one in ordered)
