"""What fell due between two looks at the clock."""

import pytest
from attrs import evolve

from app.journal.becoming_due import became_due, pressing
from app.journal.due import waiting
from app.journal.marks import mark_done, with_reminder
from tests.journal.made import BERLIN, NOW, batch, step

BEFORE, DUE, AFTER = "2027-02-20T08:59", "2027-02-20T09:00", "2027-02-20T09:01"


def test_a_step_is_told_when_its_time_comes_and_not_again() -> None:
    made = batch()
    first = min(made.plan, key=lambda one: one.due)
    assert first.due == DUE
    assert first.id in [one.step.id for one in became_due([made], BEFORE, DUE, BERLIN)]
    assert became_due([made], DUE, AFTER, BERLIN) == ()


def test_a_silent_step_is_neither_told_nor_counted() -> None:
    made = batch()
    counted = pressing([made], DUE, BERLIN)
    for one in made.plan:
        made = with_reminder(made, one.id, False)
    assert counted > 0
    assert became_due([made], BEFORE, DUE, BERLIN) == ()
    assert pressing([made], DUE, BERLIN) == 0


@pytest.mark.parametrize("since", ["", AFTER, "2027-02-18T09:00"])
def test_a_first_look_a_clock_set_back_and_a_long_sleep_tell_nothing(since: str) -> None:
    assert became_due([batch()], since, DUE, BERLIN) == ()


def test_a_finished_batch_is_silent() -> None:
    assert became_due([evolve(batch(), finished=True)], BEFORE, DUE, BERLIN) == ()


def test_turnings_missed_before_it_came_out_are_not_asked_for() -> None:
    begun = batch()
    made = mark_done(begun, step(begun, "end").id, NOW, BERLIN)
    assert all(one.stage != "turn" for one in waiting(made))
