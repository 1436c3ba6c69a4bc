"""What a hand does in the built app: press, write, choose a photo; and what an eye looks for."""

import re
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import Visit
from tests.browser.visitor import Look, Visitor

USABLE = "html[data-usable=yes]"
START_MS = 90_000
SEEN_MS = 20_000


def wait_usable(visitor: Visitor) -> Page:
    """Wait until the first screen can be used, and have the names read aloud."""
    visitor.page.wait_for_selector(USABLE, timeout=START_MS)
    visitor.read_aloud()
    return visitor.page


def offline(visit: Visit, look: Look = "light") -> Visitor:
    """Someone who had the app once, and opens it where there is no network."""
    visitor = visit(look)
    visitor.allow("ERR_CONNECTION_REFUSED|ERR_INTERNET_DISCONNECTED")  # the network is gone
    visitor.open()
    visitor.page.wait_for_selector(USABLE, timeout=START_MS)
    visitor.wait_until_kept()
    visitor.go_offline()
    visitor.page.reload()
    wait_usable(visitor)
    return visitor


class Hand:
    """A hand that counts its taps."""

    def __init__(self, visitor: Visitor) -> None:
        self.visitor = visitor
        self.taps = 0

    @property
    def page(self) -> Page:
        return self.visitor.page

    def _tap(self, target: Locator) -> None:
        # A button below the fold is in the page only when it has been scrolled to.
        for _ in range(30):
            if target.count() and _within(target, self.page):
                break
            self.page.mouse.move(195, 420)
            self.page.mouse.wheel(0, 240)
            self.page.wait_for_timeout(120)
        expect(target).to_be_attached(timeout=SEEN_MS)
        target.tap()
        self.taps += 1

    def press(self, name: str, *, exact: bool = False) -> None:
        """Press the button of that name."""
        self._tap(self.page.get_by_role("button", name=name, exact=exact).first)

    def place(self, name: str) -> None:
        """Go to one of the four places."""
        self._tap(self.page.get_by_role("tab", name=name).first)

    def write(self, label: str, text: str) -> None:
        """Type into the field of that label."""
        box = self.page.get_by_role("textbox", name=label).first
        self._tap(box)
        expect(box).to_be_focused(timeout=SEEN_MS)
        # A field for words begins its sentences with a capital.
        typed = re.compile(re.escape(text), re.IGNORECASE)
        for _ in range(5):
            self.page.keyboard.type(text, delay=15)
            try:
                expect(box).to_have_value(typed, timeout=3_000)
                return
            except AssertionError:
                # The driver types before the client listens: a hand would see it and begin again.
                self.page.keyboard.press("Control+A")
                self.page.keyboard.press("Delete")
        expect(box).to_have_value(typed, timeout=3_000)

    def choose_file(self, name: str, file: Path) -> None:
        """Press what opens the file chooser, and choose."""
        with self.page.expect_file_chooser(timeout=SEEN_MS) as chooser:
            self.press(name)
        chooser.value.set_files(file)

    def sees(self, words: str | re.Pattern[str]) -> None:
        """Wait until the words are somewhere on the screen."""
        expect(said(self.page, words)).to_be_attached(timeout=SEEN_MS)

    def back(self) -> None:
        """The arrow at the top."""
        for _ in range(12):
            if _within(self.page.get_by_role("button", name="Back").first, self.page):
                break
            self.page.mouse.wheel(0, -600)
            self.page.wait_for_timeout(100)
        self.press("Back")


def said(page: Page, words: str | re.Pattern[str]) -> Locator:
    """What shows the words or is named by them."""
    return page.get_by_text(words).or_(page.get_by_label(words)).first


HIT = """node => {
  const box = node.getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const hit = document.elementFromPoint(x, y);
  return hit !== null && (node === hit || node.contains(hit));
}"""


def _within(target: Locator, page: Page) -> bool:
    """Whether a finger on the middle of it would touch it, and not a bar that lies over it."""
    return bool(target.count()) and bool(target.evaluate(HIT))


def jpeg(folder: Path, name: str, colour: tuple[int, int, int]) -> Path:
    """A real JPEG of a piece of bark, as a camera would hand it over."""
    image = Image.new("RGB", (1600, 1200), (225, 221, 211))
    draw = ImageDraw.Draw(image)
    draw.ellipse((150, 150, 1450, 1050), fill=colour)
    for place in range(300, 1300, 70):
        draw.ellipse((place, 400 + place % 300, place + 18, 418 + place % 300), fill=(20, 15, 12))
    out = BytesIO()
    image.save(out, "JPEG", quality=85)
    file = folder / name
    file.write_bytes(out.getvalue())
    return file
