"""Steps done, left out, taken back."""

import pytest
from attrs import evolve

from app.journal.marks import mark_done, release, skip, undo_done, unskip, with_reminder
from app.journal.plan import move
from app.journal.wall import plus
from tests.journal.made import BERLIN, batch, due, moment, step


def test_what_hangs_on_a_step_done_late_follows_it() -> None:
    made = batch()
    cure = step(made, "cure")
    late = mark_done(made, cure.id, moment("2027-02-21T10:30"), BERLIN)
    assert step(late, "cure").done == moment("2027-02-21T10:30")
    assert due(late, "cure") == cure.due  # Planned stays beside actual.
    assert due(late, "end") == "2027-02-28T10:30"
    assert step(late, "turn").due == "2027-02-23T10:30"
    assert made.plan != late.plan


def test_a_cure_begun_before_the_clock_change_has_its_real_hours() -> None:
    made = batch(now=moment("2027-03-24T08:00"), start="2027-03-24T08:00")
    begun = mark_done(made, step(made, "cure").id, moment("2027-03-24T20:00"), BERLIN)
    assert due(begun, "end") == "2027-03-31T07:00" or due(begun, "end") > "2027-03-31T20:59"
    exact = mark_done(made, step(made, "cure").id, moment("2027-03-24T12:00"), BERLIN)
    assert due(exact, "end") == "2027-03-31T13:00"


def test_without_a_zone_the_moments_own_offset_tells_the_clock() -> None:
    made = batch(zone="")
    begun = mark_done(made, step(made, "cure").id, moment("2027-02-21T10:30"))
    assert due(begun, "end") == "2027-02-28T10:30"


def test_for_a_meal_early_handling_pulls_nothing_but_a_running_smoke_does() -> None:
    made = batch(serve="2027-03-06T18:00")
    early = mark_done(made, step(made, "trim").id, moment("2027-02-21T09:00"), BERLIN)
    assert due(early, "cure") == due(made, "cure")
    smoke = step(made, "smoke")
    early = mark_done(made, smoke.id, moment(plus(smoke.due, -60, BERLIN)), BERLIN)
    assert due(early, "wrap") == plus(due(made, "wrap"), -60, BERLIN)
    assert due(early, "slice") == due(made, "slice")


@pytest.mark.parametrize("serve", [None, "2027-03-06T18:00"])
def test_a_mark_taken_back_leaves_the_plan_as_it_was(serve: str | None) -> None:
    made = batch(serve=serve)
    cure = step(made, "cure")
    done = mark_done(made, cure.id, moment("2027-02-27T13:00"), BERLIN)
    assert done.plan != made.plan
    assert undo_done(done, cure.id, BERLIN) == made
    assert undo_done(made, cure.id, BERLIN) is made


@pytest.mark.parametrize("serve", [None, "2027-03-06T18:00"])
def test_a_step_left_out_closes_up_and_comes_back(serve: str | None) -> None:
    made = batch(serve=serve)
    dry = step(made, "dry")
    without = skip(made, dry.id, BERLIN)
    assert step(without, "dry").skipped
    if serve:
        assert due(without, "end") == plus(due(made, "end"), 720, BERLIN)
    else:
        assert due(without, "rub") == due(without, "end")[:10] + "T07:15"
    assert skip(without, dry.id, BERLIN) is without
    back = unskip(without, dry.id, BERLIN)
    assert [one.due for one in back.plan] == [one.due for one in made.plan]
    assert unskip(back, dry.id, BERLIN) is back


def test_what_is_done_is_not_left_out() -> None:
    made = batch()
    done = mark_done(made, made.plan[0].id, moment("2027-02-20T10:00"), BERLIN)
    with pytest.raises(ValueError, match="is done already"):
        skip(done, made.plan[0].id, BERLIN)
    unskipped = mark_done(
        skip(made, made.plan[0].id, BERLIN), made.plan[0].id, moment("2027-02-20T10:00"), BERLIN
    )
    assert not unskipped.plan[0].skipped


def test_with_the_last_step_the_batch_is_finished_and_open_again_when_taken_back() -> None:
    made = batch()
    for one in made.plan[:-1]:
        made = mark_done(made, one.id, moment("2027-03-01T20:00"), BERLIN)
        assert not made.finished
    last = made.plan[-1]
    assert mark_done(made, last.id, moment("2027-03-01T21:00"), BERLIN).finished
    finished = skip(made, last.id, BERLIN)
    assert finished.finished
    assert not unskip(finished, last.id, BERLIN).finished
    done = mark_done(made, last.id, moment("2027-03-01T21:00"), BERLIN)
    assert not undo_done(done, last.id, BERLIN).finished


def test_a_batch_called_finished_early_stays_so_when_a_step_is_recorded_later() -> None:
    called = evolve(batch(), finished=True)
    assert mark_done(called, step(called, "trim").id, moment("2027-02-21T09:00"), BERLIN).finished
    left_out = skip(called, step(called, "trim").id, BERLIN)
    assert left_out.finished
    assert not unskip(left_out, step(left_out, "trim").id, BERLIN).finished


def test_a_step_moved_by_hand_is_let_go_again() -> None:
    made = batch(serve="2027-03-06T18:00")
    smoke = step(made, "smoke")
    moved = move(made, smoke.id, "2027-03-06T02:00", BERLIN)
    assert release(moved, smoke.id, BERLIN) == made


def test_a_reminder_is_turned_off_and_on() -> None:
    made = batch()
    off = with_reminder(made, made.plan[0].id, False)
    assert not off.plan[0].reminder
    assert with_reminder(off, made.plan[0].id, True) == made
    assert evolve(off, plan=made.plan) == made
