"""Flet's own hello world as a static page, in Flet's own order, to measure against.

The client, the runtime and the start are those of the flet-web wheel, unchanged; the archive
holds a page of two controls and the packages it imports.
"""

import io
import shutil
import tarfile
from pathlib import Path

import flet_web
from flet.controls.types import RouteUrlStrategy, WebRenderer

from build_scripts.site import packages
from build_scripts.site.client import web_folder

NEEDED = ("flet", "msgpack", "repath.py", "six.py")
READY = "stock-ready"
# Says that the page stands just as our own program does: after the first screen was sent.
PROGRAM = f"""\
import flet as ft
import js


def main(page: ft.Page) -> None:
    page.add(ft.Text("Hello, world!"), ft.Button("Press"))
    js.BroadcastChannel.new("{READY}").postMessage("ready")


ft.run(main)
"""


def lay(site: Path) -> None:
    """Put the stock page into `site`."""
    shutil.copytree(web_folder(), site, copy_function=shutil.copyfile)
    flet_web.patch_index_html(
        str(site / "index.html"),
        base_href="/",
        app_name="Hello",
        pyodide=True,
        pyodide_script_path="main.py",
        no_cdn=True,
        web_renderer=WebRenderer.AUTO,
        route_url_strategy=RouteUrlStrategy.HASH,
    )
    with tarfile.open(site / "app.tar.gz", "w:gz") as archive:
        entry = tarfile.TarInfo("main.py")
        entry.size = len(PROGRAM.encode())
        archive.addfile(entry, io.BytesIO(PROGRAM.encode()))
        for name in NEEDED:
            archive.add(packages.installed() / name, f"__pypackages__/{name}", filter=sources_only)


def sources_only(entry: tarfile.TarInfo) -> tarfile.TarInfo | None:
    """Leave out what another Python compiled."""
    return None if "__pycache__" in entry.name else entry
