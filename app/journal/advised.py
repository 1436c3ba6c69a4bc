"""A piece of advice, and a past batch as advice looks at it."""

from typing import Literal

from attrs import frozen

from app.cure.working import Working
from app.journal.records import Batch, Entry, SliceOutcome, Stage

Sure = Literal["a guess", "fairly sure", "sure"]


@frozen
class Advice:
    """One thing to do otherwise, with its reason and how sure it is.

    id : what it is about, stable: days, inject, cap, stitch, salt, soak, taste, finish, wrap
    mix_changes : fields of the mix and their new values, if it is taken up
    stage_minutes : stages and their new lengths [min], if it is taken up
    instead_of : the id of another piece of advice for the same fault; take one of the two
    """

    id: str
    sentence: str
    reason: str
    sure: Sure
    mix_changes: tuple[tuple[str, float | str | bool | None], ...] = ()
    stage_minutes: tuple[tuple[Stage, float], ...] = ()
    fat_cap_off: bool = False
    instead_of: str = ""
    working: Working | None = None


@frozen
class Past:
    """A batch with its record."""

    batch: Batch
    entries: tuple[Entry, ...] = ()

    @property
    def outcome(self) -> SliceOutcome:
        if self.batch.outcome is None:
            raise ValueError(f"{self.batch.name} has no outcome yet.")
        return self.batch.outcome


def same_cut(one: Past, other: Past) -> bool:
    """Whether two batches were of the same cut, whatever it was called."""
    return one.batch.cut.casefold() == other.batch.cut.casefold()
