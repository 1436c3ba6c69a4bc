"""Lethality against the table of FSIS Appendix A, and in what it may never do."""

from itertools import pairwise
from math import inf, log10

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.heat.core_log import celsius
from app.heat.lethality import (
    TABLE_S,
    accumulate,
    consumer_rule,
    log_reduction,
    minutes_for_target,
)

# FSIS Appendix A (1999), 6.5-log Salmonella in beef, as the science sheet gives it (S).
MINUTES_F = {
    130: 112, 131: 89, 132: 71, 133: 56, 134: 45, 135: 36, 136: 28, 137: 23, 138: 18, 139: 15,
    140: 12, 141: 9, 142: 8, 143: 6, 144: 5, 145: 4,
}  # fmt: skip
SECONDS_F = {
    146: 169, 147: 134, 148: 107, 149: 85, 150: 67, 151: 54, 152: 43, 153: 34, 154: 27, 155: 22,
    156: 17, 157: 14,
}  # fmt: skip
LN_10 = 2.302585092994046
SHEET_S = {**{f: 60 * m for f, m in MINUTES_F.items()}, **SECONDS_F}


@pytest.mark.parametrize("row_f", SHEET_S)
def test_each_row_of_the_table_gives_6_5_log_at_its_time_and_not_before(row_f: int) -> None:
    minutes = SHEET_S[row_f] / 60.0
    assert log_reduction(minutes, celsius(row_f)) == pytest.approx(6.5, abs=1e-9)
    assert log_reduction(0.99 * minutes, celsius(row_f)) < 6.5


@pytest.mark.parametrize("row_f", SHEET_S)
def test_celsius_printed_to_a_tenth_means_its_row(row_f: int) -> None:
    printed_c = round(celsius(row_f), 1)
    assert minutes_for_target(printed_c) == pytest.approx(SHEET_S[row_f] / 60.0)


def test_the_table_falls_by_ten_degrees_fahrenheit() -> None:
    """z = 10 °F; 112 min · 10^(−(T−130)/10), rounded up, is never shorter than the table (C)."""
    for row_f, seconds in TABLE_S.items():
        curve_s = 112 * 60 * 10 ** (-(row_f - 130) / 10)
        assert seconds >= curve_s * 0.99
        assert seconds <= curve_s + 60.0


def test_below_130_fahrenheit_counts_nothing() -> None:
    assert log_reduction(10_000.0, 54.3) == 0.0
    assert minutes_for_target(54.3) == inf


def test_from_158_fahrenheit_it_is_at_once() -> None:
    assert log_reduction(0.0, 70.0) == 6.5
    assert log_reduction(10.0, 70.0) > 6.5
    assert log_reduction(10.0, 69.0) > 6.5


@given(st.floats(54.4, 70.0))
def test_between_rows_it_is_nowhere_better_than_the_hotter_row(core_c: float) -> None:
    row_f = int(core_c * 1.8 + 32.0 + 0.1)
    needed = minutes_for_target(core_c) * 60.0
    assert TABLE_S.get(row_f + 1, 0) - 1e-9 <= needed <= TABLE_S.get(row_f, 0) + 1e-9


@given(st.floats(0.0, 500.0), st.floats(0.0, 500.0), st.floats(0.0, 100.0), st.floats(0.0, 100.0))
def test_longer_and_hotter_never_kill_less(m0: float, m1: float, c0: float, c1: float) -> None:
    (m0, m1), (c0, c1) = sorted((m0, m1)), sorted((c0, c1))
    assert log_reduction(m0, c0) <= log_reduction(m1, c1) + 1e-9


@given(st.floats(54.4, 69.8), st.floats(1.0, 300.0))
def test_a_flat_log_adds_up_to_the_same_as_holding(core_c: float, minutes: float) -> None:
    flat = accumulate([(0.0, core_c), (minutes / 3, core_c), (minutes, core_c)])
    assert flat.log_reduction == pytest.approx(log_reduction(minutes, core_c))
    needed = minutes_for_target(core_c)
    if needed < 0.999 * minutes:
        assert flat.reached_min == pytest.approx(needed)


