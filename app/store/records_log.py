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
from collections.abc import Iterable
from typing import NamedTuple

from attrs import frozen

MARK = b"\xffBr1"
_HEAD = struct.Struct("<4sIII")
HEAD_BYTES = _HEAD.size
_LATER_MARK = re.compile(rb"\xffBr[2-9]")
LONGEST_BYTES = 64 * 1024 * 1024


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


@frozen
class LogRead:
    """What a log says.

    changes : in the order they were made
    good_length : bytes up to the end of the last whole record
    torn : bytes behind it, left by a write that never ended
    damaged : stretches that could not be read; one behind it when more than one write is gone there
    doubled : whole records that had been written before
    missing : records gone without a trace, told by a gap in the numbers, which begin at 1
    last_number : of the last record
    """

    changes: tuple[Change, ...]
    good_length: int
    torn: int
    damaged: tuple[Damage, ...]
    doubled: int
    missing: int
    last_number: int


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


def _changes(said: bytes) -> list[Change]:
    lines = said.split(b"\n")
    tables = {name: name.decode() for name in set(lines[::3])}
    threes = zip(lines[::3], lines[1::3], lines[2::3], strict=True)
    return [Change(tables[table], key.decode(), document) for table, key, document in threes]


def read_log(log: bytes) -> LogRead:
    """Read every whole record; nothing in any bytes makes this raise."""
    changes: list[Change] = []
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
            try:
                changes += _changes(said)
            except ValueError:  # its checksum is right, but no record of ours is built like this
                damaged.append(Damage(at, HEAD_BYTES + len(said)))
        else:
            doubled += 1
        at += HEAD_BYTES + len(said)
        good = at
    if log.find(MARK, good + 1) >= 0:  # a write that never ended leaves one mark at most
        damaged.append(Damage(good, len(log) - good, _about(log[good:])))
    return LogRead(tuple(changes), good, len(log) - good, tuple(damaged), doubled, missing, number)


def is_of_later_version(log: bytes, read: LogRead) -> bool:
    """Whether a log is one of a later version, of which nothing can be read here.

    A damaged mark may look like a later one; where any record of ours is whole it is only that.
    """
    return read.good_length == 0 and _LATER_MARK.match(log) is not None


def _about(stretch: bytes) -> tuple[tuple[str, str], ...]:
    """Table and key of the records a damaged stretch seems to hold, where they can be read."""
    found: list[tuple[str, str]] = []
    for piece in stretch.split(MARK):
        lines = piece[HEAD_BYTES - len(MARK) :].split(b"\n", 2)
        if len(lines) == 3:
            try:
                names = lines[0].decode(), lines[1].decode()
            except UnicodeDecodeError:
                continue
            if all(name.isprintable() and 0 < len(name) < 100 for name in names):
                found.append(names)
    return tuple(found)
