import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.colour.crowd import counted, rank, told_apart


def drawn(*tones: tuple[float, int], spread: float = 0.03) -> list[float]:
    rng = np.random.default_rng(4)
    return [float(s) for place, n in tones for s in rng.normal(place, spread, n)]


def test_tones_are_found_with_their_shares_though_they_were_expected_elsewhere() -> None:
    found = told_apart(counted(drawn((0.16, 600), (0.60, 400))), (0.24, 0.69), 0.03, 15)
    assert found.at == pytest.approx((0.16, 0.60), abs=0.02)
    assert found.share == pytest.approx((0.6, 0.4), abs=0.03)
    assert found.spread == pytest.approx(0.03, abs=0.01)


def test_blotches_of_another_colour_move_no_tone() -> None:
    blotched = drawn((0.2, 900)) + [1.5] * 60
    assert told_apart(counted(blotched), (0.25,), 0.03, 15).at == pytest.approx((0.2,), abs=0.02)


def test_a_crowd_is_likelier_with_the_tones_it_has() -> None:
    crowd = counted(drawn((0.2, 400), (0.45, 300), (0.7, 300)))
    two = told_apart(crowd, (0.2, 0.7), 0.03, 15)
    three = told_apart(crowd, (0.2, 0.45, 0.7), 0.03, 15)
    assert three.likelihood > two.likelihood + 10.0


@given(st.lists(st.floats(-0.4, 1.8), min_size=1, max_size=400))
def test_a_crowd_counts_no_cell_twice_and_shares_are_parts_of_one(values: list[float]) -> None:
    crowd = counted(values)
    assert sum(count for _, count in crowd) == pytest.approx(min(150, len(values)))
    assert min(values) - 0.02 <= rank(crowd, 0.5) <= max(values) + 0.02
    assert sum(told_apart(crowd, (0.2, 0.7), 0.03, 5).share) <= 1.0
