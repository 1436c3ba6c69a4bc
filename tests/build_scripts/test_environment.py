"""The environment: what it is made from, when it is made again, what is said when it cannot be."""

import ast
import hashlib
import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

import build_scripts
from build_scripts import environment, trouble

ENTRIES = ("__init__.py", "serve.py", "check.py", "build.py", "measure.py")


@pytest.mark.parametrize("name", ENTRIES)
def test_an_old_python_can_read_as_far_as_the_sentence_for_it(name: str) -> None:
    source = (environment.ROOT / "build_scripts" / name).read_text("utf-8")
    ast.parse(source, feature_version=(3, 7))


def test_an_old_python_is_refused_in_a_sentence() -> None:
    with pytest.raises(SystemExit, match=r"needs Python 3\.11 or newer; this is 3\.10"):
        build_scripts.refuse_old_python((3, 10))
    build_scripts.refuse_old_python((3, 11))
    build_scripts.refuse_old_python((4, 0))


@pytest.fixture
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty project of its own, with locks and what looks like an environment."""
    venv = tmp_path / ".venv"
    for name, value in {
        "ROOT": tmp_path,
        "VENV": venv,
        "CACHE": tmp_path / ".cache",
        "LOCKS": tmp_path / "locks",
        "NODE_MODULES": venv / "npm" / "node_modules",
        "STAMP": venv / "stamp.json",
    }.items():
        monkeypatch.setattr(environment, name, value)
    (tmp_path / "locks").mkdir()
    for name in ("serve.txt", "check.txt", "desktop.txt", "package-lock.json"):
        (tmp_path / "locks" / name).write_text(name)
    environment.python().parent.mkdir(parents=True)
    environment.python().write_text("")
    return tmp_path


def stamp(*groups: str) -> None:
    environment.STAMP.write_text(json.dumps({g: environment.lock_digest(g) for g in groups}))


def test_an_environment_without_a_stamp_is_not_ready(elsewhere: Path) -> None:
    assert not environment.is_ready("serve", environment.read_stamp())


def test_what_was_installed_from_the_present_lock_is_ready(elsewhere: Path) -> None:
    stamp("serve")
    assert environment.is_ready("serve", environment.read_stamp())
    assert not environment.is_ready("check", environment.read_stamp())
    assert not environment.is_ready("desktop", environment.read_stamp())


def test_the_check_environment_serves_too(elsewhere: Path) -> None:
    stamp("check")
    assert environment.is_ready("serve", environment.read_stamp())


def test_a_desktop_environment_cannot_build(elsewhere: Path) -> None:
    stamp("desktop")
    assert not environment.is_ready("serve", environment.read_stamp())


@pytest.mark.parametrize("changed", ["serve.txt", "package-lock.json"])
def test_a_changed_lock_is_installed_again(elsewhere: Path, changed: str) -> None:
    stamp("serve")
    (elsewhere / "locks" / changed).write_text("another")
    assert not environment.is_ready("serve", environment.read_stamp())


@pytest.mark.parametrize("text", ["", "{", "[]", "null"])
def test_a_damaged_stamp_counts_as_none(elsewhere: Path, text: str) -> None:
    environment.STAMP.write_text(text)
    assert environment.read_stamp() == {}


def test_a_stamp_without_its_python_counts_as_none(elsewhere: Path) -> None:
    stamp("serve")
    environment.python().unlink()
    assert environment.read_stamp() == {}


def test_a_ready_environment_installs_nothing(
    elsewhere: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stamp("serve")
    made: list[str] = []
    monkeypatch.setattr(environment, "make", made.append)
    environment.ensure("serve")
    assert made == []
    environment.ensure("check")
    assert made == ["check"]


def test_a_failed_install_leaves_no_stamp(elsewhere: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stamp("desktop")

    def fail(*_: object) -> None:
        raise trouble.Trouble("no")

    monkeypatch.setattr(environment, "run", fail)
    with pytest.raises(trouble.Trouble):
        environment.ensure("serve")
    assert not environment.is_ready("serve", environment.read_stamp())


def test_an_unknown_group_is_refused() -> None:
    with pytest.raises(ValueError, match="no lock is named 'lunch'"):
        environment.ensure("lunch")


def test_a_python_without_venv_is_told_what_to_install(
    elsewhere: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []
    monkeypatch.setattr(environment, "can_make_venv", lambda: False)
    monkeypatch.setattr(environment, "install_debian_package", asked.append)
    with pytest.raises(trouble.Trouble, match="apt install python3-venv"):
        environment.make_venv()
    assert asked == ["python3-venv"]


def test_nothing_of_debian_is_installed_for_an_ordinary_user(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000, raising=False)
    monkeypatch.setattr(subprocess, "run", lambda *_, **__: pytest.fail("was run"))
    assert environment.install_debian_package("chromium") is False


def pip_install(folder: Path, requirement: str, options: dict[str, str]) -> str:
    """What is said when the real pip fails to install a requirement."""
    file = folder / "lock.txt"
    file.write_text(requirement)
    target = ("--target", str(folder / "into"), "--require-hashes", "-r", str(file))
    command = (sys.executable, "-m", "pip", "install", "--no-input", *target)
    clean = {"PIP_CONFIG_FILE": os.devnull, "PIP_FIND_LINKS": "", "PIP_RETRIES": "0"}
    with pytest.raises(trouble.Trouble) as caught:
        environment.run(command, "pip", clean | options)
    return str(caught.value)


def test_a_package_with_another_hash_is_refused(elsewhere: Path) -> None:
    with zipfile.ZipFile(elsewhere / "salt-1.0-py3-none-any.whl", "w") as wheel:
        wheel.writestr("salt.py", "")
        wheel.writestr("salt-1.0.dist-info/METADATA", "Metadata-Version: 2.1\nName: salt\n")
    other = hashlib.sha256(b"another").hexdigest()
    said = pip_install(
        elsewhere,
        f"salt==1.0 --hash=sha256:{other}",
        {"PIP_NO_INDEX": "1", "PIP_FIND_LINKS": str(elsewhere)},
    )
    assert said.startswith("A downloaded package is not the one the lock file names")
    assert ".cache/pip.log" in said.replace("\\", "/")
    assert "Traceback" not in said
    assert not (elsewhere / "into" / "salt.py").exists()


@pytest.mark.parametrize(
    ("retries", "begins"),
    [
        ("1", "The package registry cannot be reached."),
        ("0", "The package registry gave nothing at all for salt==1.0"),
    ],
)
def test_a_registry_that_does_not_answer_is_named_as_such(
    elsewhere: Path, retries: str, begins: str
) -> None:
    # Port 9 is the discard service, which nothing listens on here: refused at once.
    index = {"PIP_INDEX_URL": "http://127.0.0.1:9/simple", "PIP_EXTRA_INDEX_URL": ""}
    index["PIP_RETRIES"] = retries
    said = pip_install(elsewhere, "salt==1.0 --hash=sha256:" + "0" * 64, index)
    assert said.startswith(begins)


def test_a_tool_that_cannot_be_started_is_told_in_a_sentence(elsewhere: Path) -> None:
    with pytest.raises(trouble.Trouble, match=r"npm failed: .*No such file"):
        environment.run((str(elsewhere / "nowhere"),), "npm", {})


@pytest.mark.parametrize(
    ("said", "begins"),
    [
        ("OSError: [Errno 28] No space left on device", "The disk is full."),
        ("npm error code ENOSPC", "The disk is full."),
        ("npm error code EINTEGRITY", "A downloaded package is not"),
        ("npm error code ENOTFOUND", "The package registry cannot be reached."),
        (
            "ERROR: No matching distribution found for scipy==1.17.1",
            "The registry has no scipy==1.17.1 that fits",
        ),
        ("PermissionError: [Errno 13] Permission denied: '/x'", "The project's folder cannot"),
        ("one\nsomething new\n\n", "npm failed: something new (all it said: a.log)"),
        ("", "npm failed: it said nothing"),
    ],
)
def test_each_known_trouble_has_its_sentence(said: str, begins: str) -> None:
    assert trouble.explain("npm", said, Path("a.log")).startswith(begins)
