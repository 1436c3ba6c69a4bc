"""The built site, kept until something it is made from changes."""

import hashlib
import shutil
import subprocess
import sys
from pathlib import Path

from build_scripts.environment import CACHE, ROOT
from build_scripts.trouble import Trouble

SITE = CACHE / "site"
INPUTS = ("app", "assets", "build_scripts", "pyproject.toml")
STAMP = "site.sha256"


def digest_of_inputs(root: Path) -> str:
    """One hash over the names and contents of all that the site is made from."""
    digest = hashlib.sha256()
    for file in input_files(root):
        content = hashlib.sha256(file.read_bytes()).hexdigest()
        digest.update(f"{file.relative_to(root).as_posix()}\0{content}\n".encode())
    return digest.hexdigest()


def input_files(root: Path) -> list[Path]:
    """The files the site is made from, in a fixed order, without what Python leaves behind."""
    found: list[Path] = []
    for name in INPUTS:
        top = root / name
        found += [top] if top.is_file() else top.rglob("*")
    return sorted(f for f in found if f.is_file() and "__pycache__" not in f.parts)


def fresh_site() -> Path:
    """The folder of the site as the sources are now, built again only when they changed."""
    stamp = CACHE / STAMP
    wanted = digest_of_inputs(ROOT)
    if (SITE / "index.html").is_file() and stamp.is_file() and stamp.read_text() == wanted:
        return SITE
    stamp.unlink(missing_ok=True)
    shutil.rmtree(SITE, ignore_errors=True)
    print("Building the site ...", flush=True)
    CACHE.mkdir(exist_ok=True)
    command = (sys.executable, str(ROOT / "build_scripts" / "build.py"), "--out", str(SITE))
    if subprocess.run(command, cwd=ROOT, stdin=subprocess.DEVNULL).returncode != 0:
        raise Trouble("The site could not be built; the lines above say where it stopped.")
    stamp.write_text(wanted)
    return SITE
