"""Mix, as it is used: from the weight to what is weighed, and everything that opens from it."""

import re

import flet as ft
import pytest
from attrs import evolve
from pytest_mock import MockerFixture

from app.cure.targets import METHOD_NAMES
from app.cure.turning import TURN_EVERY_DAYS
from app.journal.records import Kit, OwnContainer, OwnSalt, WeighsIn
from app.quantities import System
from app.screens.masses import mix_system
from app.screens.mix.mix import answer
from app.screens.mix.mix_draft import LaterDraft, MixDraft, draft_of, with_units
from app.screens.mix.mix_results import weighed
from tests.screens.harness import Screens


def mixed(screens: Screens, weight: str = "7.4") -> Screens:
    screens.go("/mix")
    screens.type("Weight on the label", weight)
    return screens


def test_the_weight_alone_gives_all_that_is_weighed(screens: Screens) -> None:
    mixed(screens)
    for name in ("Water, boiled", "Water, cold", "Ice", "US cure no. 1", "Salt", "Sugar"):
        assert screens.has(name)
    assert screens.has("150 ppm")
    assert screens.unnamed() == []
    assert screens.small_targets() == []


def test_curing_salt_stands_in_grams_with_ounces_in_its_note() -> None:
    assert weighed(12.5, "us") == ("12.5 g", "0.44 oz")
    assert weighed(500.0, "us") == ("1 lb 1.6 oz", "500 g")
    assert weighed(500.0, "metric") == ("500 g", "")
    assert weighed(500.0, "both") == ("500 g", "1 lb 1.6 oz")


@pytest.mark.parametrize(
    ("kit", "unit", "masses"),
    [
        ("us", "", "us"),
        ("us", "kg", "both"),
        ("us", "lb oz", "us"),
        ("metric", "", "metric"),
        ("metric", "g", "metric"),
        ("metric", "lb", "us"),
        ("both", "lb", "us"),
        ("both", "kg", "both"),
    ],
)
def test_the_unit_chosen_for_the_weight_comes_first(
    kit: System, unit: WeighsIn, masses: str
) -> None:
    assert mix_system(Kit(kit, weighs_in=unit)) == masses


@pytest.mark.parametrize(
    ("unit", "large", "small"), [("kg", "3.4 kg", "7 lb 8 oz"), ("lb", "7 lb 8 oz", "3.4 kg")]
)
def test_every_weight_of_the_mix_is_large_in_the_chosen_unit(
    screens: Screens, unit: str, large: str, small: str
) -> None:
    screens.go("/mix")
    screens.press(unit)
    screens.type("Weight on the label", "3.4 kg")
    other = re.compile(r"[\d.]+ kg|\d{3} g" if unit == "lb" else r"\d+ lb.*|[\d.]+ oz")
    for fold in ("Chill it at once", "Check the brine", "In the container", "Spices and rub"):
        screens.press(fold)
        assert _large(screens)
        assert not [one for one in _large(screens) if other.fullmatch(one)]
    assert screens.has(f"{large} · {small}")
    screens.press("Shopping list")
    assert _large(screens)
    assert not [one for one in _large(screens) if other.fullmatch(one)]
    screens.go("/mix")
    screens.press("Start batch")
    assert screens.field("Name").value.endswith(large)


def _large(screens: Screens) -> list[str]:
    """What is written as a result."""
    return [
        one.value
        for one in screens.controls()
        if isinstance(one, ft.Text) and one.weight == ft.FontWeight.W_700 and (one.size or 0) >= 22
    ]


def test_nothing_weighed_is_said_again_in_the_chill_step(screens: Screens) -> None:
    mixed(screens)
    screens.press("Chill it at once")
    for name in ("It lands at", "Most that may be boiled", "Loose, the ice takes up"):
        assert screens.has(name)
    assert sum(one == "Ice" for one in screens.texts()) == 1


def test_equal_measures_say_where_they_really_land(screens: Screens) -> None:
    mixed(screens)
    screens.press("Chill it at once")
    screens.press("Equal measures of boiled water and ice")
    assert screens.route == "/mix/how/equal_measures"
    # (418 − 334 · 0.60) / (4.18 · 1.60) and the same with 0.50
    assert screens.has("33 °C / 91 °F to 40 °C / 104 °F")
    assert screens.has("FAO, Ice in fisheries")


