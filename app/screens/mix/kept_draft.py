"""What is typed into the mix, kept while it is typed: a phone drops a page without asking."""

import asyncio
from collections.abc import Awaitable, Callable
from contextlib import suppress

from app.device.parts import StorageFull
from app.screens.mix.mix_draft import MixDraft
from app.store.shelf import Shelf
from app.store.structuring import document_of, record_of

EVERY_S = 1.0
"""So much typing a phone that drops the page may cost; our own choice."""


def kept_draft(shelf: Shelf) -> MixDraft:
    """The mix as it was left; an empty one when none was, or when it cannot be read."""
    try:
        return record_of(shelf.desk.draft(), MixDraft)
    except ValueError:
        return MixDraft()


def keeping(shelf: Shelf, draft: Callable[[], MixDraft]) -> Callable[[], Awaitable[None]]:
    """What keeps the draft from now on, a moment after it was changed."""

    async def keep() -> None:
        saved = draft()
        while True:
            await asyncio.sleep(EVERY_S)
            now = draft()
            if now is saved:
                continue
            saved = now
            # On a full device it is still on the screen, and Kit tells of the room.
            with suppress(StorageFull):
                shelf.desk.save_draft({} if now == MixDraft() else document_of(now))

    return keep
