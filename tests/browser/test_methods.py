"""Each method and the recipe check in the built app, with the network gone, by role and label."""

import pytest

from tests.browser.conftest import Visit
from tests.browser.hand import Hand, offline
from tests.browser.visitor import LOOKS, Look, Visitor


def at_the_mix(visitor: Visitor, weight: str = "7.4") -> Hand:
    hand = Hand(visitor)
    hand.place("Mix")
    hand.write("Weight on the label", weight)
    hand.sees("Weigh these")
    return hand


@pytest.mark.parametrize(
    ("method", "says"),
    [
        ("Equilibrium brine", "Check the brine"),
        ("Strong cover brine", "after 7 days at 39 °F"),
        ("Injection and cover", "Check the brine"),
        ("Dry, in a bag", "Weigh these"),
    ],
)
def test_a_method_gives_its_mix_offline(visit: Visit, method: str, says: str) -> None:
    hand = at_the_mix(offline(visit))
    hand.press("Method")
    hand.press(f"Method: {method}")
    hand.sees(f"Method: {method}, chosen")
    hand.sees(says)
    hand.sees("US cure no. 1")


def test_a_found_recipe_is_checked_and_made_safe_offline(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    hand.place("Mix")
    hand.press("Check a recipe found elsewhere")
    for label, text in (
        ("Meat", "5 lb"),
        ("Cold water", "1 gal"),
        ("Salt", "1 cup"),
        ("Curing salt", "8 tsp"),
    ):
        hand.write(label, text)
    hand.sees("Do not use this recipe as it stands.")
    hand.press("Make it a safe mix")
    hand.sees("Weigh these")
    hand.sees("150 ppm")
    visitor.picture("recipe-made-safe")


@pytest.mark.parametrize("look", LOOKS)
def test_days_and_slice_in_every_look(visit: Visit, look: Look) -> None:
    visitor = offline(visit, look)
    hand = at_the_mix(visitor)
    visitor.picture("mix-first-view")
    hand.press("How long")
    hand.sees("Days until the middle is reached")
    visitor.picture("how-long")
    hand.press("See the slice, day by day")
    hand.sees("Half a day less")
    visitor.picture("slice-by-day")
    # The slider's empty bubble lies over all to the driver, though not to a finger.
    visitor.page.get_by_role("button", name="Half a day less").tap(force=True)
    hand.sees("Day 13.5")
