"""Each method and the recipe check in the built app, with the network gone, by role and label."""

import contextlib

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Visit
from tests.browser.visitor import LOOKS, Look, Visitor

USABLE = "html[data-usable=yes]"
LIMIT_MS = 90_000


def offline(visit: Visit, look: Look = "light") -> Visitor:
    """Someone who had the app once, and opens it where there is no network."""
    visitor = visit(look)
    visitor.allow("ERR_CONNECTION_REFUSED|ERR_INTERNET_DISCONNECTED")  # the network is gone
    page = visitor.open()
    page.wait_for_selector(USABLE, timeout=LIMIT_MS)
    visitor.wait_until_kept()
    visitor.go_offline()
    page.reload()
    page.wait_for_selector(USABLE, timeout=LIMIT_MS)
    visitor.read_aloud()
    return visitor


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name).first.tap()


def write(page: Page, label: str, text: str) -> None:
    box = page.get_by_role("textbox", name=label).first
    box.tap()
    expect(box).to_be_focused()
    # The client takes a moment after the focus before it takes keys, longer on a busy machine.
    for _ in range(5):
        page.keyboard.press("Control+a")
        page.keyboard.type(text)
        with contextlib.suppress(AssertionError):
            expect(box).to_have_value(text, timeout=2000)
            return
    expect(box).to_have_value(text)


def sees(page: Page, words: str) -> None:
    expect(page.get_by_text(words).first).to_be_attached(timeout=20_000)


def at_the_mix(visitor: Visitor, weight: str = "7.4") -> Page:
    page = visitor.page
    page.get_by_role("tab", name="Mix").tap()
    write(page, "Weight on the label", weight)
    sees(page, "Weigh these")
    return page


@pytest.mark.parametrize(
    ("method", "says"),
    [
        ("Equilibrium brine", "Check the brine"),
        ("Strong cover brine", "after 7 days at 4 °C"),
        ("Injection and cover", "Check the brine"),
        ("Dry, in a bag", "Weigh these"),
    ],
)
def test_a_method_gives_its_mix_offline(visit: Visit, method: str, says: str) -> None:
    page = at_the_mix(offline(visit))
    press(page, "Method")
    press(page, f"Method: {method}")
    sees(page, f"Method: {method}, chosen")
    sees(page, says)
    sees(page, "US cure no. 1")


def test_a_found_recipe_is_checked_and_made_safe_offline(visit: Visit) -> None:
    visitor = offline(visit)
    page = visitor.page
    page.get_by_role("tab", name="Mix").tap()
    press(page, "Check a recipe found elsewhere")
    for label, text in (
        ("Meat", "5 lb"),
        ("Cold water", "1 gal"),
        ("Salt", "1 cup"),
        ("Curing salt", "8 tsp"),
    ):
        write(page, label, text)
    sees(page, "Do not use this recipe as it stands.")
    press(page, "Make it a safe mix")
    sees(page, "Weigh these")
    sees(page, "150 ppm")
    visitor.picture("recipe-made-safe")


@pytest.mark.parametrize("look", LOOKS)
def test_days_and_slice_in_every_look(visit: Visit, look: Look) -> None:
    visitor = offline(visit, look)
    page = at_the_mix(visitor)
    visitor.picture("mix-first-view")
    press(page, "How long")
    sees(page, "Days until the middle is reached")
    visitor.picture("how-long")
    press(page, "See the slice, day by day")
    sees(page, "Half a day less")
    visitor.picture("slice-by-day")
    # The slider's empty bubble lies over all to the driver, though not to a finger.
    page.get_by_role("button", name="Half a day less").tap(force=True)
    sees(page, "Day 13.5")
