"""Opening a journal in the real browser: one of ten batches against one of a thousand."""

import base64
import time
from typing import TYPE_CHECKING

from playwright.sync_api import Page

from build_scripts import large_journal
from build_scripts.hand import scroll, wait_usable

if TYPE_CHECKING:
    from build_scripts.measuring import Bench, Row

FEW, MANY = 10, 1000
PUT = """async ([folder, names, content]) => {
  const bytes = Uint8Array.from(atob(content), sign => sign.charCodeAt(0));
  const root = await navigator.storage.getDirectory();
  const there = await root.getDirectoryHandle(folder, { create: true });
  const put = async name => {
    const out = await (await there.getFileHandle(name, { create: true })).createWritable();
    await out.write(bytes);
    await out.close();
  };
  while (names.length) await Promise.all(names.splice(0, 40).map(put));
}"""
NOW = "() => performance.now()"
CARD = "Batch "


def fill(page: Page, batches: int) -> None:
    """Put a journal of so many batches, and their pictures, where the program looks for them."""
    log = base64.b64encode(large_journal.log(batches)).decode()
    page.evaluate(PUT, ["journal", ["journal-a.log"], log])
    picture = base64.b64encode(large_journal.picture()).decode()
    names = [
        f"p{number:04}-{one}{small}.jpg"
        for number in range(batches)
        for one in range(large_journal.PHOTOS)
        for small in ("", "-thumb")
    ]
    for first in range(0, len(names), 2000):
        page.evaluate(PUT, ["photos", names[first : first + 2000], picture])


def opening(bench: "Bench") -> "list[Row]":
    """From nothing to a journal that has moved under the wheel, cold and without the network."""
    from build_scripts.measuring import against, row

    times: dict[int, list[float]] = {FEW: [], MANY: []}
    for batches in times:
        bench.keep(f"journal-{batches}")
        with bench.browser(f"journal-{batches}") as context:
            page = context.pages[0]
            # Of the same origin, and not the program, which would hold the file.
            page.goto(bench.ours.address + "version.json")
            fill(page, batches)
    bench.ours.stop()
    for _ in range(bench.runs):
        for batches, found in times.items():
            with bench.browser(f"journal-{batches}") as context:
                page = context.pages[0]
                page.goto(bench.ours.address + "#/journal")
                wait_usable(page)
                page.get_by_role("button", name=CARD).first.wait_for(state="attached")
                while not scroll(page, 300):
                    time.sleep(0.01)
                found.append(float(page.evaluate(NOW)))
    bench.ours.start()
    few = row(f"journal of {FEW} batches opened and scrolled", times[FEW])
    many = row(
        f"journal of {MANY:,} batches ({large_journal.LINES} lines each) and "
        f"{MANY * large_journal.PHOTOS:,} photos",
        times[MANY],
    )
    return [few, against(many, few, f"{FEW} batches")]
