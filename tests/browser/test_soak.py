"""A short soak: random use with kills, mostly offline; build_scripts/soak.py runs longer ones."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from build_scripts import chromium, soak_run
from tests.browser.visitor import PICTURES

SECONDS, LEAST_ACTS = 60.0, 10


def test_random_use_with_kills_loses_nothing(site: Path, tmp_path: Path) -> None:
    program = chromium.find()
    assert program is not None, chromium.MISSING
    told: list[str] = []
    # The other tests' driver holds this thread's loop; a second one needs a thread of its own.
    with ThreadPoolExecutor(1) as apart:
        outcome = apart.submit(
            soak_run.run,
            site,
            tmp_path,
            program,
            seconds=SECONDS,
            seed=90,
            least_acts=LEAST_ACTS,
            pictures=PICTURES / "soak",
            tell=told.append,
        ).result()
    assert outcome.faults() == [], "\n".join([*told, *outcome.told()])
    # It did what it is for: something was saved, cut off or killed, and looked at again.
    assert sum(outcome.restarts.values()) >= 2
    assert outcome.checks > sum(outcome.restarts.values())
