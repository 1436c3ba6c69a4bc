"""What a hand and an eye do in the built app, for someone who opens it with no network."""

import re
import time
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw
from playwright.sync_api import Page

from build_scripts.hand import SEEN_MS, START_MS, USABLE, Hand, said, scroll
from build_scripts.hand import wait_usable as wait_usable_page
from tests.browser.conftest import Visit
from tests.browser.visitor import Look, Visitor

__all__ = [
    "SEEN_MS",
    "START_MS",
    "USABLE",
    "Hand",
    "is_told",
    "jpeg",
    "offline",
    "said",
    "wait_usable",
]


def wait_usable(visitor: Visitor) -> Page:
    """Wait until the first screen can be used, and have the names read aloud."""
    wait_usable_page(visitor.page)
    return visitor.page


def offline(visit: Visit, look: Look = "light") -> Visitor:
    """Someone who had the app once, and opens it where there is no network."""
    visitor = visit(look, holds_app=True)
    visitor.allow("ERR_CONNECTION_REFUSED|ERR_INTERNET_DISCONNECTED")  # the network is gone
    visitor.open()
    wait_usable(visitor)
    return visitor


TALL_PX = 3600


def is_told(page: Page, words: str | re.Pattern[str]) -> bool:
    """Whether the words stand anywhere on the screen, which is made tall to see most of it at once.

    It looks from the top to the end, and again while a screen may still be on its way.
    """
    if said(page, words).count():
        return True
    size = page.viewport_size
    assert size is not None
    page.set_viewport_size({"width": size["width"], "height": TALL_PX})
    try:
        return _looked_for(page, words)
    finally:
        page.set_viewport_size(size)


def _looked_for(page: Page, words: str | re.Pattern[str]) -> bool:
    until = time.monotonic() + 2 * SEEN_MS / 1000
    while time.monotonic() < until:
        for by_px in (0, *[TALL_PX // 2] * 4, -10 * TALL_PX):
            if by_px:
                scroll(page, by_px)
            if said(page, words).count():
                return True
    return False


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
