"""Check everything: format, lint, types, unit tests, the built site in a real browser.

python3 build_scripts/check.py          all of it
python3 build_scripts/check.py --fast   all but the build and the browser
"""

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).resolve().parents[1])

from build_scripts import environment


class Outcome(NamedTuple):
    """How one step went; `trouble` says what is wrong, None that nothing is."""

    step: str
    seconds: float
    trouble: "str | None"


def command_for(step: str) -> "list[str]":
    """The command line of one step that is a tool of its own; docstrings' examples are tests."""
    tool = [sys.executable, "-m"]
    return {
        "format": [*tool, "ruff", "format", "--check", "."],
        "lint": [*tool, "ruff", "check", "."],
        "types": [*tool, "mypy"],
        "unit tests": [
            *tool, "pytest", "--ignore=tests/browser", "--doctest-modules", "tests", "app",
        ],
        "browser tests": [*tool, "pytest", "tests/browser"],
        "browser tests again": [
            *tool, "pytest", "tests/browser", "--last-failed", "--last-failed-no-failures=none",
        ],
    }[step]  # fmt: skip


def run_tool(step: str, extra: "dict[str, str] | None" = None) -> "str | None":
    """Run one step's command; what is wrong with it, or None."""
    done = subprocess.run(
        command_for(step),
        cwd=environment.ROOT,
        env={**os.environ, **(extra or {})},
        stdin=subprocess.DEVNULL,
    )
    return None if done.returncode == 0 else f"failed (exit {done.returncode})"


def build() -> "str | None":
    """Build the site when its sources changed."""
    from build_scripts.site_cache import fresh_site
    from build_scripts.trouble import Trouble

    try:
        fresh_site()
    except Trouble as problem:
        return str(problem)
    return None


def drive_browser() -> "str | None":
    """Run the browser tests on the built site, with a Chromium found or installed."""
    from build_scripts import chromium, site_cache

    browser = chromium.find_or_install()
    if browser is None:
        return chromium.MISSING
    where = {chromium.VARIABLE: browser, "BRINEWRIGHT_SITE": str(site_cache.SITE)}
    trouble = run_tool("browser tests", where)
    if trouble is None:
        return None
    # The driver's keys can come before the client listens on a machine that is busy. What fails
    # of itself fails again; what does not is told by the first run's own lines.
    print("\nOnce more what failed, by itself:", flush=True)
    return run_tool("browser tests again", where)


def run_steps(fast: bool) -> "list[Outcome]":
    """Run each step, going on after a failed one."""
    results: list[Outcome] = []
    for name in ("format", "lint", "types", "unit tests", "build", "browser tests"):
        if fast and name in ("build", "browser tests"):
            continue
        if name == "browser tests" and results[-1].trouble is not None:
            results.append(Outcome(name, 0.0, "not run, since the build failed"))
            continue
        print(f"\n== {name}", flush=True)
        begun = time.monotonic()
        special = {"build": build, "browser tests": drive_browser}
        trouble = special[name]() if name in special else run_tool(name)
        results.append(Outcome(name, time.monotonic() - begun, trouble))
    return results


def summary(results: "list[Outcome]", fast: bool) -> "list[str]":
    """The closing lines: each step with its time, then the verdict."""
    lines = ["", "== summary"]
    for outcome in results:
        lines.append(f"{outcome.step:14} {outcome.seconds:7.1f} s  {outcome.trouble or 'ok'}")
    bad = [outcome.step for outcome in results if outcome.trouble]
    verdict = f"Failed: {', '.join(bad)}." if bad else "All of it passed."
    left_out = " The build and the browser tests were left out (--fast)." if fast else ""
    return [*lines, verdict + left_out]


def main() -> int:
    """Run the command line."""
    parser = argparse.ArgumentParser(prog="check.py", description="Check all of Brinewright.")
    parser.add_argument("--fast", action="store_true", help="leave build and browser out")
    fast = parser.parse_args().fast
    environment.enter("check")
    try:
        results = run_steps(fast)
    except KeyboardInterrupt:
        sys.exit("\nStopped before the end.")
    print("\n".join(summary(results, fast)), flush=True)
    return 1 if any(outcome.trouble for outcome in results) else 0


if __name__ == "__main__":
    sys.exit(main())
