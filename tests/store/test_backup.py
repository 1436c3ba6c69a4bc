"""A backup comes back whole, merges without doubles, and is refused when anything is wrong."""

import asyncio
import hashlib
import io
import json
import os
import random
import stat
import zipfile
from collections.abc import Callable
from typing import Any

import pytest
from attrs import evolve

from app.device.device import MemoryFiles, MemoryPhotos
from app.device.parts import StorageFull
from app.journal.demonstration import demonstration
from app.journal.records import Kit, Note, OwnSalt
from app.store.backup import Stopped, Written, write_backup
from app.store.backup_check import NewerBackup, NotABackup, look_through, read_backup
from app.store.restore import restore
from app.store.shelf import Shelf
from tests.store.made import all_of, batch, entry, fill, kit, moment, new_shelf, photo

FUZZED = int(os.environ.get("BRINEWRIGHT_FUZZED_BACKUPS", "1500"))
JPEG = b"\xff\xd8 a picture \xff\xd9"


def filled() -> tuple[Shelf, MemoryPhotos]:
    _, shelf = new_shelf()
    fill(shelf)
    photos = MemoryPhotos()
    photos.kept = {name: (JPEG + name.encode(), JPEG + b"small") for name in ("p0", "p1")}
    return shelf, photos


def written(shelf: Shelf, photos: MemoryPhotos) -> bytes:
    out = io.BytesIO()
    asyncio.run(write_backup(out, shelf, photos, moment(500)))
    return out.getvalue()


SHELF, PHOTOS = filled()
ARCHIVE = written(SHELF, PHOTOS)


def put_back(archive: bytes, shelf: Shelf, photos: MemoryPhotos) -> Any:
    return asyncio.run(restore(read_backup(io.BytesIO(archive)), shelf, photos))


def test_everything_comes_back_on_an_empty_device() -> None:
    files, shelf = new_shelf()
    photos = MemoryPhotos()
    merge = put_back(ARCHIVE, shelf, photos)
    shelf.desk.save_draft(SHELF.desk.draft())  # what is being typed is not part of a backup
    assert all_of(shelf) == all_of(SHELF) == all_of(Shelf.open(files))
    assert photos.kept == PHOTOS.kept
    assert [b.id for b in merge.new_batches] == ["b0", "b1"]


def test_reading_back_twice_changes_nothing_the_second_time() -> None:
    files, shelf = new_shelf()
    put_back(ARCHIVE, shelf, MemoryPhotos())
    length = files.length
    merge = put_back(ARCHIVE, shelf, MemoryPhotos())
    assert merge.is_empty
    assert files.length == length


def test_the_same_journal_gives_the_same_bytes() -> None:
    assert written(SHELF, PHOTOS) == ARCHIVE


def test_of_two_the_one_changed_last_stays() -> None:
    _, shelf = new_shelf()
    shelf.save_batch(evolve(batch("b0"), name="Newer here", changed=moment(1000)))
    shelf.save_batch(evolve(batch("b1"), name="Older here", changed=moment(-1000)))
    mine = evolve(entry("e4"), body=Note("newer here"), changed=moment(9999))
    shelf.save_entry(mine)
    merge = put_back(ARCHIVE, shelf, MemoryPhotos())
    assert {b.name for b in shelf.batches()} == {"Newer here", "Flat b1"}
    assert mine in shelf.entries("b0")
    assert [b.id for b in merge.newer_batches] == ["b1"]
    assert len(shelf.entries("b0")) == 7


def test_a_deleted_batch_comes_back() -> None:
    shelf, photos = filled()
    shelf.delete_batch("b0")
    put_back(ARCHIVE, shelf, photos)
    assert all_of(shelf) == all_of(SHELF)


def test_own_settings_stay_and_lacking_salts_come() -> None:
    _, shelf = new_shelf()
    own = Kit("us", salts=(OwnSalt("k9", "Here", 6.25),))
    shelf.save_kit(own)
    put_back(ARCHIVE, shelf, MemoryPhotos())
    assert shelf.kit() == evolve(own, salts=own.salts + kit().salts, containers=kit().containers)


