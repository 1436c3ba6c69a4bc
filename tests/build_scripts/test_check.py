"""The check command: it goes on after a failure, and a failure anywhere fails it."""

import sys
from pathlib import Path

import pytest

from build_scripts import check, chromium
from build_scripts.check import Outcome

ALL = ["format", "lint", "types", "unit tests", "build", "browser tests"]


def fake_steps(monkeypatch: pytest.MonkeyPatch, **trouble: str) -> list[str]:
    """Put stand-ins in place of the tools; a list of the steps that ran comes back."""
    ran: list[str] = []

    def run(step: str) -> str | None:
        ran.append(step)
        return trouble.get(step.replace(" ", "_"))

    monkeypatch.setattr(check, "run_tool", run)
    monkeypatch.setattr(check, "build", lambda: run("build"))
    monkeypatch.setattr(check, "drive_browser", lambda: run("browser tests"))
    return ran


def test_every_step_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    ran = fake_steps(monkeypatch)
    results = check.run_steps(fast=False)
    assert ran == ALL
    assert not any(outcome.trouble for outcome in results)


def test_fast_leaves_out_the_build_and_the_browser(monkeypatch: pytest.MonkeyPatch) -> None:
    ran = fake_steps(monkeypatch)
    check.run_steps(fast=True)
    assert ran == ALL[:4]


def test_a_failed_step_does_not_keep_the_next_from_running(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    ran = fake_steps(monkeypatch, format="bad", unit_tests="bad")
    results = check.run_steps(fast=False)
    assert ran == ALL
    assert [outcome.step for outcome in results if outcome.trouble] == ["format", "unit tests"]


def test_without_a_site_the_browser_is_not_driven(monkeypatch: pytest.MonkeyPatch) -> None:
    ran = fake_steps(monkeypatch, build="bad")
    results = check.run_steps(fast=False)
    assert "browser tests" not in ran
    assert results[-1] == Outcome("browser tests", 0.0, "not run, since the build failed")


def test_the_summary_tells_each_step_and_ends_with_the_verdict() -> None:
    good, bad = Outcome("lint", 1.24, None), Outcome("types", 0.5, "failed (exit 1)")
    assert check.summary([good], fast=False)[-1] == "All of it passed."
    lines = check.summary([good, bad], fast=True)
    assert lines[2].split() == ["lint", "1.2", "s", "ok"]
    assert lines[3].endswith("failed (exit 1)")
    assert lines[-1].startswith("Failed: types.")
    assert "browser tests were left out (--fast)" in lines[-1]


@pytest.mark.parametrize(("code", "expected"), [(0, None), (3, "failed (exit 3)")])
def test_a_tools_exit_decides(
    monkeypatch: pytest.MonkeyPatch, code: int, expected: str | None
) -> None:
    command = [sys.executable, "-c", f"raise SystemExit({code})"]
    monkeypatch.setattr(check, "command_for", lambda step: command)
    assert check.run_tool("lint") == expected


def test_unit_tests_take_the_worked_examples_along_and_leave_the_browser() -> None:
    command = check.command_for("unit tests")
    assert "--doctest-modules" in command
    assert "app" in command
    assert "--ignore=tests/browser" in command


def test_a_machine_without_a_browser_fails_and_is_told_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(chromium, "find", lambda: None)
    monkeypatch.setattr(chromium, "install_debian_package", lambda name: False)
    monkeypatch.delenv(chromium.VARIABLE, raising=False)
    assert check.drive_browser() == chromium.MISSING


def test_the_browser_named_by_hand_comes_first(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    program = tmp_path / "mine"
    program.write_text("#!/bin/sh\n")
    program.chmod(0o755)
    monkeypatch.setenv(chromium.VARIABLE, str(program))
    assert chromium.find() == str(program)


def test_a_wrongly_named_browser_is_not_replaced_by_another(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv(chromium.VARIABLE, str(tmp_path / "missing"))
    assert chromium.find_or_install() is None


def test_a_browser_fetched_by_playwright_is_found(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv(chromium.VARIABLE, raising=False)
    monkeypatch.setattr(chromium, "NAMES", ())
    monkeypatch.setattr(chromium, "PLACES", ())
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    monkeypatch.setattr(sys, "platform", "linux")
    assert chromium.find() is None
    program = tmp_path / ".cache/ms-playwright/chromium-1/chrome-linux/chrome"
    program.parent.mkdir(parents=True)
    program.write_text("")
    assert chromium.find() == str(program)


@pytest.mark.parametrize(
    ("outcomes", "expected"),
    [([None], None), (["failed", None], None), (["failed", "failed"], "failed")],
)
def test_a_browser_test_that_fails_twice_fails_the_run(
    monkeypatch: pytest.MonkeyPatch, outcomes: list[str | None], expected: str | None
) -> None:
    told = list(outcomes)
    monkeypatch.setattr(chromium, "find_or_install", lambda: "chromium")
    monkeypatch.setattr(check, "run_tool", lambda step, extra=None: told.pop(0))
    assert check.drive_browser() == expected
    assert told == []
