"""Photos in the built app: every kind of file from a real chooser, and what is measured in one."""

import io
import re
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import expect

from tests.browser.conftest import Visit
from tests.browser.hand import SEEN_MS, Hand, wait_usable
from tests.browser.pictures import file_of, taken_at
from tests.browser.visitor import LOOKS, Look, Visitor

SLICE = "#/journal/demo-grey-01/slice"
LINE = "#/journal/demo-grey-01/photo/demo-grey-slice/line"
KEPT = """async () => {
  const names = [];
  try {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle("photos");
    for await (const name of folder.keys()) names.push(name);
  } catch {}
  return names.sort();
}"""


CONTENT = """async name => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle("photos");
  const file = await (await folder.getFileHandle(name)).getFile();
  return Array.from(new Uint8Array(await file.arrayBuffer()));
}"""
# Words that stand for a moment only, noted when they are painted.
WATCH_WORDS = """words => {
  const watch = new MutationObserver(() => {
    const seen = [...document.querySelectorAll("flt-semantics")].some(
      node => (node.ariaLabel ?? node.textContent).includes(words),
    );
    if (!seen) return;
    watch.disconnect();
    document.documentElement.dataset.wordsSeen = "yes";
  });
  watch.observe(document, {
    subtree: true, childList: true, attributes: true, characterData: true,
  });
}"""
STORED = {
    "turned": (1200, 1600),
    "cmyk": (1200, 900),
    "deep-png": (900, 600),
    "webp": (1200, 900),
    "80-megapixels": (2048, 1539),
}
"""Upright and no longer than 2048 px."""


def with_example(visit: Visit, look: Look = "light") -> tuple[Visitor, Hand]:
    """Someone with the invented batches in the journal."""
    visitor = visit(look)
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    return visitor, hand


def at(visitor: Visitor, place: str, sees: str) -> Hand:
    visitor.page.goto(visitor.host.address + place)
    hand = Hand(visitor)
    hand.sees(sees)
    return hand


@pytest.mark.parametrize("kind", ["turned", "cmyk", "deep-png", "webp", "80-megapixels"])
def test_a_picture_of_every_kind_is_taken_in_and_measured(
    visit: Visit, tmp_path: Path, kind: str
) -> None:
    visitor, _ = with_example(visit)
    hand = at(visitor, SLICE, "In the hand")
    before = set(visitor.page.evaluate(KEPT))
    hand.choose_file("Photograph the slice", file_of(tmp_path, kind))
    hand.sees("Photo saved.")
    kept = sorted(set(visitor.page.evaluate(KEPT)) - before)
    assert len(kept) == 2  # the picture and its small one
    content = bytes(visitor.page.evaluate(CONTENT, kept[1]))
    with Image.open(io.BytesIO(content)) as image:
        assert dict(image.getexif()) == {}  # neither place nor camera
        assert image.size == STORED[kind]
    hand.press("Measure how far the cure reached")
    hand.press("Measure this line")
    # The sixteen-bit picture is of one colour, so there is nothing to measure; it says so.
    hand.sees("No cut face" if kind == "deep-png" else "Along the line")


def test_a_large_photo_says_what_is_done_with_it_and_leaves_the_fields_free(
    visit: Visit, tmp_path: Path
) -> None:
    visitor, _ = with_example(visit)
    page, file = visitor.page, file_of(tmp_path, "80-megapixels")
    hand = at(visitor, SLICE, "In the hand")
    field = page.get_by_role("textbox", name="How thick it is cut")
    assert hand.find(field)
    page.evaluate(WATCH_WORDS, "Making the photo ready")
    hand.choose_file("Photograph the slice", file)
    assert hand.find(field)
    box = field.bounding_box()
    assert box is not None
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(field).to_be_focused(timeout=SEEN_MS)
    page.keyboard.type("0.25", delay=15)
    hand.sees("Photo saved.")
    assert page.evaluate("() => document.documentElement.dataset.wordsSeen") == "yes"
    assert hand.find(field)
    expect(field).to_have_value("0.25")


def test_a_photo_keeps_the_cameras_time_and_drops_its_place(visit: Visit, tmp_path: Path) -> None:
    visitor, _ = with_example(visit)
    hour_ago = datetime.now().replace(second=0) - timedelta(hours=1)
    file = tmp_path / "taken.jpg"
    file.write_bytes(taken_at(hour_ago))
    assert b"GPS" in file.read_bytes() or b"\x88\x25" in file.read_bytes()
    hand = at(visitor, SLICE, "In the hand")
    before = set(visitor.page.evaluate(KEPT))
    hand.choose_file("Photograph the slice", file)
    hand.sees("Photo saved.")
    kept = sorted(set(visitor.page.evaluate(KEPT)) - before)[1]
    assert b"Exif" not in bytes(visitor.page.evaluate(CONTENT, kept))
    at(visitor, f"#/journal/demo-grey-01/photo/{kept.removesuffix('.jpg')}", "Save a copy")
    hand.sees(re.compile(f"{hour_ago:%H:%M}.*px"))


@pytest.mark.parametrize(
    ("kind", "why"),
    [
        ("cut-short", "cut short"),
        ("empty", "empty"),
        ("text", "not a picture"),
        ("too-large", "144 megapixels"),
    ],
)
def test_what_cannot_be_taken_in_is_refused_with_a_reason_and_nothing_is_lost(
    visit: Visit, tmp_path: Path, kind: str, why: str
) -> None:
    visitor, _ = with_example(visit)
    hand = at(visitor, SLICE, "In the hand")
    before = visitor.page.evaluate(KEPT)
    hand.choose_file("Photograph the slice", file_of(tmp_path, kind))
    hand.sees(re.compile(f"The photo was not taken in.*{why}"))
    assert visitor.page.evaluate(KEPT) == before
    hand.choose_file("Photograph the slice", file_of(tmp_path, "webp"))
    hand.sees("Photo saved.")


@pytest.mark.parametrize("look", LOOKS)
def test_a_line_is_measured_and_counts_for_the_batch(visit: Visit, look: Look) -> None:
    visitor, _ = with_example(visit, look)
    hand = at(visitor, LINE, "Drag A and B")
    hand.press("Measure this line")
    hand.sees("Along the line")
    visitor.picture("cure-line")
    hand.press("Let it count for this batch")
    hand.sees("Kept with the batch's slice.")
    assert visitor.barriers() == []


def test_a_face_is_measured_with_its_parts_laid_over_it(visit: Visit) -> None:
    visitor, _ = with_example(visit)
    hand = at(visitor, LINE.replace("/line", "/face"), "Lay the slice flat")
    hand.press("Measure the face")
    hand.sees("Of the face")
    hand.sees("its parts laid over it")
    visitor.picture("whole-face")
