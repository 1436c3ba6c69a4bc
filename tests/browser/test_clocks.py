"""Clocks that go wrong or change: due times stay on the wall, and the record keeps every line.

Python asks the worker's own `Date`, so it is that which is set here; the zone is set for the
whole page by the browser's debugger.
"""

import json
import re
from collections.abc import Callable
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from playwright.sync_api import Page

from tests.browser.conftest import Visit
from tests.browser.hand import Hand, is_told, said, wait_usable
from tests.browser.test_boot import python_worker
from tests.browser.visitor import Visitor

SET = """at => {
  const Real = self.RealDate ??= Date;
  const ahead = at - Real.now();
  self.Date = class extends Real {
    constructor(...parts) { parts.length ? super(...parts) : super(Real.now() + ahead); }
    static now() { return Real.now() + ahead; }
  };
}"""
PLAN = """
import gc, json
from app.screens.bench import Bench
bench = next(one for one in gc.get_objects() if isinstance(one, Bench))
json.dumps([(s.stage, s.title, s.due, bool(s.done)) for s in bench.shown.batches[0].plan])
"""


def set_clock(page: Page, at: datetime) -> None:
    """From now on the device's clock goes on from there."""
    python_worker(page).evaluate(SET, at.timestamp() * 1000)


def zone_setter(visitor: Visitor) -> Callable[[str], None]:
    """What sets the zone of the page, as often as it is wanted."""
    session = visitor.context.new_cdp_session(visitor.page)
    return lambda zone: session.send("Emulation.setTimezoneOverride", {"timezoneId": zone})


def started(visit: Visit, zone: str, at: datetime) -> tuple[Visitor, Hand]:
    """A batch begun at that moment in that zone."""
    return started_by(visit(timezone_id=zone), at)


def started_by(visitor: Visitor, at: datetime) -> tuple[Visitor, Hand]:
    """A batch begun at that moment."""
    visitor.open()
    wait_usable(visitor)
    set_clock(visitor.page, at)
    hand = Hand(visitor)
    hand.place("Mix")
    hand.write("Weight on the label", "7.4")
    hand.sees("Weigh these")
    hand.press("Start batch")
    hand.sees("What it becomes")
    hand.press("Start", exact=True)
    hand.sees("Record")
    return visitor, hand


def plan(page: Page) -> list[tuple[str, str, str, bool]]:
    """Stage, title, due time and whether done, of the one batch."""
    told = python_worker(page).evaluate("code => brinewrightPython.runPython(code)", PLAN)
    return [(stage, title, due, done) for stage, title, due, done in json.loads(told)]


def is_due_now(hand: Hand, title: str) -> bool:
    """Whether the first screen says of a step that its time is now."""
    hand.place("Mix")
    hand.place("Now")
    hand.sees(re.compile("Overdue|Due ·"))
    for all_of_them in hand.page.get_by_role("button", name=re.compile("^All .* due")).all():
        hand.tap(all_of_them)
    return is_told(hand.page, re.compile(rf"Due · now\s+{re.escape(title)}"))


def test_the_night_the_clock_changes_leaves_due_times_on_the_wall(visit: Visit) -> None:
    berlin = ZoneInfo("Europe/Berlin")
    visitor, hand = started(visit, "Europe/Berlin", datetime(2027, 3, 27, 17, 0, tzinfo=berlin))
    before = plan(visitor.page)
    # The first step that falls after the hour that does not exist, at two on the 28th.
    step = next(one for one in before if one[2] > "2027-03-28T04:00" and not one[3])
    set_clock(visitor.page, datetime.fromisoformat(step[2]).replace(tzinfo=berlin))
    assert is_due_now(hand, step[1])
    assert plan(visitor.page) == before


def test_in_another_zone_due_times_are_those_of_the_wall_there(visit: Visit) -> None:
    new_york, tokyo = ZoneInfo("America/New_York"), ZoneInfo("Asia/Tokyo")
    visitor = visit()
    set_zone = zone_setter(visitor)
    set_zone("America/New_York")
    _, hand = started_by(visitor, datetime(2027, 3, 6, 9, 0, tzinfo=new_york))
    before = plan(visitor.page)
    step = next(one for one in before if one[2] > "2027-03-07T12:00" and not one[3])
    set_zone("Asia/Tokyo")
    set_clock(visitor.page, datetime.fromisoformat(step[2]).replace(tzinfo=tokyo))
    assert is_due_now(hand, step[1])
    assert plan(visitor.page) == before


def test_a_clock_set_back_or_forward_loses_no_line_and_is_told(visit: Visit) -> None:
    noon = datetime(2027, 3, 6, 12, 0, tzinfo=ZoneInfo("UTC"))
    visitor, hand = started(visit, "UTC", noon)
    words = re.compile("ahead of this device's clock")

    def write(celsius: str) -> None:
        hand.press("Temperature", exact=True)
        hand.write("It reads", celsius)
        hand.press("Save")
        hand.sees(re.compile("^(Saved|Temperature)"))

    set_clock(visitor.page, noon + timedelta(hours=3))
    write("38")
    set_clock(visitor.page, noon + timedelta(minutes=5))
    write("39")
    hand.place("Now")
    hand.sees(words)
    set_clock(visitor.page, noon + timedelta(hours=4))
    hand.place("Mix")
    hand.place("Now")
    hand.sees(re.compile("under way|Due|Overdue|Next"))
    assert said(hand.page, words).count() == 0
    visitor.page.reload()
    wait_usable(visitor)
    hand.place("Journal")
    hand.press(re.compile("^Brisket"))
    for reading in ("38 °F", "39 °F"):
        assert is_told(hand.page, re.compile(reading))
