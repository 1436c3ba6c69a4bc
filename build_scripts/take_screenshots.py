"""Take the pictures of the program that its manifest shows before it is installed.

python3 build_scripts/take_screenshots.py [--site DIR]

Drives the built app with the example batches in it. Run it when screens have changed; the
pictures are kept in assets/screenshots, so that a build needs no browser.
"""

import argparse
import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Literal

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).resolve().parents[1])

from build_scripts import environment

SIZE = {"width": 390, "height": 844}
MOST_BYTES = 150_000
LIMIT_MS = 60_000
SETTLED_MS = 1500
COLOURS = 200


def take(site: Path, into: Path) -> "list[Path]":
    """Take all pictures; their names become the labels in the manifest."""
    from playwright.sync_api import Page, sync_playwright

    from build_scripts import chromium
    from build_scripts.static_host import StaticHost

    def press(page: Page, name: str, role: Literal["button", "tab"] = "button") -> None:
        page.get_by_role(role, name=name).first.tap()
        page.wait_for_timeout(SETTLED_MS)

    def journal(page: Page) -> None:
        press(page, "See an example")
        press(page, "Close")
        press(page, "Journal", "tab")

    def batch(page: Page) -> None:
        press(page, "Invented: peppery flat")

    def mix(page: Page) -> None:
        press(page, "Mix", "tab")
        page.get_by_role("textbox", name="Weight on the label").first.tap()
        page.wait_for_timeout(SETTLED_MS)
        page.keyboard.type("7.4", delay=50)

    def now(page: Page) -> None:
        press(page, "Start batch")
        page.get_by_role("button", name="Start", exact=True).first.tap()
        page.wait_for_timeout(SETTLED_MS)
        press(page, "Now", "tab")

    steps: list[tuple[str, Callable[[Page], None]]] = [
        ("3-the-journal", journal),
        ("4-a-batch", batch),
        ("1-a-mix", mix),
        ("2-what-is-due", now),
    ]
    taken = []
    with StaticHost(site) as host, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=chromium.find(), args=list(chromium.FLAGS)
        )
        page = browser.new_page(
            viewport=SIZE,  # type: ignore[arg-type]
            has_touch=True,
            is_mobile=True,
        )
        page.goto(host.address)
        page.wait_for_selector("html[data-usable=yes]", timeout=LIMIT_MS)
        for name, act in steps:
            act(page)
            page.wait_for_timeout(SETTLED_MS)
            taken.append(keep(page.screenshot(), into / f"{name}.png"))
        browser.close()
    return taken


def keep(png: bytes, file: Path) -> Path:
    """Write a picture with no more colours than it needs, so that it stays small."""
    from PIL import Image

    from build_scripts.trouble import Trouble

    out = io.BytesIO()
    Image.open(io.BytesIO(png)).convert("RGB").quantize(COLOURS).save(out, "PNG", optimize=True)
    if out.tell() > MOST_BYTES:
        raise Trouble(f"{file.name} has {out.tell()} bytes; at most {MOST_BYTES} are wanted.")
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(out.getvalue())
    return file


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="take_screenshots.py")
    parser.add_argument("--site", type=Path, help="a built site; default: built when needed")
    arguments = parser.parse_args()
    environment.enter("check")
    from build_scripts.site_cache import fresh_site

    site = arguments.site or fresh_site()
    for picture in take(site, environment.ROOT / "assets" / "screenshots"):
        print(f"{picture.stat().st_size:>8} {picture.name}")
