"""The cuts against USDA's figures, and the shape of a piece."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.cure.blends import GRAMS_PER_TABLESPOON
from app.cure.meat import CUTS, cut_of, density_g_ml, surface_cm2

# Water, protein, fat %; USDA SR, raw.
USDA = {
    "brisket": (61.1, 18.4, 19.1),
    "flat": (69.9, 20.3, 9.3),
    "point": (60.0, 17.7, 21.0),
}


@pytest.mark.parametrize(("key", "composition"), USDA.items())
def test_composition(key: str, composition: tuple[float, float, float]) -> None:
    cut = CUTS[key]
    assert (cut.water_percent, cut.protein_percent, cut.fat_percent) == composition


# Grams in a tablespoon; USDA.
SPOONS = {
    "black pepper": 6.9, "coriander seed": 5.0, "mustard seed": 6.3, "garlic powder": 9.7,
    "onion powder": 6.9, "paprika": 6.8, "allspice": 6.0, "bay": 1.8, "clove": 6.5,
    "ginger": 5.2, "cinnamon": 7.8,
}  # fmt: skip


def test_spoons_of_spice() -> None:
    assert GRAMS_PER_TABLESPOON == SPOONS


@pytest.mark.parametrize("key", CUTS)
def test_meat_is_a_little_heavier_than_water_and_fat_makes_it_lighter(key: str) -> None:
    assert 1.01 < density_g_ml(CUTS[key]) < 1.08
    assert density_g_ml(CUTS["flat"]) > density_g_ml(CUTS["point"])


@given(st.floats(200, 10000), st.floats(20, 120), st.floats(0, 0.7))
def test_surface_of_a_block_grows_and_shrinks_with_its_weight(
    meat: float, thick: float, lost: float
) -> None:
    cut = CUTS["flat"]
    whole = surface_cm2(meat, cut, thick)
    # A cube has the least surface of all blocks of its volume.
    assert whole >= 6 * (meat / density_g_ml(cut)) ** (2 / 3) * (1 - 1e-9)
    assert surface_cm2(meat, cut, thick, lost) == pytest.approx(whole * (1 - lost) ** (2 / 3))


def test_unknown_cuts_and_shrinking_to_nothing_are_refused() -> None:
    with pytest.raises(ValueError, match="brisket, flat"):
        cut_of("ham")
    with pytest.raises(ValueError, match="less than 1"):
        surface_cm2(1000, CUTS["flat"], 40, 1.0)
