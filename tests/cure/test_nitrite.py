"""Ingoing nitrite against the science sheet's rows."""

from math import inf, nan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.cure.nitrite import (
    ingoing_by_equilibrium_ppm,
    ingoing_by_pickup_ppm,
    ingoing_dry_ppm,
    ingoing_pumped_ppm,
    limit_ppm,
)
from app.cure.rules import RULE_SETS

LB, OZ, GAL_ML = 453.59237, 28.349523, 3785.411784


def test_one_ounce_of_cure_on_25_lb_is_156_ppm() -> None:
    """1 oz of 6.25 % cure on 25 lb meat, dry: 156.25 ppm (computed)."""
    assert ingoing_dry_ppm(OZ * 0.0625, 25 * LB) == pytest.approx(156.25, abs=0.001)


def test_two_pounds_in_a_thousand_at_ten_percent_is_200_ppm() -> None:
    """2 lb nitrite, 32 lb of 6.25 % cure, in 1000 lb pickle, 10 % pump: 200 ppm (computed)."""
    assert ingoing_pumped_ppm(32 * LB * 0.0625, 1000 * LB, 0.10) == pytest.approx(200.0)


def test_the_rule_as_written_holds_only_for_ten_pounds_a_gallon() -> None:
    """2 lb per 100 gal at 10 % pump: 200 ppm at 10.0 lb/gal, 239.8 at 8.34 (computed)."""
    assert ingoing_pumped_ppm(2 * LB, 100 * 10.0 * LB, 0.1) == pytest.approx(200.0)
    assert ingoing_pumped_ppm(2 * LB, 100 * 8.34 * LB, 0.1) == pytest.approx(239.8, abs=0.05)


def test_the_rules_ounces_on_meat() -> None:
    """¼ oz/100 lb = 156.25 ppm; 1 oz/100 lb = 625 ppm (computed)."""
    assert ingoing_dry_ppm(0.25 * OZ, 100 * LB) == pytest.approx(156.25, abs=0.001)
    assert ingoing_dry_ppm(OZ, 100 * LB) == pytest.approx(625.0, abs=0.001)


def test_the_two_immersion_methods_differ_on_the_same_pickle() -> None:
    """1.350 g in 4 kg pickle, 5 kg meat: 150 ppm by equilibrium, 33.75 by 10 % pick-up."""
    assert ingoing_by_equilibrium_ppm(1.350, 5000, 4000) == pytest.approx(150.0)
    assert ingoing_by_pickup_ppm(1.350, 4000, 0.10) == pytest.approx(33.75)


@pytest.mark.parametrize(
    ("ppm", "cure_g"), [(120, 1.920), (150, 2.400), (156, 2.496), (200, 3.200)]
)
def test_cure_for_a_kilogram_of_base(ppm: float, cure_g: float) -> None:
    """6.25 % cure for 120 / 150 / 156 / 200 ppm, g per kg of base (computed)."""
    assert ingoing_dry_ppm(cure_g * 0.0625, 1000) == pytest.approx(ppm)


LIMITS = [
    # 9 CFR 424.21(c): immersion 200, pumped 200, dry cured 625
    ("immersion", "us", 200.0),
    ("pumped", "us", 200.0),
    ("dry", "us", 625.0),
    # Reg. 1333/2008 08.3.2: 150 as sodium nitrite
    ("immersion", "eu_before_2025_10", 150.0),
    ("dry", "eu_before_2025_10", 150.0),
    # Reg. 2023/2108: 80 as the ion, 120 as sodium nitrite
    ("immersion", "eu", 119.975),
    # Health Canada list 11
    ("pumped", "canada", 200.0),
]


@pytest.mark.parametrize(("method", "rules", "ppm"), LIMITS)
def test_limits(method: str, rules: str, ppm: float) -> None:
    assert limit_ppm(method, rules) == pytest.approx(ppm, abs=0.001)  # type: ignore[arg-type]


def test_us_rules_are_the_default() -> None:
    assert limit_ppm("immersion") == 200.0


def test_an_own_limit_may_be_lower_but_not_higher_than_any_rule() -> None:
    assert limit_ppm("immersion", "own", 156.0) == 156.0
    for wrong in (201.0, 0.0, -1.0, nan, inf):
        with pytest.raises(ValueError, match="own limit"):
            limit_ppm("immersion", "own", wrong)
    with pytest.raises(ValueError, match="no limit"):
        limit_ppm("immersion", "own")


def test_unknown_words_are_answered_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match="immersion, pumped or dry"):
        limit_ppm("smoked")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="us, eu_before_2025_10, eu, canada, own"):
        limit_ppm("dry", "mars")


@pytest.mark.parametrize("bad", [-1.0, nan, inf])
def test_impossible_numbers_are_refused(bad: float) -> None:
    calls = [
        lambda: ingoing_by_equilibrium_ppm(bad, 1, 1),
        lambda: ingoing_by_equilibrium_ppm(1, bad, 1),
        lambda: ingoing_by_equilibrium_ppm(1, 1, bad),
        lambda: ingoing_by_pickup_ppm(bad, 1, 0.1),
        lambda: ingoing_by_pickup_ppm(1, bad, 0.1),
        lambda: ingoing_by_pickup_ppm(1, 10, bad),
        lambda: ingoing_pumped_ppm(1, 10, bad),
        lambda: ingoing_dry_ppm(bad, 1),
        lambda: ingoing_dry_ppm(1, bad),
    ]
    for call in calls:
        with pytest.raises(ValueError, match=r"must be .*\."):
            call()


def test_nothing_to_share_the_nitrite_is_refused() -> None:
    with pytest.raises(ValueError, match="meat and pickle"):
        ingoing_by_equilibrium_ppm(0, 0, 0)
    with pytest.raises(ValueError, match="cannot hold"):
        ingoing_by_equilibrium_ppm(5, 1000, 4)
    with pytest.raises(ValueError, match="More nitrite"):
        ingoing_dry_ppm(5, 4)


# From a nanogram: numbers near the least a float can hold have no digits left to compare.
@given(st.just(0.0) | st.floats(1e-9, 10), st.floats(1, 1e5), st.floats(100, 1e5), st.floats(0, 1))
def test_pickup_is_the_lower_while_less_is_taken_up_than_the_pickles_share(
    nitrite: float, meat: float, pickle: float, pickup: float
) -> None:
    assume(pickup <= pickle / (meat + pickle))
    by_pickup = ingoing_by_pickup_ppm(nitrite, pickle, pickup)
    assert by_pickup <= ingoing_by_equilibrium_ppm(nitrite, meat, pickle) * (1 + 1e-9)


@pytest.mark.parametrize("rules", [key for key in RULE_SETS if key != "own"])
def test_the_least_and_the_usual_lie_within_the_limit(rules: str) -> None:
    rule = RULE_SETS[rules]
    for most in rule.most_ppm.values():
        assert rule.least_ppm <= rule.usual_ppm <= most
