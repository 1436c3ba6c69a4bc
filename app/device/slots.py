"""The journal's file on any device: two slots, of which one is in use.

Appending goes to the slot in use. Replacing everything writes the other slot whole, and only
then its header, which makes it the one in use: whenever the power goes, either the old or the
new is there. A header is a mark, the slot's turn and a checksum; the higher turn is in use.
"""

import struct
import zlib
from contextlib import suppress
from typing import Protocol

from app.device.parts import (
    NEWER_JOURNAL,
    NOT_OPEN_HERE,
    STORAGE_FULL,
    NewerJournal,
    NotOpenHere,
    StorageFull,
)

_HEADER = struct.Struct("<4sII")
_FAMILY, _FORM = b"BwS", b"1"
_MARK = _FAMILY + _FORM
HEADER_BYTES = _HEADER.size


class Slot(Protocol):
    """One file, opened for this program alone. Every method acts at once."""

    def size(self) -> int: ...

    def read(self, at: int, length: int) -> bytes: ...

    def write(self, content: bytes, at: int) -> None:
        """Write all of it or raise; StorageFull when there is no room."""

    def truncate(self, size: int) -> None: ...

    def flush(self) -> None:
        """Return when what was written would survive the power going."""

    def close(self) -> None: ...


def header(turn: int) -> bytes:
    """The first bytes of a slot in use."""
    return _HEADER.pack(_MARK, turn, zlib.crc32(_MARK + turn.to_bytes(4, "little")))


def turn_of(first_bytes: bytes) -> int:
    """The turn a header tells, 0 when it is none."""
    if len(first_bytes) < HEADER_BYTES:
        return 0
    mark, turn, check = _HEADER.unpack(first_bytes[:HEADER_BYTES])
    good = mark == _MARK and check == zlib.crc32(_MARK + turn.to_bytes(4, "little"))
    return int(turn) if good else 0


def is_newer(first_bytes: bytes) -> bool:
    """Whether a whole header of this kind tells another form of log than the one known here.

    Every later form keeps a header like this one, with its own figure in the mark.
    """
    if len(first_bytes) < HEADER_BYTES:
        return False
    mark, turn, check = _HEADER.unpack(first_bytes[:HEADER_BYTES])
    whole = check == zlib.crc32(mark + turn.to_bytes(4, "little"))
    return bool(whole and mark.startswith(_FAMILY) and mark != _MARK)


class JournalFile:
    """The bytes of one log over two slots; positions count from behind the header."""

    def __init__(self) -> None:
        self._slots: list[Slot] = []
        self._used = 0
        self._turn = 0
        self._length = 0

    def open_slots(self, first: Slot, second: Slot) -> None:
        """Find the slot in use, or begin an empty log; NewerJournal leaves both untouched."""
        heads = [slot.read(0, HEADER_BYTES) for slot in (first, second)]
        if any(is_newer(head) for head in heads):
            for slot in (first, second):
                slot.close()
            raise NewerJournal(NEWER_JOURNAL)
        self._slots = [first, second]
        turns = [turn_of(head) for head in heads]
        if not any(turns):
            # New, or the only header is damaged: then the longer one holds what there is.
            sizes = [slot.size() for slot in self._slots]
            self._used = sizes.index(max(sizes))
            slot = self._slots[self._used]
            slot.write(header(1), 0)
            slot.flush()
            turns[self._used] = 1
        self._used = turns.index(max(turns))
        self._turn = turns[self._used]
        self._length = max(0, self._slots[self._used].size() - HEADER_BYTES)

    @property
    def is_open(self) -> bool:
        return bool(self._slots)

    @property
    def length(self) -> int:
        """Bytes in the log."""
        return self._length

    def _slot(self) -> Slot:
        if not self._slots:
            raise NotOpenHere(NOT_OPEN_HERE)
        return self._slots[self._used]

    def read_all(self) -> bytes:
        """The whole log."""
        return self._slot().read(HEADER_BYTES, self._length)

    def append(self, content: bytes) -> None:
        """Add to the end and flush; when that is refused the log stays as it was."""
        slot = self._slot()
        try:
            slot.write(content, HEADER_BYTES + self._length)
            slot.flush()
        except BaseException:
            with suppress(OSError):
                slot.truncate(HEADER_BYTES + self._length)
            raise
        self._length += len(content)

    def truncate(self, length: int) -> None:
        """Cut the log to its first `length` bytes."""
        if not 0 <= length <= self._length:
            raise ValueError(f"The log has {self._length} bytes; it cannot be cut to {length}.")
        slot = self._slot()
        slot.truncate(HEADER_BYTES + length)
        slot.flush()
        self._length = length

    def replace(self, content: bytes) -> None:
        """Put another log in the place of this one: afterwards it is the old or the new, whole."""
        old, other = self._slot(), 1 - self._used
        new = self._slots[other]
        try:
            new.truncate(0)
            new.write(bytes(HEADER_BYTES) + content, 0)
            new.flush()
            new.write(header(self._turn + 1), 0)
            new.flush()
        except BaseException:
            # Were its header left, it would count as the one in use at the next start.
            with suppress(OSError):
                new.truncate(0)
                new.flush()
            raise
        self._used, self._turn, self._length = other, self._turn + 1, len(content)
        # Its turn is over either way; emptying it only makes room.
        with suppress(OSError):
            old.truncate(0)
            old.flush()

    def close(self) -> None:
        """Let go of the slots, so that another window may have them."""
        slots, self._slots = self._slots, []
        for slot in slots:
            slot.close()


class MemorySlot:
    """A slot that lives as long as the program, with room for `room` bytes."""

    def __init__(self, content: bytes = b"", room: int | None = None) -> None:
        self.content = bytearray(content)
        self.room = room

    def size(self) -> int:
        return len(self.content)

    def read(self, at: int, length: int) -> bytes:
        return bytes(self.content[at : at + length])

    def write(self, content: bytes, at: int) -> None:
        fits = content if self.room is None else content[: max(0, self.room - at)]
        if len(self.content) < at:
            self.content.extend(bytes(at - len(self.content)))
        # A full device takes what fits before it refuses, as real ones do.
        self.content[at : at + len(fits)] = fits
        if len(fits) < len(content):
            raise StorageFull(STORAGE_FULL)

    def truncate(self, size: int) -> None:
        del self.content[size:]

    def flush(self) -> None:
        return None

    def close(self) -> None:
        return None
