"""Notices, the number on the icon and the screen kept on, as the browser itself has them."""

import re
from datetime import UTC, datetime, timedelta
from typing import Any

from playwright.sync_api import Page

from tests.browser.conftest import Visit
from tests.browser.hand import Hand, wait_usable
from tests.browser.test_boot import python_worker
from tests.browser.test_clocks import set_clock
from tests.browser.test_moments import started
from tests.browser.visitor import Visitor

# What the page asked of the browser, kept for the test to read.
RECORD = """
window.asked = 0; window.shown = []; window.badges = []; window.locks = [];
window.shownOnce = title => new Promise((done, late) => {
  const look = () => window.shown.includes(title) ? done() : setTimeout(look, 200);
  setTimeout(() => late(new Error(`no notice "${title}" in a minute`)), 60_000);
  look();
});
const ask = Notification.requestPermission.bind(Notification);
Notification.requestPermission = () => { window.asked += 1; return ask(); };
const show = ServiceWorkerRegistration.prototype.showNotification;
ServiceWorkerRegistration.prototype.showNotification = async function (title, wish) {
  await show.call(this, title, wish);
  window.shown.push(title);
};
navigator.setAppBadge = async count => { window.badges.push(count); };
navigator.clearAppBadge = async () => { window.badges.push(0); };
const lock = navigator.wakeLock.request.bind(navigator.wakeLock);
navigator.wakeLock.request = async kind => {
  const held = await lock(kind);
  window.locks.push("held");
  held.addEventListener("release", () => window.locks.push("released"));
  return held;
};
"""
NOTICES = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  return (await registration.getNotifications()).map(({ title, body }) => `${title} | ${body}`);
}"""
# In the service worker: a tap on a notice. A made-up event may not wait nor bring to the front,
# so both are stood in for; what is opened is the worker's own doing.
TAP = """async title => {
  WindowClient.prototype.focus = async function () { self.broughtToFront = true; return this; };
  self.clients.openWindow = async address => { self.openedAt = address; };
  const notices = await self.registration.getNotifications();
  const notice = notices.find(one => one.title === title);
  const tap = new NotificationEvent("notificationclick", { notification: notice });
  let done;
  tap.waitUntil = waits => { done = waits; };
  self.dispatchEvent(tap);
  await done;
  const front = Boolean(self.broughtToFront);
  self.broughtToFront = false;
  return { front, opened: self.openedAt ?? "" };
}"""
BUY = "Buy the meat and the cure"
MORNING = datetime(2027, 3, 2, 10, 2, tzinfo=UTC)
"""What falls due within hours hangs on the time of day."""
LOOKED_AT = """
import gc
from app.screens.bench import Bench
next(one for one in gc.get_objects() if isinstance(one, Bench)).shown.wall[:10]
"""
LOOKED = """([code, day]) => new Promise((done, fail) => {
  const until = performance.now() + 90_000;
  const look = () => {
    if (brinewrightPython.runPython(code) === day) done();
    else if (performance.now() > until) fail(new Error("no look at the clock in 90 s"));
    else setTimeout(look, 250);
  };
  look();
})"""


def visiting(visit: Visit, *, leave: bool) -> tuple[Visitor, Hand]:
    """Someone with the app kept on the phone, who gave the browser leave for notices or did not."""
    visitor = visit()
    visitor.context.add_init_script(RECORD)
    if leave:
        visitor.context.grant_permissions(["notifications"])
    visitor.open()
    wait_usable(visitor)
    visitor.wait_until_kept()
    return visitor, Hand(visitor)


def tap_notice(visitor: Visitor, title: str) -> Any:
    """Tap a notice of the phone."""
    (worker,) = visitor.context.service_workers
    return worker.evaluate(TAP, title)


def wait_for_a_look(page: Page) -> None:
    """Wait until the program has looked at the clock as it now goes; it does so twice a minute."""
    python_worker(page).evaluate(LOOKED, [LOOKED_AT, MORNING.date().isoformat()])


def test_leave_is_asked_only_when_the_cook_asks_for_a_reminder(visit: Visit) -> None:
    visitor, hand = visiting(visit, leave=False)
    started(hand)
    hand.place("Now")
    hand.press("Reminders")
    hand.sees("Off. The phone is asked for leave only when you press this.")
    visitor.picture("reminders-off")
    assert visitor.page.evaluate("asked") == 0
    hand.press("Show notices")
    hand.sees("This device gave no leave for notices.")
    assert visitor.page.evaluate("asked") == 1
    hand.sees(re.compile("Off: notices are blocked|Off. The phone is asked"))


def test_a_step_due_gives_one_notice_and_a_tap_opens_it(visit: Visit) -> None:
    visitor, hand = visiting(visit, leave=True)
    set_clock(visitor.page, MORNING)
    wait_for_a_look(visitor.page)
    started(hand)
    hand.place("Now")
    hand.press("Reminders")
    hand.press("Show notices")
    hand.sees("On: a notice comes when a step falls due.")
    hand.press("Try one now")
    visitor.page.evaluate("() => shownOnce('A reminder looks like this')")
    assert len(visitor.page.evaluate(NOTICES)) == 1
    visitor.picture("reminders-on")
    assert visitor.barriers() == []

    # An hour on, the first step is due; the program looks twice a minute.
    set_clock(visitor.page, MORNING + timedelta(hours=1))
    visitor.page.evaluate("title => shownOnce(title)", BUY)
    assert f"{BUY} | Brisket, whole, 7 lb 6 oz" in visitor.page.evaluate(NOTICES)
    assert tap_notice(visitor, BUY) == {"front": True, "opened": ""}
    hand.sees(f"Done: {BUY}")
    assert visitor.page.evaluate("location.hash").startswith("#/journal/")
    assert not any(one.startswith(BUY) for one in visitor.page.evaluate(NOTICES))

    # Three hours more: what fell due meanwhile, and the first one not again.
    set_clock(visitor.page, MORNING + timedelta(hours=4))
    visitor.page.evaluate("() => shownOnce('Chill the brine')")
    shown = visitor.page.evaluate("shown")
    assert len(shown) == len(set(shown)), shown
    badges = visitor.page.evaluate("badges")
    assert badges[-1] >= 4

    # Seen to in the program, a notice goes.
    assert any(one.startswith("Trim") for one in visitor.page.evaluate(NOTICES))
    hand.press("Done: Buy")
    hand.sees("Done: Trim and weigh")
    hand.press("Done: Trim and weigh")
    hand.sees("Done: Mix the cure")
    assert not any(one.startswith("Trim") for one in visitor.page.evaluate(NOTICES))
    assert visitor.page.evaluate("badges")[-1] < badges[-1]

    # With the program closed, a tap opens it where the step is.
    route = visitor.page.evaluate("location.hash")
    visitor.page.close()
    assert tap_notice(visitor, "Mix the cure") == {"front": False, "opened": f"./{route}"}


def test_the_screen_is_really_held_while_asked(visit: Visit) -> None:
    visitor, hand = visiting(visit, leave=False)
    started(hand)
    hand.place("Now")
    hand.press("Reminders")
    hand.press("Keep the screen on")
    hand.sees("The screen stays on while the program is open.")
    assert visitor.page.evaluate("locks") == ["held"]
    hand.press("Let the screen sleep")
    hand.sees("The screen may sleep.")
    assert visitor.page.evaluate("locks") == ["held", "released"]


# The number goes to the page by a message of its own, a moment after the screen.
ON_THE_ICON = """least => new Promise((done, fail) => {
  const until = Date.now() + 10000;
  const look = () => {
    if (badges.at(-1) >= least) done(badges.at(-1));
    else if (Date.now() > until) fail(new Error(`the icon showed ${badges}`));
    else setTimeout(look, 50);
  };
  look();
})"""


def test_the_icon_counts_what_is_due(visit: Visit) -> None:
    visitor, hand = visiting(visit, leave=False)
    set_clock(visitor.page, MORNING)
    started(hand)
    assert visitor.page.evaluate(ON_THE_ICON, 1) == 1
    hand.press("Done: Buy")
    hand.sees("Done: Trim and weigh")
    hand.place("Now")
    hand.sees("Trim and weigh")
    assert visitor.page.evaluate(ON_THE_ICON, 1) >= 1
