"""The record to its full depth in a real browser, with the network gone: wrap, board, chair."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Visit
from tests.browser.hand import SEEN_MS, Hand, is_told, jpeg, offline, said, wait_usable
from tests.browser.test_moments import GOOD, started

STEPS_MOST = 24


def marched(hand: Hand, to: str) -> None:
    """Mark one step after another until the one whose title begins so is marked."""
    page = hand.page
    for _ in range(STEPS_MOST):
        button = page.get_by_role("button", name=re.compile("^Done: ")).first
        title = (button.inner_text() or button.get_attribute("aria-label") or "").strip()
        hand.press(re.compile("^Done: "))
        if re.search("Take it out|Rest|Slice", title):
            page.get_by_role("button", name="Go on all the same").first.tap(timeout=SEEN_MS)
        hand.sees(re.compile(re.escape(title) + r"\."))
        if title.startswith(f"Done: {to}"):
            return
        # Several turns have the same words: each is waited for by itself.
        hand.press("Close", exact=True)
        expect(page.get_by_role("button", name="Close", exact=True)).to_have_count(0)
    raise AssertionError(f"no step {to!r} came up")


def test_the_wrap_from_the_photo_to_the_decision_and_back_again(
    visit: Visit, tmp_path: Path
) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    started(hand)
    marched(hand, "Start the smoke")
    hand.press("Wrap", exact=True)
    hand.sees(re.compile(r"min in the smoke"))
    hand.sees(re.compile("core .* pit|after .*core"))
    hand.choose_file("Photograph the bark", jpeg(tmp_path, "bark.jpg", (70, 35, 25)))
    hand.sees("The bark now")
    hand.write("Pit", "hot")
    hand.press("Wrapped", exact=True)
    hand.sees(re.compile("hot.* is not a temperature|hot"))
    hand.write("Pit", "250")
    hand.write("Core", "158")
    # A look elsewhere keeps what was typed.
    hand.back()
    hand.press("Wrap", exact=True)
    hand.sees("The bark now")
    hand.press("Not yet", exact=True)
    hand.sees(re.compile("Saved. Decision: Not yet: left bare · pit 250 °F · core 158 °F"))
    hand.sees(re.compile(r"Look again (today|tomorrow) \d"))
    hand.press("Wrap", exact=True)
    hand.sees(re.compile("Last logged 250 °F"))
    visitor.picture("wrap-again")
    hand.write("Core", "162")
    hand.press("Wrapped", exact=True)
    hand.sees(re.compile("Saved. Decision: Wrapped · core 162 °F"))
    hand.press("Undo", exact=True)
    hand.sees(re.compile("Taken back. Decision: Wrapped"))
    hand.press("Wrap", exact=True)
    hand.write("Core", "162")
    hand.press("Wrapped", exact=True)
    hand.sees(re.compile("Saved. Decision: Wrapped"))
    assert visitor.barriers() == []
    visitor.kill_tab()
    visitor.open()
    wait_usable(visitor)
    hand.place("Journal")
    hand.press(re.compile("^Brisket"))
    hand.sees("Record")
    assert is_told(hand.page, re.compile("Wrapped · core 162 °F"))


def test_the_board_keeps_what_was_scored_and_says_errors_at_their_field(
    visit: Visit, tmp_path: Path
) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    started(hand)
    hand.press("Slice", exact=True)
    file = tmp_path / "list.jpg"
    file.write_text("This is a shopping list.")
    hand.choose_file("Photograph the slice", file)
    hand.sees("The photo was not taken in.")
    hand.press("Salt: 4")
    hand.write("Grey: no cure came here", "25")
    hand.write("The piece there, thickness", "20")
    hand.sees(re.compile("at most 11 3/4 in"))
    visitor.picture("slice-error")
    hand.press("Save", exact=True)
    hand.sees(re.compile("Not saved yet: The thickness of the piece"))
    hand.back()
    hand.sees("What you scored at the slice is not saved yet.")
    visitor.picture("slice-not-saved")
    hand.press("Go on with the slice")
    hand.sees("Not saved yet. It is kept here until you save it.")
    hand.write("The piece there, thickness", "2 1/2")
    hand.press("Beside a bought one, if you like")
    hand.press("Its salt: 3")
    hand.press("Beside it, ours is: Better")
    visitor.picture("slice-bought")
    assert visitor.barriers() == []
    hand.press("Save", exact=True)
    hand.sees(re.compile("Saved. The slice."))
    hand.sees("On the board")
    hand.sees(re.compile("4 of 5 · the bought one 3"))
    hand.sees("Next time")
    visitor.picture("advice")
    hand.press("Finish", exact=True)
    hand.sees(re.compile("steps are still open"))
    visitor.picture("finish-asked")
    hand.press("Not yet", exact=True)
    visitor.kill_tab()
    visitor.open()
    wait_usable(visitor)
    hand.place("Journal")
    hand.press("Brisket, whole")
    hand.sees("On the board")
    hand.sees("25 % of the thickness")


def test_in_the_chair_the_good_one_is_found_and_what_made_it_good(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    hand.place("Journal")
    hand.press("Filter and order")
    hand.press("Verdict: 4 or more")
    hand.sees("1 of 2 fits.")
    hand.press("Order: Best")
    visitor.picture("journal-filter")
    hand.press("Take the filter off")
    hand.press("Filter and order")
    hand.press("Yield and cost over time")
    hand.sees(re.compile("Yield of 2 batches, from .* to .*: 1 "))
    hand.find(said(visitor.page, re.compile("^Cost a serving of 2 batches")))
    visitor.picture("over-time")
    assert visitor.barriers() == []
    hand.press("Compare", exact=True)
    hand.press(re.compile("Choose two or three: Invented: peppery"))
    hand.press(re.compile("Choose two or three: Invented: thick"))
    hand.press(re.compile("^Which batches"))
    hand.sees("Grey core")
    hand.find(said(visitor.page, "Grey core"))
    visitor.picture("compare-differs")
    hand.press(re.compile("The same in all"))
    assert visitor.barriers() == []


@pytest.mark.parametrize("look", ["light", "dark", "large"])
def test_the_board_and_the_comparison_read_right_in_every_look(visit: Visit, look: str) -> None:
    visitor = offline(visit, look)  # type: ignore[arg-type]
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    page = visitor.page
    page.evaluate("to => { location.hash = to }", f"#{GOOD}/slice")
    hand.sees("In the hand")
    hand.find(said(page, "Tenderness"))
    visitor.picture("slice-scores")
    page.evaluate("to => { location.hash = to }", "#/journal/demo-grey-01")
    hand.sees("Next time")
    hand.find(said(page, "Next time"))
    visitor.picture("next-time")
    page.evaluate("to => { location.hash = to }", f"#{GOOD}/compare")
    hand.sees("Grey core")
    visitor.picture("compare")
    page.evaluate("to => { location.hash = to }", "#/journal")
    hand.press("Yield and cost over time")
    hand.sees(re.compile("Yield of 2 batches"))
    hand.find(said(page, re.compile("^2  Invented")))
    visitor.picture("over-time")
    assert visitor.barriers() == []
