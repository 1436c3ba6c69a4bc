"""Reading a backup: everything is checked before anything is believed.

A backup may come from anywhere. Only names of the known pattern are taken, nothing is ever
unpacked to a path of the archive's choosing, and sizes are bounded before they are read.
"""

import asyncio
import hashlib
import re
import stat
import struct
import zipfile
import zlib
from collections.abc import Callable, Generator
from typing import IO, Any, TypeVar

from app.journal.records import Batch, Entry, Kit, Moment, Photo
from app.store.backup import (
    FORMAT,
    KIT,
    MANIFEST,
    NAME,
    VERSION,
    Backup,
    Progress,
    Stopped,
    WholeBatch,
    batch_file,
    photo_file,
)
from app.store.lines import from_json
from app.store.structuring import NewerRecord, NotARecord, record_of

T = TypeVar("T")

_PIECE_BYTES = 1 << 20
MOST_FILES = 100_000
LONGEST_JSON_BYTES = 32_000_000
LONGEST_PHOTO_BYTES = 32_000_000
MOST_BYTES = 16_000_000_000
MOST_GROWTH = 60
"""Our JSON packs to about a tenth; what grows more than this in all is made to do harm."""

_FILE = re.compile(rf"kit\.json|batches/{NAME.pattern}\.json|photos/{NAME.pattern}(-thumb)?\.jpg")


class NotABackup(ValueError):
    """An archive that is not a backup, or not a whole one. Nothing was changed."""


class NewerBackup(NotABackup):
    """A backup of a later version of this program."""


def read_backup(archive: IO[bytes]) -> Backup:
    """Check an archive from end to end and read its records.

    Raises
    ------
    NotABackup
        With a sentence saying what is wrong with it.
    """
    steps = _checking(archive)
    while True:
        try:
            next(steps)
        except StopIteration as end:
            backup: Backup = end.value
            return backup


