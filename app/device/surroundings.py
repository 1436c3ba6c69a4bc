"""What lies around the program: its own files, and facts about where it runs."""

import platform
import sys
from pathlib import Path


def in_browser() -> bool:
    """Whether this is the Python of a browser's page."""
    return sys.platform == "emscripten"


async def asset(name: str) -> bytes:
    """A file of the program's own assets; LookupError when there is none of that name."""
    if in_browser():
        from js import brinewright
        from pyodide.http import pyfetch

        response = await pyfetch(f"{brinewright.base}{name}")
        if not response.ok:
            raise LookupError(f"{name} is not among the program's files.")
        return bytes(await response.bytes())
    file = Path(__file__).resolve().parents[2] / "assets" / name
    if not file.is_file():
        raise LookupError(f"{name} is not among the program's files.")
    return file.read_bytes()


def facts() -> list[tuple[str, str]]:
    """How the program runs here, for someone who looks for a fault; nothing personal."""
    told = [("Python", platform.python_version())]
    if in_browser():
        from js import brinewright

        started = brinewright.start
        way = "from its snapshot" if started.way == "snapshot" else "the ordinary, slower way"
        told += [("Version", str(brinewright.version)), ("Started", way)]
        if started.way != "snapshot" and started.why:
            told.append(("Because", str(started.why)))
    return told
