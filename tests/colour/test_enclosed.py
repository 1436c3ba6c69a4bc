"""What a dark line goes round, on drawn grids of light."""

import numpy as np
import numpy.typing as npt
import pytest

from app.colour.enclosed import enclosed
from app.colour.field import Field

SIDE = 100


def field_of(light: npt.NDArray[np.float64]) -> Field:
    none = [0.0] * light.size
    return Field(light.shape[1], light.shape[0], light.ravel().tolist(), none, none, none)


def ringed(depth: float, gap: int = 0) -> npt.NDArray[np.float64]:
    """A board and meat of one light, with a ring darker by so much, open for some cells."""
    y, x = np.mgrid[:SIDE, :SIDE]
    away = np.hypot(x - 55, y - 50)
    light = np.where(abs(away - 28) < 1.5, -depth, 0.0)
    light[50 : 50 + gap, 60:] = 0.0
    return light + np.random.default_rng(5).normal(0, 0.03, light.shape)


@pytest.mark.parametrize(("depth", "gap"), [(1.5, 0), (0.5, 0), (1.5, 2), (0.8, 3)])
def test_what_lies_within_a_dark_ring_is_found(depth: float, gap: int) -> None:
    mask = next(enclosed(field_of(ringed(depth, gap))))
    assert sum(mask) == pytest.approx(np.pi * 29.5**2, rel=0.08)
    assert mask[50 * SIDE + 55]
    assert not mask[10 * SIDE + 10]


@pytest.mark.parametrize("light", [ringed(0.0), ringed(1.5, 30)])
def test_an_open_line_or_none_encloses_nothing(light: npt.NDArray[np.float64]) -> None:
    assert list(enclosed(field_of(light))) == []


def test_a_step_in_light_is_no_line() -> None:
    y, x = np.mgrid[:SIDE, :SIDE]
    assert list(enclosed(field_of(np.where(np.hypot(x - 50, y - 50) < 30, -1.0, 0.0)))) == []
