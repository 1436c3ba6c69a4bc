"""Draw the icons from assets/icons/mark.svg: run by hand when the mark changes.

python3 build_scripts/draw_icons.py     (in the check environment, with Chromium)
"""

import re
import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).resolve().parents[1])

from build_scripts import chromium, environment

ICONS = environment.ROOT / "assets" / "icons"
PAPER = "#F6EFE2"
DRAWN = (
    # name, size, part of the side the mark takes, ground, one colour
    ("icon-192.png", 192, 0.94, "transparent", False),
    ("icon-512.png", 512, 0.94, "transparent", False),
    ("icon-maskable-192.png", 192, 0.66, PAPER, False),
    ("icon-maskable-512.png", 512, 0.66, PAPER, False),
    ("icon-monochrome-512.png", 512, 0.80, "transparent", True),
    ("apple-touch-icon.png", 180, 0.80, PAPER, False),
)


def one_colour(mark: str) -> str:
    """The mark as one shape: the rim, and the fat left open."""
    paths = re.findall(r'd="([^"]+)"', mark)
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">'
        f'<path fill="#000" fill-rule="evenodd" d="{paths[0]}{paths[1]}"/>'
        f'<path fill="#000" d="{paths[2]}"/></svg>'
    )


def main() -> None:
    """Write every icon."""
    from playwright.sync_api import sync_playwright

    mark = (ICONS / "mark.svg").read_text("utf-8")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=str(chromium.find()), args=list(chromium.FLAGS)
        )
        for name, size, part, ground, plain in DRAWN:
            page = browser.new_page(viewport={"width": size, "height": size})
            svg = one_colour(mark) if plain else mark
            svg = svg.replace("<svg", f'<svg width="{size * part}" height="{size * part}"', 1)
            page.set_content(
                f'<body style="margin:0;height:100vh;display:grid;place-items:center;'
                f'background:{ground}">{svg}</body>'
            )
            page.screenshot(path=ICONS / name, omit_background=True)
            page.close()
        browser.close()


if __name__ == "__main__":
    environment.enter("check")
    main()
