"""Rest, chilling a brine and thawing: Newton's law forwards and back, and the published rule."""

from math import exp

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.heat.chill import hours_to_chill
from app.heat.rest import core_after, rest_forecast
from app.heat.thaw import thaw_time
from app.transport.diffusivity import Range

ROOM = Range(20.0, 20.0, 20.0)


@given(st.floats(70.0, 98.0), st.floats(0.03, 0.4), st.floats(20.0, 90.0))
def test_newtons_law_is_found_again_from_two_readings(
    start: float, pace_per_h: float, apart: float
) -> None:
    def core(minutes: float) -> float:
        return 20.0 + (start - 20.0) * exp(-pace_per_h * minutes / 60.0)

    assume(core(apart) > 61.0 and core(0) - core(apart) > 0.6)
    seen = rest_forecast((0.0, core(0.0)), (apart, core(apart)), ROOM)
    assert seen.minutes is not None
    assert core(apart + seen.minutes.likely) == pytest.approx(60.0, abs=1e-6)
    assert seen.minutes.low <= seen.minutes.likely <= seen.minutes.high
    later = core_after((0.0, core(0.0)), (apart, core(apart)), 30.0, 20.0)
    assert later == pytest.approx(core(apart + 30.0))


def test_a_warmer_room_holds_longer_and_a_worse_thermometer_knows_less() -> None:
    cool = rest_forecast((0, 90.0), (60, 84.0), Range(5.0, 5.0, 5.0)).minutes
    warm = rest_forecast((0, 90.0), (60, 84.0), Range(30.0, 30.0, 30.0)).minutes
    rough = rest_forecast((0, 90.0), (60, 84.0), Range(30.0, 30.0, 30.0), error_c=2.0).minutes
    assert cool is not None
    assert warm is not None
    assert rough is not None
    assert warm.likely > cool.likely
    assert rough.high - rough.low > warm.high - warm.low


@pytest.mark.parametrize(
    ("first", "second", "around", "word"),
    [
        ((0, 70.0), (60, 55.0), ROOM, "Already below"),
        ((0, 90.0), (10, 88.0), ROOM, "quarter of an hour"),
        ((0, 90.0), (60, 91.0), ROOM, "still rising"),
        ((0, 90.0), (60, 89.8), ROOM, "no more than a thermometer"),
        ((0, 90.0), (60, 80.0), Range(60.0, 65.0, 70.0), "does not cool that far"),
    ],
)
def test_it_says_when_it_cannot_know(
    first: tuple[float, float], second: tuple[float, float], around: Range, word: str
) -> None:
    told = rest_forecast(first, second, around)
    assert told.minutes is None
    assert word in told.says
    assert told.working.result == told.says


def test_thaw_takes_a_day_for_five_pounds() -> None:
    """24 h per 5 lb (MSU E3259)."""
    five_pounds = 5 * 453.59237
    assert thaw_time(five_pounds).hours == pytest.approx(24.0)
    assert thaw_time(five_pounds).plan_days == 1
    assert thaw_time(five_pounds + 1.0).plan_days == 2
    assert thaw_time(100.0).plan_days == 1
    assert "plan 3 days" in thaw_time(6000).says


def test_a_pot_of_brine_needs_about_a_night() -> None:
    hours = hours_to_chill(5300, 8.0, 20.0).hours
    assert hours is not None
    assert 5.0 < hours.low < hours.likely < hours.high < 24.0


@given(st.floats(500.0, 20000.0), st.floats(0.0, 26.0), st.floats(5.0, 100.0), st.floats(0.0, 4.0))
def test_more_and_hotter_brine_never_chills_sooner(
    grams: float, salt: float, start: float, fridge: float
) -> None:
    hours = hours_to_chill(grams, salt, start, fridge).hours
    more = hours_to_chill(grams * 1.5, salt, start, fridge).hours
    hotter = hours_to_chill(grams, salt, start + 3.0, fridge).hours
    assert hours is not None
    assert more is not None
    assert hotter is not None
    assert hours.likely < more.likely
    assert hours.likely < hotter.likely


def test_chilling_says_what_to_do() -> None:
    assert hours_to_chill(5000, 8.0, 4.0).says == "Cold enough already."
    warm = hours_to_chill(5000, 8.0, 20.0, fridge_c=6.0)
    assert warm.hours is None
    assert "use ice" in warm.says
    assert "sink first" in hours_to_chill(5000, 8.0, 90.0).says
    assert "Measure before" in hours_to_chill(5000, 8.0, 20.0).says


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: rest_forecast((10, 90.0), (10, 80.0)), "order of time"),
        (lambda: rest_forecast((0, 90.0), (60, 80.0), error_c=-1.0), "error"),
        (lambda: rest_forecast((0, float("nan")), (60, 80.0)), "core temperature"),
        (lambda: core_after((0, 90.0), (60, 80.0), 10.0, 95.0), "cooler than the meat"),
        (lambda: thaw_time(0.0), "weight"),
        (lambda: hours_to_chill(0.0, 8.0, 20.0), "weight of the brine"),
        (lambda: hours_to_chill(5000.0, 30.0, 20.0), "salt"),
        (lambda: hours_to_chill(5000.0, 8.0, 200.0), "temperature of the brine"),
        (lambda: hours_to_chill(5000.0, 8.0, 20.0, density_kg_m3=0.0), "density"),
    ],
)
def test_impossible_input_is_refused(call: object, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        call()  # type: ignore[operator]
