"""Ice and water: the balance, what is left over, and the trade's own rule."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.cure.ice import (
    CRUSHED_ICE_KG_L,
    LOOSE_ICE_KG_L,
    equal_volumes,
    ice_to_land_at_g,
    landing,
    landing_temperature_c,
    largest_boiled_fraction,
    loose_volume_ml,
)

masses = st.one_of(st.just(0.0), st.floats(0.01, 1e5))
degrees = st.floats(0, 100)


def test_equal_masses_of_boiling_water_and_ice_land_at_ten() -> None:
    """1 kg water at 100 °C + 1 kg ice at 0 °C → ≈ 10 °C (computed)."""
    assert landing_temperature_c(1000, 100, 0, 0, 1000) == pytest.approx(10.05, abs=0.01)


def test_at_most_46_percent_may_have_been_boiled_for_4_c() -> None:
    """To land at 4 °C at most about 46 % of the final water may have been boiled (computed)."""
    assert largest_boiled_fraction(4.0) == pytest.approx(0.466, abs=0.001)


@given(st.floats(0, 60))
def test_the_largest_boiled_fraction_lands_where_it_says(target: float) -> None:
    hot = 1000 * largest_boiled_fraction(target)
    assert landing_temperature_c(hot, 100, 0, 0, 1000 - hot) == pytest.approx(target, abs=1e-9)


def test_ice_left_over_lands_at_nought() -> None:
    mixed = landing(100, 100, 0, 0, 1000)
    assert mixed.temperature_c == 0.0
    # 100 g give 41.8 kJ, which melt 125.1 g of 334 kJ/kg.
    assert mixed.ice_left_g == pytest.approx(1000 - 41.8 / 0.334, abs=0.1)


@given(masses, degrees, masses, degrees, masses)
def test_heat_is_conserved(hot: float, th: float, cold: float, tc: float, ice: float) -> None:
    if hot + cold + ice == 0.0:
        return
    mixed = landing(hot, th, cold, tc, ice)
    before = 4.18 * (hot * th + cold * tc)
    melted = ice - mixed.ice_left_g
    water = hot + cold + melted
    after = 4.18 * water * mixed.temperature_c + 334 * melted
    assert after == pytest.approx(before, rel=1e-9, abs=1e-3)
    assert 0.0 <= mixed.ice_left_g <= ice
    assert mixed.temperature_c <= max(th, tc) + 1e-9


@given(masses, masses, st.floats(0, 30), st.floats(0, 30))
def test_the_ice_asked_for_lands_at_the_target_or_is_all_there_is(
    hot: float, other: float, tap: float, target: float
) -> None:
    if hot + other == 0.0:
        return
    ice = ice_to_land_at_g(hot, 100, other, tap, target)
    lands = landing_temperature_c(hot, 100, other - ice, tap, ice)
    if ice == other:
        assert lands >= target - 1e-6
    elif ice > 0.0:
        assert lands == pytest.approx(target, abs=1e-6)
    else:
        assert lands <= target + 1e-6


@pytest.mark.parametrize("loose", [LOOSE_ICE_KG_L, CRUSHED_ICE_KG_L])
def test_equal_volumes_give_neither_the_water_nor_the_cold(loose: object) -> None:
    """A gallon of ice does not stand for a gallon of water: 0.55-0.6 of one, and warm."""
    real = equal_volumes(3785.4, loose)  # type: ignore[arg-type]
    assert real.stated_water_g == pytest.approx(2 * 3785.4)
    assert real.water_g.high < 0.9 * real.stated_water_g
    assert real.landing_c.low > 20.0


def test_a_gallon_of_loose_ice_is_about_half_a_gallon_of_water() -> None:
    real = equal_volumes(3785.4)
    ice = (real.water_g.low - 3785.4) / 3785.4, (real.water_g.high - 3785.4) / 3785.4
    assert ice == pytest.approx((0.5, 0.6))
    room = loose_volume_ml(3785.4)
    assert room.low / 3785.4 > 1.6


@pytest.mark.parametrize("bad", [-1.0, nan, inf])
def test_impossible_numbers_are_refused(bad: float) -> None:
    for call in (
        lambda: landing(bad, 100, 0, 0, 1),
        lambda: landing(1, 100, bad, 0, 1),
        lambda: landing(1, 100, 0, 0, bad),
        lambda: landing(1, bad, 0, 0, 1),
        lambda: landing(1, 100, 1, bad, 1),
        lambda: largest_boiled_fraction(bad),
        lambda: largest_boiled_fraction(4.0, bad),
        lambda: loose_volume_ml(bad),
        lambda: equal_volumes(bad),
    ):
        with pytest.raises(ValueError, match="must be"):
            call()


def test_nothing_at_all_and_hot_water_that_is_not_hot_are_refused() -> None:
    with pytest.raises(ValueError, match="together"):
        landing(0, 100, 0, 0, 0)
    with pytest.raises(ValueError, match="hotter"):
        largest_boiled_fraction(50.0, 40.0)
