"""Clocks that change: another zone, the change at night, one set back. Due times are by the
clock on the wall, elapsed times are real hours."""

from attrs import evolve

from app.journal.becoming_due import became_due
from app.journal.due import due_list, under_way, waiting
from app.journal.fits import misfits
from app.journal.happened import took_s
from app.journal.marks import mark_done
from app.journal.plan import move
from app.journal.records import Moment
from app.journal.wall import wall_of
from tests.journal.made import BERLIN, batch, due, moment, step

NEW_YORK = "America/New_York"


def test_in_another_zone_steps_stay_at_their_hour_and_hours_gone_are_real() -> None:
    made = batch()
    begun = mark_done(made, step(made, "cure").id, moment("2027-02-20T22:30"), BERLIN)
    there = moment("2027-02-22T10:30", NEW_YORK)  # 16:30 in Berlin, 42 h later
    assert due(begun, "end") == "2027-02-28T07:00"
    (turn, *_rest) = due_list([begun], wall_of(there), NEW_YORK)
    overdue = next(
        one for one in due_list([begun], wall_of(there), NEW_YORK) if one.step.done is None
    )
    assert turn == overdue
    cure = next(one for one in under_way([begun], wall_of(there), NEW_YORK))
    assert cure.since == "2027-02-20T16:30"
    assert cure.words.startswith("day 2 of 7")
    first = next(one for one in waiting(begun) if one.stage == "turn")
    assert first.due == "2027-02-22T21:00"
    late = next(one for one in due_list([begun], "2027-02-22T22:00", NEW_YORK) if one.step == first)
    assert late.late_min == 60.0


def test_a_smoke_over_the_night_of_the_change_ends_after_its_real_hours() -> None:
    made = batch(stages=("smoke", "wrap", "finish", "slice"), start="2027-03-28T00:30")
    assert due(made, "wrap") == "2027-03-28T07:30"  # 6 h, one of them left out by the clock
    begun = mark_done(made, step(made, "smoke").id, moment("2027-03-28T00:30"), BERLIN)
    (running,) = under_way([begun], "2027-03-28T05:30", BERLIN)
    assert running.words == "4 h so far, until today 07:30"
    autumn = batch(stages=("smoke", "wrap"), start="2027-10-31T00:30")
    assert due(autumn, "wrap") == "2027-10-31T05:30"  # 6 h, one of them shown twice


def test_a_step_done_by_a_clock_set_back_keeps_the_order_and_says_what_does_not_fit() -> None:
    made = batch()
    for stage in ("buy", "trim", "mix"):
        one = step(made, stage)  # type: ignore[arg-type]
        made = mark_done(made, one.id, moment(one.due), BERLIN)
    back = moment("2027-02-17T09:00")  # the clock was set back by three days
    made = mark_done(made, step(made, "chill").id, back, BERLIN)
    stages = [one.stage for one in made.plan if one.stage != "turn"]
    assert stages.index("chill") < stages.index("cure") < stages.index("end")
    dues = [one.due for one in waiting(made)]
    assert dues == sorted(dues)
    assert took_s(made, "chill") is None
    (running,) = under_way([made], wall_of(back), BERLIN)
    assert running.step.stage == "chill"
    assert all(one.sentence for one in misfits(made, wall_of(back), BERLIN))
    assert became_due([made], "2027-02-20T10:00", wall_of(back), BERLIN) == ()


def test_what_lies_ahead_of_a_clock_set_back_is_under_way_without_a_negative_day() -> None:
    made = batch()
    begun = mark_done(made, step(made, "cure").id, moment("2027-02-20T22:30"), BERLIN)
    (cure,) = under_way([begun], "2027-02-19T09:00", BERLIN)
    assert (cure.part, cure.words) == (0.0, "until Saturday 27 February 22:30")


def test_an_unknown_zone_counts_plainly_and_in_the_same_order() -> None:
    made = batch(zone="")
    late = move(made, step(made, "smoke").id, "2027-03-28T03:00")
    done = Moment(moment("2027-03-28T03:00").utc_s, 120)
    begun = mark_done(late, step(late, "smoke").id, done)
    assert due(begun, "wrap") == "2027-03-28T09:00"
    assert evolve(begun, plan=begun.plan[::-1]).plan[::-1] == begun.plan
