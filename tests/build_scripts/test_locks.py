"""The lock files: in step with pyproject.toml, hashed throughout, tied to no host."""

import json
import re
import tomllib
from collections.abc import Iterator

import pytest

from build_scripts.environment import LOCKS, ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
OWN = PROJECT["project"]["dependencies"]
GROUPS = PROJECT["dependency-groups"]
HOLDS = {
    "serve": [*OWN, *GROUPS["build"]],
    "check": [*OWN, *GROUPS["build"], *GROUPS["dev"]],
    "desktop": [*OWN, *GROUPS["desktop"]],
    "browser": GROUPS["browser"],
}


def pins(name: str) -> Iterator[tuple[str, str]]:
    """Each package of a lock with the lines that belong to it."""
    text = (LOCKS / f"{name}.txt").read_text("utf-8").replace("\\\n", " ")
    for line in text.splitlines():
        if not line.startswith("#"):
            yield line.split(" ", 1)[0].lower(), line


@pytest.mark.parametrize("name", HOLDS)
def test_every_requirement_is_pinned_as_pyproject_says(name: str) -> None:
    assert {r.lower() for r in HOLDS[name]} <= {pin for pin, _ in pins(name)}


@pytest.mark.parametrize("name", HOLDS)
def test_every_package_is_pinned_to_one_version_with_hashes(name: str) -> None:
    for pin, line in pins(name):
        assert re.fullmatch(r"[a-z0-9._-]+(\[[a-z,]+\])?==[0-9a-z.]+", pin)
        assert "--hash=sha256:" in line


@pytest.mark.parametrize("name", ["serve", "desktop", "browser"])
def test_the_locks_agree_with_each_other(name: str) -> None:
    check = {pin.split("==")[0]: pin for pin, _ in pins("check")}
    for pin, _ in pins(name):
        package = pin.split("==")[0]
        assert check.get(package, pin) == pin


def test_the_browser_gets_no_package_that_cannot_run_there() -> None:
    names = {pin.split("==")[0] for pin, _ in pins("browser")}
    assert not names & {"numpy", "scipy", "pillow", "httpx", "oauthlib", "flet-web"}


def test_no_lock_names_a_host_or_a_folder() -> None:
    for file in LOCKS.iterdir():
        text = file.read_text("utf-8")
        assert "--index-url" not in text
        assert "--find-links" not in text
        if file.suffix == ".txt":
            assert "//" not in text


def test_every_node_package_has_its_integrity_and_no_address() -> None:
    lock = json.loads((LOCKS / "package-lock.json").read_text("utf-8"))
    wanted = json.loads((LOCKS / "package.json").read_text("utf-8"))["dependencies"]
    assert lock["packages"][""]["dependencies"] == wanted
    for path, package in lock["packages"].items():
        if path:
            assert package["integrity"].startswith("sha512-")
            assert "resolved" not in package
    for name, version in wanted.items():
        assert lock["packages"][f"node_modules/{name}"]["version"] == version
