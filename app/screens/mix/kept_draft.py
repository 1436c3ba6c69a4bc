"""What is typed into the mix, kept while it is typed: a phone drops a page without asking."""

from collections.abc import Callable
from contextlib import suppress
from typing import get_args

from attrs import evolve

from app.journal.records import WeighsIn
from app.screens.masses import mass_unit, with_unit
from app.screens.mix.mix_draft import MixDraft
from app.store.shelf import Shelf
from app.store.structuring import document_of, record_of

EVERY_S = 0.3
"""So much typing a phone that drops the page may cost, less than goes from one key to the next, so
that no number comes back cut short; our own choice. A choice costs none."""


def kept_draft(shelf: Shelf) -> MixDraft:
    """The mix as it was left; an empty one when none was, or when it cannot be read."""
    try:
        draft = record_of(shelf.desk.draft(), MixDraft)
    except ValueError:
        return MixDraft()
    before = _unit_of_its_own(shelf)
    if before in ("", mass_unit(shelf.kit())):
        return draft
    return evolve(draft, weight=with_unit(draft.weight, before))


def _unit_of_its_own(shelf: Shelf) -> str:
    """The unit of weights that a draft of an earlier version has, when the kit had none yet."""
    unit = shelf.desk.draft().get("weight_unit")
    return next((one for one in get_args(WeighsIn) if one == unit), "")


def unit_to_take_up(shelf: Shelf) -> str:
    """The unit chosen for the mix in an earlier version, which the kit is still to learn of.

    Empty when there is none, or when the kit may have been lost and is not to be written over.
    """
    unit, kit = _unit_of_its_own(shelf), shelf.kit()
    return "" if kit.weighs_in or shelf.report or unit == mass_unit(kit) else unit


def keep_draft(shelf: Shelf, draft: MixDraft) -> None:
    """Keep the mix as it is now."""
    # Where it cannot be written it is still on the screen, and the next save says so.
    with suppress(OSError):
        shelf.desk.save_draft({} if draft == MixDraft() else document_of(draft))


def keeping(shelf: Shelf, draft: Callable[[], MixDraft]) -> Callable[[], None]:
    """What keeps the draft where it was changed since it was last kept."""
    saved = draft()

    def keep() -> None:
        nonlocal saved
        now = draft()
        if now is saved:
            return
        saved = now
        keep_draft(shelf, now)

    return keep
