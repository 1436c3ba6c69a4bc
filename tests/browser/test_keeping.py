"""What is kept stays: a full device, a torn or damaged log, stray pictures, an old journal."""

import io
import re
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from PIL import Image
from playwright.sync_api import Page

from app.device.slots import HEADER_BYTES, header
from app.store.backup_check import read_backup
from build_scripts.static_host import StaticHost
from tests.browser.altered_site import copied, list_again, replace
from tests.browser.conftest import Visit
from tests.browser.hand import Hand, is_told, said, wait_usable
from tests.browser.visitor import Visitor
from tests.store.test_shelf import of_form_2

SAMPLES = Path(__file__).parents[1] / "store" / "samples"
LONG_MS = 60_000
LAY = """async ([folder, name, bytes]) => {
  const root = await navigator.storage.getDirectory();
  const place = await root.getDirectoryHandle(folder, { create: true });
  const out = await (await place.getFileHandle(name, { create: true })).createWritable();
  await out.write(new Uint8Array(bytes));
  await out.close();
}"""
TAKE = """async ([folder, name]) => {
  const root = await navigator.storage.getDirectory();
  const file = await (await (await root.getDirectoryHandle(folder)).getFileHandle(name)).getFile();
  return [...new Uint8Array(await file.arrayBuffer())];
}"""
REMOVE = """async ([folder, name]) => {
  const root = await navigator.storage.getDirectory();
  await (await root.getDirectoryHandle(folder)).removeEntry(name);
}"""
FILES = """async (folder) => {
  const found = [];
  const root = await navigator.storage.getDirectory();
  for await (const name of (await root.getDirectoryHandle(folder)).keys()) found.push(name);
  return found.sort();
}"""
# The program's worker goes a while after its page; with it goes its hold on the files.
LET_GO = """async () => {
  await navigator.locks.request("brinewright-journal", () => {});
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle("journal", { create: true });
  for await (const file of folder.values()) {
    for (;;) {
      try { await (await file.createWritable({ keepExistingData: true })).abort(); break; }
      catch { await new Promise(done => setTimeout(done, 50)); }
    }
  }
}"""
USAGE = "async () => (await navigator.storage.estimate()).usage"


def jpeg(width: int, height: int, noise: bool = False) -> bytes:
    """A picture; one of noise does not pack, so it is large."""
    scene = Image.effect_noise((width, height), 90) if noise else Image.new("L", (width, height))
    out = io.BytesIO()
    scene.convert("RGB").save(out, "JPEG", quality=95)
    return out.getvalue()


def with_example(visitor: Visitor) -> Hand:
    """The app with the two invented batches, and the program kept."""
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees(re.compile("Two invented batches"), LONG_MS)
    visitor.wait_until_kept()
    return hand


def beside(visitor: Visitor) -> Page:
    """A page of the same origin without the program, so that nobody holds the files."""
    visitor.allow("favicon")  # a picture shown by itself names none, so the browser looks for one
    visitor.page.goto("about:blank")
    visitor.page.goto(visitor.host.address + "icons/mark.svg")
    visitor.page.evaluate(LET_GO)
    return visitor.page


def altered(visitor: Visitor, change: Callable[[bytearray], bytes | bytearray]) -> None:
    """Close the program, change the bytes of the log that is in use, and open it again."""
    page = beside(visitor)
    for name in page.evaluate(FILES, "journal"):
        log = bytearray(page.evaluate(TAKE, ["journal", name]))
        if len(log) > HEADER_BYTES:
            page.evaluate(LAY, ["journal", name, list(change(log))])
    visitor.open()
    wait_usable(visitor)


def quota(visitor: Visitor, room: int | None) -> None:
    """Leave so many bytes of room beside what is used; None for as much as there is."""
    session = visitor.context.new_cdp_session(visitor.page)
    wish: dict[str, Any] = {"origin": visitor.host.address.rstrip("/")}
    if room is not None:
        wish["quotaSize"] = int(visitor.page.evaluate(USAGE)) + room
    session.send("Storage.overrideQuotaForOrigin", wish)


def choose_photo(hand: Hand, file: Path) -> None:
    hand.page.get_by_role("button", name="Note").first.wait_for(timeout=LONG_MS)
    with hand.page.expect_file_chooser() as chooser:
        hand.press("Photo", exact=True)
    chooser.value.set_files(file)


