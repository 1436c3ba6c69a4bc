"""Planning and repeating to their full depth, offline, and the calendar that follows the plan."""

import re
import time
from datetime import date, timedelta
from pathlib import Path

from playwright.sync_api import expect

from build_scripts.hand import SCROLL_PX, scroll
from tests.browser.conftest import Visit
from tests.browser.hand import SEEN_MS, Hand, offline, said, wait_usable
from tests.browser.test_moments import started
from tests.browser.visitor import Visitor
from tests.journal.phone_calendar import PhoneCalendar, by_icalendar


def choose_day(hand: Hand, day: date, arrow: str) -> None:
    """In the phone's choosers: a day, by the arrow to its month, and the time they begin with."""
    page = hand.page
    named = page.get_by_role("button", name=f"{day.day}, {day:%A}, {day:%B} {day.day}, {day.year}")
    for _ in range(12):
        try:
            expect(named).to_be_attached(timeout=2_000)
            break
        except AssertionError:
            page.get_by_role("button", name=arrow).tap()
    named.tap()
    page.get_by_role("button", name="OK", exact=True).tap()
    # Only the chooser of the time has this.
    clock = page.get_by_role("button", name="Switch to text input mode")
    expect(clock).to_be_attached(timeout=SEEN_MS)
    page.get_by_role("button", name="OK", exact=True).tap()


def comes_to(hand: Hand, words: str | re.Pattern[str]) -> None:
    """Scroll until the words are there to be seen: down to the end, then from the top."""
    target = said(hand.page, words)
    until = time.monotonic() + SEEN_MS / 1000
    while not target.count():
        assert time.monotonic() < until, f"never came to {words!r}"
        for step in (SCROLL_PX, -10 * SCROLL_PX):
            while not target.count() and scroll(hand.page, step):
                pass


def saved(visitor: Visitor, hand: Hand, button: str, file: Path) -> str:
    """The calendar file that a button hands out."""
    with visitor.page.expect_download() as handed:
        hand.press(button)
    handed.value.save_as(file)
    return file.read_bytes().decode()


def test_a_plan_is_worked_back_moved_and_kept(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    today = date.today()
    hand.place("Mix")
    hand.write("Weight on the label", "7.4")
    hand.sees("Weigh these")
    hand.press("Start batch")
    hand.press("Back from the meal")
    comes_to(hand, "Choose when it is to be eaten, or plan forward from a start.")
    hand.press("Choose", exact=True)
    choose_day(hand, today + timedelta(days=45), "Next month")
    comes_to(hand, re.compile("the ice makes it cold at once"))
    comes_to(hand, re.compile("worked out by how far nitrite moves"))
    visitor.picture("start-back-from-the-meal")
    assert visitor.barriers() == []
    hand.press("Start", exact=True)
    hand.sees("Batch started.")
    hand.press("Plan", exact=True)
    hand.sees("To be eaten")

    # Moved to long before the cure is over: what does not fit is said, with a way out.
    hand.press("Start the smoke")
    comes_to(hand, "Begins")
    times = hand.page.get_by_role("button", name=re.compile(r"^\w+ \d+ \w+( \d{4})? \d\d:\d\d$"))
    hand.tap(times.last)
    choose_day(hand, today + timedelta(days=3), "Previous month")
    hand.sees(re.compile("Moved: Start the smoke"))
    comes_to(hand, re.compile("start by .*, or|comes .* too early"))
    visitor.picture("plan-does-not-fit")
    assert visitor.barriers() == []
    hand.press("Undo")
    hand.sees("Taken back.")

    # Fewer days than were worked out: what that means is said.
    hand.press("Put the meat in the cure")
    hand.write("Takes", "2 days")
    hand.press("Set length")
    hand.sees(re.compile("Too few days in the cure"))
    comes_to(hand, re.compile("2 days in the cure, .* fewer than .* is raw beef"))
    visitor.picture("plan-too-few-days")
    assert visitor.barriers() == []
    hand.press("Undo")
    hand.sees("Taken back.")
    hand.press("Start the smoke")

    hand.press("Leave out", exact=True)
    hand.sees(re.compile("Left out: Start the smoke"))
    hand.press("Bring back", exact=True)
    hand.sees(re.compile("Brought back: Start the smoke"))
    hand.press("Soak out salt")
    hand.sees("Added.")
    visitor.kill_tab()
    visitor.open()
    wait_usable(visitor)
    hand.place("Journal")
    hand.press("Brisket, whole")
    hand.press("Plan", exact=True)
    comes_to(hand, "Soak out salt")
    visitor.picture("plan-kept")


def test_the_grey_one_is_done_again_thicker_frozen_and_by_the_advice(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    hand.place("Journal")
    hand.press("Invented: thick point")
    hand.press("Repeat for a new weight")
    hand.write("New weight", "6")
    comes_to(hand, "Weigh these")
    # It lay in the cure for 5 days, as asked; kept as it was unless the advice is taken up.
    comes_to(hand, re.compile("5 days, as the mix was asked for"))
    hand.write("Thickness at the thickest", "thick")
    comes_to(hand, re.compile("expected"))
    hand.write("Thickness at the thickest", "4")
    # From 2 5/8 to 4 in: by the square of the thickness, 5 days become 12.
    comes_to(hand, re.compile("12 days, as the mix was asked for"))
    hand.press("Take up: days in the cure")
    comes_to(hand, re.compile("3[0-9] days"))
    hand.press("The meat is: Frozen")
    comes_to(hand, "Put it in the fridge to thaw")
    visitor.picture("repeat-thicker-and-frozen")
    assert visitor.barriers() == []
    hand.press("Start", exact=True)
    hand.sees("Batch started.")
    hand.press("Plan", exact=True)
    comes_to(hand, "Put it in the fridge to thaw")
    comes_to(hand, re.compile("3[0-9] days"))


def test_the_calendar_follows_what_is_left_out_and_removed(visit: Visit, tmp_path: Path) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    started(hand)
    phone = PhoneCalendar()
    hand.place("Now")
    hand.press("Reminders")
    hand.sees("Off: no calendar file was saved here yet.")
    first = saved(visitor, hand, "Save the calendar file", tmp_path / "first.ics")
    phone.opens(first)
    hand.sees(re.compile("On: the calendar has been given"))
    steps = len(phone.events)
    assert steps == len(by_icalendar(first)) > 10

    hand.place("Journal")
    hand.press("Brisket, whole")
    hand.press("Plan", exact=True)
    hand.press("Set it to dry in the fridge")
    hand.press("Leave out", exact=True)
    hand.sees(re.compile("The phone's calendar still has it"))
    visitor.picture("left-out-of-the-calendar")
    second = saved(visitor, hand, "Calendar file", tmp_path / "second.ics")
    phone.opens(second)
    assert {one[0] for one in by_icalendar(second)} == {one[0] for one in by_icalendar(first)}
    assert len(phone.events) == steps - 1
    assert not any("dry" in title for _due, title, _rings in phone.events.values())

    hand.back()
    hand.press("Remove batch")
    hand.sees(re.compile("removed. The phone's calendar still has it"))
    phone.opens(saved(visitor, hand, "Calendar file", tmp_path / "third.ics"))
    assert phone.events == {}
