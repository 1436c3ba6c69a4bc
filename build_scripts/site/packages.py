"""The packages of the browser's Python, installed once for each lock."""

import hashlib
import shutil
import sys
from pathlib import Path

from build_scripts.environment import CACHE, LOCKS, run

LOCK = LOCKS / "browser.txt"
# The Python inside flet_web's Pyodide 314: what wheels must be made for.
PLATFORM = (
    "--platform=pyemscripten_2026_0_wasm32",
    "--python-version=3.14",
    "--implementation=cp",
    "--abi=cp314",
    "--abi=none",
    "--only-binary=:all:",
)


def installed() -> Path:
    """A folder with every package of the lock."""
    digest = hashlib.sha256(LOCK.read_bytes() + repr(PLATFORM).encode()).hexdigest()[:16]
    folder = CACHE / f"browser-packages-{digest}"
    if folder.is_dir():
        return folder
    CACHE.mkdir(exist_ok=True)
    half = folder.with_suffix(".half")
    shutil.rmtree(half, ignore_errors=True)
    pip = (sys.executable, "-m", "pip", "install", "--disable-pip-version-check", "--no-input")
    what = ("--no-deps", "--require-hashes", "--target", str(half), "--requirement", str(LOCK))
    run((*pip, *PLATFORM, *what), "pip-browser", {"PIP_USER": "0"})
    half.rename(folder)
    return folder