def test_a_picture_of_another_batch_is_never_written_over() -> None:
    _, shelf = new_shelf()
    shelf.save_batch(batch("mine"))
    shelf.save_photo(photo("p0", "mine"))
    photos = MemoryPhotos()
    photos.kept["p0"] = (b"mine", b"mine")
    put_back(ARCHIVE, shelf, photos)
    assert photos.kept["p0"] == (b"mine", b"mine")


def test_a_photo_that_is_gone_from_the_device_is_counted() -> None:
    shelf, photos = filled()
    del photos.kept["p1"]
    out = io.BytesIO()
    told = asyncio.run(write_backup(out, shelf, photos, moment()))
    assert told == Written(batches=2, entries=13, photos=1, missing=1)
    _, other = new_shelf()
    merge = put_back(out.getvalue(), other, MemoryPhotos())
    assert merge.pictureless == 1
    assert other.photo("p1") is None


def test_stopping_leaves_everything_as_it_was() -> None:
    with pytest.raises(Stopped):
        asyncio.run(write_backup(io.BytesIO(), SHELF, PHOTOS, moment(), stopped=lambda: True))
    files, shelf = new_shelf()
    photos = MemoryPhotos()
    backup = read_backup(io.BytesIO(ARCHIVE))
    with pytest.raises(Stopped):
        asyncio.run(restore(backup, shelf, photos, stopped=lambda: len(photos.kept) == 1))
    assert (photos.kept, files.length) == ({}, 0)


def test_no_room_for_a_picture_leaves_everything_as_it_was() -> None:
    class Small(MemoryPhotos):
        async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None:
            await super().put(photo_id, jpeg, thumb)
            if len(self.kept) == 2:
                raise StorageFull("no room")

    files, shelf = new_shelf()
    photos = Small()
    with pytest.raises(StorageFull):
        put_back(ARCHIVE, shelf, photos)
    assert (photos.kept, files.length) == ({}, 0)


def test_a_photo_of_the_longest_name_goes_out_and_comes_back() -> None:
    _, shelf = new_shelf()
    name = "p" * 64
    shelf.save_batch(batch())
    shelf.save_photo(photo(name))
    photos = MemoryPhotos()
    photos.kept[name] = (JPEG, JPEG + b"small")
    _, other = new_shelf()
    back = MemoryPhotos()
    put_back(written(shelf, photos), other, back)
    assert back.kept == photos.kept
    assert other.photo(name) == photo(name)


