"""A finger on the glass, or two of them: drawn over the screen by the browser's own touches."""

import time
from collections.abc import Callable, Sequence
from io import BytesIO
from itertools import pairwise
from math import cos, pi, sin

from PIL import Image
from playwright.sync_api import Locator, expect

from tests.browser.visitor import Visitor

Place = tuple[float, float]
Colour = tuple[int, ...]
SEEN_MS = 20_000
FRAME = "() => new Promise(requestAnimationFrame)"


class Finger:
    """Moves over what is on the page; places are parts of it."""

    def __init__(self, visitor: Visitor, on: Locator) -> None:
        expect(on).to_be_attached(timeout=SEEN_MS)
        box = on.bounding_box()
        assert box is not None
        self.box = box
        self._page = visitor.page
        self._glass = visitor.context.new_cdp_session(visitor.page)

    def spot(self, place: Place) -> Place:
        """A part of it in px of the page."""
        box = self.box
        return box["x"] + place[0] * box["width"], box["y"] + place[1] * box["height"]

    def _touch(self, kind: str, places: Sequence[Place]) -> None:
        points = [
            {"x": x, "y": y, "id": number} for number, (x, y) in enumerate(map(self.spot, places))
        ]
        self._glass.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
        self._page.evaluate(FRAME)  # a finger moves once a frame

    def drag(self, *way: Place, steps: int = 12) -> None:
        """Put down, move along the way, lift."""
        self._touch("touchStart", way[:1])
        for (ax, ay), (bx, by) in pairwise(way):
            for k in range(1, steps + 1):
                part = k / steps
                self._touch("touchMove", [(ax + (bx - ax) * part, ay + (by - ay) * part)])
        self._touch("touchEnd", [])

    def ring(self, middle: Place, radius: float) -> None:
        """Draw round a place; `radius` is a part of the width."""
        tall = self.box["width"] / self.box["height"]
        turns = [2.0 * pi * k / 24 for k in range(24)]
        way = [(middle[0] + radius * cos(a), middle[1] + radius * tall * sin(a)) for a in turns]
        self.drag(*way, steps=1)

    def spread(self, middle: Place, begin: float, end: float, steps: int = 15) -> None:
        """Two fingers put down beside each other and moved apart, by parts of the width."""
        for k in range(steps + 1):
            far = begin + (end - begin) * k / steps
            two = [(middle[0] - far, middle[1]), (middle[0] + far, middle[1])]
            self._touch("touchMove" if k else "touchStart", two)
        self._touch("touchEnd", [])

    def colour_once(self, place: Place, there: Callable[[Colour], bool]) -> Colour:
        """What is painted there once it is what it is waited for, or else at the end."""
        until = time.monotonic() + SEEN_MS / 1000
        found = self.colour(place)
        while not there(found) and time.monotonic() < until:
            found = self.colour(place)
        return found

    def colour(self, place: Place) -> Colour:
        """What is painted there: red, green, blue."""
        x, y = self.spot(place)
        clip = {"x": x, "y": y, "width": 2.0, "height": 2.0}
        shot = self._page.screenshot(clip=clip)  # type: ignore[arg-type]
        with Image.open(BytesIO(shot)) as image:
            found = image.convert("RGB").getpixel((0, 0))
        assert isinstance(found, tuple)
        return found
