"""Replacing all by a backup: what is in it and nothing else, or everything as it was."""

import asyncio
import io
import json

import pytest
from attrs import evolve

from app.cure.blends import Blend
from app.device.device import MemoryFiles, MemoryPhotos
from app.device.parts import StorageFull
from app.journal.records import InCalendar, Kit, Note
from app.store.backup import Backup, Stopped, write_backup
from app.store.backup_check import read_backup
from app.store.records_log import Change, record
from app.store.restore import replace, restore
from app.store.shelf import Shelf
from app.store.structuring import NewerRecord, document_of
from tests.store.made import all_of, batch, entry, fill, kit, moment, new_shelf, photo

GIVEN = (InCalendar("u1", "mine", "Into the brine", "2027-03-06T18:00", 0),)
JPEG = b"\xff\xd8 a picture \xff\xd9"


def saved() -> tuple[Shelf, MemoryPhotos, Backup]:
    """A journal with its pictures, and the backup of it."""
    _, shelf = new_shelf()
    fill(shelf)
    photos = MemoryPhotos()
    photos.kept = {name: (JPEG + name.encode(), JPEG) for name in ("p0", "p1")}
    out = io.BytesIO()
    asyncio.run(write_backup(out, shelf, photos, moment(500)))
    return shelf, photos, read_backup(out)


def other() -> tuple[MemoryFiles, Shelf, MemoryPhotos]:
    """Another journal: a batch of its own, and an own form of one in the backup."""
    files, shelf = new_shelf()
    shelf.save_kit(evolve(Kit("us"), last_backup=moment(900), calendar=GIVEN))
    shelf.save_batch(batch("mine"))
    shelf.save_photo(photo("mine1", "mine"))
    shelf.save_batch(evolve(batch("b0"), name="Newer here", changed=moment(9_999)))
    shelf.save_entry(evolve(entry("extra"), body=Note("only here")))
    shelf.save_photo(photo("p0", "b0"))
    shelf.save_batch(batch("deleted"))
    shelf.delete_batch("deleted")
    photos = MemoryPhotos()
    photos.kept = {"mine1": (JPEG, JPEG), "p0": (JPEG + b"here", JPEG)}
    return files, shelf, photos


def test_after_it_there_is_what_is_in_the_backup_and_nothing_else() -> None:
    source, _, backup = saved()
    files, shelf, photos = other()
    gone = asyncio.run(replace(backup, shelf, photos))
    assert gone == ("mine1",)
    again = Shelf.open(files)
    for one in (shelf, again):
        assert all_of(one)[2] == all_of(source)[2]
        assert one.kit() == evolve(kit(), last_backup=moment(900), calendar=GIVEN)
        one.restore_batch("deleted")
        one.restore_batch("mine")
        assert {b.id for b in one.batches()} == {"b0", "b1"}
    assert again.report == ()
    # A photo that was here keeps its picture; the one nobody knows is gone.
    assert photos.kept == {"p0": (JPEG + b"here", JPEG), "p1": (JPEG + b"p1", JPEG)}


def test_cut_anywhere_it_is_the_old_journal_or_the_new() -> None:
    _, _, backup = saved()
    files, shelf, photos = other()
    old, before = all_of(shelf), files.length
    asyncio.run(replace(backup, shelf, photos))
    new, log = all_of(shelf), files.read_all()
    seen = []
    for length in [*range(before, len(log), 61), len(log)]:
        held = all_of(Shelf.open(MemoryFiles.holding(log[:length])))
        assert held in (old, new)
        seen.append(held == new)
    assert seen[0] is False
    assert seen[-1] is True


def test_stopped_or_without_room_everything_is_as_it_was() -> None:
    class Small(MemoryPhotos):
        async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None:
            raise StorageFull("no room")

    _, _, backup = saved()
    files, shelf, photos = other()
    before, length, held = all_of(shelf), files.length, dict(photos.kept)
    with pytest.raises(Stopped):
        asyncio.run(replace(backup, shelf, photos, stopped=lambda: True))
    small = Small()
    small.kept = dict(photos.kept)
    with pytest.raises(StorageFull):
        asyncio.run(replace(backup, shelf, small))
    assert (all_of(shelf), files.length, photos.kept, small.kept) == (before, length, held, held)


def test_it_is_refused_while_there_is_a_record_of_a_later_version() -> None:
    _, _, backup = saved()
    line = json.dumps(document_of(entry("e9", "mine")) | {"schema": 2}).encode()
    files = MemoryFiles.holding(record(1, [Change("batch/mine", "entry/e9", line)]))
    with pytest.raises(NewerRecord, match="later version"):
        asyncio.run(replace(backup, Shelf.open(files), MemoryPhotos()))
    assert line in files.read_all()


def test_merging_brings_lacking_blends_and_leaves_own_ones() -> None:
    _, shelf = new_shelf()
    mine, theirs = (
        Blend("House", "kg_of_meat_and_brine", ()),
        Blend("Other", "kg_of_meat_and_brine", ()),
    )
    shelf.save_kit(evolve(Kit(), blends=(mine,)))
    _, _, backup = saved()
    changed = evolve(backup, kit=evolve(backup.kit, blends=(Blend("House", "100_cm2", ()), theirs)))
    asyncio.run(restore(changed, shelf, MemoryPhotos()))
    assert shelf.kit().blends == (mine, theirs)
