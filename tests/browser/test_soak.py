"""A short soak: random use with kills, mostly offline; build_scripts/soak.py runs longer ones."""

from pathlib import Path

from build_scripts import chromium, soak_run
from tests.browser.visitor import PICTURES

SECONDS = 90.0


def test_random_use_with_kills_loses_nothing(site: Path, tmp_path: Path) -> None:
    program = chromium.find()
    assert program is not None, chromium.MISSING
    told: list[str] = []
    outcome = soak_run.run(
        site,
        tmp_path,
        program,
        seconds=SECONDS,
        seed=90,
        pictures=PICTURES / "soak",
        tell=told.append,
    )
    assert outcome.faults() == [], "\n".join([*told, *outcome.told()])
    # It did what it is for: something was saved, killed and looked at again.
    assert outcome.checks >= 2
    assert sum(outcome.acts.values()) > 5
