"""Copies of the built site with something changed: a newer version, a broken one, another base.

A copy is made of links, so that it costs no room; a changed file is written anew.
"""

import hashlib
import json
import os
import re
import shutil
from pathlib import Path
from typing import Any

from build_scripts.site import cache_list, front
from build_scripts.site.front import version_of

LOGIN_PAGE = b"<!doctype html><title>Sign in</title><form>Sign in to this network</form>"


def copied(site: Path, to: Path) -> Path:
    """The same site in another folder."""
    shutil.copytree(site, to, copy_function=os.link)
    return to


def replace(file: Path, content: bytes) -> None:
    """Write a file of a copy without touching the one it was linked from."""
    file.unlink(missing_ok=True)
    file.write_bytes(content)


def list_again(site: Path) -> None:
    """Write the service worker's list anew, as the build does, after files were changed."""
    code = (site / "sw.js").read_text("utf-8").split("\n", 1)[1]
    files: list[dict[str, Any]] = [
        {
            "url": name,
            "hash": hashlib.sha256(file.read_bytes()).hexdigest(),
            **cache_list.only(name),
        }
        for name, file in cache_list.kept(site)
    ]
    replace(site / "sw.js", f"const __FILES={json.dumps(files)};\n{code}".encode())


def newer(site: Path, to: Path) -> Path:
    """The next version: one small file differs, and the page's name for the build with it."""
    copied(site, to)
    notes = (to / "version.json").read_bytes()
    replace(to / "version.json", notes + b"\n")
    facts = to / "boot" / "site.js"
    named = re.sub(r'"version": "\w+"', f'"version": "{version_of(to)}"', facts.read_text("utf-8"))
    replace(facts, named.encode())
    list_again(to)
    return to


def under(site: Path, to: Path, base: str) -> Path:
    """The site as it is built for another base path."""
    copied(site, to)
    for name in ("index.html", "boot/config.js", "manifest.webmanifest"):
        (to / name).unlink()
    shutil.copyfile(front.ASSETS / "manifest.webmanifest", to / "manifest.webmanifest")
    front.index(to, base)
    front.manifest(to)
    list_again(to)
    return to
