"""What the service worker keeps: every file with its hash, and which renderer needs it."""

import hashlib
import json
import os
import subprocess
from pathlib import Path

from build_scripts import environment
from build_scripts.site.front import ASSETS, policy, version_of
from build_scripts.trouble import Trouble

# Shown by the host or a shop, never by the program.
NOT_KEPT = ("_headers", "assets/NOTICES", "sw.js")
NOT_KEPT_FOLDERS = ("screenshots/",)
SKWASM = ["skwasm"]
HEAVY = ["skwasm_heavy"]
ONLY = {
    "main.dart.wasm": SKWASM + HEAVY,
    "main.dart.mjs": SKWASM + HEAVY,
    "main.dart.js": ["chromium", "full"],
    "canvaskit/skwasm.js": SKWASM,
    "canvaskit/skwasm.wasm": SKWASM,
    "canvaskit/skwasm_heavy.js": HEAVY,
    "canvaskit/skwasm_heavy.wasm": HEAVY,
    "canvaskit/chromium/canvaskit.js": ["chromium"],
    "canvaskit/chromium/canvaskit.wasm": ["chromium"],
    "canvaskit/canvaskit.js": ["full"],
    "canvaskit/canvaskit.wasm": ["full"],
}


def write(site: Path) -> None:
    """Write the page's facts about the site, then the service worker with its list."""
    facts(site)
    files = [
        {"url": name, "hash": hashlib.sha256(file.read_bytes()).hexdigest(), **only(name)}
        for name, file in kept(site)
    ]
    bundle(ASSETS / "boot" / "sw.js", site / "sw.js", {"__FILES": files, "__POLICY": policy()})


def only(name: str) -> dict[str, list[str]]:
    """Which renderers a file is for, when it is not for all."""
    return {"only": ONLY[name]} if name in ONLY else {}


def kept(site: Path) -> list[tuple[str, Path]]:
    """The files to keep, by their address in the site."""
    found = []
    for file in sorted(p for p in site.rglob("*") if p.is_file()):
        name = file.relative_to(site).as_posix()
        if name not in NOT_KEPT and not name.startswith(NOT_KEPT_FOLDERS):
            found.append((name, file))
    return found


def facts(site: Path) -> None:
    """What the page must know of this build."""
    first = [f for name, f in kept(site) if "skwasm" in ONLY.get(name, ["skwasm"])]
    known = {
        "version": version_of(site),
        "worker": "boot/worker.js",
        "snapshot": next((site / "python").glob("snapshot-*")).relative_to(site).as_posix(),
        "archive": next((site / "python").glob("packages-*")).relative_to(site).as_posix(),
        "firstLoadBytes": sum(f.stat().st_size for f in first if "demonstration" not in str(f)),
    }
    (site / "boot" / "site.js").write_text(
        f"window.brinewrightSite = {json.dumps(known)};\n", "utf-8"
    )


def bundle(source: Path, out: Path, put_in: dict[str, object]) -> None:
    """Bundle the service worker with Workbox, so that nothing is fetched when it runs."""
    modules = environment.NODE_MODULES
    command = (
        str(environment.node()),
        str(modules / "esbuild" / "bin" / "esbuild"),
        str(source),
        "--bundle",
        "--minify",
        "--format=iife",
        '--define:process.env.NODE_ENV="production"',
        *(f"--define:self.{name}={name}" for name in put_in),
        f"--outfile={out}",
    )
    done = subprocess.run(
        command,
        env={**os.environ, "NODE_PATH": str(modules)},
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
    )
    if done.returncode != 0:
        raise Trouble(f"The service worker could not be bundled:\n{done.stderr}")
    constants = "".join(
        f"const {name}={json.dumps(value, separators=(',', ':'))};\n"
        for name, value in put_in.items()
    )
    out.write_text(constants + out.read_text("utf-8"), "utf-8")