def test_a_full_device_keeps_what_is_there_and_says_what_did_not_fit(
    visit: Visit, tmp_path: Path
) -> None:
    visitor = visit()
    hand = with_example(visitor)
    quota(visitor, 600_000)
    hand.page.reload()
    wait_usable(visitor)
    hand.sees(re.compile("of room left for this program"), LONG_MS)
    before = hand.page.evaluate(FILES, "photos")
    file = tmp_path / "large.jpg"
    file.write_bytes(jpeg(2048, 1536, noise=True))
    hand.place("Journal")
    hand.press("Invented: thick point")
    choose_photo(hand, file)
    hand.sees(re.compile("The photo was not taken in. There is no room left"), LONG_MS)
    assert hand.page.evaluate(FILES, "photos") == before
    # A copy can still be taken out, which is what the cook is told to do.
    hand.place("Kit")
    hand.press("Copy and restore")
    with hand.page.expect_download(timeout=LONG_MS) as download:
        hand.press("Save everything to a file")
    download.value.save_as(tmp_path / "copy.zip")
    with (tmp_path / "copy.zip").open("rb") as copy:
        assert len(read_backup(copy).photo_ids) == len(before) // 2
    quota(visitor, None)
    hand.place("Journal")
    hand.press("Invented: thick point")
    choose_photo(hand, file)
    hand.sees("Photo saved.", LONG_MS)
    assert len(hand.page.evaluate(FILES, "photos")) == len(before) + 2


def test_a_torn_end_is_told_once(visit: Visit) -> None:
    visitor = visit()
    hand = with_example(visitor)
    altered(visitor, lambda log: log + log[HEADER_BYTES : HEADER_BYTES + 40])
    words = re.compile("had not been written to its end")
    hand.place("Now")
    assert is_told(hand.page, words)
    hand.place("Kit")
    hand.press("What is stored")
    assert is_told(hand.page, words)
    hand.page.reload()
    wait_usable(visitor)
    hand.place("Journal")
    hand.sees(re.compile("Invented: thick point"))
    hand.place("Kit")
    hand.press("What is stored")
    assert is_told(hand.page, "Room left")
    assert said(hand.page, words).count() == 0


def test_a_damaged_middle_says_which_record_and_the_rest_is_there(visit: Visit) -> None:
    visitor = visit()
    hand = with_example(visitor)
    hand.place("Journal")
    hand.press("Invented: thick point")
    hand.page.get_by_role("button", name="Note").first.wait_for(timeout=LONG_MS)
    hand.press("Note", exact=True)
    hand.write("Note", "spoiled")
    hand.press("Save")
    hand.sees(re.compile("^(Saved|Note saved)"))
    hand.place("Kit")
    hand.press("Units")
    hand.press("Units: Metric")  # a whole record after it
    hand.sees(re.compile("kilograms"))

    def spoil(log: bytearray) -> bytearray:
        log[log.lower().rindex(b"spoiled")] ^= 1
        return log

    altered(visitor, spoil)
    hand.place("Kit")
    hand.press("What is stored")
    told = re.compile("an entry of “Invented: thick point")
    assert is_told(hand.page, told)
    hand.place("Journal")
    hand.sees(re.compile("Invented: thick point"))


def test_pictures_gone_astray_are_told_and_a_copy_brings_them_back(
    visit: Visit, tmp_path: Path
) -> None:
    visitor = visit()
    hand = with_example(visitor)
    hand.place("Kit")
    hand.press("Copy and restore")
    with hand.page.expect_download(timeout=LONG_MS) as download:
        hand.press("Save everything to a file")
    copy = tmp_path / "copy.zip"
    download.value.save_as(copy)
    page = beside(visitor)
    pictures = page.evaluate(FILES, "photos")
    page.evaluate(REMOVE, ["photos", next(n for n in pictures if "thumb" not in n)])
    stray = list(jpeg(64, 48))
    for name in ("stray.jpg", "stray-thumb.jpg"):
        page.evaluate(LAY, ["photos", name, stray])
    visitor.open()
    wait_usable(visitor)
    hand.place("Kit")
    hand.press("What is stored")
    assert is_told(hand.page, re.compile("1 photo is in the journal without a picture"))
    assert is_told(hand.page, re.compile("1 photo is on this device that no batch names"))
    with page.expect_download(timeout=LONG_MS) as download:
        hand.press("Save them to a file")
    with zipfile.ZipFile(download.value.path()) as packed:
        assert packed.read("photos/stray.jpg") == bytes(stray)
    hand.press("Delete them")
    hand.press("Delete", exact=True)
    hand.sees(re.compile("left-over pictures are deleted"))
    hand.press("Copy and restore")
    hand.choose_file("Read a file back", copy)
    hand.sees(re.compile("1 picture that is missing here"), LONG_MS)
    hand.press("Add it")
    hand.sees(re.compile("^Read back"), LONG_MS)
    assert page.evaluate(FILES, "photos") == pictures


