"""A recipe found elsewhere, read as it is written and told what it does."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.cure.as_written import WrittenLine, days_written, grams_written
from app.cure.found_recipe import FoundRecipe, reckon
from app.cure.mix import work_out
from app.cure.recipe_check import check_recipe
from app.cure.recipe_turned import safe_request

LB, GAL = 453.59237, 3785.411784

WRITTEN = [
    ("meat", "5 lb", (5 * LB, 5 * LB)),
    ("meat", "3-4 lb", (3 * LB, 4 * LB)),
    ("meat", "3 to 4 pounds", (3 * LB, 4 * LB)),
    ("meat", "2-1/2 lb", (2.5 * LB, 2.5 * LB)),
    ("water", "1 gal", (GAL, GAL)),
    ("water", "1 1/2 to 2 qt", (1.5 * GAL / 4, 2 * GAL / 4)),
    # Loose household ice 0.50 to 0.60 kg/L.
    ("ice", "1 gal", (0.50 * GAL, 0.60 * GAL)),
    # Coarse salts from 2.8 g a teaspoon; table salt 18 g a tablespoon (USDA).
    ("salt", "1 tbsp", (3 * 2.8, 18.0)),
    ("salt", "300 g", (300.0, 300.0)),
    # White 200 g, packed brown 220 g a cup (USDA).
    ("sugar", "½ cup", (100.0, 110.0)),
]


@pytest.mark.parametrize(("what", "text", "ends"), WRITTEN)
def test_amounts_as_written(what: str, text: str, ends: tuple[float, float]) -> None:
    got = grams_written(WrittenLine(what, text))  # type: ignore[arg-type]
    assert (got.low, got.high) == pytest.approx(ends, rel=1e-3)
    assert got.low <= got.likely <= got.high


def test_known_crystals_narrow_the_spread() -> None:
    spread = {
        crystals: grams_written(WrittenLine("salt", "1 cup", crystals))  # type: ignore[arg-type]
        for crystals in ("unknown", "fine", "coarse")
    }
    assert spread["fine"].low > spread["coarse"].high
    assert spread["unknown"].low == spread["coarse"].low
    assert spread["unknown"].high >= spread["fine"].likely


@pytest.mark.parametrize(
    ("text", "ends"),
    [("7", (7, 7)), ("5-7 days", (5, 7)), ("1 week", (7, 7)), ("36 h", (1.5, 1.5))],
)
def test_days_as_written(text: str, ends: tuple[float, float]) -> None:
    got = days_written(text)
    assert (got.low, got.high) == pytest.approx(ends)


@pytest.mark.parametrize(
    ("what", "text", "words"),
    [
        ("salt", "2", "no unit"),
        ("salt", "a handful", "cannot be read"),
        ("meat", "2 cups", "Meat goes by weight"),
        ("meat", "4-3 lb", "more to less"),
        ("salt", "-3 cups", "below 0"),
    ],
)
def test_what_cannot_be_read_is_refused(what: str, text: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        grams_written(WrittenLine(what, text))  # type: ignore[arg-type]


def recipe(*lines: tuple[str, str], **more: object) -> FoundRecipe:
    return FoundRecipe(tuple(WrittenLine(w, t) for w, t in lines), **more)  # type: ignore[arg-type]


BRINE = (("meat", "5 kg"), ("water", "3.7 kg"), ("salt", "255.4 g"), ("sugar", "24.6 g"))


def test_weights_leave_no_spread() -> None:
    """5 kg meat + 4 kg pickle with 21.60 g of 6.25 % cure: 150 ppm by equilibrium."""
    found = check_recipe(recipe(*BRINE, ("cure", "21.6 g")))
    assert found.nitrite_ppm.low == found.nitrite_ppm.high == pytest.approx(150.0, abs=0.05)
    by_basis = {one.basis: one.ppm.likely for one in found.figures}
    assert by_basis["pick-up"] == pytest.approx(33.75, abs=0.05)
    assert not found.could_pass_limit
    assert found.says[-1].severity == "hint"


def test_a_spoon_of_cure_may_pass_where_its_weight_would_not() -> None:
    spoons = check_recipe(recipe(*BRINE, ("cure", "4½ tsp")))
    assert spoons.could_pass_limit
    assert not spoons.surely_passes
    assert spoons.nitrite_ppm.likely < spoons.limit_ppm
    assert spoons.says[0].severity == "danger"
    sure = check_recipe(recipe(*BRINE, ("cure", "100 g")))
    assert sure.surely_passes
    assert "as it stands" in sure.headline


def test_too_little_cure_and_none_are_said() -> None:
    little = check_recipe(recipe(*BRINE, ("cure", "8 g")))
    assert any("cures poorly" in one.text for one in little.says)
    none = check_recipe(recipe(*BRINE))
    assert none.middle == "no cure"
    assert any("no curing salt" in one.text for one in none.says)


def test_ice_by_volume_makes_a_warm_and_stronger_brine() -> None:
    """Equal volumes of boiled water and loose ice: neither the water nor the cold."""
    found = check_recipe(
        recipe(("meat", "5 lb"), ("boiled", "½ gal"), ("ice", "½ gal"), ("salt", "300 g"))
    )
    assert found.landing_c is not None
    assert found.landing_c.low > 20.0
    assert found.reckoned.water.high < 0.85 * GAL
    assert found.strength_percent is not None
    assert found.strength_percent.low > 100 * 300 / (300 + GAL)
    assert any("by volume" in one.text for one in found.says)


def test_a_thick_point_is_not_reached_in_a_week_where_a_flat_is() -> None:
    lines = (("meat", "12 lb"), ("water", "1 gal"), ("salt", "400 g"), ("cure", "45 g"))
    point = check_recipe(recipe(*lines, days="7 days", cut="point", thickness_mm=90.0))
    flat = check_recipe(recipe(*lines, days="7 days", cut="flat", thickness_mm=25.0))
    assert point.middle == "not reached"
    assert point.grey_percent is not None
    assert point.grey_percent.likely > 10.0
    assert flat.middle == "reached"
    assert point.salt_percent.likely < flat.salt_percent.likely


def test_warm_cures_and_wrong_cures_are_called_dangerous() -> None:
    warm = check_recipe(recipe(*BRINE, ("cure", "21.6 g"), temperature_c=12.0, days="5"))
    assert warm.says[0].severity == "danger"
    second = check_recipe(
        recipe(*BRINE, ("cure", "21.6 g"), cure_name="No. 2", cure_nitrate_percent=4.0)
    )
    assert "nitrate" in second.unsuitable
    assert second.says[0].severity == "danger"


def test_methods_are_told_by_the_lines() -> None:
    dry = recipe(("meat", "2 kg"), ("salt", "50 g"), ("cure", "5 g"), days="10 days")
    assert reckon(dry).method == "dry"
    assert check_recipe(dry).figures[0].ppm.likely == pytest.approx(156.25)
    assert reckon(recipe(*BRINE, pump_percent=10.0)).method == "injection"
    assert reckon(recipe(*BRINE, days="7")).method == "cover"
    assert reckon(recipe(*BRINE)).method == "equilibrium"


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (recipe(("salt", "50 g")), "how much meat"),
        (recipe(*BRINE, method="dry"), "no water"),
        (recipe(("meat", "1 kg"), ("salt", "1 g"), method="cover"), "needs water"),
        (recipe(*BRINE, method="injection"), "how much pickle"),
        (recipe(*BRINE, rules="mars"), "rules must be"),
        (recipe(*BRINE, days="soon"), "cannot be read"),
    ],
)
def test_recipes_that_say_too_little_are_refused(found: FoundRecipe, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        check_recipe(found)


def test_turned_into_a_mix_of_ours_it_keeps_its_character() -> None:
    found = recipe(
        ("meat", "12 lb"), ("water", "1 gal"), ("salt", "450 g"), ("sugar", "1 cup"),
        ("cure", "10 oz"), days="5-7 days", cut="flat",
    )  # fmt: skip
    assert check_recipe(found).surely_passes
    ours = work_out(safe_request(found, meat_g=3000.0))
    assert ours.request.method == "cover"
    assert ours.request.days == 6.0
    assert ours.brine is not None
    before = check_recipe(found).strength_percent
    assert before is not None
    assert ours.brine.salt_percent == pytest.approx(before.likely)
    assert ours.nitrite.ppm == pytest.approx(150.0)


@given(
    st.sampled_from(["2 lb", "5 lb", "3-4 kg"]),
    st.sampled_from(["", "1 qt", "1 gal", "3 gal"]),
    st.sampled_from(["1 tbsp", "½ cup", "200 g", "1 lb"]),
    st.sampled_from(["", "1 tsp", "2 tbsp", "20 g", "1 lb"]),
    st.sampled_from(["", "5-7 days", "2 weeks"]),
    st.sampled_from(["us", "eu", "canada"]),
    st.sampled_from([0.0, 10.0]),
    st.sampled_from([(6.25, 0.0), (0.5, 0.0), (6.25, 4.0)]),
)
def test_any_recipe_that_can_be_reckoned_can_be_made_safe(
    meat: str,
    water: str,
    salt: str,
    cure: str,
    days: str,
    rules: str,
    pump: float,
    label: tuple[float, float],
) -> None:
    lines = [("meat", meat), ("salt", salt)]
    lines += [("water", water)] if water else []
    lines += [("cure", cure)] if cure else []
    found = recipe(
        *lines,
        days=days,
        rules=rules,
        pump_percent=pump if water else 0.0,
        cure_nitrite_percent=label[0],
        cure_nitrate_percent=label[1],
    )
    check = check_recipe(found)
    assert check.nitrite_ppm.low <= check.nitrite_ppm.likely <= check.nitrite_ppm.high
    assert check.headline
    assert check.says
    ours = work_out(safe_request(found))
    assert ours.nitrite.ppm <= ours.nitrite.most_ppm * (1 + 1e-9)
