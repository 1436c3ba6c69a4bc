"""The shelf: every record of the journal, saved before it is shown.

One TinyDB table for each batch holds its header, its entries and what is known of its photos,
so a save costs the same with ten batches as with a thousand. Records are read from their lines
when first asked for, and kept.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator
from typing import Any, TypeVar

from app.journal.records import Batch, Entry, Kit, Photo
from app.journal.search import plain, words_of_header
from app.store.damage import told
from app.store.desk import Desk
from app.store.lines import from_json, to_json
from app.store.log_storage import JournalFiles, KeyedTable, LogDatabase, LogStorage
from app.store.placing import (
    DESK,
    ENTRY,
    GONE,
    HEADER,
    PHOTO,
    placed,
    refuse_newer,
    table_of,
    with_what_is_later,
)
from app.store.records_log import Change, is_of_later_version, read_log
from app.store.structuring import NewerRecord, NotARecord, document_of, record_of
from app.store.written import written

T = TypeVar("T", Batch, Entry, Photo)

_KINDS: dict[str, type] = {"batch": Batch, "entry": Entry, "photo": Photo}


def _newest_first(batch: Batch) -> tuple[float, str]:
    return -batch.created.utc_s, batch.id


class Shelf:
    """What is kept, and the acts that keep it. An act that returns is on the disk.

    desk : what is no record yet, or of this device alone
    """

    def __init__(self, storage: LogStorage, report: list[str]) -> None:
        self._storage = storage
        self.desk = Desk(storage)
        self._base = LogDatabase(storage=lambda: storage)
        self._report = report
        self._read: dict[tuple[str, str], Any] = {}
        self._refused: set[tuple[str, str]] = set()
        self._batches: list[Batch] | None = None
        self._kit: Kit | None = None
        self._where: dict[str, str] | None = None
        self._words: dict[str, str] = {}

    @classmethod
    def open(cls, files: JournalFiles) -> Shelf:
        """Read the log, drop what is torn, and say what was lost.

        Raises
        ------
        NewerRecord
            When the whole journal is of a later version; it is left untouched.
        """
        content = files.read_all()
        log = read_log(content)
        if is_of_later_version(content, log):
            raise NewerRecord(
                "The journal on this device was written by a later version of this program. "
                "It is left untouched; update the program to open it."
            )
        storage = LogStorage(files, log.made.each(), log.last_number)
        if log.torn:
            files.truncate(log.good_length)
        # Written anew without the damage, so that it is told once.
        harmed = log.damaged or log.doubled or log.missing
        if harmed or storage.is_long() or storage.is_in_many_pieces(log.records):
            storage.tidy()
        return cls(storage, told(log, storage.drawer))

    @property
    def report(self) -> tuple[str, ...]:
        """What was dropped, damaged or not understood, as sentences."""
        return tuple(self._report)

    # Reading.

    def _get(self, table: str, key: str, kind: type[T]) -> T | None:
        if (table, key) in self._read:
            return self._read[table, key]  # type: ignore[no-any-return]
        if (table, key) in self._refused:
            return None
        line = self._storage.drawer(table).get(key)
        if line is None:
            return None
        try:
            record = record_of(from_json(line), kind)
        except (NewerRecord, NotARecord, ValueError) as why:
            self._refused.add((table, key))
            self._report.append(str(why))
            return None
        self._read[table, key] = record
        return record

    def _under(self, table: str, start: str, kind: type[T]) -> Iterator[T]:
        for key in list(self._storage.drawer(table)):
            if key.startswith(start) and (record := self._get(table, key, kind)) is not None:
                yield record

    def _headers(self) -> list[Batch]:
        """Headers of batches not deleted, newest first."""
        if self._batches is None:
            names = (name for name in self._storage.names() if name.startswith("batch/"))
            kept = (name for name in names if GONE not in self._storage.drawer(name))
            found = (self._get(name, HEADER, Batch) for name in kept)
            self._batches = sorted(
                (batch for batch in found if batch is not None),
                key=_newest_first,
            )
        return self._batches

    def batches(self) -> tuple[Batch, ...]:
        """Every batch, newest first, deleted ones left out."""
        return tuple(self._headers())

    def batch(self, batch_id: str) -> Batch | None:
        """The batch, None when it is not there or was deleted."""
        table = table_of(batch_id)
        return None if GONE in self._storage.drawer(table) else self._get(table, HEADER, Batch)

    def entries(self, batch_id: str) -> tuple[Entry, ...]:
        """A batch's record by time."""
        found = self._under(table_of(batch_id), ENTRY, Entry)
        return tuple(sorted(found, key=lambda entry: (entry.at.utc_s, entry.id)))

    def words(self, batch: Batch) -> str:
        """All words of a batch and of its record, as they are searched."""
        table = table_of(batch.id)
        if table not in self._words:
            record = plain(written(self._storage.drawer(table)))
            self._words[table] = f"{words_of_header(batch)}\n{record}"
        return self._words[table]

    def photos(self, batch_id: str) -> tuple[Photo, ...]:
        """What is known of a batch's photos, by time."""
        found = self._under(table_of(batch_id), PHOTO, Photo)
        return tuple(sorted(found, key=lambda photo: (photo.taken.utc_s, photo.id)))

    def kit(self) -> Kit:
        """The cook's own settings; as they come when none were saved or they cannot be read."""
        if self._kit is None:
            line = self._storage.drawer(DESK).get("kit")
            try:
                self._kit = Kit() if line is None else record_of(from_json(line), Kit)
            except ValueError as why:
                self._refused.add((DESK, "kit"))
                self._report.append(str(why))
                self._kit = Kit()
        return self._kit

    def lines_without_batch(self) -> int:
        """Lines of records whose batch's own record was lost to damage; a copy may hold it."""
        drawers = (self._storage.drawer(n) for n in self._storage.names() if n != DESK)
        return sum(len(lines) for lines in drawers if HEADER not in lines and GONE not in lines)

    # Saving.

    def _table(self, name: str) -> KeyedTable:
        # Made on the spot: TinyDB would keep one for each batch ever looked at.
        return KeyedTable(self._storage, name, cache_size=0)

    def _writable(self, table: str, key: str, record: Any, kind: type) -> dict[str, Any]:
        """The record's document; refused when it would cover a newer one or not read again."""
        line = self._storage.drawer(table).get(key)
        # One read before is known to be ours; the others are looked at.
        if line is not None and (table, key) not in self._read:
            refuse_newer(line, kind)
        document = document_of(record)
        record_of(document, kind)
        return document

    def _save(self, table: str, key: str, record: Any, kind: type) -> None:
        document = self._writable(table, key, record, kind)
        line = self._storage.drawer(table).get(key)
        if line is not None and (table, key) not in self._refused:
            document = with_what_is_later(line, kind, document)
        self._table(table).put(key, document)
        self._refused.discard((table, key))
        self._read[table, key] = record
        self._words.pop(table, None)
        if self._storage.is_far_too_long():
            self._storage.tidy()

    def _take_out(self, table: str, key: str) -> None:
        self._table(table).take_out(key)
        self._read.pop((table, key), None)
        self._words.pop(table, None)

    def save_batch(self, batch: Batch) -> None:
        """Save a batch's header."""
        before = self.batch(batch.id)
        self._save(table_of(batch.id), HEADER, batch, Batch)
        if self._batches is not None:
            # The list is sorted, so finding the place takes no walk through all of it.
            if before is not None:
                place = bisect_left(self._batches, _newest_first(before), key=_newest_first)
                del self._batches[place]
            if GONE not in self._storage.drawer(table_of(batch.id)):
                insort(self._batches, batch, key=_newest_first)

    def delete_batch(self, batch_id: str) -> None:
        """Take a batch out of the journal. Until `clear_out` it can be restored."""
        if self._storage.drawer(table_of(batch_id)):
            self._table(table_of(batch_id)).put(GONE, {"gone": True})
            self._batches = None

    def restore_batch(self, batch_id: str) -> None:
        """Put a deleted batch back as it was."""
        self._take_out(table_of(batch_id), GONE)
        self._batches = None

    def clear_out(self) -> tuple[str, ...]:
        """Forget deleted batches for good; the ids of their photos, to be deleted as well."""
        photos: list[str] = []
        changes: list[Change] = []
        for name in self._storage.names():
            lines = self._storage.drawer(name)
            if name.startswith("batch/") and GONE in lines:
                photos += [key.removeprefix(PHOTO) for key in lines if key.startswith(PHOTO)]
                changes += [Change(name, key, b"") for key in lines]
                changes += self.desk.without(name)
        self._storage.make(changes)
        for change in changes:
            self._read.pop((change.table, change.key), None)
        self._where = None
        self._words.clear()
        return tuple(photos)

    def save_entry(self, entry: Entry) -> None:
        """Save a line of a batch's record."""
        self._save(table_of(entry.batch_id), ENTRY + entry.id, entry, Entry)

    def delete_entry(self, batch_id: str, entry_id: str) -> None:
        """Take a line out of a batch's record."""
        self._take_out(table_of(batch_id), ENTRY + entry_id)

    def save_photo(self, photo: Photo) -> None:
        """Save what is known of a photo; the picture itself is put first."""
        self._save(table_of(photo.batch_id), PHOTO + photo.id, photo, Photo)
        if self._where is not None:
            self._where[photo.id] = photo.batch_id

    def save_all(
        self,
        batches: tuple[Batch, ...],
        entries: tuple[Entry, ...],
        photos: tuple[Photo, ...],
        kit: Kit | None = None,
    ) -> None:
        """Save many records together: after this, all are there or none. Deleted ones return."""
        places = placed(batches, entries, photos, kit)
        out = [
            (table_of(one.id), GONE)
            for one in batches
            if GONE in self._storage.drawer(table_of(one.id))
        ]
        self._change_together(places, out)

    def replace_all(
        self,
        batches: tuple[Batch, ...],
        entries: tuple[Entry, ...],
        photos: tuple[Photo, ...],
        kit: Kit,
    ) -> tuple[str, ...]:
        """Have these records and no others: after this, all is new or all is as it was.

        Returns the ids of photos no longer known, whose pictures may go. Refused while there is
        a record of a later version, which no backup made here could hold.
        """
        places = placed(batches, entries, photos, kit)
        stays = {(table, key) for table, key, _, _ in places}
        out = [
            (name, key)
            for name in self._storage.names()
            if name != DESK
            for key in self._storage.drawer(name)
            if (name, key) not in stays
        ]
        for name, key in out:
            kind = _KINDS.get(key.split("/")[0])
            if kind is not None and (name, key) not in self._read:
                refuse_newer(self._storage.drawer(name)[key], kind)
        before = {key for _, key in out if key.startswith(PHOTO)}
        self._change_together(places, out)
        after = {PHOTO + photo.id for photo in photos}
        return tuple(sorted(key.removeprefix(PHOTO) for key in before - after))

    def _change_together(
        self, places: list[tuple[str, str, Any, type]], out: list[tuple[str, str]]
    ) -> None:
        changes = [
            Change(table, key, to_json(self._writable(table, key, record, kind)))
            for table, key, record, kind in places
        ]
        self._storage.make([*changes, *(Change(table, key, b"") for table, key in out)])
        for place in out:
            self._read.pop(place, None)
            self._refused.discard(place)
        for table, key, record, _ in places:
            self._refused.discard((table, key))
            if table == DESK:
                self._kit = record
            else:
                self._read[table, key] = record
        self._batches = self._where = None
        self._words.clear()

    def _places(self) -> dict[str, str]:
        """The batch of each photo."""
        if self._where is None:
            self._where = {
                key.removeprefix(PHOTO): name.removeprefix("batch/")
                for name in self._storage.names()
                for key in self._storage.drawer(name)
                if key.startswith(PHOTO)
            }
        return self._where

    def photo(self, photo_id: str) -> Photo | None:
        """What is known of one photo, whichever batch it belongs to."""
        batch_id = self._places().get(photo_id)
        if batch_id is None:
            return None
        return self._get(table_of(batch_id), PHOTO + photo_id, Photo)

    def photo_ids(self) -> frozenset[str]:
        """Every photo there is a record of, those of removed batches with them."""
        return frozenset(self._places())

    def count_photos(self, batch_id: str) -> int:
        """How many photos a batch has."""
        return sum(key.startswith(PHOTO) for key in self._storage.drawer(table_of(batch_id)))

    def delete_photo(self, photo_id: str) -> None:
        """Forget what is known of a photo."""
        if (photo := self.photo(photo_id)) is not None:
            self._take_out(table_of(photo.batch_id), PHOTO + photo_id)

    def save_kit(self, kit: Kit) -> None:
        """Save the cook's settings."""
        self.kit()
        self._save(DESK, "kit", kit, Kit)
        self._kit = kit
