"""Serving: which port, what is said when none is to be had, and when the site is built again."""

import argparse
from pathlib import Path

import pytest

from build_scripts import environment, serve, site_cache
from build_scripts.static_host import StaticHost
from build_scripts.trouble import Trouble


def test_a_taken_port_is_told_when_it_was_asked_for(tmp_path: Path) -> None:
    with (
        StaticHost(tmp_path) as other,
        pytest.raises(Trouble, match=f"Port {other.port} is taken"),
    ):
        serve.open_host(tmp_path, "127.0.0.1", other.port)


def test_the_next_free_port_is_used_when_none_was_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with StaticHost(tmp_path) as other:
        monkeypatch.setattr(serve, "FIRST_PORT", other.port)
        host = serve.open_host(tmp_path, "127.0.0.1", None)
        host.stop()
        assert other.port < host.port < other.port + serve.TRIES


def test_when_all_ports_are_taken_it_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with StaticHost(tmp_path) as other:
        monkeypatch.setattr(serve, "FIRST_PORT", other.port)
        monkeypatch.setattr(serve, "TRIES", 1)
        with pytest.raises(Trouble, match="give --port"):
            serve.open_host(tmp_path, "127.0.0.1", None)


def test_an_address_that_is_not_this_machines_is_told(tmp_path: Path) -> None:
    # 192.0.2.0/24 is set aside for documentation (RFC 5737): no machine has it.
    with pytest.raises(Trouble, match=r"Cannot listen on 192\.0\.2\.1"):
        serve.open_host(tmp_path, "192.0.2.1", None)


@pytest.mark.parametrize("text", ["", "0", "65536", "-1", "http", "80.5", "²"])
def test_what_is_no_port_is_refused(text: str) -> None:
    with pytest.raises(argparse.ArgumentTypeError, match="expected a number 1 to 65535"):
        serve.port_number(text)


def test_a_window_program_that_cannot_be_fetched_is_told_in_a_sentence(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_: object) -> None:
        raise Trouble("urllib.error.URLError")

    monkeypatch.setattr(environment, "run", fail)
    with pytest.raises(Trouble, match=r"leave --desktop out"):
        serve.open_window()


@pytest.mark.parametrize(
    ("taken", "interface", "expected"),
    [
        (False, "127.0.0.1", []),
        (True, "127.0.0.1", ["another address than usual"]),
        (False, "0.0.0.0", ["adb reverse"]),
    ],
)
def test_what_else_a_person_should_know_is_printed(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    taken: bool,
    interface: str,
    expected: list[str],
) -> None:
    with StaticHost(tmp_path) as other:
        free = other.port
        monkeypatch.setattr(serve, "FIRST_PORT", free)
        monkeypatch.setattr(site_cache, "fresh_site", lambda: tmp_path)
        monkeypatch.setattr(StaticHost, "wait", lambda host: None)
        if not taken:
            other.stop()
        assert serve.serve(interface, None) == 0
    said = capsys.readouterr().out
    assert "Brinewright is at http://localhost:" in said
    for words in ("another address than usual", "adb reverse"):
        assert (words in said) == (words in expected)


def test_the_command_line_is_read() -> None:
    assert serve.read_arguments([]).port is None
    assert serve.read_arguments([]).host == "127.0.0.1"
    assert serve.read_arguments(["--port", "9000", "--desktop"]).port == 9000


BUILDER = """
import pathlib, sys
out = pathlib.Path(sys.argv[sys.argv.index("--out") + 1])
count = pathlib.Path("count"); count.write_text(count.read_text() + "x")
if "fail" in pathlib.Path("app/mix.py").read_text():
    sys.exit("no")
out.mkdir(parents=True)
(out / "index.html").write_text("built")
"""


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small project whose builder counts how often it ran."""
    for name in ("app", "assets", "build_scripts"):
        (tmp_path / name).mkdir()
    (tmp_path / "app" / "mix.py").write_text("salt = 1")
    (tmp_path / "assets" / "icon.png").write_bytes(b"\x89")
    (tmp_path / "build_scripts" / "build.py").write_text(BUILDER)
    (tmp_path / "pyproject.toml").write_text("")
    (tmp_path / "count").write_text("")
    monkeypatch.setattr(site_cache, "ROOT", tmp_path)
    monkeypatch.setattr(site_cache, "CACHE", tmp_path / ".cache")
    monkeypatch.setattr(site_cache, "SITE", tmp_path / ".cache" / "site")
    return tmp_path


def builds(project: Path) -> int:
    return len((project / "count").read_text())


def test_a_site_is_built_once(project: Path) -> None:
    assert (site_cache.fresh_site() / "index.html").read_text() == "built"
    site_cache.fresh_site()
    assert builds(project) == 1


@pytest.mark.parametrize(
    "change", ["app/mix.py", "assets/icon.png", "assets/new.js", "build_scripts/build.py"]
)
def test_a_changed_source_builds_again(project: Path, change: str) -> None:
    site_cache.fresh_site()
    with (project / change).open("a") as file:
        file.write("\n# changed")
    site_cache.fresh_site()
    assert builds(project) == 2


def test_what_python_leaves_behind_builds_nothing(project: Path) -> None:
    site_cache.fresh_site()
    (project / "app" / "__pycache__").mkdir()
    (project / "app" / "__pycache__" / "mix.pyc").write_bytes(b"0")
    site_cache.fresh_site()
    assert builds(project) == 1


def test_a_renamed_source_builds_again(project: Path) -> None:
    before = site_cache.digest_of_inputs(project)
    (project / "assets" / "icon.png").rename(project / "assets" / "mark.png")
    assert site_cache.digest_of_inputs(project) != before


def test_a_failed_build_is_tried_again_and_nothing_old_is_shown(project: Path) -> None:
    site_cache.fresh_site()
    (project / "app" / "mix.py").write_text("fail")
    for _ in range(2):
        with pytest.raises(Trouble, match="could not be built"):
            site_cache.fresh_site()
    assert builds(project) == 3
    assert not (site_cache.SITE / "index.html").exists()
