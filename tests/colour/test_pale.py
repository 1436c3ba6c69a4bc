import pytest

from app.colour.field import Field
from app.colour.pale import pale_bounds

W, H = 60, 40


def grid() -> Field:
    none = [0.0] * (W * H)
    return Field(W, H, none, none, none, none)


def turning(width: float) -> dict[int, float]:
    """From grey on the left to cured on the right, over so many cells."""
    return {i: min(1.0, max(0.0, 0.5 + (i % W + 0.5 - W / 2) / width)) for i in range(W * H)}


def pale_share(width: float, step: int = 8) -> float:
    turned = turning(width)
    grey, cured = pale_bounds(grid(), turned, None, step)
    return sum(grey <= t < cured for t in turned.values()) / (W * H)


def test_a_sharp_bound_has_no_pale() -> None:
    assert pale_share(1.0) == 0.0


@pytest.mark.parametrize("width", [10.0, 16.0, 24.0])
def test_a_slow_turn_is_pale_between_a_fifth_of_its_way_and_four(width: float) -> None:
    assert 0.49 * width / W < pale_share(width) < 0.7 * width / W


def test_an_even_band_is_parted_half_way_to_both_ends() -> None:
    banded = {i: 0.0 if i % W < 20 else 0.4 if i % W < 40 else 1.0 for i in range(W * H)}
    assert pale_bounds(grid(), banded, 0.4, 8) == pytest.approx((0.2, 0.7))


def test_a_blurred_bound_is_no_band_though_pale_was_read_there() -> None:
    blurred = {i: 0.0 if i % W < 20 else 0.5 if i % W < 21 else 1.0 for i in range(W * H)}
    assert pale_bounds(grid(), blurred, 0.4, 1) == (0.5, 0.5)


def test_pale_beside_cured_alone_has_one_bound_whatever_its_grain() -> None:
    assert pale_bounds(grid(), turning(1.0), 0.4, 8, False) == pytest.approx((0.2, 0.7))


def test_one_side_alone_has_no_pale() -> None:
    assert pale_bounds(grid(), dict.fromkeys(range(50), 0.9), None, 8) == (0.5, 0.5)
