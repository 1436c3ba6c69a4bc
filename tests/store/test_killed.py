"""A program killed in the middle of its work loses nothing it had said was saved."""

import asyncio
import subprocess
import sys
from pathlib import Path

import pytest

from app.device.desktop import desktop_device
from app.store.shelf import Shelf

ROOT = Path(__file__).resolve().parents[2]

SAVING = """
import asyncio, sys
from pathlib import Path
from itertools import count
from app.device.desktop import desktop_device
from app.store.shelf import Shelf
from tests.store.made import batch, entry
device = desktop_device(Path(sys.argv[1]))
asyncio.run(device.files.open())
shelf = Shelf.open(device.files)
shelf.save_batch(batch("b0"))
for number in count():
    shelf.save_entry(entry(f"e{number}", "b0", number))
    print(number, flush=True)
"""


@pytest.mark.parametrize("lines", [1, 40, 150])
def test_every_save_that_was_told_is_there_after_a_kill(tmp_path: Path, lines: int) -> None:
    saving = subprocess.Popen(
        [sys.executable, "-c", SAVING, str(tmp_path)], cwd=ROOT, stdout=subprocess.PIPE, text=True
    )
    assert saving.stdout is not None
    told = [int(saving.stdout.readline()) for _ in range(lines)]
    saving.kill()
    told += [int(line) for line in saving.stdout.read().split("\n")[:-1]]
    saving.wait()
    device = desktop_device(tmp_path)
    asyncio.run(device.files.open())
    there = {entry.id for entry in Shelf.open(device.files).entries("b0")}
    assert {f"e{number}" for number in told} <= there
    # One more may have been written and not yet told.
    assert len(there) <= len(told) + 1
    device.files.close()
