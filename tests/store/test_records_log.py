"""The log under every kind of damage: nothing raises, nothing is invented."""

import asyncio
import io
import os
import random

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from app.device.device import MemoryFiles, MemoryPhotos
from app.device.slots import MemorySlot
from app.journal.records import Kit, Note
from app.store.backup import Backup, WholeBatch
from app.store.log_storage import LogStorage
from app.store.records_log import HEAD_BYTES, MARK, Change, read_log, record
from app.store.restore import restore
from app.store.shelf import Shelf
from tests.store.made import all_of, batch, entry, fill, moment, new_shelf

CORRUPTIONS = int(os.environ.get("BRINEWRIGHT_CORRUPTIONS", "3000"))

names = st.text(st.characters(blacklist_characters="\n", codec="utf-8"), min_size=1, max_size=8)
changes = st.builds(
    Change, names, names, st.binary(max_size=30).map(lambda b: b.replace(b"\n", b" "))
)


def small_log() -> bytes:
    files, shelf = new_shelf()
    fill(shelf)
    return files.read_all()


LOG = small_log()
LINES = {(c.table, c.key, c.document) for c in read_log(LOG).changes}


@given(st.lists(st.lists(changes, min_size=1, max_size=3), max_size=6))
def test_what_was_written_is_read(groups: list[list[Change]]) -> None:
    log = b"".join(record(number, group) for number, group in enumerate(groups, 1))
    read = read_log(log)
    assert list(read.changes) == [change for group in groups for change in group]
    assert (read.good_length, read.torn, read.damaged, read.doubled, read.missing) == (
        *(len(log), 0, ()),
        *(0, 0),
    )


@given(st.binary(max_size=400))
def test_any_bytes_are_read_without_an_exception(log: bytes) -> None:
    assert read_log(log).changes == ()


def test_a_name_with_a_line_break_is_refused() -> None:
    with pytest.raises(ValueError, match="line breaks"):
        record(1, [Change("a\nb", "k", b"{}")])


def test_cut_at_every_byte_the_records_before_it_are_there_and_it_is_told_once() -> None:
    whole = read_log(LOG)
    ends = {0}
    for length in range(len(LOG) + 1):
        read = read_log(LOG[:length])
        assert read.changes == whole.changes[: len(read.changes)]
        assert read.damaged == ()
        assert read.good_length + read.torn == length
        if not read.torn:
            ends.add(length)
    assert len(ends) > 20
    for length in sorted({n + d for n in ends for d in (-1, 0, 1)} & set(range(len(LOG)))):
        files = MemoryFiles.holding(LOG[:length])
        shelf = Shelf.open(files)
        assert ("dropped" in " ".join(shelf.report)) == (length not in ends)
        again = Shelf.open(files)
        assert again.report == ()
        assert all_of(again) == all_of(shelf)
        again.desk.save_draft({"a": 1})
        assert Shelf.open(files).desk.draft() == {"a": 1}


def test_a_damaged_middle_loses_its_own_record_and_says_which() -> None:
    at = LOG.index(b"entry/e1")
    files = MemoryFiles.holding(LOG[: at + 40] + b"\0\0\0" + LOG[at + 43 :])
    shelf = Shelf.open(files)
    assert [e.id for e in shelf.entries("b0")] == ["e0", "e2", "e3", "e4", "e5", "e6"]
    (sentence,) = shelf.report
    assert "an entry of “Renamed”" in sentence
    assert Shelf.open(files).report == ()
    assert all_of(Shelf.open(files)) == all_of(shelf)


def test_damage_in_a_rewritten_log_costs_a_few_documents_and_names_them() -> None:
    files, shelf = new_shelf()
    shelf.save_batch(batch("b0"))
    for number in range(40):
        shelf.save_entry(entry(f"e{number:02}", number=number))
    storage = LogStorage(files, read_log(files.read_all()).made.each(), 41)
    storage.rewrite()
    log = files.read_all()
    assert len(read_log(log).changes) == 41
    marks = [at for at in range(len(log)) if log.startswith(MARK, at)]
    for at in marks[:-1]:  # the last one looks like a write that never ended
        spoiled = bytearray(log)
        spoiled[at + HEAD_BYTES + 30] ^= 1
        held = Shelf.open(MemoryFiles.holding(bytes(spoiled)))
        (sentence,) = held.report
        if at == marks[0]:
            assert "a change of a batch" in sentence
            assert len(held.entries("b0")) == 40
        else:
            assert "entries of “Flat b0”" in sentence
            assert len(held.entries("b0")) == 40 - 8


