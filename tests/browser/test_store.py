"""What the screen called saved is there after: a killed tab, a second tab, no network, a photo."""

import io
import time
from pathlib import Path

from PIL import Image
from playwright.sync_api import Locator, Page, expect

from build_scripts.hand import write_into
from tests.browser.conftest import Visit
from tests.browser.hand import is_told
from tests.browser.visitor import SEMANTICS_ON, Visitor

LONG_MS = 60_000
OPFS = """async (folder) => {
  const root = await navigator.storage.getDirectory();
  const found = {};
  for await (const file of (await root.getDirectoryHandle(folder)).values())
    found[file.name] = (await file.getFile()).size;
  return found;
}"""
ON_DISK = """async (words) => {
  const walk = async (folder) => {
    for await (const one of folder.values())
      if (one.kind === "directory" ? await walk(one)
        : (await (await one.getFile()).text()).includes(words)) return true;
    return false;
  };
  return walk(await navigator.storage.getDirectory());
}"""
BYTES_OF = """async (address) => {
  const answer = await fetch(address);
  return [answer.status, [...new Uint8Array(await answer.arrayBuffer())]];
}"""


def start(visitor: Visitor, path: str = "") -> Page:
    page = visitor.open(path)
    visitor.read_aloud()
    return page


def button(page: Page, name: str) -> Locator:
    return page.get_by_role("button", name=name).first


def sees(page: Page, words: str) -> None:
    """The words stand on the screen, or are its name for someone who cannot see it."""
    said = page.get_by_text(words).or_(page.get_by_label(words)).first
    said.wait_for(state="attached", timeout=LONG_MS)


def with_example(visitor: Visitor) -> Page:
    """The app with the two invented batches, one of them open."""
    page = start(visitor)
    button(page, "See an example").click(timeout=LONG_MS)
    sees(page, "Two invented batches")
    return to_batch(page)


def to_batch(page: Page) -> Page:
    page.get_by_role("tab", name="Journal").click(timeout=LONG_MS)
    button(page, "Invented: thick point").click(timeout=LONG_MS)
    button(page, "Note").wait_for(timeout=LONG_MS)
    return page


def write_note(page: Page, text: str) -> None:
    button(page, "Note").click()
    box = page.get_by_role("textbox").first
    box.tap(timeout=LONG_MS)
    write_into(page, box, text)
    button(page, "Save").click()
    sees(page, "Saved.")


def wait_until_on_disk(page: Page, words: str) -> None:
    until = time.monotonic() + LONG_MS / 1000
    while not page.evaluate(ON_DISK, words):
        assert time.monotonic() < until, f"{words!r} was never written"


def test_an_entry_called_saved_outlives_a_killed_tab_and_the_network(visit: Visit) -> None:
    visitor = visit()
    visitor.allow("ERR_CONNECTION_REFUSED|ERR_INTERNET_DISCONNECTED")  # the network is gone
    page = with_example(visitor)
    visitor.wait_until_kept()
    visitor.go_offline()
    write_note(page, "Fat cap trimmed thin.")
    visitor.kill_tab()
    page = to_batch(start(visitor))
    assert is_told(page, "Fat cap trimmed thin.")


def test_a_note_half_written_outlives_a_killed_tab(visit: Visit) -> None:
    visitor = visit()
    page = with_example(visitor)
    button(page, "Note").click()
    box = page.get_by_role("textbox").first
    box.tap(timeout=LONG_MS)
    write_into(page, box, "The bark is dark and")
    wait_until_on_disk(page, "The bark is dark and")
    visitor.kill_tab()
    page = to_batch(start(visitor))
    button(page, "Note").click()
    sees(page, "not saved yet")
    visitor.picture("note-not-saved")
    assert visitor.barriers() == []
    box = page.get_by_role("textbox").first
    box.tap(timeout=LONG_MS)  # the client gives its words away only when it is touched
    expect(box).to_have_value("The bark is dark and", timeout=LONG_MS)
    button(page, "Save").click()
    sees(page, "Saved.")


def test_of_two_tabs_one_has_the_journal_and_gives_it_when_asked(visit: Visit) -> None:
    visitor = visit()
    first = with_example(visitor)
    second = visitor.new_page()
    second.goto(visitor.host.address)
    second.wait_for_selector(SEMANTICS_ON, state="attached", timeout=LONG_MS)
    sees(second, "open in another window")
    first.bring_to_front()  # what lies behind draws nothing
    write_note(first, "Written in the first tab.")
    second.bring_to_front()
    button(second, "Use it here").click()
    assert is_told(to_batch(second), "Written in the first tab.")
    write_note(second, "Written in the second tab.")
    first.bring_to_front()
    sees(first, "now open in another window")
    second.close()
    first.reload()
    visitor.read_aloud()
    page = to_batch(first)
    assert is_told(page, "Written in the first tab.")
    assert is_told(page, "Written in the second tab.")


def picture(width: int, height: int) -> bytes:
    """A JPEG as a phone writes it: lying on its side, with place and time."""
    image = Image.linear_gradient("L").resize((width, height)).convert("RGB")
    tags = Image.Exif()
    tags[0x0112] = 6  # orientation: the top of the scene is the right side of the rows
    tags.get_ifd(0x8769)[0x9003] = "2026:11:20 18:00:00"
    tags.get_ifd(0x8825).update({1: "N", 2: (52.0, 30.0, 0.0)})
    out = io.BytesIO()
    image.save(out, "JPEG", exif=tags)
    return out.getvalue()


def choose(page: Page, file: Path) -> None:
    with page.expect_file_chooser() as chooser:
        button(page, "Photo").click()
    chooser.value.set_files(file)


def test_a_photo_is_kept_upright_small_and_without_its_place(visit: Visit, tmp_path: Path) -> None:
    visitor = visit()
    page = with_example(visitor)
    visitor.wait_until_kept()
    before = set(page.evaluate(OPFS, "photos"))
    file = tmp_path / "phone.jpg"
    file.write_bytes(picture(3000, 2000))
    choose(page, file)
    sees(page, "Photo saved.")
    new = sorted(set(page.evaluate(OPFS, "photos")) - before)
    assert len(new) == 2
    sizes = {}
    for name in new:
        status, content = page.evaluate(BYTES_OF, f"photos/{name}")
        assert status == 200
        kept = Image.open(io.BytesIO(bytes(content)))
        assert not kept.getexif()
        sizes["thumb" if "thumb" in name else "whole"] = kept.size
    assert sizes == {"whole": (1365, 2048), "thumb": (213, 320)}


NO_PHOTOS = {
    "empty": b"",
    "not a picture": b"this is no picture",
    "cut short": picture(600, 400)[:3000],
}


def test_what_is_no_photo_is_refused_and_nothing_is_kept(visit: Visit, tmp_path: Path) -> None:
    visitor = visit()
    page = with_example(visitor)
    before = page.evaluate(OPFS, "photos")
    file = tmp_path / "odd.jpg"
    for says, content in NO_PHOTOS.items():
        file.write_bytes(content)
        choose(page, file)
        sees(page, says)
    assert page.evaluate(OPFS, "photos") == before
    write_note(page, "It goes on.")
