"""The backup: one zip that can be read without this program.

    manifest.json            format, version, when made, and size and SHA-256 of every other file
    kit.json                 the cook's settings, salts and containers
    batches/<id>.json        {"batch": ..., "entries": [...], "photos": [...]}
    photos/<id>.jpg          a photo, upright; photos/<id>-thumb.jpg the small one beside it

The manifest comes last, so that writing never needs more than one photo in memory.
"""

import hashlib
import json
import re
import zipfile
from collections.abc import Callable
from functools import cached_property
from typing import IO, Any, Protocol, cast

from attrs import frozen

from app.journal.records import Batch, Entry, Kit, Moment, Photo
from app.store.shelf import Shelf
from app.store.structuring import document_of

FORMAT = "Brinewright backup"
VERSION = 1
MANIFEST, KIT = "manifest.json", "kit.json"
NAME = re.compile(r"[A-Za-z0-9_-]{1,64}")

# The earliest date a zip can hold: the true time is in the manifest, and equal content gives
# equal bytes.
_DATE = (1980, 1, 1, 0, 0, 0)

Progress = Callable[[int, int], object]
"""Told how many of how many files are done."""


class Stopped(Exception):
    """The cook stopped the work; nothing was changed."""


class PhotoStore(Protocol):
    """The pictures, as a device keeps them."""

    async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None: ...

    async def get(self, photo_id: str, thumb: bool = False) -> bytes: ...

    async def delete(self, photo_id: str) -> None: ...


class Sink(Protocol):
    """Where the bytes of a backup go, one piece after another."""

    def write(self, content: bytes, /) -> int: ...

    def flush(self) -> None: ...


@frozen
class WholeBatch:
    """A batch with all that belongs to it."""

    batch: Batch
    entries: tuple[Entry, ...]
    photos: tuple[Photo, ...]


@frozen
class Written:
    """What went into a backup; `missing` are photos the journal knows but the device has not."""

    batches: int
    entries: int
    photos: int
    missing: int


def photo_file(photo_id: str, thumb: bool) -> str:
    """Name of a photo's file inside the backup."""
    return f"photos/{photo_id}{'-thumb' if thumb else ''}.jpg"


def batch_file(batch_id: str) -> str:
    """Name of a batch's file inside the backup."""
    return f"batches/{batch_id}.json"


class _Writer:
    """A zip being written, with the hashes of what is in it."""

    def __init__(self, sink: Sink) -> None:
        # zipfile asks for no more than this of what it writes to.
        self._zip = zipfile.ZipFile(cast(IO[bytes], sink), "w", allowZip64=True)
        self.files: dict[str, dict[str, Any]] = {}

    def add(self, name: str, content: bytes, packed: bool) -> None:
        about = zipfile.ZipInfo(name, _DATE)
        # Photos are packed already; doing it again costs time and gains nothing.
        about.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
        self._zip.writestr(about, content)
        digest = hashlib.sha256(content).hexdigest()
        self.files[name] = {"bytes": len(content), "sha256": digest}

    def add_json(self, name: str, document: dict[str, Any]) -> None:
        text = json.dumps(document, ensure_ascii=False, allow_nan=False, indent=1)
        self.add(name, text.encode(), packed=True)

    def close(self) -> None:
        self._zip.close()


async def write_backup(
    sink: Sink,
    shelf: Shelf,
    photos: PhotoStore,
    made: Moment,
    *,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Written:
    """Write everything on the shelf, photos included, into one zip.

    Raises
    ------
    Stopped
        When `stopped()` said so between two files; what was written so far is no backup.
    """
    whole = [WholeBatch(b, shelf.entries(b.id), shelf.photos(b.id)) for b in shelf.batches()]
    total = 1 + len(whole) + sum(len(one.photos) for one in whole)
    done = missing = 0

    def step() -> None:
        nonlocal done
        done += 1
        if progress is not None:
            progress(done, total)
        if stopped is not None and stopped():
            raise Stopped("Stopped. No copy was made.")

    writer = _Writer(sink)
    try:
        writer.add_json(KIT, document_of(shelf.kit()))
        step()
        for one in whole:
            writer.add_json(batch_file(one.batch.id), document_of(one))
            step()
            for photo in one.photos:
                try:
                    jpeg = await photos.get(photo.id)
                    thumb = await photos.get(photo.id, thumb=True)
                except LookupError:
                    missing += 1
                else:
                    writer.add(photo_file(photo.id, False), jpeg, packed=False)
                    writer.add(photo_file(photo.id, True), thumb, packed=False)
                step()
        manifest = {
            "format": FORMAT,
            "version": VERSION,
            "made": document_of(made),
            "files": dict(writer.files),
        }
        writer.add_json(MANIFEST, manifest)
    finally:
        writer.close()
    return Written(
        len(whole),
        sum(len(one.entries) for one in whole),
        sum(len(one.photos) for one in whole) - missing,
        missing,
    )


@frozen
class Backup:
    """A backup that was checked whole. Pictures are read from the archive when asked for."""

    kit: Kit
    batches: tuple[WholeBatch, ...]
    made: Moment
    photo_ids: frozenset[str]
    archive: IO[bytes]

    @cached_property
    def _packed(self) -> zipfile.ZipFile:
        # Opened once: each opening reads the list of all files in the archive.
        return zipfile.ZipFile(self.archive)

    def picture(self, photo_id: str, thumb: bool) -> bytes:
        """The bytes of a photo in the backup."""
        return self._packed.read(photo_file(photo_id, thumb))
