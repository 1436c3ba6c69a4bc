"""A copy far larger than the memory: written, checked and read back piece by piece.

The check uses 64 MB of photos; `BRINEWRIGHT_COPY_MB=2048` tries the two gigabytes of years of use.
"""

import asyncio
import hashlib
import os
import random
import tracemalloc
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from attrs import evolve

from app.store.backup import write_backup
from app.store.backup_check import look_through
from app.store.restore import restore
from app.store.shelf import Shelf
from tests.store.made import batch, moment, new_shelf, photo

PHOTO_BYTES = 1_000_000
THUMB_BYTES = 16_000
PHOTOS = max(8, int(os.environ.get("BRINEWRIGHT_COPY_MB", "64")))
MOST_MEMORY = 16_000_000
"""A photo is held a few times over while it is packed; never the whole of them."""
NOISE = random.Random(7).randbytes(PHOTO_BYTES)


def jpeg(photo_id: str, thumb: bool) -> bytes:
    """A picture made up on the spot, so that none has to be kept."""
    size = THUMB_BYTES if thumb else PHOTO_BYTES
    return (b"\xff\xd8" + photo_id.encode() + NOISE)[:size]


class MadeUp:
    """Photos that come from nowhere and go nowhere, and what was put of them."""

    def __init__(self) -> None:
        self.put_in: dict[str, str] = {}

    async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None:
        self.put_in[photo_id] = hashlib.sha256(jpeg + thumb).hexdigest()

    async def get(self, photo_id: str, thumb: bool = False) -> bytes:
        return jpeg(photo_id, thumb)

    async def delete(self, photo_id: str) -> None:
        self.put_in.pop(photo_id, None)


def shelf_of_photos() -> Shelf:
    _, shelf = new_shelf()
    photos = tuple(
        evolve(photo(f"p{number:05}", f"b{number % 20}"), stored_bytes=PHOTO_BYTES)
        for number in range(PHOTOS)
    )
    shelf.save_all(tuple(batch(f"b{number}") for number in range(20)), (), photos)
    return shelf


@contextmanager
def little_memory() -> Iterator[None]:
    """Fails when what is done inside held more than a few photos at once."""
    tracemalloc.start()
    try:
        yield
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert most < MOST_MEMORY, f"{most / 1e6:.0f} MB were held at once"


def test_a_copy_larger_than_the_memory_is_written_and_read_back(tmp_path: Path) -> None:
    shelf, photos = shelf_of_photos(), MadeUp()
    file = tmp_path / "copy.zip"
    told: list[tuple[int, int]] = []
    with little_memory(), file.open("wb") as out:
        written = asyncio.run(
            write_backup(out, shelf, photos, moment(), progress=lambda *at: told.append(at))
        )
    assert (written.photos, written.missing) == (PHOTOS, 0)
    assert told[-1][0] == told[-1][1] == len(told)
    assert file.stat().st_size > PHOTOS * PHOTO_BYTES

    _, empty = new_shelf()
    with little_memory(), file.open("rb") as back:
        backup = asyncio.run(look_through(back))
        merge = asyncio.run(restore(backup, empty, photos))
    assert len(merge.new_photos) == PHOTOS == len(photos.put_in)
    assert (
        photos.put_in["p00003"]
        == hashlib.sha256(jpeg("p00003", False) + jpeg("p00003", True)).hexdigest()
    )
    assert empty.photo_ids() == shelf.photo_ids()
