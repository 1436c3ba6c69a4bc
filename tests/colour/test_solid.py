"""How solid a slice is, and tails cut off; areas against geometry worked out by hand."""

import numpy as np
import numpy.typing as npt
import pytest

from app.colour.field import Field
from app.colour.solid import solidity, without_tails

SIDE = 80


def field() -> Field:
    none = [0.0] * SIDE * SIDE
    return Field(SIDE, SIDE, none, none, none, none)


def mask_of(inside: npt.NDArray[np.bool_]) -> bytearray:
    return bytearray(inside.astype(np.uint8).tobytes())


def oval() -> npt.NDArray[np.bool_]:
    y, x = np.mgrid[:SIDE, :SIDE]
    return np.asarray(np.hypot((x - 40) / 30, (y - 30) / 18) <= 1)


def test_an_oval_is_solid_and_left_as_it_is() -> None:
    mask = mask_of(oval())
    assert solidity(field(), mask) > 0.95
    assert without_tails(field(), mask) == mask


def test_a_right_angle_fills_what_geometry_says() -> None:
    """Two bars of 60 by 10 in a corner: 1100 of the 2350 a thread round them goes round."""
    inside = np.zeros((SIDE, SIDE), bool)
    inside[:60, :10] = inside[:10, :60] = True
    assert solidity(field(), mask_of(inside)) == pytest.approx(1100 / 2350)


@pytest.mark.parametrize("width", [3, 8, 14])
def test_a_tail_along_the_grain_of_a_board_is_cut_off(width: int) -> None:
    slice_ = oval()
    inside = slice_.copy()
    inside[30:, 40 : 40 + width] = inside[30:, 20 : 20 + width] = True
    found = np.frombuffer(without_tails(field(), mask_of(inside)), np.uint8).reshape(SIDE, SIDE) > 0
    assert (found & ~slice_).sum() < 0.04 * slice_.sum()
    assert (slice_ & ~found).sum() < 0.04 * slice_.sum()


def test_what_lies_apart_is_left_out() -> None:
    inside = oval()
    inside[70:, 70:] = inside[70:, :10] = True
    assert without_tails(field(), mask_of(inside)) == mask_of(oval())


def test_a_crescent_no_cut_makes_solid_is_left_as_it_is() -> None:
    y, x = np.mgrid[:SIDE, :SIDE]
    away = np.hypot(x - 40, y - 40)
    mask = mask_of((away < 35) & (away > 25) & (y > 40))
    assert solidity(field(), mask) < 0.6
    assert without_tails(field(), mask) == mask
