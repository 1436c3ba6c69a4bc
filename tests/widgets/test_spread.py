"""Numbers along a line: each can be read, near its place, in order."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from app.widgets.spread import in_rows, spread

PLACES = st.lists(st.floats(0.0, 300.0), max_size=24).map(sorted)


@given(PLACES)
def test_neighbours_stand_apart_within_the_ends(places: list[float]) -> None:
    told = spread(places, 12.0, 0.0, 300.0)
    assert len(told) == len(places)
    assert all(b - a >= 12.0 - 1e-6 for a, b in pairwise(told))
    assert all(-1e-6 <= one <= 300.0 + 1e-6 for one in told)


def test_what_stands_apart_already_is_not_moved() -> None:
    places = (3.0, 40.0, 52.0, 299.0)
    assert spread(places, 12.0, 0.0, 300.0) == pytest.approx(places)


@pytest.mark.parametrize(
    "places", [[5.0, 5.0, 6.0, 100.0], [0.0, 1.0, 90.0, 99.0, 100.0], [50.0] * 6]
)
def test_the_moves_are_the_least_there_are(places: list[float]) -> None:
    apart = [
        {"type": "ineq", "fun": lambda x, i=i: x[i + 1] - x[i] - 15.0}
        for i in range(len(places) - 1)
    ]
    best = minimize(
        lambda x: sum((a - b) ** 2 for a, b in zip(x, places, strict=True)),
        [15.0 * i for i in range(len(places))],
        bounds=[(0.0, 100.0)] * len(places),
        constraints=apart,
    )
    assert spread(places, 15.0, 0.0, 100.0) == pytest.approx(tuple(best.x), abs=0.01)


@given(PLACES)
def test_in_a_row_none_lies_on_another_and_no_line_runs_through_a_number(
    places: list[float],
) -> None:
    told = in_rows(places, 30.0, 15.0, 301.0)
    for row in {one.row for one in told}:
        in_row = [one.at for one in told if one.row == row]
        assert all(b - a >= 30.0 - 1e-6 for a, b in pairwise(in_row))
    rows = 1 + max((one.row for one in told), default=0)
    assert all(b.at - a.at >= 30.0 / rows - 1e-6 for a, b in pairwise(told))


def test_one_row_does_while_it_can() -> None:
    assert {one.row for one in in_rows([5.0] * 10, 18.0, 9.0, 307.0)} == {0}
    assert {one.row for one in in_rows([5.0] * 20, 30.0, 15.0, 301.0)} == {0, 1}


def test_what_cannot_be_placed_is_refused() -> None:
    with pytest.raises(ValueError, match="ascending"):
        spread([2.0, 1.0], 1.0, 0.0, 10.0)
    with pytest.raises(ValueError, match="no room"):
        spread([1.0, 2.0], 20.0, 0.0, 10.0)
    with pytest.raises(ValueError, match="end beyond"):
        in_rows([1.0], 5.0, 10.0, 10.0)
