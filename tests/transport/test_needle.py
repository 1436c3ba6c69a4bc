"""The cure between the needle's holes, against the solver and by its own square law."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.transport.course import Piece, Profile, Solute, Stage
from app.transport.diffusion import simulate
from app.transport.diffusivity import NITRITE
from app.transport.needle import between_rows, days_between_holes


@pytest.mark.parametrize("hours", [6.0, 24.0, 72.0, 168.0])
def test_the_series_is_what_the_solver_finds(hours: float) -> None:
    """A slab with its outer fifth wet on each side and no bath is one period between two rows."""
    piece = Piece(25.0)
    start = Profile(piece, (0.0, 5.0, 20.0, 25.0), (100.0, 0.0, 100.0))
    solute = Solute("nitrite", NITRITE.likely_m2_s)
    run = simulate([Stage("stand", hours, None)], piece, [solute], {"nitrite": start}, cells=400)
    end = run.end.profiles["nitrite"]
    fourier = NITRITE.likely_m2_s * hours * 3600.0 / 0.0125**2
    assert end.core / end.average == pytest.approx(between_rows(fourier, 0.4), abs=2e-3)


def test_twice_as_far_apart_takes_four_times_as_long() -> None:
    near = days_between_holes(20.0, wetted_mm=8.0).days
    far = days_between_holes(40.0, wetted_mm=16.0).days
    assert near is not None
    assert far is not None
    assert far.likely == pytest.approx(4.0 * near.likely)


def test_the_usual_four_days_lie_within_the_range() -> None:
    """Four days in the refrigerator after pumping: common practice, no source."""
    days = days_between_holes().days
    assert days is not None
    assert days.low < 4.0 < days.high


@given(st.floats(0.001, 3.0), st.floats(0.05, 0.95))
def test_it_only_ever_rises_to_even(fourier: float, wetted: float) -> None:
    now, later = between_rows(fourier, wetted), between_rows(1.1 * fourier, wetted)
    assert 0.0 <= now <= later + 1e-9 <= 1.0 + 2e-9


@pytest.mark.parametrize(
    ("spacing", "evenness", "wetted"), [(1.0, 0.9, 5.0), (25.0, 1.0, 5.0), (25.0, 0.9, 25.0)]
)
def test_what_cannot_be_is_refused(spacing: float, evenness: float, wetted: float) -> None:
    with pytest.raises(ValueError, match="must be from"):
        days_between_holes(spacing, evenness, wetted_mm=wetted)
