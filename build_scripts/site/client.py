"""The client's part of the site: flet_web's prebuilt one, less what this program never uses."""

import json
import re
import shutil
from pathlib import Path

import flet_web

from build_scripts.trouble import Trouble

RENDERERS = (
    "skwasm.js",
    "skwasm.wasm",
    "skwasm_heavy.js",
    "skwasm_heavy.wasm",
    "chromium/canvaskit.js",
    "chromium/canvaskit.wasm",
    "canvaskit.js",
    "canvaskit.wasm",
)
CODE = ("main.dart.js", "main.dart.mjs", "main.dart.wasm", "version.json")
# The client's own parts that no screen of ours shows: formulas, maps, video, sound.
UNUSED_ASSETS = ("flutter_math_fork", "flutter_map", "media_kit", "record_web")


def web_folder() -> Path:
    """Where flet_web keeps its client."""
    return Path(flet_web.get_package_web_dir())


def lay(site: Path) -> None:
    """Put the client into the site."""
    web = web_folder()
    site.mkdir(parents=True)
    for name in CODE:
        shutil.copyfile(web / name, site / name)
    for name in RENDERERS:
        target = site / "canvaskit" / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(web / "canvaskit" / name, target)
    shutil.copytree(
        web / "assets",
        site / "assets",
        ignore=lambda folder, names: [n for n in names if n in UNUSED_ASSETS],
        copy_function=shutil.copyfile,
    )
    (site / "flutter_bootstrap.js").write_text(
        bootstrap((web / "flutter_bootstrap.js").read_text("utf-8")), "utf-8"
    )
    fonts(site / "assets" / "FontManifest.json")


def bootstrap(text: str) -> str:
    """The client's start without its own service worker, which would remove ours, and without
    its splash, which goes before Python is ready."""
    text, found = re.subn(r"\n\s*serviceWorkerSettings: \{.*?\},(?=\n)", "", text, flags=re.S)
    if found != 1:
        raise Trouble("flet_web's flutter_bootstrap.js has changed: no serviceWorkerSettings.")
    return re.sub(r"//# sourceMappingURL=.*", "", text)


def fonts(manifest: Path) -> None:
    """Name our own fonts and drop those of formulas, which the client would load at each start."""
    flet_web.patch_font_manifest_json(str(manifest))
    named = json.loads(manifest.read_text("utf-8"))
    kept = [one for one in named if "flutter_math_fork" not in one["family"]]
    kept.append(
        {
            "family": "Brinewright Text",
            "fonts": [
                {"asset": "fonts/brinewright-text-400.ttf", "weight": 400},
                {"asset": "fonts/brinewright-text-600.ttf", "weight": 600},
                {"asset": "fonts/brinewright-text-700.ttf", "weight": 700},
            ],
        }
    )
    manifest.write_text(json.dumps(kept), "utf-8")
