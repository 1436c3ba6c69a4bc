"""Photos in the built app: every kind of file from a real chooser, and what is measured in one."""

import re
from pathlib import Path

import pytest

from tests.browser.conftest import Visit
from tests.browser.hand import Hand, wait_usable
from tests.browser.pictures import file_of
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
def test_a_picture_of_every_kind_is_taken_in(visit: Visit, tmp_path: Path, kind: str) -> None:
    visitor, _ = with_example(visit)
    hand = at(visitor, SLICE, "In the hand")
    before = set(visitor.page.evaluate(KEPT))
    hand.choose_file("Photograph the slice", file_of(tmp_path, kind))
    hand.sees("Photo saved.")
    hand.sees("Measure how far the cure reached")
    assert len(set(visitor.page.evaluate(KEPT)) - before) == 2  # the picture and its small one


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
