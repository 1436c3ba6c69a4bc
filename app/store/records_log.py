"""The journal's log: records one after another, each known whole by its checksum.

A record is: mark, length of what it says, its number, checksum, and what it says. The mark
begins with the byte 0xFF, which never occurs in UTF-8, so that after a damaged record the next
one is found by its mark. Numbers grow; a record whose number does not is a block written twice.

What a record says is one or more changes made together, each on three lines: table, key, and
the document as JSON, or an empty line where it was removed.
"""

import re
import struct
import zlib
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from attrs import frozen

MARK = b"\xffBr1"
_HEAD = struct.Struct("<4sIII")
HEAD_BYTES = _HEAD.size
_LATER_MARK = re.compile(rb"\xffBr[2-9]")
LONGEST_BYTES = 64 * 1024 * 1024
_AT_ONCE = 512
"""So many records are taken apart together: one turn of Python costs less than their number."""


class Change(NamedTuple):
    """A document put in its place, or taken out when `document` is empty."""

    table: str
    key: str
    document: bytes


@frozen
class Damage:
    """A stretch of the log that could not be read, and what it seems to have been about."""

    at: int
    length: int
    about: tuple[tuple[str, str], ...] = ()


class Made(NamedTuple):
    """Changes in the order they were made, as three lists: a log has tens of thousands."""

    tables: list[str]
    keys: list[str]
    documents: list[bytes]

    def each(self) -> Iterator[tuple[str, str, bytes]]:
        """Table, key and document of each."""
        return zip(self.tables, self.keys, self.documents, strict=True)


@frozen
class LogRead:
    """What a log says.

    made : the changes in the order they were made
    records : whole records, doubled ones left out
    good_length : bytes up to the end of the last whole record
    torn : bytes behind it, left by a write that never ended
    damaged : stretches that could not be read; one behind it when more than one write is gone there
    doubled : whole records that had been written before
    missing : records gone without a trace, told by a gap in the numbers, which begin at 1
    last_number : of the last record
    """

    made: Made
    records: int
    good_length: int
    torn: int
    damaged: tuple[Damage, ...]
    doubled: int
    missing: int
    last_number: int

    @property
    def changes(self) -> tuple[Change, ...]:
        """The changes one by one."""
        return tuple(map(Change, *self.made))


def _check(length: int, number: int, said: bytes) -> int:
    return zlib.crc32(said, zlib.crc32(struct.pack("<II", length, number)))


def record(number: int, changes: Iterable[Change]) -> bytes:
    """One record of changes that are made together or not at all.

    Raises
    ------
    ValueError
        For a table or key with a line break, or a record too long to be read back.
    """
    lines: list[bytes] = []
    for change in changes:
        for name in (change.table, change.key):
            if not name or "\n" in name:
                raise ValueError(f"A name without line breaks was expected; {name!r} was given.")
        lines += (change.table.encode(), change.key.encode(), change.document)
    said = b"\n".join(lines)
    if len(said) > LONGEST_BYTES:
        raise ValueError(f"A record has at most {LONGEST_BYTES} bytes; this one has {len(said)}.")
    return _HEAD.pack(MARK, len(said), number, _check(len(said), number, said)) + said


def _whole(log: bytes, at: int) -> tuple[int, bytes] | None:
    """Number and content of the whole record that begins here, None if there is none."""
    if at + HEAD_BYTES > len(log):
        return None
    mark, length, number, check = _HEAD.unpack_from(log, at)
    if mark != MARK or length > LONGEST_BYTES or at + HEAD_BYTES + length > len(log):
        return None
    said = log[at + HEAD_BYTES : at + HEAD_BYTES + length]
    return (number, said) if check == _check(length, number, said) else None


def _taken_apart(saids: list[bytes], made: Made) -> None:
    """Add what records say to the changes made; ValueError when one is not built as ours are."""
    if any(said.count(b"\n") % 3 != 2 for said in saids):
        raise ValueError("Three lines for each change were expected.")
    lines = b"\n".join(saids).split(b"\n")
    tables = b"\n".join(lines[::3]).decode().split("\n")
    keys = b"\n".join(lines[1::3]).decode().split("\n")
    made.tables.extend(tables)
    made.keys.extend(keys)
    made.documents.extend(lines[2::3])


def _all_made(whole: list[tuple[int, bytes]], damaged: list[Damage]) -> Made:
    """What whole records say; one whose checksum is right but which is not ours is damage."""
    made = Made([], [], [])
    for first in range(0, len(whole), _AT_ONCE):
        some = whole[first : first + _AT_ONCE]
        try:
            _taken_apart([said for _, said in some], made)
        except ValueError:
            for at, said in some:
                try:
                    _taken_apart([said], made)
                except ValueError:
                    damaged.append(Damage(at, HEAD_BYTES + len(said)))
    return made


def read_log(log: bytes) -> LogRead:
    """Read every whole record; nothing in any bytes makes this raise."""
    whole: list[tuple[int, bytes]] = []
    damaged: list[Damage] = []
    at = good = number = doubled = missing = 0
    gap_told = False
    while at < len(log):
        found = _whole(log, at)
        if found is None:
            at = log.find(MARK, at + 1)
            if at < 0:
                break
            continue
        this, said = found
        if at > good:
            damaged.append(Damage(good, at - good, _about(log[good:at])))
            gap_told = True
        if this > number:
            if not gap_told:
                missing += this - number - 1
            number, gap_told = this, False
            whole.append((at, said))
        else:
            doubled += 1
        at += HEAD_BYTES + len(said)
        good = at
    made = _all_made(whole, damaged)
    if log.find(MARK, good + 1) >= 0:  # a write that never ended leaves one mark at most
        damaged.append(Damage(good, len(log) - good, _about(log[good:])))
    return LogRead(
        *(made, len(whole), good, len(log) - good),
        *(tuple(damaged), doubled, missing, number),
    )


def later_check(mark: bytes, length: int, number: int, said: bytes) -> int:
    """The checksum of a record of any later form: it covers the mark as well.

    So a mark of ours that was damaged is never taken for a later one.
    """
    return zlib.crc32(said, zlib.crc32(mark + struct.pack("<II", length, number)))


def is_of_later_version(log: bytes, read: LogRead) -> bool:
    """Whether a log is one of a later version, of which nothing can be read here."""
    if read.good_length > 0 or _LATER_MARK.match(log) is None or len(log) < HEAD_BYTES:
        return False
    mark, length, number, check = _HEAD.unpack_from(log)
    said = log[HEAD_BYTES : HEAD_BYTES + length]
    return len(said) == length and bool(check == later_check(mark, length, number, said))


def _about(stretch: bytes) -> tuple[tuple[str, str], ...]:
    """Table and key of the changes a damaged stretch seems to hold, where they can be read."""
    found: list[tuple[str, str]] = []
    for piece in stretch.split(MARK):
        lines = piece[HEAD_BYTES - len(MARK) :].split(b"\n")
        for table, key, _ in zip(lines[::3], lines[1::3], lines[2::3], strict=False):
            try:
                names = table.decode(), key.decode()
            except UnicodeDecodeError:
                continue
            if all(name.isprintable() and 0 < len(name) < 100 for name in names):
                found.append(names)
    return tuple(found)
