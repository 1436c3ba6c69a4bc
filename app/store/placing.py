"""Where each record stands in the tables, and what a record must not cover."""

from typing import Any

from app.journal.records import Batch, Entry, Kit, Photo
from app.store.carried import carried
from app.store.lines import from_json
from app.store.structuring import NewerRecord, document_of, record_of

HEADER, GONE, ENTRY, PHOTO = "batch", "gone", "entry/", "photo/"
DESK, BEGUN = "desk", "begun/"


def table_of(batch_id: str) -> str:
    """The table of a batch and all that belongs to it."""
    return f"batch/{batch_id}"


def placed(
    batches: tuple[Batch, ...],
    entries: tuple[Entry, ...],
    photos: tuple[Photo, ...],
    kit: Kit | None,
) -> list[tuple[str, str, Any, type]]:
    """Table, key, record and kind of each."""
    return [
        *((table_of(one.id), HEADER, one, Batch) for one in batches),
        *((table_of(one.batch_id), ENTRY + one.id, one, Entry) for one in entries),
        *((table_of(one.batch_id), PHOTO + one.id, one, Photo) for one in photos),
        *([(DESK, "kit", kit, Kit)] if kit is not None else []),
    ]


def with_what_is_later(line: bytes, kind: type, new: dict[str, Any]) -> dict[str, Any]:
    """The new document with what a later version put into the one it replaces."""
    try:
        old = from_json(line)
        known = document_of(record_of(old, kind))
    except ValueError:
        return new
    merged: dict[str, Any] = carried(old, known, new)
    return merged


def refuse_newer(line: bytes, kind: type) -> None:
    try:
        record_of(from_json(line), kind)
    except NewerRecord:
        raise NewerRecord(
            "This was written by a later version of the program and is kept untouched. "
            "Update the program to change it."
        ) from None
    except ValueError:
        return
