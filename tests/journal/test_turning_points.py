"""What a decision at the fire does to the plan."""

import pytest

from app.journal.records import Stage
from app.journal.turning_points import after_decision
from tests.journal.made import BERLIN, batch, due, moment, step

AT = moment("2027-03-06T12:05")


@pytest.mark.parametrize(
    ("choice", "stages"), [("wrapped", ("wrap", "finish")), ("pulled", ("tender", "rest"))]
)
def test_a_decision_marks_its_check_and_what_it_begins(
    choice: str, stages: tuple[Stage, ...]
) -> None:
    decided = after_decision(batch(), choice, AT, BERLIN)
    marked = {one.stage for one in decided.plan if one.done == AT}
    assert marked == set(stages)


@pytest.mark.parametrize(("choice", "stage"), [("not_yet", "wrap"), ("keep_going", "tender")])
def test_waiting_moves_the_check_half_an_hour_on(choice: str, stage: Stage) -> None:
    decided = after_decision(batch(), choice, AT, BERLIN)
    assert due(decided, stage) == "2027-03-06T12:45"
    assert step(decided, stage).done is None
    assert not step(decided, stage).moved_by_hand


def test_a_check_that_lies_ahead_stays() -> None:
    made = batch()
    early = moment("2027-02-20T09:00")
    assert after_decision(made, "not_yet", early, BERLIN) is made


def test_what_is_done_already_stays_as_it_was() -> None:
    once = after_decision(batch(), "wrapped", AT, BERLIN)
    assert after_decision(once, "wrapped", moment("2027-03-06T14:00"), BERLIN) is once