async def look_through(
    archive: IO[bytes],
    *,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Backup:
    """Check an archive like `read_backup`, letting the screen live meanwhile.

    Raises
    ------
    NotABackup
        With a sentence saying what is wrong with it.
    Stopped
        When `stopped()` said so between two files.
    """
    steps = _checking(archive)
    while True:
        try:
            done, total, size = next(steps)
        except StopIteration as end:
            backup: Backup = end.value
            return backup
        if progress is not None:
            progress(done, total)
        if stopped is not None and stopped():
            raise Stopped("Stopped. Nothing was changed.")
        # A browser's turn costs some milliseconds: not one for each small file.
        if size > _PIECE_BYTES // 4 or done % 16 == 0:
            await asyncio.sleep(0)


def _checking(archive: IO[bytes]) -> Generator[tuple[int, int, int], None, Backup]:
    """Files looked at, files in all and bytes of the last one; at its end the backup itself."""
    try:
        with zipfile.ZipFile(archive) as packed:
            return (yield from _checked(packed, archive))
    except NotABackup:
        raise
    except NewerRecord as why:
        raise NewerBackup(f"This backup cannot be read here: {why} Nothing was changed.") from None
    except NotARecord as why:
        raise NotABackup(f"This backup is damaged. {why} Nothing was changed.") from None
    except (
        zipfile.BadZipFile,
        zipfile.LargeZipFile,
        zlib.error,
        struct.error,
        EOFError,
        KeyError,
        NotImplementedError,
        OSError,
        OverflowError,
        RuntimeError,
        ValueError,
    ):
        raise NotABackup(
            "This file is not a backup, or is damaged: it cannot be unpacked. Nothing was changed."
        ) from None


def _refuse(what: str) -> NotABackup:
    return NotABackup(f"This backup is refused: {what}. Nothing was changed.")


def _checked(
    packed: zipfile.ZipFile, archive: IO[bytes]
) -> Generator[tuple[int, int, int], None, Backup]:
    names = _checked_names(packed, archive)
    manifest = from_json(_read(packed, MANIFEST, LONGEST_JSON_BYTES))
    listed = _checked_manifest(manifest, names)
    pictures: set[str] = set()
    for number, name in enumerate(sorted(names - {MANIFEST}), 1):
        digest, size, first = _digest(packed, name)
        if listed[name] != {"bytes": size, "sha256": digest}:
            raise _refuse(f"{name} is not as it was when the backup was made")
        if name.startswith("photos/"):
            if not first.startswith(b"\xff\xd8"):
                raise _refuse(f"{name} is not a JPEG picture")
            pictures.add(name)
        yield number, len(names) - 1, size
    kit = record_of(from_json(_read(packed, KIT, LONGEST_JSON_BYTES)), Kit)
    batches = tuple(
        _batch(from_json(_read(packed, name, LONGEST_JSON_BYTES)), name)
        for name in sorted(names)
        if name.startswith("batches/")
    )
    photo_ids = _checked_photos(batches, pictures)
    made = record_of(manifest.get("made", {}), Moment)
    return Backup(kit, batches, made, photo_ids, archive)


def _checked_names(packed: zipfile.ZipFile, archive: IO[bytes]) -> frozenset[str]:
    files = packed.infolist()
    if len(files) > MOST_FILES:
        raise _refuse(f"it holds {len(files)} files, more than {MOST_FILES}")
    seen: set[str] = set()
    total = 0
    for file in files:
        # The name as written: zipfile cuts one at a zero byte, which could hide its end.
        if file.orig_filename != file.filename or not (
            file.filename == MANIFEST or _FILE.fullmatch(file.filename)
        ):
            raise _refuse(f"it holds a file of an unknown name, {file.orig_filename[:80]!r}")
        if file.filename.lower() in seen:
            raise _refuse(f"it holds {file.filename} twice")
        seen.add(file.filename.lower())
        if file.flag_bits & 0x1:
            raise _refuse(f"{file.filename} is locked with a password")
        kind = stat.S_IFMT(file.external_attr >> 16)
        if kind not in (0, stat.S_IFREG):
            raise _refuse(f"{file.filename} is not a plain file")
        if file.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise _refuse(f"{file.filename} is packed in an unusual way")
        photo = file.filename.startswith("photos/")
        if file.file_size > (LONGEST_PHOTO_BYTES if photo else LONGEST_JSON_BYTES):
            raise _refuse(f"{file.filename} is too large ({file.file_size} bytes)")
        total += file.file_size
    archive.seek(0, 2)
    if total > MOST_BYTES or total > MOST_GROWTH * archive.tell() + 1_000_000:
        raise _refuse(f"it would unpack to {total} bytes, far more than a backup does")
    for needed in (MANIFEST, KIT):
        if needed not in seen:
            raise _refuse(f"{needed} is missing")
    return frozenset(file.filename for file in files)


def _checked_manifest(manifest: dict[str, Any], names: frozenset[str]) -> dict[str, Any]:
    if manifest.get("format") != FORMAT:
        raise _refuse("its manifest is of another program")
    version = manifest.get("version")
    if type(version) is not int or version < 1:
        raise _refuse("its manifest names no version")
    if version > VERSION:
        raise NewerBackup(
            f"This backup was made by a later version of the program (form {version}; this one "
            f"reads up to {VERSION}). Update the program first. Nothing was changed."
        )
    listed = manifest.get("files")
    if not isinstance(listed, dict):
        raise _refuse("its manifest lists no files")
    for name in sorted(listed.keys() ^ (names - {MANIFEST})):
        where = "is missing" if name in listed else "is not in its manifest"
        raise _refuse(f"{str(name)[:80]} {where}")
    return listed


def _read(packed: zipfile.ZipFile, name: str, longest: int) -> bytes:
    with packed.open(name) as file:
        content = file.read(longest + 1)
    if len(content) > longest:
        raise _refuse(f"{name} is too large")
    return content


def _digest(packed: zipfile.ZipFile, name: str) -> tuple[str, int, bytes]:
    """SHA-256, size and first bytes of a file, read piece by piece."""
    digest, size, first = hashlib.sha256(), 0, b""
    with packed.open(name) as file:
        while piece := file.read(_PIECE_BYTES):
            first = first or piece[:16]
            digest.update(piece)
            size += len(piece)
    return digest.hexdigest(), size, first


def _batch(document: dict[str, Any], name: str) -> WholeBatch:
    parts: list[list[Any]] = []
    for part in ("entries", "photos"):
        found = document.get(part)
        if not isinstance(found, list) or not all(isinstance(one, dict) for one in found):
            raise _refuse(f"{name} has no list of {part}")
        parts.append(found)
    header = document.get("batch")
    if not isinstance(header, dict):
        raise _refuse(f"{name} has no batch")
    batch = record_of(header, Batch)
    whole = WholeBatch(
        batch,
        tuple(record_of(one, Entry) for one in parts[0]),
        tuple(record_of(one, Photo) for one in parts[1]),
    )
    if batch_file(batch.id) != name:
        raise _refuse(f"{name} holds another batch than its name says")
    for kept in (whole.entries, whole.photos):
        if any(one.batch_id != batch.id for one in kept):
            raise _refuse(f"{name} holds something of another batch")
        if len({one.id for one in kept}) < len(kept):
            raise _refuse(f"{name} holds something twice")
        if not all(NAME.fullmatch(one.id) for one in kept):
            raise _refuse(f"{name} holds something of an unusual name")
    return whole


def _checked_photos(batches: tuple[WholeBatch, ...], pictures: set[str]) -> frozenset[str]:
    """Ids of the photos whose pictures are there, large and small."""
    ids = [photo.id for one in batches for photo in one.photos]
    if len(set(ids)) < len(ids):
        raise _refuse("two batches hold the same photo")
    there = frozenset(one for one in ids if photo_file(one, False) in pictures)
    wanted = {photo_file(one, thumb) for one in there for thumb in (False, True)}
    if wanted != pictures:
        raise _refuse(f"{min(wanted ^ pictures)} stands alone")
    return there
