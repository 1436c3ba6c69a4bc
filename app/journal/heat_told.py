"""What the logged temperatures of a batch come to: safe, tender soon, kept hot, cooled in time."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from attrs import frozen

from app.cure.mix import work_out
from app.heat.cooling import (
    CURED_ASCORBATE_PPM,
    CURED_NITRITE_PPM,
    Cooling,
    TwoHours,
    cooling_clocks,
    cooling_limit,
    two_hours,
)
from app.heat.core_log import Reading
from app.heat.lethality import ConsumerRule, Lethality, accumulate, consumer_rule
from app.heat.rest import HOT_C, RestForecast, rest_forecast
from app.heat.stall import BY_FEEL, Finish, Stall, find_stall, finish_range
from app.journal.chain import active
from app.journal.happened import decision
from app.journal.logged import CoreLog, core_log, past_cooks
from app.journal.records import Batch, Entry, Moment, Stage


@frozen
class HeatTold:
    """Everything the core log of a batch tells; None where the log cannot tell it yet.

    `applies` names the cooling limit that holds for this batch and why.
    """

    log: CoreLog | None
    lethality: Lethality
    consumer: ConsumerRule
    stall: Stall | None
    finish: Finish | None
    rest: RestForecast | None
    cooling_plain: Cooling | None
    cooling_cured: Cooling | None
    applies: str
    out: TwoHours | None
    by_feel: str = BY_FEEL

    def moment_of(self, minute: float) -> Moment:
        """A minute of the log as the instant it stands for."""
        if self.log is None:
            raise ValueError("There is no log of the core, so it has no minutes.")
        start = self.log.start
        return Moment(start.utc_s + 60.0 * minute, start.offset_min)


def heat_told(
    batch: Batch,
    entries: Sequence[Entry],
    now: Moment,
    others: Iterable[Batch] = (),
    records: Mapping[str, Sequence[Entry]] | None = None,
) -> HeatTold:
    """Read the core log of a batch by every heat model.

    Parameters
    ----------
    batch, entries : the batch and its record
    now : this instant
    others, records : the cook's other batches and their records, for the finish

    Returns
    -------
    What each model says

    Notes
    -----
    A clock set back to before the last reading counts as the time of that reading.
    """
    log = core_log(batch, entries)
    readings = log.readings if log is not None else ()
    pulled = _pulled_min(batch, entries, log)
    cooking = tuple(one for one in readings if pulled is None or one[0] <= pulled)
    after = tuple(one for one in readings if pulled is not None and one[0] >= pulled)
    now_min = 0.0
    if log is not None:
        now_min = max(log.minute_of(now), readings[-1][0])
    plain = cured = None
    if after and after[-1][1] < HOT_C:
        plain = cooling_clocks(after, now_min)
        cured = cooling_clocks(after, now_min, CURED_NITRITE_PPM, CURED_ASCORBATE_PPM)
    finish = None
    if cooking and pulled is None:
        rest_of = [one for one in others if one.id != batch.id]
        finish = finish_range(cooking[-1][1], past_cooks(rest_of, records or {}, batch.cut))
    return HeatTold(
        log,
        accumulate(readings),
        consumer_rule(readings),
        find_stall(cooking) if len(cooking) > 1 else None,
        finish,
        _rest(after),
        plain,
        cured,
        _applies(batch),
        _out(batch, after, log, now_min),
    )


def _pulled_min(batch: Batch, entries: Sequence[Entry], log: CoreLog | None) -> float | None:
    """When it came off the fire, on the log's clock."""
    if log is None:
        return None
    entry = decision(entries, "pulled")
    at = entry.at if entry is not None else _begun(batch, "rest")
    return None if at is None else log.minute_of(at)


def _begun(batch: Batch, stage: Stage) -> Moment | None:
    return next((s.done for s in active(batch.plan) if s.stage == stage and s.done), None)


def _rest(after: Sequence[Reading]) -> RestForecast | None:
    """From the first reading after it was pulled and the last one still hot."""
    hot = [one for one in after if one[1] >= HOT_C]
    return rest_forecast(hot[0], hot[-1]) if len(hot) > 1 else None


def _applies(batch: Batch) -> str:
    """Which cooling limit holds, by the least nitrite the mix may have brought in."""
    try:
        mix = work_out(batch.mix)
    except ValueError:
        return cooling_limit(0.0)[1]
    least = min((one.ppm for one in mix.nitrite.figures), default=mix.nitrite.ppm)
    grey = batch.outcome.grey_percent if batch.outcome else None
    if grey:
        return f"Plain limit: {grey:.0f} % of the slice was grey, and got no cure."
    return cooling_limit(least, batch.mix.ascorbate_ppm or 0.0)[1]


def _out(
    batch: Batch, after: Sequence[Reading], log: CoreLog | None, now_min: float
) -> TwoHours | None:
    """The two hours, counted from when the core left 60 °C, or from the slicing if earlier."""
    if log is None:
        return None
    cold_at = _begun(batch, "store")
    end = now_min if cold_at is None else log.minute_of(cold_at)
    sliced = _begun(batch, "slice")
    starts = [] if sliced is None else [log.minute_of(sliced)]
    if after and after[-1][1] < HOT_C:
        starts.append(_left_hot_min(after))
    if not starts or end < min(starts):
        return None
    return two_hours(end - min(starts))


def _left_hot_min(after: Sequence[Reading]) -> float:
    """When the core fell through 60 °C for the last time, by a straight line between readings."""
    for (t0, c0), (t1, c1) in reversed(list(pairwise(after))):
        if c0 >= HOT_C > c1:
            return t0 + (t1 - t0) * (c0 - HOT_C) / (c0 - c1)
    return after[0][0]
