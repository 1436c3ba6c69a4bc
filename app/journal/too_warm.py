"""Whether the meat lies too warm in its cure, by the last reading of fridge or brine."""

from collections.abc import Iterable

from app.heat.chill import COLD_C
from app.journal.chain import active
from app.journal.entries import by_time
from app.journal.records import Batch, Entry, Temperature

_A_LITTLE_C = 0.3  # what a home thermometer is read to; common practice, no source


def too_warm(batch: Batch, entries: Iterable[Entry]) -> Entry | None:
    """The last reading of fridge or brine since the meat went in, when it is too warm.

    Of the two the one read last counts; None once the meat is out again, or without a reading.

    Examples
    --------
    >>> from app.cure.request import MixRequest
    >>> from app.journal.records import Moment
    >>> now = Moment(0.0)
    >>> too_warm(Batch("b", "Flat", "brisket", now, now, MixRequest(3000.0)), []) is None
    True
    """
    done = {step.stage: step.done for step in active(batch.plan) if step.done is not None}
    since = done.get("cure")
    if since is None or "end" in done or batch.finished:
        return None
    for entry in reversed(by_time(entries)):
        if entry.at.utc_s < since.utc_s:
            break
        if isinstance(entry.body, Temperature) and entry.body.spot in ("fridge", "brine"):
            return entry if entry.body.celsius > COLD_C + _A_LITTLE_C else None
    return None
