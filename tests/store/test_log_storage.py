"""TinyDB over the log: all it can do works, and only what changed is written."""

from collections.abc import Callable
from typing import Any

import pytest
from tinydb import TinyDB, where
from tinydb.storages import Storage

from app.device.device import MemoryFiles
from app.store.lines import Kept
from app.store.log_storage import KeyedTable, LogDatabase, LogStorage
from app.store.records_log import read_log


def reopened(files: MemoryFiles) -> dict[str, dict[str, Any]]:
    """What the log says, as plain values."""
    log = read_log(files.read_all())
    tables = LogStorage(files, log.changes, log.last_number).read()
    return {name: {key: dict(one) for key, one in table.items()} for name, table in tables.items()}


def base() -> tuple[MemoryFiles, LogDatabase]:
    files = MemoryFiles.holding(b"")
    storage = LogStorage(files, (), 0)
    database = LogDatabase(storage=lambda: storage)
    for name in ("flat", "point"):
        for key in ("a", "b", "c"):
            table = database.table(name)
            assert isinstance(table, KeyedTable)
            table.put(key, {"of": name, "number": ord(key), "deep": {"n": [1]}})
    return files, database


def deepen(document: Any) -> None:
    document["deep"]["n"].append(2)


ACTS: dict[str, tuple[Callable[[TinyDB], object], int]] = {
    "update all": (lambda db: db.table("flat").update({"x": 1}), 3),
    "update some": (lambda db: db.table("flat").update({"x": 1}, where("number") == ord("b")), 1),
    "update inside": (lambda db: db.table("flat").update(deepen, where("number") == ord("a")), 1),
    "update to the same": (lambda db: db.table("flat").update({"of": "flat"}), 0),
    "remove": (lambda db: db.table("flat").remove(where("number") > ord("a")), 2),
    "truncate": (lambda db: db.table("flat").truncate(), 3),
    "drop one": (lambda db: db.drop_table("flat"), 3),
    "drop all": (lambda db: db.drop_tables(), 6),
    "search": (lambda db: db.table("flat").search(where("number") == ord("b")), 0),
}


@pytest.mark.parametrize("name", ACTS)
def test_what_tinydb_does_is_in_the_log_and_nothing_else_is(name: str) -> None:
    act, changed = ACTS[name]
    files, database = base()
    plain = _Plain(reopened(files))
    expected = TinyDB(storage=lambda: plain)
    expected.table_class = KeyedTable
    length = files.length
    act(database)
    act(expected)
    assert reopened(files) == {
        table: documents for table, documents in plain.held.items() if documents
    }
    assert len(read_log(files.read_all()[length:]).changes) == changed


class _Plain(Storage):
    """A storage that holds what it is given, for comparing."""

    def __init__(self, held: dict[str, Any]) -> None:
        self.held = held

    def read(self) -> dict[str, Any]:
        return self.held

    def write(self, data: dict[str, Any]) -> None:
        self.held = {name: {k: dict(d) for k, d in table.items()} for name, table in data.items()}


def test_tables_and_documents_are_found() -> None:
    _, database = base()
    assert database.tables() == {"flat", "point"}
    found = database.table("point").get(where("number") == ord("c"))
    assert found == {"of": "point", "number": ord("c"), "deep": {"n": [1]}}
    assert len(database.table("point")) == 3


def test_all_tables_handed_over_at_once_replace_what_there_is() -> None:
    files, database = base()
    database.storage.write({"flat": {"a": {"only": True}}})
    assert reopened(files) == {"flat": {"a": {"only": True}}}


def test_a_save_reads_none_of_the_documents_beside_it(monkeypatch: pytest.MonkeyPatch) -> None:
    _, database = base()
    table = database.table("flat")
    assert isinstance(table, KeyedTable)
    read: list[Kept] = []
    monkeypatch.setattr(Kept, "_read", read.append)
    table.put("d", {"new": True})
    table.take_out("a")
    assert read == []