def test_lines_whose_batch_was_lost_come_to_sight_with_a_copy_and_the_newer_stay() -> None:
    files, shelf = new_shelf()
    shelf.save_batch(batch("b0"))
    for number in range(3):
        shelf.save_entry(entry(f"e{number}", number=number))
    copy = Backup(
        Kit(),
        (WholeBatch(batch("b0"), shelf.entries("b0"), ()),),
        moment(),
        frozenset(),
        io.BytesIO(),
    )
    later = evolve(entry("e1", number=1), body=Note("put right"), changed=moment(999))
    shelf.save_entry(later)
    log = bytearray(files.read_all())
    log[log.index(b"Flat b0")] ^= 1
    harmed = Shelf.open(MemoryFiles.holding(bytes(log)))
    assert harmed.batches() == ()
    assert harmed.lines_without_batch() == 3
    asyncio.run(restore(copy, harmed, MemoryPhotos()))
    assert [one.id for one in harmed.batches()] == ["b0"]
    assert harmed.entries("b0")[1] == later
    assert harmed.lines_without_batch() == 0


def test_a_log_of_very_many_records_is_rewritten_at_a_start_and_says_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("app.store.log_storage._SPARE_RECORDS", 20)
    files, shelf = new_shelf()
    shelf.save_batch(batch("b0"))
    for number in range(60):
        shelf.save_entry(entry(f"e{number:02}", number=number))
    before = read_log(files.read_all()).records
    again = Shelf.open(files)
    assert all_of(again) == all_of(shelf)
    assert read_log(files.read_all()).records < before / 4
    again.save_entry(entry("after"))
    assert all_of(Shelf.open(files)) == all_of(again)


def test_two_damaged_records_at_the_end_are_no_write_that_never_ended() -> None:
    marks = [at for at in range(len(LOG)) if LOG.startswith(MARK, at)]
    spoiled = bytearray(LOG)
    for at in marks[-2:]:
        spoiled[at + HEAD_BYTES + 20] ^= 1
    files = MemoryFiles.holding(bytes(spoiled))
    shelf = Shelf.open(files)
    (sentence,) = shelf.report
    assert "damaged" in sentence
    assert "a mix being typed" in sentence
    assert Shelf.open(files).report == ()
    assert all_of(Shelf.open(files)) == all_of(shelf)


def test_records_gone_from_the_beginning_are_told() -> None:
    second = LOG.index(MARK, 1)
    (sentence,) = Shelf.open(MemoryFiles.holding(LOG[second:])).report
    assert sentence.startswith("1 change went missing")


def test_a_damaged_log_opens_on_a_full_device_and_is_tidied_when_there_is_room() -> None:
    first, second = MemorySlot(), MemorySlot()
    files = MemoryFiles(first, second)
    files.open_slots(first, second)
    fill(Shelf.open(files))
    at = first.content.index(b"entry/e1")
    first.content[at + 40] ^= 255
    second.room = 100
    shelf = Shelf.open(files)
    assert len(shelf.report) == 1
    shelf.desk.save_draft({"after": 1})
    assert len(Shelf.open(files).report) == 1
    second.room = None
    held = all_of(Shelf.open(files))
    again = Shelf.open(files)
    assert again.report == ()
    assert all_of(again) == held
    assert again.desk.draft() == {"after": 1}


def spoil(log: bytes, chance: random.Random) -> bytes:
    """Flip, overwrite, drop, double, swap or cut what a failing device would."""
    spoiled = bytearray(log)
    for _ in range(chance.choice((1, 1, 1, 2, 5))):
        if not spoiled:
            break
        at = chance.randrange(len(spoiled))
        length = chance.choice((1, 4, 16, 64, 512))
        kind = chance.randrange(7)
        if kind == 0:
            spoiled[at] ^= 1 << chance.randrange(8)
        elif kind == 1:
            spoiled[at : at + length] = chance.randbytes(length)
        elif kind == 2:
            spoiled[at : at + length] = bytes(length)
        elif kind == 3:
            del spoiled[at : at + length]
        elif kind == 4:
            spoiled[at:at] = spoiled[at : at + length]
        elif kind == 5:
            del spoiled[at:]
        else:
            other = chance.randrange(len(spoiled))
            spoiled[at : at + length], spoiled[other : other + length] = (
                spoiled[other : other + length],
                spoiled[at : at + length],
            )
    return bytes(spoiled)


def test_random_damage_never_raises_and_never_shows_what_was_not_written() -> None:
    chance = random.Random(20270306)
    for number in range(CORRUPTIONS):
        log = spoil(LOG, chance)
        read = read_log(log)
        assert {(c.table, c.key, c.document) for c in read.changes} <= LINES
        if len(read.changes) < len(read_log(LOG).changes):
            assert read.torn or read.damaged or read.missing or read.doubled or log in LOG
        if number % 10 == 0:
            files = MemoryFiles.holding(log)
            shelf = Shelf.open(files)
            held = all_of(shelf)
            again = Shelf.open(files)
            assert all_of(again) == held
            assert again.report == ()
            again.desk.save_draft({"after": 1})
            assert Shelf.open(files).desk.draft() == {"after": 1}
