"""How much to buy, and blends of one's own."""

import pytest

from app.cure.blends import Blend, BlendPart
from app.journal.demonstration import demonstration
from app.journal.records import Kit, Moment
from app.screens.mix.blends import read_blend
from app.screens.mix.buying import losses_of, to_buy
from app.screens.mix.mix_draft import LaterDraft, MixDraft
from tests.screens.harness import Screens


def test_servings_become_a_raw_weight_as_a_range() -> None:
    found, errors = to_buy(MixDraft(cut="flat", later=LaterDraft(servings="8")), Kit(), [])
    assert not errors
    assert found is not None
    assert found.raw_g.low < found.raw_g.likely < found.raw_g.high
    assert found.raw_g.likely == pytest.approx(2384.0, abs=1.0)  # app.cure.buying's own example


def test_own_batches_take_the_place_of_the_usual_losses() -> None:
    example = demonstration(Moment(1.8e9))
    pasts = [
        (one, tuple(e for e in example.entries if e.batch_id == one.id)) for one in example.batches
    ]
    cuts = {"flat": "Brisket flat", "point": "Brisket point", "brisket": "Brisket, whole"}
    mine = {one.cut for one, _ in pasts}
    own = [losses_of(pasts, key) for key, name in cuts.items() if name in mine]
    assert any(one is not None and "own batches" in one.source for one in own)
    assert losses_of(pasts, "tongue") is None


def test_what_cannot_be_servings_has_its_sentence() -> None:
    found, errors = to_buy(MixDraft(later=LaterDraft(servings="many")), Kit(), [])
    assert found is None
    assert "many" in errors["servings"]


def test_the_weight_to_buy_fills_the_mix(screens: Screens) -> None:
    screens.go("/mix")
    screens.press("How much to buy")
    screens.type("How many eat", "10")
    assert screens.has("common practice, no source")
    assert screens.unnamed() == []
    screens.press("Mix for")
    assert screens.route == "/mix"
    # Of 7.37 lb to buy, what is left after trimming: the cure is for what goes into it.
    assert screens.field("Weight on the label").value == "6.04"
    assert screens.has("Weigh these")


def test_the_working_of_the_weight_opens(screens: Screens) -> None:
    screens.go("/mix/buy")
    screens.type("How many eat", "10")
    screens.press("Raw, likely")
    assert screens.has("raw = servings × serving")


def test_a_blend_is_read_or_says_what_is_missing() -> None:
    rows = [("mace", "0.4"), ("", "")]
    assert read_blend(" Mine ", "100_cm2", rows, set()) == Blend(
        "Mine", "100_cm2", (BlendPart("mace", 0.4),)
    )
    for name, given, says in (
        ("", rows, "name"),
        ("Mine", [("", "2")], "of"),
        ("Mine", [("mace", "")], "how many grams"),
        ("Mine", [("mace", "0")], "more than 0"),
        ("Mine", [], "one spice"),
    ):
        with pytest.raises(ValueError, match=says):
            read_blend(name, "100_cm2", given, set())
    with pytest.raises(ValueError, match="already"):
        read_blend("Mine", "100_cm2", rows, {"mine"})


def test_an_own_blend_is_kept_in_the_kit_and_used_in_the_mix(screens: Screens) -> None:
    screens.go("/mix/blends")
    screens.press("New blend")
    screens.type("Name", "Juniper rub")
    screens.press("It goes: On the surface: a rub")
    screens.type("Spice 1", "juniper")
    screens.type("Grams 1", "2")
    assert screens.unnamed() == []
    screens.press("Save")
    assert screens.bench.shelf.kit().blends[0].name == "Juniper rub"
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.press("Spices and rub")
    assert screens.has("Juniper rub")
    assert screens.has("Juniper")
