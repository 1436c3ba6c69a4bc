"""Run inside the browser's own Python at build time: import all, so that the snapshot holds it.

Nothing here may leave a JavaScript object alive, read a clock or an environment variable.
"""

import gc
import importlib
import pkgutil
import sys
import types

PLACE = "/py"
"""Where the packages lie while the snapshot is taken; the worker points them elsewhere."""

sys.path.insert(0, PLACE)
sys.modules["flet_js"] = types.ModuleType("flet_js")


def import_all(name: str, leave_out: tuple[str, ...] = ()) -> None:
    """Import a package with everything in it."""
    package = importlib.import_module(name)
    for found in pkgutil.walk_packages(package.__path__, f"{name}."):
        if found.name.endswith("__main__") or any(part in found.name for part in leave_out):
            continue
        importlib.import_module(found.name)


flet = importlib.import_module("flet")
for public in flet.__all__:
    getattr(flet, public)
importlib.import_module("flet.messaging.pyodide_connection")
import_all("flet.components")
import_all("flet.controls")
charts = importlib.import_module("flet_charts")
for public in getattr(charts, "__all__", ()):
    getattr(charts, public)
import_all("tinydb", ("mypy_plugin",))
import_all("app")
for name in ("zipfile", "zipimport", "json", "csv", "html", "asyncio", "zoneinfo", "tzdata"):
    importlib.import_module(name)

app_quantities = importlib.import_module("app.quantities")
app_quantities.parse("7 lb 6 oz", "mass", "lb")  # builds the registry of units

del sys.modules["flet_js"]
gc.collect()
gc.freeze()  # the collector need not walk again and again through what lives for ever
