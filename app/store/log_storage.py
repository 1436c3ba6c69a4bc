"""TinyDB over the log: what changed is written, and nothing else."""

from collections.abc import Iterable, Iterator, Mapping, MutableMapping
from contextlib import suppress
from typing import Any, Protocol

from tinydb import TinyDB
from tinydb.storages import Storage
from tinydb.table import Table

from app.store.lines import Drawer, Tables, line_of
from app.store.records_log import Change, record

_SPARE_BYTES = 1 << 20
"""The log is rewritten once it is twice what it says, and this much more: our own choice."""

_SPARE_RECORDS = 4000
"""So many records more than a rewritten log has are read at a start before that is worth it."""

_TOGETHER = 8
"""Documents that share a record in a rewritten log: what one damaged place can cost at most."""


class JournalFiles(Protocol):
    """The file of the log, as a device gives it. Every call acts at once and is flushed."""

    @property
    def length(self) -> int: ...

    def read_all(self) -> bytes: ...

    def append(self, content: bytes) -> None: ...

    def truncate(self, length: int) -> None: ...

    def replace(self, content: bytes) -> None: ...


class LogStorage(Storage):
    """A TinyDB storage that keeps every document as its line and appends those that changed.

    TinyDB reads all tables, replaces one and hands all back. What it reads here notes which one
    that was, so a save costs the same however many tables there are beside it.
    """

    def __init__(
        self, files: JournalFiles, changes: Iterable[tuple[str, str, bytes]], last_number: int
    ) -> None:
        self._files = files
        self._number = last_number
        self._look_again = 2 * files.length + 8 * _SPARE_BYTES
        self._tables: dict[str, Drawer] = {}
        self._said_bytes = 0
        for table, key, document in changes:
            self._put(table, key, document)

    def _put(self, table: str, key: str, document: bytes) -> None:
        drawer = self._tables.get(table)
        if drawer is None:
            if not document:
                return
            drawer = self._tables[table] = Drawer({})
        lines = drawer.lines
        self._said_bytes += len(document) - len(lines.get(key, b""))
        if document:
            lines[key] = document
        else:
            lines.pop(key, None)
            if not lines:
                del self._tables[table]

    def drawer(self, table: str) -> Mapping[str, bytes]:
        """The lines of one table."""
        found = self._tables.get(table)
        return found.lines if found is not None else {}

    def names(self) -> tuple[str, ...]:
        """The tables there are."""
        return tuple(self._tables)

    def read(self) -> Tables:  # type: ignore[override]
        return Tables(self._tables)

    def write(self, data: Mapping[str, Any]) -> None:
        """Append what differs from what is kept, as one record."""
        if isinstance(data, Tables) and data.is_over(self._tables):
            handed = data.changed
        else:  # made elsewhere: a table that is not in it is to be emptied
            handed = {**{name: {} for name in self._tables}, **data}
        self.make(
            [
                change
                for name, table in handed.items()
                if table is not self._tables.get(name)
                for change in self._differences(name, table)
            ]
        )

    def _differences(self, name: str, table: Mapping[str, Any]) -> Iterator[Change]:
        lines = self.drawer(name)
        for key, document in table.items():
            line = line_of(document)
            if lines.get(key) != line:
                yield Change(name, key, line)
        for key in lines.keys() - table.keys():
            yield Change(name, key, b"")

    def make(self, changes: list[Change]) -> None:
        """Make changes together: on the disk first, in memory after."""
        if not changes:
            return
        self._files.append(record(self._number + 1, changes))
        self._number += 1
        for change in changes:
            self._put(*change)

    def is_long(self) -> bool:
        """Whether rewriting the log is worth the while."""
        return self._files.length > 2 * self._said_bytes + _SPARE_BYTES

    def is_in_many_pieces(self, records: int) -> bool:
        """Whether so many records are far more than a rewritten log would have."""
        documents = sum(len(drawer) for drawer in self._tables.values())
        return records > 2 * len(self._tables) + documents // _TOGETHER + _SPARE_RECORDS

    def is_far_too_long(self) -> bool:
        """Whether to rewrite in the middle of the work, looked at only as the log doubles."""
        if self._files.length < self._look_again:
            return False
        self._look_again = 2 * self._files.length
        return self.is_long()

    def tidy(self) -> None:
        """Rewrite the log where there is room for it; the old one serves as well."""
        with suppress(OSError):
            self.rewrite()

    def rewrite(self) -> None:
        """Replace the log by one that says only what holds now, a few documents to a record."""
        parts: list[bytes] = []
        for name, drawer in self._tables.items():
            changes = [Change(name, key, line) for key, line in drawer.lines.items()]
            # The first is a batch's header: without it nothing of the batch could be shown.
            parts.append(record(len(parts) + 1, changes[:1]))
            for first in range(1, len(changes), _TOGETHER):
                parts.append(record(len(parts) + 1, changes[first : first + _TOGETHER]))
        self._files.replace(b"".join(parts))
        self._number = len(parts)

    def close(self) -> None:
        """Nothing waits to be written."""


class KeyedTable(Table):
    """A table whose documents have names of their own, and are replaced whole."""

    document_id_class = str  # type: ignore[assignment]

    def put(self, key: str, document: Mapping[str, Any]) -> None:
        """Put a document in its place."""

        def place(table: MutableMapping[Any, Mapping[str, Any]]) -> None:
            table[key] = document

        self._update_table(place)

    def take_out(self, key: str) -> None:
        """Take a document out, if it is there."""

        def clear(table: MutableMapping[Any, Mapping[str, Any]]) -> None:
            table.pop(key, None)

        self._update_table(clear)


class LogDatabase(TinyDB):
    """TinyDB with tables keyed by name."""

    table_class = KeyedTable
