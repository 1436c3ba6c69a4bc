"""The name a batch was offered follows its weight; one given by hand does not."""

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.naming import name_for, usual_name
from app.journal.repeat import repeat
from app.journal.trimmed import mixed_for
from app.quantities import System
from tests.journal.made import NOW, batch, names


@pytest.mark.parametrize(
    ("system", "was", "now"),
    [
        ("us", "Brisket flat, 7 lb 6 oz", "Brisket flat, 6 lb 8 oz"),
        ("metric", "Brisket flat, 3.35 kg", "Brisket flat, 2.95 kg"),
        ("both", "Brisket flat, 3.35 kg / 7 lb 6 oz", "Brisket flat, 2.95 kg / 6 lb 8 oz"),
    ],
)
def test_a_name_that_was_offered_follows_the_weight_in_its_own_units(
    system: System, was: str, now: str
) -> None:
    made = batch(usual_name("Brisket flat", 3345.0, system), mix=MixRequest(3345.0))
    assert made.name == was
    again = mixed_for(made, 2948.0)
    assert (again.name, again.mix.meat_g) == (now, 2948.0)
    # Trimmed once more, it still follows.
    assert mixed_for(again, 3345.0).name == was


@pytest.mark.parametrize(
    "given", ["Flat for Easter", "Brisket flat, 7 lb 6 oz, for Easter", "Brisket flat, 5 lb"]
)
def test_a_name_given_by_hand_stays(given: str) -> None:
    made = batch(given, mix=MixRequest(3345.0))
    assert mixed_for(made, 2948.0).name == given
    assert name_for(evolve(made, cut="Round"), 2948.0) == given


def test_a_repeat_without_a_name_of_its_own_has_the_new_weight() -> None:
    made = batch("Brisket flat, 7 lb 6 oz", mix=MixRequest(3345.0))
    assert repeat(made, 2948.0, None, NOW, names()).name == "Brisket flat, 6 lb 8 oz"