def test_both_immersion_figures_stand_with_the_one_that_binds(screens: Screens) -> None:
    mixed(screens)
    screens.press("How the nitrite is counted")
    assert screens.has("method two")
    assert screens.has("method one")
    assert screens.has("the higher one: this one counts")
    screens.press("Most allowed")
    assert screens.has("9 CFR 424.21(c)")


def test_what_is_too_weak_can_be_opened(screens: Screens) -> None:
    mixed(screens)
    screens.press("How the nitrite is counted")
    screens.press("Too weak below")
    assert screens.has("Directive 7620.3")


def test_a_container_shows_level_floating_and_the_plate(screens: Screens) -> None:
    box = OwnContainer("c1", "Blue box", "box", 300.0, 220.0, 140.0)
    screens.do(screens.bench.save_kit, Kit(containers=(box,)))
    mixed(screens)
    screens.press("Water and container")
    screens.press("Container: Blue box")
    screens.press("In the container")
    assert screens.has("The brine stands at")
    assert screens.has("floats")
    assert screens.has("A plate to hold it down")


@pytest.mark.parametrize(
    ("method", "says"),
    [
        ("Equilibrium brine", "Check the brine"),
        ("Strong cover brine", "after 7 days at 39 °F"),
        ("Injection and cover", "Check the brine"),
        ("Dry, in a bag", "on the meat in the bag"),
    ],
)
def test_each_method_gives_a_mix(screens: Screens, method: str, says: str) -> None:
    mixed(screens)
    screens.press("Method")
    screens.press(f"Method: {method}")
    assert screens.has("US cure no. 1")
    screens.press("Spices and rub")
    assert screens.has(says)


def test_what_was_asked_of_one_method_is_not_taken_for_another(screens: Screens) -> None:
    """2.5 % of meat and water together is an equilibrium; 2.5 % of the brine is no strong one."""
    mixed(screens)
    screens.press("Salt, sugar, nitrite")
    screens.type("Salt", "2.5")
    screens.press("Method")
    screens.type("In the cure", "14")
    screens.press("Method: Strong cover brine")
    assert screens.bench.shown.draft.salt == ""
    assert screens.bench.shown.draft.days == ""
    assert screens.has("the usual is taken")
    screens.press("Undo")
    assert screens.bench.shown.draft.method == "equilibrium"
    assert screens.bench.shown.draft.salt == "2.5"


@pytest.mark.parametrize("method", METHOD_NAMES.values())
def test_the_mix_says_to_turn_as_often_as_the_plan_turns(screens: Screens, method: str) -> None:
    mixed(screens)
    screens.press("Method")
    screens.press(f"Method: {method}")
    if method != METHOD_NAMES["dry"]:
        screens.press("In the container")
    assert screens.has("turn it every second day")
    assert TURN_EVERY_DAYS == 2


def test_injection_says_how_much_is_pumped(screens: Screens) -> None:
    mixed(screens)
    screens.press("Method")
    screens.press("Method: Injection and cover")
    screens.press("Check the brine")
    assert screens.has("Pump in")


def test_a_dry_cure_has_no_brine_to_chill_or_check(screens: Screens) -> None:
    mixed(screens)
    screens.press("Method")
    screens.press("Method: Dry, in a bag")
    assert not screens.has("Chill it at once")
    assert not screens.has("Check the brine")


def test_above_the_limit_it_stops_and_offers_the_most(screens: Screens) -> None:
    mixed(screens)
    screens.press("Salt, sugar, nitrite")
    screens.type("Nitrite", "300")
    assert screens.has("Too much nitrite")
    assert not screens.has("Weigh these")
    screens.press("Use the most allowed, 200 ppm")
    assert screens.has("Weigh these")
    assert screens.has("200 ppm")


def test_cure_no_2_is_refused_with_its_reason(screens: Screens) -> None:
    screens.do(screens.bench.save_kit, Kit(salts=(OwnSalt("n", "Number two", 6.25, 4.0),)))
    mixed(screens)
    screens.press("Curing salt")
    screens.press("Curing salt: Number two · 6.25 %")
    assert screens.has("nitrate would stay in the meat")
    assert not screens.has("Weigh these")


