"""Python's part of the site: the runtime, the packages with the program, the memory snapshot."""

import gzip
import hashlib
import json
import os
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path

from build_scripts import environment
from build_scripts.site.client import web_folder
from build_scripts.trouble import Trouble

HERE = Path(__file__).parent
RUNTIME = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
INDEX = "pyodide-lock.json"
# Never imported in the browser. msgpack's compiled part cannot be in a snapshot; its own
# Python form takes over.
LEFT_OUT = (
    "/bin/",
    "/tests/",
    "/test/",
    "/testsuite/",
    "/__pycache__/",
    "/flet/testing/",
    "/flet/fastapi/",
)
LEFT_OUT_ENDINGS = (".so", ".pyi", ".exe", ".c", ".pyx", ".h")


def lay(site: Path, packages: Path) -> None:
    """Put the runtime, the archive and the snapshot into the site."""
    runtime = site / "pyodide"
    runtime.mkdir(parents=True)
    for name in RUNTIME:
        shutil.copyfile(web_folder() / "pyodide" / name, runtime / name)
    # Pyodide reads its list of packages at each start; this program loads none of them.
    index = json.loads((web_folder() / "pyodide" / INDEX).read_text("utf-8"))
    (runtime / INDEX).write_text(json.dumps({**index, "packages": {}}), "utf-8")
    work = site.parent
    source = work / "source.zip"
    pack(packages, environment.ROOT / "app", source)
    snapshot, archive = work / "snapshot.bin", work / "packages.zip"
    node = (str(environment.node()), str(HERE / "snapshot.mjs"))
    parts = (runtime, source, HERE / "warm.py", snapshot, archive)
    done = subprocess.run(
        (*node, *map(str, parts)),
        env={**os.environ, "TZ": "UTC", "LC_ALL": "C"},
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
    )
    if done.returncode != 0:
        raise Trouble(f"The memory snapshot could not be taken:\n{done.stderr}")
    packed = gzip.compress(snapshot.read_bytes(), compresslevel=6, mtime=0)
    (site / "python").mkdir()
    put_hashed(site / "python", "snapshot", ".bin.gz", packed)
    put_hashed(site / "python", "packages", ".zip", archive.read_bytes())


def put_hashed(folder: Path, name: str, ending: str, content: bytes) -> None:
    """Write a file under a name that carries its hash, so that it never means anything else."""
    digest = hashlib.sha256(content).hexdigest()[:16]
    (folder / f"{name}-{digest}{ending}").write_bytes(content)


def pack(packages: Path, app: Path, out: Path) -> None:
    """Pack the packages and the program into one archive, the same for the same input."""
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, file in sorted([*wanted(packages, ""), *wanted(app, "app/")]):
            entry = zipfile.ZipInfo(name, (2020, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, file.read_bytes())


def wanted(folder: Path, prefix: str) -> Iterator[tuple[str, Path]]:
    """Files of a folder that are of use in the browser, by the name they get."""
    for file in folder.rglob("*"):
        name = prefix + file.relative_to(folder).as_posix()
        if not file.is_file() or name.endswith(LEFT_OUT_ENDINGS):
            continue
        if not any(part in f"/{name}" for part in LEFT_OUT):
            yield name, file