temperatures = st.lists(st.floats(20.0, 90.0), min_size=2, max_size=8)


@given(temperatures)
def test_the_sum_never_falls_and_more_readings_on_a_line_change_nothing(
    cores: list[float],
) -> None:
    log = [(20.0 * i, c) for i, c in enumerate(cores)]
    plain = accumulate(log)
    assert all(a <= b for a, b in pairwise(plain.by_reading))
    assert (plain.reached_min is not None) == (plain.log_reduction >= 6.5)
    if plain.reached_min is not None:
        assert 0.0 <= plain.reached_min <= log[-1][0]


@given(temperatures, st.floats(0.1, 10.0))
def test_a_hotter_log_is_safe_no_later(cores: list[float], hotter: float) -> None:
    cool = accumulate([(20.0 * i, c) for i, c in enumerate(cores)])
    hot = accumulate([(20.0 * i, c + hotter) for i, c in enumerate(cores)])
    # Pieces of a tenth of a degree may be cut a little differently.
    assert hot.log_reduction >= cool.log_reduction * 0.95 - 1e-9


def test_a_slow_climb_against_the_integral_by_hand() -> None:
    """At 1 °F a minute from 130 °F, ∫ 10^(t/10)/112 dt is 1 after 10·log10(1 + 11.2·ln 10) min."""
    log = [(0.0, celsius(130.0)), (27.0, celsius(157.0))]
    by_curve = 10.0 * log10(1.0 + 112.0 * LN_10 / 10.0)
    reached = accumulate(log).reached_min
    assert reached is not None
    assert by_curve < reached < by_curve + 1.5


def test_the_moment_of_158_fahrenheit_is_the_latest_moment() -> None:
    reached = accumulate([(0.0, 20.0), (1.0, 80.0)])
    assert reached.reached_min is not None
    assert reached.reached_min <= 1.0
    assert reached.log_reduction >= 6.5


def test_words_for_each_state() -> None:
    assert "No core temperature" in accumulate([]).says
    assert "Not counting yet" in accumulate([(0, 40.0), (30, 50.0)]).says
    assert "50% of the way; at 60.0 °C 6 min more" in accumulate([(0, 60.0), (6, 60.0)]).says
    assert "too cool to count" in accumulate([(0, 60.0), (3, 60.0), (20, 40.0)]).says
    safe = accumulate([(0, 60.0), (30, 60.0)])
    assert safe.says == "Safe by time and temperature: reached 12 min into the log."
    assert "Appendix A" in safe.working.source


def test_consumer_rule_wants_145_fahrenheit_and_three_minutes() -> None:
    assert not consumer_rule([]).met
    assert not consumer_rule([(0, 55.0), (30, 62.0)]).met
    assert (
        "3 minutes at it are not seen yet" in consumer_rule([(0, 62.0), (1, 63.0), (2, 62.0)]).says
    )
    assert "3 minutes at it are not seen yet" in consumer_rule([(0, 63.0)]).says
    met = consumer_rule([(0, 57.8), (10, 67.8), (13, 68.0)])
    assert met.met_min == pytest.approx(8.0)
    assert consumer_rule([(0, 63.0), (5, 63.0)]).met_min == pytest.approx(3.0)
    # Two touches of two minutes are not three minutes together.
    twice = [(0.0, 62.0), (1.0, 63.0), (2.0, 62.0), (3.0, 63.0), (4.0, 62.0)]
    assert not consumer_rule(twice).met


@pytest.mark.parametrize(
    ("minutes", "core_c"), [(-1.0, 60.0), (inf, 60.0), (1.0, float("nan")), (1.0, 900.0)]
)
def test_impossible_numbers_are_refused(minutes: float, core_c: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        log_reduction(minutes, core_c)


@pytest.mark.parametrize(
    "log", [[(0, 60.0), (0, 61.0)], [(5, 60.0), (1, 61.0)], [(inf, 60.0)], [(0, float("nan"))]]
)
def test_logs_out_of_order_are_refused(log: list[tuple[float, float]]) -> None:
    with pytest.raises(ValueError, match=r"must"):
        accumulate(log)