def test_what_cannot_be_read_has_its_sentence_and_stays_open(screens: Screens) -> None:
    mixed(screens)
    screens.press("Salt, sugar, nitrite")
    screens.type("Salt", "much")
    assert screens.has("“much” is not a number for the salt")
    screens.press("Meat")
    assert screens.has("“much” is not a number for the salt")


def test_the_list_follows_from_the_mix(screens: Screens) -> None:
    mixed(screens)
    screens.press("Shopping list")
    assert screens.route == "/mix/list"
    assert screens.has("buy 1 × 4 oz")


def test_a_draft_reads_back_as_the_request_it_was_made_of() -> None:
    kit = Kit("metric")
    for draft in (
        MixDraft(weight="3.4", pickup="12", shrink="20", spices=None, rub=None),
        MixDraft(weight="2", method="injection", pump="15", water="1.5", cut="flat"),
        MixDraft(weight="2", method="cover", days="5", salt="12", fat_cap_on=True),
        MixDraft(weight="2", method="dry", thickness="45", ascorbate="500"),
    ):
        made = answer(draft, kit).mix
        assert made is not None
        again = answer(draft_of(made.request, kit), kit).mix
        assert again is not None
        assert again.request == made.request


def test_the_list_is_shared_and_said_so(screens: Screens) -> None:
    mixed(screens)
    screens.press("Shopping list")
    screens.press("Share")
    assert screens.has("Shared.")
    text, title = screens.device.shared_texts[0]  # type: ignore[attr-defined]
    assert title == "Shopping list"
    assert "never spoon it" in text


def test_where_nothing_shares_the_words_are_copied(screens: Screens, mocker: MockerFixture) -> None:
    mixed(screens)
    screens.press("Shopping list")
    mocker.patch.object(screens.device, "share_text", return_value="copied")
    screens.press("Share")
    assert screens.has("it is copied instead")


def test_a_number_keeps_its_unit_when_the_units_change(screens: Screens) -> None:
    mixed(screens)
    bench = screens.bench
    typed = evolve(bench.shown.draft, thickness="2.5", water="3 L", later=LaterDraft(fridge="38"))
    screens.do(lambda: bench.show(draft=typed))
    before = answer(typed, bench.kit).draft.request
    screens.do(bench.save_kit, Kit("metric"))
    after = bench.shown.draft
    assert (after.thickness, after.water, after.later.fridge) == ("2.5 in", "3 L", "38 °F")
    assert answer(after, bench.kit).draft.request == before
    assert screens.field("Weight on the label (kg)").value == "7.4 lb"


@pytest.mark.parametrize(
    ("typed", "unit", "after"),
    [
        ("7.4", "", "7.4 lb"),
        ("7 6", "lb oz", "7 lb 6 oz"),
        ("7", "lb oz", "7 lb"),
        ("3.4", "kg", "3.4"),
        ("", "lb oz", ""),
    ],
)
def test_a_weight_keeps_what_it_meant(typed: str, unit: WeighsIn, after: str) -> None:
    told = with_units(MixDraft(weight=typed), Kit(weighs_in=unit), Kit("metric"))
    assert told.weight == after


def test_an_empty_weight_takes_the_new_units(screens: Screens) -> None:
    screens.go("/mix")
    screens.press("Unit: lb oz")
    screens.do(screens.bench.save_kit, Kit("metric"))
    assert screens.field("Weight on the label (kg)").value == ""


@pytest.mark.parametrize(
    ("unit", "typed", "says"),
    [
        ("lb oz", "7 18", "A pound has 16 ounces"),
        ("g", "3.400", "was read as 3.4 g"),
        ("lb", "7.4", "7 lb 6 oz · 3.36 kg"),
        ("kg", "3,4", "3.4 kg · 7 lb 8 oz"),
    ],
)
def test_a_weight_is_told_as_it_was_read(
    screens: Screens, unit: str, typed: str, says: str
) -> None:
    screens.go("/mix")
    screens.press(unit)
    screens.type("Weight on the label", typed)
    assert says in " ".join(screens.texts() + screens.spoken())
