"""The soak without a browser: its arguments, how it judges memory, and what counts as a fault."""

import pytest

from build_scripts import soak
from build_scripts.soak_phone import LEVEL, Memory, growth, longest_session, thirds
from build_scripts.soak_run import Outcome


def held(session: int, size: float, count: int = 1) -> list[Memory]:
    return [Memory(0.0, session, size, size, size)] * count


def test_how_long_and_which_seed_can_be_said() -> None:
    arguments = soak.read_arguments(["--minutes", "120", "--seed", "7"])
    assert (arguments.minutes, arguments.seed) == (120.0, 7)


@pytest.mark.parametrize("minutes", ["0", "-1", "nan", "2000"])
def test_a_time_that_is_none_is_refused(minutes: str) -> None:
    with pytest.raises(SystemExit):
        soak.read_arguments(["--minutes", minutes])


def test_the_last_third_is_set_against_the_first() -> None:
    assert thirds([10.0, 11.0, 12.0, 5.0, 6.0, 7.0, 20.0, 22.0, 24.0]) == 2.0
    with pytest.raises(ValueError, match="Three values"):
        thirds([1.0, 2.0])


def test_memory_is_judged_where_nothing_was_started_anew() -> None:
    samples = held(1, 5.0, 2) + held(2, 10.0, 3) + held(2, 11.0, 6) + held(3, 90.0)
    longest = longest_session(samples)
    assert {one.session for one in longest} == {2}
    assert growth(longest) == pytest.approx(
        {"the page's heap": 1.1, "Python's memory": 1.1, "Python's objects": 1.1}
    )


def test_memory_that_grows_is_a_fault_and_a_short_look_at_it_is_none() -> None:
    grown = Outcome(memory=held(1, 10.0, 4) + held(1, 10.0 * LEVEL + 1, 5))
    assert len(grown.faults()) == 3
    assert Outcome(memory=held(1, 10.0, 4) + held(1, 30.0, 4)).faults() == []


def test_every_loss_is_a_fault_and_a_stumble_or_two_of_the_driver_is_none() -> None:
    assert Outcome(lost=["a line is not stored"]).faults() == ["a line is not stored"]
    assert Outcome(wrong=["told of a fault"]).faults() != []
    assert Outcome(complaints=["too salty"]).faults() != []
    assert Outcome(stumbles=["a key came early"] * 2).faults() == []
    assert Outcome(stumbles=["a key came early"] * 3).faults() != []
    assert Outcome().told()[-1].startswith("Nothing was lost")
