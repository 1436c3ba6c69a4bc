"""The time step against the exponential itself: of numbers, and of SciPy's matrices."""

from math import exp

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.linalg import expm

from app.transport.course import Piece
from app.transport.solver import _CONTOUR, advance, grid


@given(st.floats(-1e12, 0.0))
def test_the_contour_gives_the_exponential_of_every_number_at_or_below_nought(x: float) -> None:
    assert 2.0 * sum((c / (z - x)).real for z, c in _CONTOUR) == pytest.approx(exp(x), abs=1e-11)


def test_the_contour_gives_one_at_nought_to_the_last_digit() -> None:
    assert 2.0 * sum((c / z).real for z, c in _CONTOUR) == pytest.approx(1.0, abs=1e-15)


@settings(max_examples=30)
@given(
    st.floats(10.0, 100.0),
    st.floats(0.05, 50.0),
    st.floats(0.0001, 3.0),
    st.lists(st.floats(0.0, 1.0), min_size=9, max_size=9),
)
def test_a_slab_and_its_bath_agree_with_the_matrix_exponential(
    thickness: float, ratio: float, fo: float, state: list[float]
) -> None:
    piece = Piece(thickness, 1)
    cells = grid(piece, 8)
    rates = np.zeros((9, 9))
    into_bath = cells.outward[0] * cells.volumes[0] / (ratio * thickness)
    rates[0, :2] = -into_bath, into_bath
    for i in range(8):
        rates[i + 1, i] = cells.outward[i]
        rates[i + 1, i + 1] = -cells.outward[i] - cells.inward[i]
        if i < 7:
            rates[i + 1, i + 2] = cells.inward[i]
    travelled = fo * thickness**2
    theirs = expm(rates * travelled) @ np.array(state)
    means, bath = advance(cells, state[1:], state[0], ratio, travelled)
    assert [bath, *means] == pytest.approx(theirs, abs=1e-10)


def test_a_time_too_short_to_count_changes_nothing() -> None:
    cells = grid(Piece(50.0), 8)
    means = [0.1] * 16
    assert advance(cells, means, 1.0, 1.0, 1e-300) == (means, 1.0)
    assert advance(cells, means, 1.0, 1.0, 0.0) == (means, 1.0)
