"""The page itself: index, boot scripts, manifest, icons, fonts and pictures of our own."""

import hashlib
import json
import re
import shutil
from pathlib import Path

import flet_web
from flet.controls.types import RouteUrlStrategy, WebRenderer

from build_scripts.environment import ROOT
from build_scripts.site.client import web_folder
from build_scripts.trouble import Trouble

ASSETS = ROOT / "assets"
NAME = "Brinewright"
SAYS = "Cure, smoke and slice beef at home: how much, how long, how hot, what next. Works offline."
HEADERS = """\
# What a static host should send. Names with a hash never change; all else is asked for again.
/*
  Cache-Control: no-cache
  X-Content-Type-Options: nosniff
  Referrer-Policy: no-referrer
  Content-Security-Policy: {policy}; frame-ancestors 'none'
  Permissions-Policy: camera=(self), geolocation=(), microphone=(), payment=(), usb=()
/python/*
  Cache-Control: public, max-age=31536000, immutable
"""


def lay(site: Path, base: str) -> None:
    """Put the page into the site, to stand under `base`."""
    shutil.copytree(
        ASSETS / "boot",
        site / "boot",
        ignore=shutil.ignore_patterns("index.html", "sw.js"),
        copy_function=shutil.copyfile,
    )
    for name in ("icons", "demonstration", "screenshots"):
        if (ASSETS / name).is_dir():
            shutil.copytree(
                ASSETS / name,
                site / name,
                ignore=shutil.ignore_patterns("*.py", "*.md"),
                copy_function=shutil.copyfile,
            )
    for font in sorted((ASSETS / "fonts").glob("*")):
        shutil.copyfile(font, site / "assets" / "fonts" / font.name)
    for name in ("manifest.webmanifest", "bridge.js"):
        shutil.copyfile(ASSETS / name, site / name)
    index(site, base)
    manifest(site)
    (site / "_headers").write_text(HEADERS.format(policy=policy()), "utf-8")


def policy() -> str:
    """What the page may do, as its own head states it."""
    page = (ASSETS / "boot" / "index.html").read_text("utf-8")
    found = re.search(r'"Content-Security-Policy" content="([^"]+)"', page)
    if found is None:
        raise Trouble("assets/boot/index.html states no Content-Security-Policy.")
    return found[1]


def index(site: Path, base: str) -> None:
    """The page, its settings moved into a script file so that the policy needs no exception."""
    page = site / "index.html"
    shutil.copyfile(ASSETS / "boot" / "index.html", page)
    flet_web.patch_index_html(
        str(page),
        base_href=base,
        app_name=NAME,
        app_description=SAYS,
        pyodide=True,
        pyodide_script_path="app/main.py",
        no_cdn=True,
        web_renderer=WebRenderer.AUTO,
        route_url_strategy=RouteUrlStrategy.HASH,
    )
    text = page.read_text("utf-8")
    inline = re.search(r"<script>\n(.*?)\n</script>", text, flags=re.S)
    if inline is None:
        raise Trouble("flet_web no longer writes its settings into the page as it did.")
    page.write_text(text.replace(inline[0], '<script src="boot/config.js"></script>'), "utf-8")
    settings = inline[1].replace(
        'flet.fontFallbackBaseUrl="assets/fonts/"',
        f'flet.fontFallbackBaseUrl="{base}assets/fonts/"',
    )
    (site / "boot" / "config.js").write_text(f"{stock_settings()}\n{settings}\n", "utf-8")


def stock_settings() -> str:
    """The settings the client expects, as flet_web's own page starts them."""
    stock = (web_folder() / "index.html").read_text("utf-8")
    found = re.search(
        r"var flet = \{.*?\n    \}\n.*?(?=\n\s*flet\.flutterAppLoaded\.then)", stock, re.S
    )
    if found is None:
        raise Trouble("flet_web's own page no longer holds its settings where they were.")
    return found[0]


def manifest(site: Path) -> None:
    """Name the pictures of the program that are there, with their true sizes."""
    file = site / "manifest.webmanifest"
    written = json.loads(file.read_text("utf-8"))
    shots = []
    for picture in sorted((site / "screenshots").glob("*.png")):
        width, height = png_size(picture)
        shots.append(
            {
                "src": f"screenshots/{picture.name}",
                "sizes": f"{width}x{height}",
                "type": "image/png",
                "form_factor": "narrow",
                # A number in front sets their order.
                "label": picture.stem.lstrip("0123456789-").replace("-", " "),
            }
        )
    if shots:
        written["screenshots"] = shots
    file.write_text(json.dumps(written, indent=1), "utf-8")


def png_size(picture: Path) -> tuple[int, int]:
    """Width and height as a PNG's first chunk states them."""
    head = picture.read_bytes()[16:24]
    return int.from_bytes(head[:4], "big"), int.from_bytes(head[4:], "big")


def version_of(site: Path) -> str:
    """A name for what the site holds now: a hash over every file."""
    digest = hashlib.sha256()
    for file in sorted(p for p in site.rglob("*") if p.is_file()):
        digest.update(file.relative_to(site).as_posix().encode() + file.read_bytes())
    return digest.hexdigest()[:12]
