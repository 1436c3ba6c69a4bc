"""The forms of a record that were begun and not saved: kept as they are typed, brought back."""

from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import Any

from app.screens.journal.begun_forms import KEPT, kind_of
from app.store.shelf import Shelf
from app.store.structuring import document_of, record_of


def kept_forms(shelf: Shelf) -> dict[str, Any]:
    """The drafts as they were left, by name; one that cannot be read is left out."""
    found: dict[str, Any] = {}
    for name, document in shelf.desk.begun().items():
        kind = KEPT.get(kind_of(name))
        if kind is not None:
            with suppress(ValueError):
                found[name] = record_of(document, kind)
    return found


def keep_form(shelf: Shelf, name: str, draft: Any) -> None:
    """Keep the draft of a form as it is now; None takes it out."""
    # Where it cannot be written it is still on the screen, and the next save says so.
    with suppress(OSError):
        shelf.desk.save_begun(name, {} if draft is None else document_of(draft))


def keeping_forms(shelf: Shelf, drafts: Mapping[str, Any]) -> Callable[[], None]:
    """What keeps the drafts that were changed since they were last kept."""
    saved = dict(drafts)

    def keep() -> None:
        for name in {*saved, *drafts}:
            now = drafts.get(name)
            if kind_of(name) not in KEPT or now is saved.get(name):
                continue
            saved[name] = now
            keep_form(shelf, name, now)

    return keep
