"""The browser that drives the built app in tests and measurements."""

import os
import shutil
import sys
from pathlib import Path

from build_scripts.environment import install_debian_package

VARIABLE = "BRINEWRIGHT_CHROMIUM"
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Google/Chrome/Application/chrome.exe",
)
# Where Playwright's own `playwright install chromium` puts it, by platform.
DOWNLOADS = {
    "linux": ".cache/ms-playwright",
    "darwin": "Library/Caches/ms-playwright",
    "win32": "AppData/Local/ms-playwright",
}
FLAGS = (
    # Chromium refuses its sandbox to root and in most containers; only our own pages are opened.
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
MISSING = (
    "No Chromium was found for the browser tests. Install one (Debian or Ubuntu: apt install "
    f"chromium; or: .venv/bin/python -m playwright install chromium), or name it in {VARIABLE}."
)


def find() -> str | None:
    """The path of a Chromium on this machine, or None."""
    named = os.environ.get(VARIABLE)
    if named:
        return shutil.which(named)
    for name in (*NAMES, *PLACES):
        found = shutil.which(name)
        if found:
            return found
    return downloaded()


def downloaded() -> str | None:
    """The newest Chromium that Playwright keeps for this user, or None."""
    try:
        folder = Path.home() / DOWNLOADS.get(sys.platform, ".cache/ms-playwright")
    except RuntimeError:  # no home folder is known
        return None
    names = ("chrome", "chrome.exe", "Chromium")
    held = [f for f in folder.glob("chromium-*/**/*") if f.name in names and f.is_file()]
    return str(max(held, key=lambda file: file.stat().st_mtime)) if held else None


def find_or_install() -> str | None:
    """A Chromium, Debian's being installed when there is none and this user may."""
    found = find()
    if found or os.environ.get(VARIABLE):
        return found
    return find() if install_debian_package("chromium") else None
