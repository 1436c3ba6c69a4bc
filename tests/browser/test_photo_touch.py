"""Photos marked by a real finger in the built app, and looked at closely."""

import re
from io import BytesIO
from pathlib import Path

from PIL import Image
from playwright.sync_api import Download, Page, expect

from tests.browser.conftest import Visit
from tests.browser.finger import Finger
from tests.browser.hand import SEEN_MS, Hand, wait_usable
from tests.browser.test_photos import at, with_example
from tests.browser.visitor import Visitor

GREY = "#/journal/demo-grey-01/photo/demo-grey-slice"
GOOD = "#/journal/demo-good-01/photo/demo-good-slice"


def on_picture(visitor: Visitor, named: str) -> Finger:
    return Finger(visitor, visitor.page.get_by_role("img", name=named).first)


def share_of(page: Page, name: str) -> float:
    """A share of the face as the screen tells it [%]."""
    told = page.get_by_text(re.compile(r"^\d+ %$"))
    names = ["Cured", "Pale", "Grey", "Fat", "Bark"]
    expect(told.nth(len(names) - 1)).to_be_attached(timeout=SEEN_MS)
    return float(told.nth(names.index(name)).inner_text().split()[0])


def test_the_ends_of_the_line_are_dragged(visit: Visit) -> None:
    visitor, _ = with_example(visit)
    hand = at(visitor, f"{GREY}/line", "Drag A and B")
    finger = on_picture(visitor, "The slice of")
    finger.drag((0.5, 0.12), (0.3, 0.25))
    hand.sees("Along the line")
    first = visitor.page.get_by_label(re.compile("From A to B")).first.get_attribute("aria-label")
    finger.drag((0.5, 0.88), (0.62, 0.85))
    strip = visitor.page.get_by_label(re.compile("From A to B")).first
    expect(strip).not_to_have_attribute("aria-label", first or "", timeout=SEEN_MS)


def test_the_outline_is_dragged_and_parts_are_mended_by_rubbing(visit: Visit) -> None:
    visitor, _ = with_example(visit)
    hand = at(visitor, f"{GREY}/face", "Lay the slice flat")
    hand.press("Measure the face")
    hand.sees("Of the face")
    whole = share_of(visitor.page, "Grey")
    finger = on_picture(visitor, "The cut face")
    finger.drag((0.94, 0.5), (0.78, 0.5))
    hand.sees("Face measured.")
    visitor.picture("outline-dragged")
    expect(visitor.page.get_by_text(f"{whole:.0f} %", exact=True)).to_have_count(0)
    hand.press("A finger marks: Fat")
    fat = share_of(visitor.page, "Fat")
    finger.drag((0.35, 0.5), (0.6, 0.5))
    hand.sees("Marked as fat.")
    visitor.picture("face-mended")
    mended = share_of(visitor.page, "Fat")
    assert mended > fat
    visitor.page.reload()
    wait_usable(visitor)
    hand.sees("Put right by hand in places.")
    assert share_of(visitor.page, "Fat") == mended
    visitor.page.goto(visitor.host.address + GREY)
    hand.press("Laid over it: Its parts")
    hand.sees("The parts of the cut face, laid over it")


def test_a_patch_of_bark_is_drawn_with_the_finger(visit: Visit) -> None:
    visitor, _ = with_example(visit)
    at(visitor, "#/journal/demo-good-01/photo/demo-good-bark/bark", "draw round it")
    on_picture(visitor, "Photo of").ring((0.5, 0.5), 0.12)
    hand = Hand(visitor)
    hand.sees("The bark now")
    at(visitor, "#/journal/demo-grey-01/photo/demo-grey-bark/bark", "draw round it")
    on_picture(visitor, "Photo of").ring((0.4, 0.5), 0.1)
    hand.sees(re.compile("than your best at its wrap"))
    visitor.picture("bark-drawn")
    at(visitor, "#/journal/demo-grey-01/wrap", "Wrap?")
    hand.sees(re.compile("than your best at its wrap"))


def test_a_photo_is_spread_with_two_fingers(visit: Visit) -> None:
    visitor, _ = with_example(visit)
    at(visitor, GREY, "Save a copy")
    finger = on_picture(visitor, "Photo of")
    paper = finger.colour((0.08, 0.12))
    assert min(paper) > 170  # the white patch in the corner
    finger.spread((0.5, 0.5), 0.1, 0.4)
    closer = finger.colour_once((0.08, 0.12), lambda seen: seen[0] > seen[2] + 40)
    assert closer[0] > closer[2] + 40  # meat now, and no paper


def test_two_photos_stand_at_one_scale_and_a_slider_uncovers_the_other(visit: Visit) -> None:
    visitor, _ = with_example(visit)
    for slice_ in (GREY, GOOD):
        hand = at(visitor, f"{slice_}/line", "Drag A and B")
        hand.press("Measure this line")
        hand.sees("Along the line")
    hand = at(visitor, "#/photos/beside/demo-grey-slice/demo-good-slice", "Side by side")
    hand.sees("At the same scale by the thickness measured in both.")
    visitor.picture("side-by-side")
    hand.press("Look at them: With a slider")
    knob = Finger(visitor, visitor.page.get_by_role("slider").first)
    finger = on_picture(visitor, "The slice of")
    before = finger.colour((0.3, 0.5))
    far = 140.0 / knob.box["width"]
    knob.drag((0.5, 0.5), (0.5 - far, 0.5))
    after = finger.colour_once((0.3, 0.5), lambda seen: seen != before)
    visitor.picture("slider")
    assert after != before


def saved(download: Download) -> Image.Image:
    return Image.open(BytesIO(Path(download.path()).read_bytes()))


def test_a_photo_leaves_with_its_figures_by_file_where_nothing_shares(visit: Visit) -> None:
    visitor, _ = with_example(visit)
    hand = at(visitor, f"{GREY}/line", "Drag A and B")
    hand.press("Measure this line")
    hand.sees("Along the line")
    hand = at(visitor, GREY, "Save a copy")
    with visitor.page.expect_download() as copy:
        hand.press("Save a copy")
    assert copy.value.suggested_filename.endswith(".jpg")
    with saved(copy.value) as image:
        assert image.size[0] == 960
        assert image.size[1] > 720 + 5 * 30  # the photo, and the figures on a strip below it
        assert dict(image.getexif()) == {}
    with visitor.page.expect_download() as instead:
        hand.press("Share it")
    hand.sees("This device offers no sharing here: saved as")
    with saved(instead.value) as image:
        assert image.size[0] == 960


# A phone's share sheet, which the browser on this machine does not have.
SHEET = """
navigator.canShare = ({files}) => files.length === 1 && files[0].type === "image/jpeg";
navigator.share = async ({files}) => {
  if (window.closesTheSheet) throw new DOMException("closed", "AbortError");
  document.documentElement.dataset.shared = files[0].name;
};
"""


def test_a_photo_goes_to_the_share_sheet_where_there_is_one(visit: Visit) -> None:
    visitor = visit()
    visitor.page.add_init_script(SHEET)
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    hand = at(visitor, GREY, "Save a copy")
    hand.press("Share it")
    hand.sees("Shared.")
    name = visitor.page.evaluate("() => document.documentElement.dataset.shared")
    assert name.endswith(".jpg")
    visitor.page.evaluate("() => { window.closesTheSheet = true; }")
    hand.press("Share it")
    hand.sees("Not shared.")
