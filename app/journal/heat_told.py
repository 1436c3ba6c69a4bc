"""What the logged temperatures of a batch come to: safe, tender soon, kept hot, cooled in time."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from attrs import frozen

from app.cure.answer import NitriteFigure
from app.cure.mix import work_out
from app.cure.working import Working
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

COUNTED: Mapping[str, str] = {
    "equilibrium": "meat and pickle as one",
    "pick-up": "by the weight taken up",
    "pumped": "by the pickle pumped in",
    "dry": "on the green weight",
}
"""The ways nitrite is counted, in a few words, by the basis of a figure."""


@frozen
class CountedNitrite:
    """The nitrite of the mix by one way of counting: what it is called, and why it stands here.

    key : of its working, stable
    """

    key: str
    name: str
    ppm: float
    note: str
    working: Working


@frozen
class HeatTold:
    """Everything the core log of a batch tells; None where the log cannot tell it yet.

    `applies` names the cooling limit that holds for this batch and why. `off_guessed` says that
    nobody marked when it came off the fire, so that it is taken from the log.
    `nitrite` is what the limit was chosen by, each way of counting by its own name.
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
    off_guessed: bool = False
    by_feel: str = BY_FEEL
    nitrite: tuple[CountedNitrite, ...] = ()

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
    room_c: float = 21.0,
) -> HeatTold:
    """Read the core log of a batch by every heat model.

    Parameters
    ----------
    batch, entries : the batch and its record
    now : this instant
    others, records : the cook's other batches and their records, for the finish
    room_c : temperature where it stands after the fire [°C]

    Returns
    -------
    What each model says

    Notes
    -----
    A clock set back to before the last reading counts as the time of that reading. Of a finished
    batch no clock runs on: what its log did not come to is left out or not known.
    """
    log = core_log(batch, entries)
    readings = log.readings if log is not None else ()
    marked = _pulled_min(batch, entries, log)
    pulled = marked if marked is not None else came_off_min(readings)
    cooking = tuple(one for one in readings if pulled is None or one[0] <= pulled)
    after = tuple(one for one in readings if pulled is not None and one[0] >= pulled)
    now_min = 0.0
    if log is not None:
        now_min = max(log.minute_of(now), readings[-1][0])
    plain = cured = None
    if log is not None:
        # Before it falls the clocks stand and say when they begin.
        done, most = batch.finished, (CURED_NITRITE_PPM, CURED_ASCORBATE_PPM)
        plain = cooling_clocks(after, now_min, over=done)
        cured = cooling_clocks(after, now_min, *most, over=done)
        if done and plain.state == "not_begun":
            plain = cured = None
    finish = None
    if cooking and pulled is None and not batch.finished:
        rest_of = [one for one in others if one.id != batch.id]
        finish = finish_range(cooking[-1][1], past_cooks(rest_of, records or {}, batch.cut))
    return HeatTold(
        log,
        accumulate(readings),
        consumer_rule(readings),
        find_stall(cooking, over=batch.finished) if len(cooking) > 1 else None,
        finish,
        None if batch.finished else _rest(after),
        plain,
        cured,
        _applies(batch),
        _out(batch, after, log, now, now_min, room_c),
        off_guessed=marked is None and pulled is not None,
        nitrite=nitrite_counted(batch),
    )


FALLEN_C = 10.0
"""Fallen by so much from its hottest, and not risen since, meat is off the fire; our own choice."""


def came_off_min(readings: Sequence[Reading]) -> float | None:
    """When a core that nobody marked as pulled was at its hottest [min]; None while it cooks.

    >>> came_off_min([(0, 60.0), (60, 92.0), (120, 70.0), (180, 40.0)])
    60
    >>> came_off_min([(0, 60.0), (60, 72.0), (120, 69.0)]) is None
    True
    """
    if not readings:
        return None
    hottest = max(readings, key=lambda one: (one[1], one[0]))
    since = [one for one in readings if one[0] >= hottest[0]]
    rises = any(after[1] > before[1] + 1.0 for before, after in pairwise(since))
    if hottest[1] < HOT_C or rises or since[-1][1] > hottest[1] - FALLEN_C:
        return None
    return hottest[0]


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
    least = _least(mix.nitrite.figures)
    grey = batch.outcome.grey_percent if batch.outcome else None
    if grey:
        return f"Plain limit: {grey:.0f} % of the slice was grey, and got no cure."
    return cooling_limit(least.ppm, batch.mix.ascorbate_ppm or 0.0, _called(least))[1]


def nitrite_counted(batch: Batch) -> tuple[CountedNitrite, ...]:
    """The mix's nitrite by each way it is counted, the mix's own figure first.

    The mix is held to the highest, the ingoing one; a cooling limit to the lowest, since no part
    of the meat may have got less. Empty for a mix that cannot be mixed.
    """
    try:
        mix = work_out(batch.mix)
    except ValueError:
        return ()
    figures = sorted(mix.nitrite.figures, key=lambda one: not one.binds)
    return tuple(
        CountedNitrite(
            f"nitrite-{one.basis}",
            f"{_called(one).capitalize()} nitrite",
            one.ppm,
            COUNTED[one.basis] + _beside(one, figures),
            mix.workings[f"nitrite_{one.basis}"],
        )
        for one in figures
    )


def _least(figures: Sequence[NitriteFigure]) -> NitriteFigure:
    return min(figures, key=lambda one: one.ppm)


def _beside(one: NitriteFigure, figures: Sequence[NitriteFigure]) -> str:
    if one.binds:
        return "; as the mix has it"
    return "; the least it may hold" if one is _least(figures) else ""


def _called(one: NitriteFigure) -> str:
    """ "ingoing" for the figure of the mix, else by its way of counting."""
    return "ingoing" if one.binds else one.basis


def _out(
    batch: Batch,
    after: Sequence[Reading],
    log: CoreLog | None,
    now: Moment,
    now_min: float,
    room_c: float,
) -> TwoHours | None:
    """The two hours, counted from when the core left 60 °C, or from the slicing if earlier."""
    starts = [at.utc_s for at in (_begun(batch, "slice"),) if at is not None]
    if log is not None and after and after[-1][1] < HOT_C:
        starts.append(log.start.utc_s + 60.0 * _left_hot_min(after))
    cold_at = _begun(batch, "store")
    # A clock set back counts as the time of the last reading.
    latest = now.utc_s if log is None else log.start.utc_s + 60.0 * now_min
    end = latest if cold_at is None else cold_at.utc_s
    if not starts or end < min(starts) or (batch.finished and cold_at is None):
        return None
    return two_hours((end - min(starts)) / 60.0, room_c, put_away=cold_at is not None)


def _left_hot_min(after: Sequence[Reading]) -> float:
    """When the core fell through 60 °C for the last time, by a straight line between readings."""
    for (t0, c0), (t1, c1) in reversed(list(pairwise(after))):
        if c0 >= HOT_C > c1:
            return t0 + (t1 - t0) * (c0 - HOT_C) / (c0 - c1)
    return after[0][0]
