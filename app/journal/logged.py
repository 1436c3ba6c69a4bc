"""The logged temperatures of a batch as the heat models take them: minutes and °C."""

from collections.abc import Iterable, Mapping, Sequence

from attrs import frozen

from app.heat.core_log import Reading
from app.heat.stall import PastCook
from app.journal.chain import active
from app.journal.entries import by_time
from app.journal.happened import decision
from app.journal.records import Batch, Entry, Moment, Spot
from app.journal.timeline import temperatures_in

CORE: frozenset[Spot] = frozenset({"flat", "point", "middle"})
"""Where a thermometer tells the core; the coldest of them counts."""

ROUND_MIN = 20
"""Places read within so many minutes belong to one round of the probe; our own choice."""


@frozen
class CoreLog:
    """Core temperatures in the order of time, minutes counted from `start`."""

    start: Moment
    readings: tuple[Reading, ...]

    def minute_of(self, at: Moment) -> float:
        """A moment on the clock of this log [min]."""
        return (at.utc_s - self.start.utc_s) / 60.0


def core_log(batch: Batch, entries: Iterable[Entry], since: Moment | None = None) -> CoreLog | None:
    """Core temperatures logged from the smoke on, those of feel and decisions among them.

    Counted from `since`, else from the beginning of the smoke, else from the first reading.
    Of the places probed in one round the coldest counts, as for safety it must. None without a
    reading.
    """
    if since is None:
        since = next((s.done for s in active(batch.plan) if s.stage == "smoke" and s.done), None)
    taken = [
        (entry.at, spot, celsius)
        for entry in by_time(entries)
        if entry.batch_id == batch.id and (since is None or entry.at.utc_s >= since.utc_s)
        for spot, celsius in temperatures_in(entry)
        if spot in CORE
    ]
    if not taken:
        return None
    start = since or taken[0][0]
    probed = [(round((at.utc_s - start.utc_s) / 60.0), spot, c) for at, spot, c in taken]
    coldest: dict[float, float] = {}
    for minute, spot, celsius in probed:
        cold = min(celsius, *_elsewhere(probed, minute, spot), coldest.get(minute, celsius))
        coldest[float(minute)] = cold
    return CoreLog(start, tuple(sorted(coldest.items())))


def _elsewhere(
    probed: Sequence[tuple[int, Spot, float]], minute: int, spot: Spot
) -> tuple[float, ...]:
    """What the other places read in the same round of the probe, each at its nearest [°C]."""
    nearest: dict[Spot, tuple[int, float]] = {}
    for at, where, celsius in probed:
        away = abs(at - minute)
        if where != spot and away <= ROUND_MIN and away < nearest.get(where, (ROUND_MIN + 1, 0))[0]:
            nearest[where] = (away, celsius)
    return tuple(celsius for _, celsius in nearest.values())


def past_cooks(
    batches: Iterable[Batch], entries: Mapping[str, Sequence[Entry]], cut: str
) -> tuple[PastCook, ...]:
    """Earlier cooks of the same cut, with when each was called done; for `finish_range`.

    Done is the decision to pull it, else the tender check. Demonstration batches are left out.
    """
    found = []
    for batch in batches:
        if batch.demonstration or batch.cut.casefold() != cut.casefold():
            continue
        record = entries.get(batch.id, ())
        log, done = core_log(batch, record), _done_at(batch, record)
        if log is not None and done is not None:
            minute = log.minute_of(done)
            readings = tuple(one for one in log.readings if one[0] <= minute)
            if readings:
                found.append(PastCook(readings, minute))
    return tuple(found)


def _done_at(batch: Batch, entries: Sequence[Entry]) -> Moment | None:
    pulled = decision(entries, "pulled")
    if pulled is not None:
        return pulled.at
    return next((s.done for s in active(batch.plan) if s.stage == "tender" and s.done), None)