def test_a_journal_of_the_first_form_opens_in_todays_program(visit: Visit) -> None:
    visitor = visit()
    page = beside(visitor)
    log = header(1) + (SAMPLES / "form-1.log").read_bytes()
    page.evaluate(LAY, ["journal", "journal-a.log", list(log)])
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.place("Journal")
    hand.sees(re.compile("Renamed"))
    hand.sees(re.compile("Flat b1"))


def test_a_journal_of_a_later_form_is_left_untouched(visit: Visit) -> None:
    visitor = visit()
    page = beside(visitor)
    later = list(header(1) + of_form_2(b"whatever it may say"))
    page.evaluate(LAY, ["journal", "journal-a.log", later])
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.sees(re.compile("written by a later version"))
    with visitor.page.expect_event("domcontentloaded"):
        hand.press("Start the newest version")
    wait_usable(visitor)
    hand.sees(re.compile("written by a later version"))
    page = beside(visitor)
    assert page.evaluate(TAKE, ["journal", "journal-a.log"]) == later


WITHOUT_FILES = b"""
StorageManager.prototype.getDirectory = () =>
  Promise.reject(new DOMException("not here", "SecurityError"));
"""
REFUSED_HANDLE = b"""
FileSystemFileHandle.prototype.createSyncAccessHandle = () =>
  Promise.reject(new DOMException("held", "NoModificationAllowedError"));
"""


def changed_worker(site: Path, to: Path, before: bytes) -> Path:
    """The site with something put before the worker that runs Python."""
    copied(site, to)
    worker = to / "boot" / "worker.js"
    replace(worker, before + worker.read_bytes())
    list_again(to)
    return to


def test_a_browser_without_private_files_says_that_it_keeps_nothing(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path
) -> None:
    host.folder = changed_worker(site, tmp_path / "site", WITHOUT_FILES)
    visitor = visit()
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.sees(re.compile("This browser window keeps nothing after it is closed"))
    hand.press("See an example")
    hand.sees(re.compile("Two invented batches"), LONG_MS)


def test_a_refused_handle_is_said_and_nothing_is_written(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path
) -> None:
    host.folder = changed_worker(site, tmp_path / "site", REFUSED_HANDLE)
    visitor = visit()
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.sees(re.compile("open in another window"))
    hand.press("Use it here")
    hand.sees(re.compile("did not let go"))
    assert hand.page.get_by_role("tab").count() == 0


LIKE_AN_IPHONE = """
Object.defineProperty(navigator, "vendor", { get: () => "Apple Computer, Inc." });
"""


def test_a_browser_that_clears_unused_sites_is_known_and_told(visit: Visit) -> None:
    visitor = visit()
    visitor.page.add_init_script(LIKE_AN_IPHONE)
    visitor.open()
    wait_usable(visitor)
    hand = Hand(visitor)
    hand.place("Kit")
    hand.press("What is stored")
    assert is_told(hand.page, re.compile("when you do not open it for a week"))


def test_a_window_that_lost_the_journal_takes_it_back(visit: Visit) -> None:
    visitor = visit()
    hand = with_example(visitor)
    first = visitor.page
    second = visitor.new_page()
    second.goto(visitor.host.address)
    visitor.page = second
    wait_usable(visitor)
    hand.press("Use it here")
    hand.place("Kit")
    hand.press("Units")
    hand.press("Units: Metric")
    hand.sees(re.compile("kilograms"))
    visitor.page = first
    first.bring_to_front()
    hand.press("Take it back here")
    hand.place("Kit")
    # What the other window saved is here.
    hand.sees(re.compile("kilograms"), LONG_MS)
    hand.press("Units")
    hand.press("Units: Both")
    hand.sees(re.compile("both shown"))
    visitor.page = second
    second.bring_to_front()
    hand.sees(re.compile("now open in another window"))
    hand.press("Take it back here")
    hand.place("Kit")
    hand.sees(re.compile("both shown"), LONG_MS)
