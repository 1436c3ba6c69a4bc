"""What is typed into the mix, kept while it is typed: a phone drops a page without asking."""

from collections.abc import Callable
from contextlib import suppress

from app.device.parts import StorageFull
from app.screens.mix.mix_draft import MixDraft
from app.store.shelf import Shelf
from app.store.structuring import document_of, record_of

EVERY_S = 1.0
"""So much typing a phone that drops the page may cost; our own choice. A choice costs none."""


def kept_draft(shelf: Shelf) -> MixDraft:
    """The mix as it was left; an empty one when none was, or when it cannot be read."""
    try:
        return record_of(shelf.desk.draft(), MixDraft)
    except ValueError:
        return MixDraft()


def keeping(shelf: Shelf, draft: Callable[[], MixDraft]) -> Callable[[], None]:
    """What keeps the draft where it was changed since it was last kept."""
    saved = draft()

    def keep() -> None:
        nonlocal saved
        now = draft()
        if now is saved:
            return
        saved = now
        # On a full device it is still on the screen, and Kit tells of the room.
        with suppress(StorageFull):
            shelf.desk.save_draft({} if now == MixDraft() else document_of(now))

    return keep