def test_the_list_of_an_archive_is_read_once_for_all_its_pictures(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # Once for each picture took half an hour for ten thousand.
    backup = read_backup(io.BytesIO(ARCHIVE))
    opened: list[object] = []
    true = zipfile.ZipFile.__init__

    def counted(self: zipfile.ZipFile, *args: Any, **named: Any) -> None:
        opened.append(self)
        true(self, *args, **named)

    monkeypatch.setattr(zipfile.ZipFile, "__init__", counted)
    _, shelf = new_shelf()
    asyncio.run(restore(backup, shelf, MemoryPhotos()))
    assert len(shelf.photos("b0")) == 1
    assert len(opened) == 1


def test_progress_counts_every_file() -> None:
    told: list[tuple[int, int]] = []
    asyncio.run(
        write_backup(
            io.BytesIO(), SHELF, PHOTOS, moment(), progress=lambda n, of: told.append((n, of))
        )
    )
    assert told == [(n, 5) for n in range(1, 6)]


def test_the_demonstration_comes_back_whole() -> None:
    _, shelf = new_shelf()
    shown = demonstration(moment())
    for one in shown.batches:
        shelf.save_batch(one)
    for line in shown.entries:
        shelf.save_entry(line)
    for known in shown.photos:
        shelf.save_photo(known)
    photos = MemoryPhotos()
    photos.kept = {known.id: (JPEG, JPEG) for known in shown.photos}
    _, other = new_shelf()
    put_back(written(shelf, photos), other, MemoryPhotos())
    assert all_of(other) == all_of(shelf)


def test_looking_through_tells_how_far_it_is_and_lets_others_work() -> None:
    told: list[tuple[int, int]] = []
    turns: list[int] = []

    async def beside() -> None:
        while True:
            turns.append(len(told))
            await asyncio.sleep(0)

    async def both() -> Any:
        other = asyncio.ensure_future(beside())
        await asyncio.sleep(0)
        backup = await look_through(
            io.BytesIO(many), progress=lambda n, of: told.append((n, of)), stopped=lambda: False
        )
        other.cancel()
        return backup

    _, shelf = new_shelf()
    for number in range(40):
        shelf.save_batch(batch(f"b{number}"))
    many = written(shelf, MemoryPhotos())
    backup = asyncio.run(both())
    assert len(backup.batches) == 40
    assert told == [(n, 41) for n in range(1, 42)]
    assert len(set(turns)) > 2


def test_looking_through_can_be_stopped_and_refuses_alike() -> None:
    with pytest.raises(Stopped, match="Nothing was changed"):
        asyncio.run(look_through(io.BytesIO(ARCHIVE), stopped=lambda: True))
    with pytest.raises(NotABackup, match="not a backup"):
        asyncio.run(look_through(io.BytesIO(b"hello")))


# Hostile and damaged archives.


def rebuilt(change: Callable[[dict[str, bytes]], None], true_manifest: bool = True) -> bytes:
    """The archive with its files changed, and a manifest that agrees unless told otherwise."""
    with zipfile.ZipFile(io.BytesIO(ARCHIVE)) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    change(files)
    if true_manifest and "manifest.json" in files:
        manifest = json.loads(files["manifest.json"])
        manifest["files"] = {
            name: {"bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}
            for name, content in files.items()
            if name != "manifest.json"
        }
        files["manifest.json"] = json.dumps(manifest).encode()
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files.items():
            packed.writestr(name, content)
    return out.getvalue()


def edited(name: str, **parts: Any) -> Callable[[dict[str, bytes]], None]:
    def change(files: dict[str, bytes]) -> None:
        files[name] = json.dumps(json.loads(files[name]) | parts).encode()

    return change


def adding(name: str, content: bytes = b"x") -> Callable[[dict[str, bytes]], None]:
    return lambda files: files.update({name: content})


def lacking(name: str) -> Callable[[dict[str, bytes]], None]:
    def change(files: dict[str, bytes]) -> None:
        del files[name]

    return change


B0 = "batches/b0.json"
PART = json.loads(zipfile.ZipFile(io.BytesIO(ARCHIVE)).read(B0))

REFUSED: dict[str, tuple[Callable[[dict[str, bytes]], None], str]] = {
    "path upward": (adding("../evil.jpg"), "unknown name"),
    "path upward inside": (adding("photos/../../evil.jpg"), "unknown name"),
    "absolute path": (adding("/etc/passwd"), "unknown name"),
    "backslashes": (adding("photos\\evil.jpg"), "unknown name"),
    "folder": (adding("photos/", b""), "unknown name"),
    "other file": (adding("run.exe"), "unknown name"),
    "bomb": (adding("batches/z.json", bytes(20_000_000)), "unpack to"),
    "too large": (adding("batches/z.json", bytes(40_000_000)), "too large"),
    "same but for case": (adding("photos/P0.jpg", JPEG), "twice"),
    "lone photo": (adding("photos/p7.jpg", JPEG), "stands alone"),
    "no thumbnail": (lacking("photos/p0-thumb.jpg"), "stands alone"),
    "not a picture": (adding("photos/p0.jpg", b"<script>"), "not a JPEG"),
    "no manifest": (lacking("manifest.json"), "missing"),
    "no kit": (lacking("kit.json"), "missing"),
    "newer": (edited("manifest.json", version=2), "later version"),
    "no version": (edited("manifest.json", version="1"), "no version"),
    "foreign": (edited("manifest.json", format="other"), "another program"),
    "newer record": (edited(B0, batch=PART["batch"] | {"schema": 9}), "later version"),
    "other batch": (edited(B0, batch=PART["batch"] | {"id": "b5"}), "another batch"),
    "entry of another": (
        edited(B0, entries=[PART["entries"][0] | {"batch_id": "b1"}]),
        "another batch",
    ),
    "entry twice": (edited(B0, entries=PART["entries"] * 2), "twice"),
    "odd id": (edited(B0, entries=[PART["entries"][0] | {"id": "../x"}]), "unusual name"),
    "no entries": (edited(B0, entries=None), "no list of entries"),
    "bad batch": (edited(B0, batch=PART["batch"] | {"name": []}), "not a batch"),
    "not json": (adding(B0, b"{"), "cannot be unpacked"),
    "deep json": (adding(B0, b"[" * 100_000), "cannot be unpacked"),
    "infinity": (adding(B0, b'{"batch": Infinity}'), "cannot be unpacked"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refused_with_a_sentence(name: str) -> None:
    change, says = REFUSED[name]
    with pytest.raises(NotABackup, match=says) as refusal:
        read_backup(io.BytesIO(rebuilt(change)))
    assert "Nothing was changed." in str(refusal.value)


def test_a_later_version_has_its_own_refusal() -> None:
    with pytest.raises(NewerBackup):
        read_backup(io.BytesIO(rebuilt(edited("manifest.json", version=2))))


def test_a_changed_file_does_not_pass() -> None:
    change = edited(B0, batch=PART["batch"] | {"name": "Forged"})
    with pytest.raises(NotABackup, match="not as it was"):
        read_backup(io.BytesIO(rebuilt(change, true_manifest=False)))


def test_symlinks_passwords_and_doubles_are_refused() -> None:
    link = zipfile.ZipInfo("batches/l.json")
    link.external_attr = (stat.S_IFLNK | 0o777) << 16
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr(link, "/etc/passwd")
    with pytest.raises(NotABackup, match="not a plain file"):
        read_backup(out)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("kit.json", "{}")
        with pytest.warns(UserWarning, match="Duplicate"):
            packed.writestr("kit.json", "{}")
    with pytest.raises(NotABackup, match="twice"):
        read_backup(out)
    locked = bytearray(ARCHIVE)
    locked[locked.rindex(b"PK\x01\x02") + 8] |= 1
    with pytest.raises(NotABackup, match="password"):
        read_backup(io.BytesIO(bytes(locked)))


@pytest.mark.parametrize("content", [b"", b"hello", b"PK\x05\x06" + bytes(18), JPEG])
def test_other_files_are_refused(content: bytes) -> None:
    with pytest.raises(NotABackup):
        read_backup(io.BytesIO(content))


def test_fuzzed_archives_are_refused_or_say_what_the_true_one_says() -> None:
    chance = random.Random(7)
    truth = read_backup(io.BytesIO(ARCHIVE))
    for _ in range(FUZZED):
        spoiled = bytearray(ARCHIVE)
        for _ in range(chance.choice((1, 1, 2, 6))):
            at = chance.randrange(len(spoiled))
            kind = chance.randrange(3)
            if kind == 0:
                spoiled[at] = chance.randrange(256)
            elif kind == 1:
                del spoiled[at : at + chance.choice((1, 9, 200))]
            else:
                spoiled[at:at] = chance.randbytes(chance.choice((1, 9, 200)))
        try:
            read = read_backup(io.BytesIO(bytes(spoiled)))
        except NotABackup:
            continue
        # Bits that mean nothing, such as dates inside the archive, may differ.
        assert (read.batches, read.kit, read.photo_ids) == (
            truth.batches,
            truth.kit,
            truth.photo_ids,
        )


def test_memory_files_hold_what_a_restored_shelf_wrote() -> None:
    files = MemoryFiles.holding(b"")
    shelf = Shelf.open(files)
    put_back(ARCHIVE, shelf, MemoryPhotos())
    # All records in one stroke: any cut of the log shows all of them or none.
    log = files.read_all()
    for length in range(0, len(log), 97):
        assert Shelf.open(MemoryFiles.holding(log[:length])).batches() == ()
