"""A recipe found elsewhere, as written, and the safe mix of ours made of it."""

import pytest
from attrs import evolve

from app.journal.records import Kit
from app.screens.mix.found_recipe import checked, safe_draft
from app.screens.mix.mix import answer
from app.screens.mix.mix_draft import MixDraft
from app.screens.mix.recipe_draft import RecipeDraft, read_recipe
from tests.screens.harness import Screens

STRONG = RecipeDraft(
    meat="5 lb",
    boiled="1 gal",
    ice="1 gal",
    salt="1 1/2 cups",
    cure="8 tsp",
    sugar="1 cup",
    days="5-7 days",
)


def typed(screens: Screens) -> Screens:
    screens.go("/mix")
    screens.press("Check a recipe found elsewhere")
    for label, text in (
        ("Meat", "5 lb"),
        ("Water it heats", "1 gal"),
        ("Ice", "1 gal"),
        ("Salt", "1 1/2 cups"),
        ("Curing salt", "8 tsp"),
        ("Days in the cure", "5-7 days"),
    ):
        screens.type(label, text)
    return screens


def test_spoons_and_cups_come_out_as_ranges() -> None:
    check = checked(STRONG, Kit()).check
    assert check is not None
    assert check.nitrite_ppm.low < check.nitrite_ppm.likely < check.nitrite_ppm.high
    assert check.could_pass_limit
    assert check.landing_c is not None
    assert check.landing_c.low > 30.0


def test_ours_keeps_the_character_within_the_limit() -> None:
    kit = Kit()
    made = safe_draft(MixDraft(recipe=STRONG), kit)
    mix = answer(made, kit).mix
    assert mix is not None
    assert mix.request.method == "cover"
    assert mix.request.days == pytest.approx(6.0)
    assert mix.nitrite.ppm <= mix.nitrite.most_ppm
    assert made.recipe == STRONG


def test_ours_is_for_the_meat_in_the_mix() -> None:
    made = safe_draft(MixDraft(weight="10", recipe=STRONG), Kit())
    assert made.weight == "10"


def test_cure_no_2_and_pure_nitrite_are_refused_and_replaced() -> None:
    for name in ("Cure no. 2, with nitrate", "Pure sodium nitrite"):
        draft = RecipeDraft(meat="5 lb", water="1 gal", cure="1 oz", salt="8 oz", cure_name=name)
        check = checked(draft, Kit()).check
        assert check is not None
        assert check.unsuitable
        assert safe_draft(MixDraft(recipe=draft), Kit()).cure == "US cure no. 1"


def test_a_line_without_a_unit_has_its_sentence() -> None:
    got = read_recipe(RecipeDraft(meat="5 lb", salt="3"), Kit())
    assert got.recipe is None
    assert "has no unit" in got.errors["salt"]


def test_the_verdict_stands_under_the_lines(screens: Screens) -> None:
    typed(screens)
    assert screens.has("Do not use this recipe as it stands.")
    assert screens.has("could pass the limit") or screens.has("above the 200 ppm allowed")
    assert screens.has("not reached")
    assert screens.has("Its ice is told by volume")
    assert screens.unnamed() == []
    assert screens.small_targets() == []
    screens.press("Nitrite")
    assert screens.route == "/mix/recipe/how/nitrite"
    assert screens.has("Directive 7620.3")
    screens.press("Back")
    assert screens.field("Meat").value == "5 lb"


def test_one_press_makes_it_a_mix_of_ours(screens: Screens) -> None:
    typed(screens)
    screens.press("Make it a safe mix")
    assert screens.route == "/mix"
    assert screens.has("Weigh these")
    assert screens.has("150 ppm")


@pytest.mark.parametrize("typed_since", [False, True])
def test_the_mix_typed_before_can_be_had_back(screens: Screens, typed_since: bool) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "3")
    screens.press("Salt, sugar, nitrite")
    screens.type("Salt", "2.2")
    typed(screens)
    screens.press("Make it a safe mix")
    assert screens.bench.shown.draft.salt != "2.2"
    if typed_since:
        screens.type("Weight on the label", "8")
    screens.press("Undo")
    assert screens.has("changed again since") is typed_since
    assert (screens.bench.shown.draft.salt == "2.2") is not typed_since


def test_a_recipe_that_makes_no_sense_is_told_so(screens: Screens) -> None:
    screens.go("/mix/recipe")
    screens.type("Meat", "5 cups")
    assert screens.has("Meat goes by weight")


def test_clear_empties_every_line(screens: Screens) -> None:
    typed(screens)
    screens.press("Clear")
    assert screens.bench.shown.draft.recipe == RecipeDraft()
    screens.press("Undo")
    assert screens.field("Meat").value == "5 lb"


def test_two_salts_of_one_recipe_are_added() -> None:
    one = RecipeDraft(meat="5 lb", water="1 gal", salt="300 g", cure="1 oz")
    two = evolve(one, salt="200 g", salt_2="100 g", crystals_2="coarse")
    checks = [checked(draft, Kit()).check for draft in (one, two)]
    assert checks[0] is not None
    assert checks[1] is not None
    assert checks[0].salt_percent == checks[1].salt_percent
    assert "salt_2" in checked(evolve(two, salt_2="100"), Kit()).errors


def test_a_recipe_typed_is_offered_back_when_a_batch_is_opened_in_the_mix(screens: Screens) -> None:
    batch = screens.start_batch()
    typed(screens)
    screens.go(f"/journal/{batch.id}/mix")
    screens.press("Open in Mix")
    assert screens.bench.shown.draft.recipe == RecipeDraft()
    screens.press("Undo")
    screens.go("/mix/recipe")
    assert screens.field("Meat").value == "5 lb"
