"""The stall in a log, and the finish from past batches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.heat.offset import corrected, ice_check
from app.heat.stall import PastCook, find_stall, finish_range
from app.transport.diffusivity import Range

CLIMB = [(30.0 * i, 10.0 + 8.0 * i) for i in range(8)]  # 66 °C at 210 min
FLAT = [(210.0 + 30.0 * i, 66.0 + 0.5 * i) for i in range(1, 5)]  # to 330 min
AFTER = [(330.0 + 30.0 * i, 68.0 + 5.0 * i) for i in range(1, 5)]


def test_a_slow_stretch_is_a_stall_and_ends_when_the_climb_goes_on() -> None:
    stall = find_stall(CLIMB + FLAT)
    assert stall is not None
    assert (stall.began_min, stall.ended_min) == (210.0, None)
    assert stall.says == "In the stall at about 68 °C for 2 h."
    over = find_stall(CLIMB + FLAT + AFTER)
    assert over is not None
    assert (over.began_min, over.ended_min) == (210.0, 330.0)
    assert over.says == "The stall lasted 2 h and ended at 68 °C."


def test_no_stall_in_a_steady_climb_a_short_halt_or_a_cold_start() -> None:
    assert find_stall([*CLIMB, (240.0, 74.0), (270.0, 82.0)]) is None
    assert find_stall([*CLIMB, (240.0, 66.2), (270.0, 74.0)]) is None
    assert find_stall([(0.0, 4.0), (60.0, 4.5), (120.0, 5.0)]) is None
    assert find_stall([]) is None
    assert find_stall([(0.0, 66.0)]) is None


def test_readings_every_minute_with_a_jittering_last_digit_show_the_same_stall() -> None:
    climb = [(float(m), 20.0 + 0.25 * m) for m in range(180)]  # 15 °C an hour to 64.75
    flat = [(180.0 + m, 65.0 + 0.01 * m + (0.1 if m % 2 else -0.1)) for m in range(100)]
    stall = find_stall(climb + flat)
    assert stall is not None
    assert stall.began_min == pytest.approx(180.0, abs=21.0)
    assert stall.ended_min is None


def test_meat_falling_in_a_fading_fire_counts_as_stalled() -> None:
    stall = find_stall([(0.0, 68.0), (30.0, 67.5), (60.0, 67.0)])
    assert stall is not None


def test_finish_comes_from_own_batches_and_feel_is_kept_first() -> None:
    past = [
        PastCook(((0.0, 60.0), (100.0, 80.0), (200.0, 90.0)), 220.0),
        PastCook(((0.0, 60.0), (100.0, 70.0), (160.0, 90.0)), 180.0),
        PastCook(((0.0, 60.0), (60.0, 90.0)), 100.0),
    ]
    told = finish_range(80.0, past)
    assert told.minutes is not None
    assert told.batches == 3
    assert told.minutes == Range(50.0, 60.0, 120.0)
    assert told.by_feel.startswith("By feel, not by time")
    assert "Your 3 like batches" in told.says


def test_finish_counts_only_batches_that_passed_the_temperature() -> None:
    low = PastCook(((0.0, 60.0), (100.0, 75.0)), 120.0)
    told = finish_range(80.0, [low])
    assert (told.minutes, told.batches) == (None, 0)
    assert finish_range(70.0, [low]).says.startswith("Your one like batch")
    # A core that dipped and rose again counts from its last rise.
    dipped = PastCook(((0.0, 60.0), (10.0, 82.0), (20.0, 70.0), (30.0, 90.0)), 50.0)
    assert finish_range(80.0, [dipped]).minutes == finish_range(80.0, [dipped, dipped]).minutes
    told = finish_range(80.0, [dipped])
    assert told.minutes is not None
    assert told.minutes.likely == pytest.approx(25.0)
    # Called done before it ever got there: tells nothing.
    assert finish_range(85.0, [PastCook(((0.0, 60.0), (60.0, 90.0)), 10.0)]).minutes is None


@given(st.floats(-4.0, 4.0), st.floats(-30.0, 100.0))
def test_offset_is_taken_off(offset: float, true: float) -> None:
    check = ice_check([offset, offset])
    assert corrected(true + offset, check.offset_c) == pytest.approx(true)


def test_ice_check_says_how_good_the_thermometer_is() -> None:
    assert ice_check([0.0]).says == "It reads ice water right."
    assert "0.9 °C too high" in ice_check([0.8, 1.0]).says
    assert "2.0 °C too low: more than it should" in ice_check([-2.0]).says
    far = ice_check([7.0])
    assert not far.usable
    assert "too far to trust" in far.says
    unsteady = ice_check([0.0, 3.0])
    assert not unsteady.usable
    assert "stir, wait" in unsteady.says
    assert "crushed ice" in unsteady.how


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: ice_check([]), "needs a reading"),
        (lambda: ice_check([float("nan")]), "ice water"),
        (lambda: corrected(float("inf"), 0.0), "reading"),
        (lambda: finish_range(float("nan"), []), "core temperature"),
        (lambda: find_stall([(5.0, 60.0), (1.0, 61.0)]), "order of time"),
    ],
)
def test_impossible_readings_are_refused(call: object, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        call()  # type: ignore[operator]
