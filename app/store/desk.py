"""The desk: what is being typed and is no record yet, and what holds for this device alone."""

from contextlib import suppress
from typing import Any

from app.store.lines import from_json
from app.store.log_storage import KeyedTable, LogStorage
from app.store.placing import BEGUN, DESK, table_of
from app.store.records_log import Change

_DRAFT, _DEVICE = "draft", "device"


class Desk:
    """What lies beside the records. An act that returns is on the disk; none of it is in a copy."""

    def __init__(self, storage: LogStorage) -> None:
        self._storage = storage
        self._table = KeyedTable(storage, DESK, cache_size=0)

    def draft(self) -> dict[str, Any]:
        """The mix being typed, empty when none is."""
        return self._read(_DRAFT)

    def save_draft(self, draft: dict[str, Any]) -> None:
        """Save the mix being typed; an empty one clears it."""
        self._put(_DRAFT, draft)

    def begun(self) -> dict[str, dict[str, Any]]:
        """The forms begun and not saved, by name; one that cannot be read is left out."""
        found = {}
        for key, line in self._storage.drawer(DESK).items():
            if key.startswith(BEGUN):
                with suppress(ValueError):
                    found[key.removeprefix(BEGUN)] = from_json(line)
        return found

    def save_begun(self, name: str, form: dict[str, Any]) -> None:
        """Save a form being filled in, named by its kind and its batch; an empty one clears it."""
        if form or BEGUN + name in self._storage.drawer(DESK):
            self._put(BEGUN + name, form)

    def without(self, table: str) -> list[Change]:
        """What takes out the forms begun for the batch of that table."""
        keys = [key for key in self._storage.drawer(DESK) if key.startswith(BEGUN)]
        return [
            Change(DESK, key, b"")
            for key in keys
            if any(table_of(word) == table for word in key.split(" ")[1:])
        ]

    def device_facts(self) -> dict[str, Any]:
        """What holds for this device alone."""
        return self._read(_DEVICE)

    def save_device_facts(self, facts: dict[str, Any]) -> None:
        """Save what holds for this device alone, beside what was known before."""
        self._table.put(_DEVICE, {**self.device_facts(), **facts})

    def _read(self, key: str) -> dict[str, Any]:
        line = self._storage.drawer(DESK).get(key)
        try:
            return {} if line is None else from_json(line)
        except ValueError:
            return {}

    def _put(self, key: str, what: dict[str, Any]) -> None:
        if what:
            self._table.put(key, what)
        else:
            self._table.take_out(key)
