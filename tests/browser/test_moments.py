"""The four moments the program is for, in a real browser, at phone size, with the network gone."""

import re
from pathlib import Path

import pytest
import vobject

from tests.browser.conftest import Visit
from tests.browser.hand import Hand, jpeg, offline, wait_usable
from tests.browser.visitor import Visitor

FEW_TAPS = 3


def started(hand: Hand, weight: str = "7.4") -> None:
    """Start a batch from a mix, as it is done in the shop."""
    hand.place("Mix")
    hand.write("Weight on the label", weight)
    hand.sees("Weigh these")
    hand.press("Start batch")
    hand.sees("What it becomes")
    hand.press("Start", exact=True)
    hand.sees("Record")


def test_in_the_shop_from_the_label_to_the_list(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    hand.sees("Nothing is curing.")
    visitor.picture("now-empty")
    hand.press("Mix a cure")
    hand.write("Weight on the label", "7.4")
    hand.sees("Weigh these")
    visitor.picture("mix")
    hand.press("Shopping list")
    hand.sees("US cure no. 1")
    hand.sees(re.compile(r"Salt"))
    visitor.picture("shopping-list")
    assert hand.taps <= FEW_TAPS
    assert visitor.barriers() == []


def test_at_the_wrap_the_bark_is_beside_the_earlier_one_and_stays(
    visit: Visit, tmp_path: Path
) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    started(hand)
    hand.press("Wrap", exact=True)
    hand.sees("Bark of Invented: peppery flat")
    hand.choose_file("Photograph the bark", jpeg(tmp_path, "bark.jpg", (70, 35, 25)))
    hand.sees("Photo saved.")
    hand.sees("The bark now")
    visitor.picture("wrap")
    assert visitor.barriers() == []
    hand.write("Pit", "250")
    hand.write("Core", "160")
    hand.press("Wrapped", exact=True)
    hand.sees(re.compile("Wrapped · pit 250 °F · core 160 °F"))
    visitor.kill_tab()
    visitor.open()
    wait_usable(visitor)
    hand.place("Journal")
    hand.press("Brisket, whole")
    hand.sees(re.compile("Wrapped · pit 250 °F · core 160 °F"))
    hand.press("Wrap", exact=True)
    hand.sees("The bark now")


def test_what_is_no_photo_is_refused_and_nothing_is_lost(visit: Visit, tmp_path: Path) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    started(hand)
    file = tmp_path / "list.jpg"
    file.write_text("This is a shopping list.")
    hand.press("Wrap", exact=True)
    hand.choose_file("Photograph the bark", file)
    hand.sees("The photo was not taken in.")
    visitor.picture("no-photo")
    hand.press("Not yet")
    hand.sees("Not yet: left bare")


def test_at_the_probe_and_the_board(visit: Visit, tmp_path: Path) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    started(hand)
    hand.press("Probe", exact=True)
    hand.write("It reads", "199")
    hand.press("Nearly: a little grip")
    hand.sees("Last felt")
    hand.press("Where: Point")
    hand.press("Soft: slides in like warm butter")
    hand.sees(re.compile("Point"))
    visitor.picture("probe")
    assert visitor.barriers() == []
    hand.press("Pulled: done")
    hand.sees("Pulled: done")
    hand.press("Slice", exact=True)
    hand.choose_file("Photograph the slice", jpeg(tmp_path, "slice.jpg", (170, 60, 60)))
    hand.sees("The slice")
    hand.press("A slice bent double: Bends")
    hand.press("A strip pulled by its ends: Parts with a tug")
    hand.write("Grey: no cure came here", "25")
    for label, mark in (("Salt", 4), ("Smoke", 3), ("Pepper", 3), ("Tenderness", 5)):
        hand.press(f"{label}: {mark}")
    hand.press("Verdict: 4")
    visitor.picture("slice")
    assert visitor.barriers() == []
    hand.press("Save", exact=True)
    hand.sees("On the board")
    visitor.kill_tab()
    visitor.open()
    wait_usable(visitor)
    hand.place("Journal")
    hand.sees(re.compile("4 of 5"))
    hand.press("Brisket, whole")
    hand.sees("25 % of the thickness")
    hand.sees("Next time")


def test_in_the_chair_found_and_repeated_for_a_new_weight(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    hand.place("Journal")
    hand.write("Find", "peppery")
    hand.press("Invented: peppery flat")
    hand.sees("On the board")
    visitor.picture("batch")
    hand.press("The mix", exact=True)
    hand.sees("US cure no. 1")
    before = cure_g(visitor)
    hand.back()
    hand.sees("On the board")
    hand.press("Repeat for a new weight")
    hand.write("New weight", "14")
    hand.sees("Weigh these")
    visitor.picture("repeat")
    assert visitor.barriers() == []
    # Twice the meat, twice the cure; the example was made for 7 lb.
    assert cure_g(visitor) == pytest.approx(2 * before, rel=0.02)
    hand.press("Start", exact=True)
    hand.sees("Batch started.")
    hand.press("Plan", exact=True)
    hand.sees(re.compile("today|tomorrow"))
    visitor.picture("plan")


def cure_g(visitor: Visitor) -> float:
    """The grams of curing salt that stand on the screen."""
    told = visitor.page.locator("flt-semantics-host").first.inner_text()
    found = re.search(r"US cure no\. 1\s+([\d.]+) g", told)
    assert found is not None, told
    return float(found[1])


@pytest.mark.parametrize("look", ["light", "dark", "large"])
def test_every_screen_of_the_record_bars_nobody(visit: Visit, look: str) -> None:
    visitor = offline(visit, look)  # type: ignore[arg-type]
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    started(hand)
    hand.press("Close", exact=True)
    page = visitor.page
    for name, route, words in SCREENS:
        page.evaluate("to => { location.hash = to }", f"#{route}")
        hand.sees(words)
        visitor.picture(name)
        assert visitor.barriers() == [], name


GOOD = "/journal/demo-good-01"
SCREENS = (
    ("journal", "/journal", "Filter and order"),
    ("batch", GOOD, "On the board"),
    ("plan", f"{GOOD}/plan", "To be eaten"),
    ("temperatures", f"{GOOD}/heat", "Safe?"),
    ("probe", f"{GOOD}/probe", "How it goes in"),
    ("wrap", f"{GOOD}/wrap", "Photograph the bark"),
    ("slice", f"{GOOD}/slice", "In the hand"),
    ("repeat", f"{GOOD}/repeat", "New weight"),
    ("compare", f"{GOOD}/compare", "Which batches"),
    ("storing", f"{GOOD}/store", "How long"),
    ("entry", f"{GOOD}/add/temperature", "Not just now?"),
    ("batch-mix", f"{GOOD}/mix", "Weighed"),
    ("reminders", "/reminders", "Calendar: sure"),
    ("now", "/", "Buy the meat and the cure"),
)


def test_the_calendar_file_is_read_by_another_reader(visit: Visit, tmp_path: Path) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    started(hand)
    hand.place("Now")
    hand.press("Reminders")
    hand.sees("Calendar: sure")
    with visitor.page.expect_download() as handed:
        hand.press("Save the calendar file")
    file = tmp_path / "plans.ics"
    handed.value.save_as(file)
    read = vobject.readOne(file.read_bytes().decode())
    titles = [event.summary.value for event in read.vevent_list]
    assert any(title.startswith("Start the smoke: Brisket, whole") for title in titles)
    assert all(hasattr(event, "valarm") for event in read.vevent_list)


def test_the_screen_is_kept_on_when_asked_and_let_go_again(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    started(hand)
    hand.place("Now")
    hand.press("Reminders")
    hand.press("Keep the screen on")
    hand.sees("The screen stays on while the program is open.")
    hand.press("Let the screen sleep")
    hand.sees("The screen may sleep.")
