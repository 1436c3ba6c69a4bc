"""Raw weight for a table."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.cure.buying import LOSSES, own_losses, raw_weight
from app.cure.meat import CUTS


def test_every_cut_has_its_losses() -> None:
    assert set(LOSSES) == set(CUTS)


@given(st.floats(0.5, 200), st.sampled_from(sorted(CUTS)))
def test_what_is_bought_comes_down_to_what_is_served(servings: float, cut: str) -> None:
    need, lost = raw_weight(servings, cut=cut), LOSSES[cut]
    assert need.raw_g.low < need.raw_g.likely < need.raw_g.high
    trimmed = need.raw_g.likely * (1 - lost.trim.likely)
    assert trimmed == pytest.approx(need.trimmed_g)
    assert trimmed * (1 - lost.cook.likely) == pytest.approx(need.cooked_g)


def test_own_batches_take_the_place_of_common_practice() -> None:
    lost = own_losses([0.10, 0.20, 0.12], [0.40])
    assert (lost.trim.low, lost.trim.likely, lost.trim.high) == (0.10, 0.12, 0.20)
    assert lost.cook.likely == 0.40
    assert "3 trimmed, 1 cooked" in lost.source
    assert own_losses([], []).cook == LOSSES["brisket"].cook
    assert lost.source == raw_weight(8, losses=lost).working.source


def test_impossible_tables_are_refused() -> None:
    for call in (
        lambda: raw_weight(0),
        lambda: raw_weight(nan),
        lambda: raw_weight(4, serving_g=-1),
        lambda: raw_weight(4, cut="ham"),
        lambda: own_losses([1.0], []),
    ):
        with pytest.raises(ValueError, match="must be"):
            call()
