"""The two cooling stages against FSIS Appendix B, with readings far and near."""

from math import exp, log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.heat import cooling
from app.heat.cooling import CURED, PLAIN, cooling_clocks, cooling_limit, two_hours

CURED_PPM = {"ingoing_ppm": 150.0, "ascorbate_ppm": 500.0}


def falling(
    pace_per_h: float, every_min: float = 5.0, until_min: float = 1200.0, to: float = 2.0
) -> list[tuple[float, float]]:
    """A core cooling by Newton's law from 65 °C."""
    count = int(until_min / every_min) + 1
    return [
        (i * every_min, to + (65.0 - to) * exp(-pace_per_h * i * every_min / 60.0))
        for i in range(count)
    ]


def test_limits_are_those_of_appendix_b() -> None:
    """130→80 °F in 1.5 h then →40 °F in 5 h (S); cured 5 h, then →45 °F in 10 h (45 °F M)."""
    assert (PLAIN.first_minutes, PLAIN.second_minutes) == (90.0, 300.0)
    assert (CURED.first_minutes, CURED.second_minutes) == (300.0, 600.0)
    assert pytest.approx(54.44, abs=0.01) == cooling.HOT_C
    assert pytest.approx(26.67, abs=0.01) == cooling.MIDDLE_C
    assert PLAIN.end_c == pytest.approx(4.44, abs=0.01)
    assert CURED.end_c == pytest.approx(7.22, abs=0.01)


@pytest.mark.parametrize(
    ("ingoing", "ascorbate", "name", "word"),
    [
        (0.0, 0.0, "plain", "less than 100 ppm"),
        (99.0, 500.0, "plain", "less than 100 ppm"),
        (150.0, 0.0, "plain", "ascorbate"),
        (150.0, 249.0, "plain", "ascorbate"),
        (100.0, 250.0, "cured", "grey core"),
    ],
)
def test_which_limit_applies_and_why(
    ingoing: float, ascorbate: float, name: str, word: str
) -> None:
    limit, why = cooling_limit(ingoing, ascorbate)
    assert limit.name == name
    assert word in why


def test_quick_cooling_passes_both() -> None:
    result = cooling_clocks(falling(1.0), now_min=1200.0)
    assert (result.state, result.first.state, result.second.state) == ("passed",) * 3
    assert result.says == "Cooled in time, both stages."
    assert "Appendix B" in result.working.source


def test_slow_cooling_fails_plain_and_passes_cured() -> None:
    readings = falling(0.4)
    plain = cooling_clocks(readings, now_min=1200.0)
    assert (plain.state, plain.first.state) == ("failed", "failed")
    assert "throw it away" in plain.says
    cured = cooling_clocks(readings, now_min=1200.0, **CURED_PPM)
    assert cured.state == "passed"


def test_second_stage_can_fail_alone() -> None:
    log = [(0, 56.0), (5, 54.0), (60, 26.0), (200, 15.0), (380, 8.0)]
    result = cooling_clocks(log, now_min=380.0)
    assert (result.first.state, result.second.state) == ("passed", "failed")
    assert "Still 8.0 °C" in result.says


def test_running_clock_shows_its_deadline() -> None:
    result = cooling_clocks([(10, 60.0), (20, 50.0)], now_min=40.0)
    assert result.state == "running"
    assert result.first.deadline_min == 100.0
    assert result.first.says == "1 h left to come below 26.7 °C."
    assert result.second.state == "not_begun"
    between = cooling_clocks([(0, 56.0), (5, 54.0), (60, 27.0), (70, 26.0)], now_min=100.0)
    assert between.state == "running"
    assert between.second.deadline_min == 360.0


def test_not_begun_while_hot_or_with_no_reading() -> None:
    assert cooling_clocks([(0, 80.0)], now_min=5.0).state == "not_begun"
    assert cooling_clocks([], now_min=0.0).state == "not_begun"


def test_a_log_that_starts_cold_does_not_know() -> None:
    result = cooling_clocks([(0, 40.0), (30, 20.0)], now_min=30.0)
    assert result.state == "unknown"
    assert "not known" in result.first.says


def test_readings_too_far_apart_do_not_decide() -> None:
    result = cooling_clocks([(0, 60.0), (60, 40.0), (120, 20.0), (200, 4.0)], now_min=200.0)
    assert result.first.state == "unknown"
    assert (result.first.least_minutes, result.first.most_minutes) == (0.0, 120.0)
    assert "too far apart" in result.says


def test_time_up_without_a_reading_asks_for_one() -> None:
    result = cooling_clocks([(0, 60.0), (10, 50.0)], now_min=200.0)
    assert result.state == "unknown"
    assert "measure now" in result.says


def test_warming_up_again_does_not_count_as_cold() -> None:
    log = [(0, 56.0), (5, 54.0), (60, 26.0), (80, 35.0), (100, 26.0)]
    result = cooling_clocks(log, now_min=100.0)
    assert result.first.most_minutes == 100.0


@given(st.floats(0.15, 3.0), st.floats(1.0, 30.0), st.floats(0.0, 60.0))
def test_stages_bound_the_true_time(pace: float, every: float, later: float) -> None:
    readings = falling(pace, every)
    result = cooling_clocks(readings, now_min=readings[-1][0] + later, **CURED_PPM)
    for stage, start, end in (
        (result.first, cooling.HOT_C, cooling.MIDDLE_C),
        (result.second, cooling.MIDDLE_C, CURED.end_c),
    ):
        if stage.most_minutes is None or stage.least_minutes is None:
            continue
        true = 60.0 / pace * log((start - 2.0) / (end - 2.0))
        assert stage.least_minutes <= true + 1e-6
        assert true <= stage.most_minutes + 1e-6
        assert (stage.state == "passed") <= (true <= stage.limit_minutes)
        assert (stage.state == "failed") <= (true > stage.limit_minutes)


def test_two_hours_or_one_in_the_heat() -> None:
    assert two_hours(0.0).left_minutes == 120.0
    assert two_hours(60.0, room_c=33.0).left_minutes == 0.0
    assert two_hours(121.0).state == "over"
    assert "throw it away" in two_hours(121.0).says
    assert two_hours(30.0).says == "1 h 30 min left before it must be in the cold."


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: cooling_limit(-1.0), "nitrite"),
        (lambda: cooling_limit(1.0, float("nan")), "ascorbate"),
        (lambda: cooling_clocks([(0, 60.0), (10, 50.0)], now_min=5.0), "before the last reading"),
        (lambda: cooling_clocks([], now_min=float("inf")), "number of minutes"),
        (lambda: cooling_clocks([(5, 60.0), (1, 50.0)], now_min=9.0), "order of time"),
        (lambda: two_hours(-1.0), "time out"),
        (lambda: two_hours(1.0, float("nan")), "room"),
    ],
)
def test_impossible_input_is_refused(call: object, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        call()  # type: ignore[operator]
