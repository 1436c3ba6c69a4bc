"""Thawing of a batch: how long by its weight, since when, and until when."""

from collections.abc import Iterable

from attrs import frozen

from app.heat.thaw import ThawTime, thaw_time
from app.journal.chain import active
from app.journal.records import Batch, Entry, Moment
from app.journal.yields import weights


@frozen
class ThawTold:
    """How long a piece thaws, and when it was begun and is likely thawed, if it was begun.

    planned : whether thawing is a step of the plan, or is only told for the case
    """

    time: ThawTime
    planned: bool
    begun: Moment | None = None
    ready: Moment | None = None


def thaw_told(batch: Batch, entries: Iterable[Entry]) -> ThawTold | None:
    """Thawing by the weight as bought, else that of the mix; None once it lies in the cure.

    None as well of a batch that is finished.

    Raises
    ------
    ValueError : the mix holds no weight and nothing was weighed
    """
    steps = active(batch.plan)
    if batch.finished or any(step.done for step in steps if step.stage == "cure"):
        return None
    green = next((row.grams for row in weights(batch, entries) if row.of == "green"), None)
    time = thaw_time(batch.mix.meat_g if green is None else green)
    step = next((step for step in steps if step.stage == "thaw"), None)
    if step is None or step.done is None:
        return ThawTold(time, step is not None)
    ready = Moment(step.done.utc_s + 3600.0 * time.hours, step.done.offset_min)
    return ThawTold(time, True, step.done, ready)
