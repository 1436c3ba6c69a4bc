"""Who may import whom: the rooms of the program and what each may know of.

The rules are read off the sources, not off what happens to be imported at run time, so that
an import inside a function or for types only counts as well.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
SCIENCE = {"cure", "transport", "heat", "colour"}
PURE = SCIENCE | {"journal"}
FACE = {"screens", "widgets", "main"}
BELOW_STORE = PURE | {"quantities"}

# Which of our own rooms a room may import, itself left out.
MAY_KNOW: dict[str, set[str]] = {
    **{room: SCIENCE | {"quantities"} for room in SCIENCE},
    "quantities": set(),
    "journal": SCIENCE | {"quantities"},
    "store": BELOW_STORE,
    "device": set(),
    **{room: BELOW_STORE | FACE | {"store", "device"} for room in FACE},
}

# Which rooms alone may import a library; "*" bars it from the program altogether.
ONLY_IN: dict[str, set[str]] = {
    "flet": FACE,
    "flet_charts": FACE,
    "tinydb": {"store"},
    "pint": {"quantities"},
    "js": {"device", "main"},
    "pyodide": {"device", "main"},
    "pyodide_js": {"device", "main"},
    **{name: set() for name in ("numpy", "scipy", "PIL", "coloraide", "flet_web", "flet_desktop")},
}

# Clocks, chance, files, the environment and the network have no place where things are computed.
IMPURE_MODULES = {
    "asyncio", "importlib", "io", "os", "pathlib", "random", "secrets", "shutil", "socket",
    "subprocess", "sys", "tempfile", "threading", "time", "urllib", "uuid",
}  # fmt: skip
IMPURE_CALLS = {"open", "input", "print", "exec", "eval", "__import__"}
CLOCKS = {"now", "utcnow", "today"}


def room_of(module: str) -> str:
    """`app.cure.nitrite` is in the room `cure`."""
    return module.split(".")[1] if "." in module else ""


def imports_in(tree: ast.AST, module: str, is_package: bool) -> Iterator[str]:
    """Every module named by an import, relative ones made whole."""
    package = module.split(".") if is_package else module.split(".")[:-1]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            whole = ".".join([*base, *([node.module] if node.module else [])])
            # `from app import cure` names a room just as `import app.cure` does.
            yield from (f"{whole}.{alias.name}" for alias in node.names)


def clocks_read(tree: ast.AST) -> Iterator[str]:
    """Calls such as `datetime.now()`, under whatever name datetime was imported."""
    names = {"datetime", "date"}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module == "datetime":
            names |= {alias.asname or alias.name for alias in node.names}
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and node.attr in CLOCKS:
            whole = ast.unparse(node)
            if whole.split(".")[-2] in names:
                yield whole


def breaches(source: str, module: str, is_package: bool = False) -> list[str]:
    """What in a module's source breaks the rules of its room, as sentences."""
    tree = ast.parse(source)
    room = room_of(module)
    found: list[str] = []
    if room and room not in MAY_KNOW:
        found.append(f"{module}: the design has no room {room!r}")
    for name in imports_in(tree, module, is_package):
        library = name.split(".")[0]
        if library == "app":
            other = room_of(name)
            if room != other and other not in MAY_KNOW.get(room, set()):
                found.append(f"{module}: {room} may not import {name}")
        elif library in ONLY_IN and room not in ONLY_IN[library]:
            found.append(f"{module}: {room} may not import {library}")
        elif room in PURE and library in IMPURE_MODULES:
            found.append(f"{module}: {library} has no place in {room}")
    if room in PURE:
        found += [f"{module}: reads a clock by {name}" for name in clocks_read(tree)]
        for node in ast.walk(tree):
            called = node.func if isinstance(node, ast.Call) else None
            if isinstance(called, ast.Name) and called.id in IMPURE_CALLS:
                found.append(f"{module}: calls {called.id}()")
    return found


def modules() -> Iterator[tuple[str, Path]]:
    """Every module of the program with its file."""
    for file in sorted((ROOT / "app").rglob("*.py")):
        parts = file.relative_to(ROOT).with_suffix("").parts
        yield ".".join(parts[:-1] if parts[-1] == "__init__" else parts), file


@pytest.mark.parametrize(("module", "file"), [pytest.param(*m, id=m[0]) for m in modules()])
def test_module_keeps_the_rules_of_its_room(module: str, file: Path) -> None:
    found = breaches(file.read_text("utf-8"), module, is_package=file.name == "__init__.py")
    assert not found, "\n".join(found)


def test_every_room_of_the_design_is_there() -> None:
    present = {room_of(module) for module, _ in modules()}
    assert set(MAY_KNOW) <= present


BROKEN = [
    ("app.cure.brine", "import flet as ft", "may not import flet"),
    ("app.cure.brine", "from app.journal.records import Entry", "may not import app.journal"),
    ("app.cure.brine", "from app import store", "may not import app.store"),
    ("app.cure.brine", "from ..journal import plan", "may not import app.journal.plan"),
    ("app.heat.rest", "def f():\n    import time", "time has no place in heat"),
    ("app.heat.rest", "from random import random", "random has no place in heat"),
    ("app.heat.rest", "import pint", "may not import pint"),
    ("app.colour.bark", "import numpy as np", "may not import numpy"),
    ("app.colour.bark", "import js", "may not import js"),
    ("app.colour.bark", "x = open('a')", "calls open()"),
    ("app.journal.plan", "import tinydb", "may not import tinydb"),
    ("app.journal.plan", "from app.device import clock", "may not import app.device"),
    ("app.journal.plan", "import datetime\ndatetime.datetime.now()", "reads a clock"),
    ("app.journal.plan", "from datetime import datetime as dt\ndt.now()", "reads a clock"),
    ("app.journal.plan", "from datetime import date\ndate.today()", "reads a clock"),
    ("app.store.photos", "from app.device.files import Files", "may not import app.device"),
    ("app.store.photos", "import flet", "may not import flet"),
    ("app.store.photos", "import js", "may not import js"),
    ("app.device.clock", "import app.journal.records", "may not import app.journal"),
    ("app.quantities", "from app.cure import brine", "may not import app.cure"),
    ("app.cellar.wine", "", "no room 'cellar'"),
]


@pytest.mark.parametrize(("module", "source", "expected"), BROKEN)
def test_the_rules_find_a_breach(module: str, source: str, expected: str) -> None:
    found = breaches(source, module)
    assert len(found) == 1
    assert expected in found[0]


SOUND = [
    ("app.cure.brine", "import math\nfrom app.heat import thaw\nfrom .ice import landing"),
    ("app.journal.plan", "from datetime import datetime, timedelta\nfrom app.cure.mix import Mix"),
    ("app.store.documents", "import time, tinydb\nfrom app.journal.records import Entry"),
    ("app.device.browser", "import js, time\nopen('a')"),
    ("app.screens.mix.mix", "import flet as ft\nfrom app.store import documents"),
    ("app.main", "import flet\nfrom app.device import clock\nfrom app.screens import now"),
]


@pytest.mark.parametrize(("module", "source"), SOUND)
def test_the_rules_leave_sound_imports_alone(module: str, source: str) -> None:
    assert breaches(source, module) == []


def test_an_empty_package_is_read_as_one() -> None:
    """In a package's own file one dot is the package itself, not its parent."""
    assert breaches("from . import brine", "app.cure", is_package=True) == []
    assert breaches("from ..store import photos", "app.cure", is_package=True) != []
