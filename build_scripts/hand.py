"""What a hand does in the built app: press, write, choose a file; and what an eye looks for.

The client paints on a canvas and keeps beside it the names a screen reader would read; only what
is on the screen, or just off it, has one. So a hand scrolls until it finds the name.
"""

import re
import time
from pathlib import Path
from typing import Protocol

from playwright.sync_api import Locator, Page, expect

USABLE = "html[data-usable=yes]"
START_MS = 90_000
SEEN_MS = 20_000
SEMANTICS_ON = "flt-semantics-host flt-semantics"
PLACEHOLDER = "flt-semantics-placeholder"
# The client reads where the click fell: it answers one at the placeholder's centre only.
CLICK_ITS_CENTRE = """nodes => {
  for (const node of nodes.slice(0, 1)) {
    const box = node.getBoundingClientRect();
    const at = {clientX: box.x + box.width / 2, clientY: box.y + box.height / 2};
    node.dispatchEvent(new MouseEvent("click", {...at, bubbles: true}));
  }
}"""
HIT = """nodes => {
  if (!nodes.length) return false;
  const box = nodes[0].getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const hit = document.elementFromPoint(x, y);
  return hit !== null && (nodes[0] === hit || nodes[0].contains(hit));
}"""
# Gives whether anything moved: two frames after it did, or when it did not within some frames of
# the wheel being heard.
WATCH_FOR_STANDING_STILL = """() => {
  const host = document.querySelector("flt-semantics-host");
  let heard = false, moved = false, still = 0;
  addEventListener("wheel", () => { heard = true; still = 0; }, { once: true, capture: true });
  const watch = new MutationObserver(() => { moved = true; still = 0; });
  watch.observe(host, { subtree: true, childList: true, characterData: true, attributes: true });
  window.standsStill = new Promise(done => {
    const frame = () => {
      still += 1;
      if (still < (moved ? 2 : heard ? 12 : 60)) return requestAnimationFrame(frame);
      watch.disconnect();
      done(moved);
    };
    requestAnimationFrame(frame);
  });
}"""
STANDS_STILL = "() => window.standsStill"
SCROLL_PX = 400


class Holder(Protocol):
    """Whoever holds the page; a killed tab leaves them with another one."""

    @property
    def page(self) -> Page: ...


def read_aloud(page: Page, timeout_s: float = 60.0) -> None:
    """Have the names and roles of what is painted, as a screen reader would.

    The page may have turned them on by itself; otherwise this presses the client's own
    hidden button for it.
    """
    limit = timeout_s * 1000
    page.wait_for_selector(f"{SEMANTICS_ON}, {PLACEHOLDER}", state="attached", timeout=limit)
    if page.locator(SEMANTICS_ON).count() == 0:
        # The page may press it in this very moment, and then there is none to wait for.
        page.locator(PLACEHOLDER).evaluate_all(CLICK_ITS_CENTRE)
    page.wait_for_selector(SEMANTICS_ON, state="attached", timeout=limit)


def wait_usable(page: Page) -> None:
    """Wait until the first screen can be used, and have the names read aloud."""
    page.wait_for_selector(USABLE, state="attached", timeout=START_MS)
    read_aloud(page)


def said(page: Page, words: str | re.Pattern[str]) -> Locator:
    """What shows the words or is named by them."""
    return page.get_by_text(words).or_(page.get_by_label(words)).first


def within(target: Locator) -> bool:
    """Whether a finger on the middle of it would touch it, and not a bar that lies over it."""
    return bool(target.evaluate_all(HIT))


def scroll(page: Page, by_px: int) -> bool:
    """Turn the wheel, wait until the screen stands still, and tell whether it moved."""
    page.mouse.move(195, 420)
    page.evaluate(WATCH_FOR_STANDING_STILL)
    page.mouse.wheel(0, by_px)
    return bool(page.evaluate(STANDS_STILL))


def write_into(page: Page, box: Locator, text: str) -> None:
    """Type into the field that was touched, in place of what is there, until it stands there."""
    expect(box).to_be_focused(timeout=SEEN_MS)
    # A field for words begins its sentences with a capital.
    typed = re.compile(f"^{re.escape(text)}$", re.IGNORECASE)
    for _ in range(5):
        if box.input_value():
            page.keyboard.press("Control+A")
            page.keyboard.press("Delete")
        page.keyboard.type(text, delay=15)
        try:
            expect(box).to_have_value(typed, timeout=3_000)
            return
        except AssertionError:
            # The driver types before the client listens: a hand would see it and begin again.
            continue
    expect(box).to_have_value(typed, timeout=3_000)


class Hand:
    """A hand that counts its taps."""

    def __init__(self, holder: Holder) -> None:
        self.holder = holder
        self.taps = 0

    @property
    def page(self) -> Page:
        return self.holder.page

    def find(self, target: Locator) -> bool:
        """Scroll to where a finger could touch it: down to the end, then from the top."""
        if within(target):
            return True
        for step in (SCROLL_PX, -10 * SCROLL_PX, SCROLL_PX):
            for _ in range(60):
                moved = scroll(self.page, step)
                if within(target):
                    return True
                if not moved:
                    break
        return False

    def tap(self, target: Locator) -> None:
        """Touch it, wherever on the screen it is, once it is there."""
        until = time.monotonic() + SEEN_MS / 1000
        while not self.find(target) and time.monotonic() < until:
            pass  # each look waits for the screen to stand still
        target.tap(timeout=SEEN_MS)
        self.taps += 1

    def press(self, name: str | re.Pattern[str], *, exact: bool = False) -> None:
        """Press the button of that name."""
        self.tap(self.page.get_by_role("button", name=name, exact=exact).first)

    def place(self, name: str) -> None:
        """Go to one of the four places."""
        self.tap(self.page.get_by_role("tab", name=name).first)

    def write(self, label: str, text: str) -> None:
        """Type into the field of that label, in place of what is there."""
        box = self.page.get_by_role("textbox", name=label).first
        self.tap(box)
        write_into(self.page, box, text)

    def choose_file(self, name: str, file: Path) -> None:
        """Press what opens the file chooser, and choose."""
        with self.page.expect_file_chooser(timeout=SEEN_MS) as chooser:
            self.press(name)
        chooser.value.set_files(file)

    def sees(self, words: str | re.Pattern[str], timeout_ms: float = SEEN_MS) -> None:
        """Wait until the words are somewhere on the screen."""
        expect(said(self.page, words)).to_be_attached(timeout=timeout_ms)

    def back(self) -> None:
        """The arrow at the top."""
        self.press("Back")
