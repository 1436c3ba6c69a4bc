"""Whatever moment the power goes, the log is the old one or the new one, whole."""

import asyncio
import struct
import zlib
from contextlib import suppress

import pytest

from app.device.device import MemoryFiles
from app.device.parts import NewerJournal, NotOpenHere, StorageFull
from app.device.slots import HEADER_BYTES, JournalFile, MemorySlot, header, turn_of


class PowerGone(Exception):
    """The device stopped in the middle of a write."""


class FailingSlot(MemorySlot):
    """Lets a shared number of written bytes and acts pass, then stops in the middle."""

    def __init__(self, content: bytes, left: list[int]) -> None:
        super().__init__(content)
        self.left = left

    def _spend(self, cost: int) -> int:
        passed = min(cost, self.left[0])
        self.left[0] -= cost
        return passed

    def write(self, content: bytes, at: int) -> None:
        passed = self._spend(len(content))
        if passed > 0:
            super().write(content[:passed], at)
        if self.left[0] < 0:
            raise PowerGone

    def truncate(self, size: int) -> None:
        if self._spend(1) < 1:
            raise PowerGone
        super().truncate(size)


def opened(first: MemorySlot, second: MemorySlot) -> JournalFile:
    file = JournalFile()
    file.open_slots(first, second)
    return file


def test_what_is_appended_is_read_after_opening_again() -> None:
    files = MemoryFiles()
    asyncio.run(files.open())
    files.append(b"one")
    files.append(b"two")
    asyncio.run(files.open())
    assert (files.read_all(), files.length) == (b"onetwo", 6)
    files.truncate(3)
    asyncio.run(files.open())
    assert files.read_all() == b"one"


def test_replacing_again_and_again_keeps_the_last() -> None:
    files = MemoryFiles.holding(b"first")
    for content in (b"second", b"", b"a longer third"):
        files.replace(content)
        files.append(b"+")
        asyncio.run(files.open())
        assert files.read_all() == content + b"+"


def test_replacing_stopped_at_every_point_leaves_old_or_new() -> None:
    old, new = b"old " * 10, b"new " * 12
    seen = set()
    for budget in range(len(new) + 3 * HEADER_BYTES + 4):
        left = [budget]
        first, second = FailingSlot(header(1) + old, left), FailingSlot(b"", left)
        file = opened(first, second)
        with suppress(PowerGone):
            file.replace(new)
        again = opened(MemorySlot(bytes(first.content)), MemorySlot(bytes(second.content)))
        assert again.read_all() in (old, new)
        seen.add(again.read_all())
    assert seen == {old, new}


def test_a_damaged_header_does_not_take_the_log_with_it() -> None:
    first = MemorySlot(header(1) + b"the log")
    first.content[5] ^= 1
    assert opened(first, MemorySlot()).read_all() == b"the log"
    assert turn_of(bytes(first.content)) == 1


def test_full_device_leaves_the_log_as_it_was() -> None:
    first, second = MemorySlot(room=HEADER_BYTES + 5), MemorySlot(room=HEADER_BYTES + 5)
    file = opened(first, second)
    file.append(b"12345")
    with pytest.raises(StorageFull):
        file.append(b"6")
    with pytest.raises(StorageFull):
        file.replace(b"too long for it")
    assert file.read_all() == opened(first, second).read_all() == b"12345"


@pytest.mark.parametrize("length", [-1, 6])
def test_cutting_beyond_the_log_is_refused(length: int) -> None:
    with pytest.raises(ValueError, match="cannot be cut"):
        MemoryFiles.holding(b"12345").truncate(length)


def test_a_closed_file_says_that_it_is_closed() -> None:
    files = MemoryFiles.holding(b"1")
    files.close()
    with pytest.raises(NotOpenHere, match="not open"):
        files.append(b"2")


def later_header(turn: int) -> bytes:
    """What a later version of the program would begin its slots with."""
    mark = b"BwS2"
    check = zlib.crc32(mark + turn.to_bytes(4, "little"))
    return struct.pack("<4sII", mark, turn, check)


@pytest.mark.parametrize("place", [0, 1])
def test_a_journal_of_a_later_form_is_refused_and_left_untouched(place: int) -> None:
    slots = [MemorySlot(header(4) + b"older"), MemorySlot()]
    slots[place] = MemorySlot(later_header(5) + b"of tomorrow")
    before = [bytes(slot.content) for slot in slots]
    with pytest.raises(NewerJournal, match="later version"):
        opened(slots[0], slots[1])
    assert [bytes(slot.content) for slot in slots] == before


def test_a_damaged_figure_in_the_mark_is_damage_and_no_later_form() -> None:
    first = MemorySlot(header(1) + b"the log")
    first.content[3] = ord("2")
    assert opened(first, MemorySlot()).read_all() == b"the log"


class RefusingSlot(MemorySlot):
    """Takes what is written, then fails to put it on the disk."""

    refuses = False

    def flush(self) -> None:
        if self.refuses:
            raise OSError("the disk does not answer")


def test_a_write_the_disk_refused_is_not_there_at_the_next_start() -> None:
    first, second = RefusingSlot(), RefusingSlot()
    file = opened(first, second)
    file.append(b"kept")
    first.refuses = second.refuses = True
    with pytest.raises(OSError, match="does not answer"):
        file.append(b"refused")
    with pytest.raises(OSError, match="does not answer"):
        file.replace(b"refused as well")
    first.refuses = second.refuses = False
    file.append(b" and more")
    assert opened(first, second).read_all() == b"kept and more"
