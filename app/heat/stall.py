"""The stall told from a log, and the finish as a range from the cook's own past batches."""

from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from attrs import frozen

from app.cure.working import Working
from app.heat.core_log import (
    Reading,
    checked_log,
    checked_minutes,
    checked_temperature,
    clock_words,
)
from app.transport.diffusivity import Range

BY_FEEL = "By feel, not by time: it is done when the probe goes in soft all over."

SLOW_C_PER_HOUR = 3.0
"""A climb slower than this is called a stall; common practice, no source."""

LEAST_MINUTES = 40.0
"""It must last this long, or it was a door opened; common practice, no source."""

FROM_C, TO_C = 55.0, 85.0
"""Core temperatures between which meat stalls; common practice, no source."""


@frozen
class Stall:
    """A slow stretch: from when to when on the log's clock, and at what core temperature.

    `ended_min` is None while it lasts.
    """

    began_min: float
    ended_min: float | None
    core_c: float
    says: str
    working: Working


@frozen
class PastCook:
    """An earlier batch: its core log, and when on that clock it was called done."""

    log: tuple[Reading, ...]
    done_min: float


@frozen
class Finish:
    """Minutes still to go by past batches; None when they cannot tell. Feel decides."""

    minutes: Range | None
    batches: int
    says: str
    working: Working
    by_feel: str = BY_FEEL


def find_stall(log: Sequence[Reading], *, over: bool = False) -> Stall | None:
    """The last stall in a log, if there was one.

    Longest run between readings from 55 to 85 °C over which the core climbs by less than 3 °C
    an hour, 40 minutes or more

    Parameters
    ----------
    log : minutes and core temperatures in order of time
    over : nothing more will be read, so that it is not said to last

    Returns
    -------
    When it began, whether it has ended, and where; None when there was none

    Raises
    ------
    ValueError : the times do not rise, or a number is impossible

    Notes
    -----
    Meat cools itself by what evaporates until the surface has dried or is wrapped. The rate is
    taken over at least 20 minutes, so that one reading a tenth off makes no stall.

    Examples
    --------
    >>> log = [(0, 40.0), (60, 60.0), (120, 67.0), (150, 68.0), (180, 68.5), (210, 69.5)]
    >>> find_stall(log).says
    'In the stall at about 70 °C for 1 h 30 min.'

    References
    ----------
    Common practice, no source.
    """
    readings = _thinned(checked_log(log))
    found: tuple[Reading, Reading] | None = None
    begin: Reading | None = None
    for before, after in pairwise(readings):
        climb = (after[1] - before[1]) / (after[0] - before[0]) * 60.0
        slow = climb < SLOW_C_PER_HOUR and FROM_C <= before[1] <= TO_C and after[1] >= FROM_C
        if not slow:
            begin = None
            continue
        begin = begin or before
        if after[0] - begin[0] >= LEAST_MINUTES:
            found = (begin, after)
    if found is None:
        return None
    (began, _), (until, core_c) = found
    lasted = clock_words(until - began)
    lasts = until == readings[-1][0]
    if lasts and over:
        says = f"In the stall at about {core_c:.0f} °C for {lasted} up to the last reading."
    elif lasts:
        says = f"In the stall at about {core_c:.0f} °C for {lasted}."
    else:
        says = f"The stall lasted {lasted} and ended at {core_c:.0f} °C."
    working = Working(
        "The stall",
        f"core climbing by less than {SLOW_C_PER_HOUR:g} °C an hour for {LEAST_MINUTES:g} min or "
        f"more, between {FROM_C:g} and {TO_C:g} °C",
        (("Readings", str(len(log))), ("Began at", f"minute {began:.0f} of the log")),
        says,
        "common practice, no source",
        "A fire that fades looks the same: look at the pit before you blame the meat.",
    )
    return Stall(began, None if lasts else until, core_c, says, working)


def finish_range(core_c: float, past: Sequence[PastCook]) -> Finish:
    """How long to go, from how long earlier batches took from the same core temperature.

    least, median and most over past batches of done − last time the core passed this temperature

    Parameters
    ----------
    core_c : core temperature now [°C]
    past : the cook's own earlier batches

    Returns
    -------
    Minutes as low, likely, high with the number of batches; None without a batch that tells

    Raises
    ------
    ValueError : a log is out of order, or a number is impossible

    Notes
    -----
    A batch of another thickness or pit temperature tells little; choose like ones. Three batches
    are no promise.

    Examples
    --------
    >>> past = [PastCook(((0, 70.0), (120, 90.0)), 150), PastCook(((0, 75.0), (60, 95.0)), 90)]
    >>> finish_range(80.0, past).says
    'Your 2 like batches took 1 h 15 min to 1 h 30 min more from 80 °C.'

    References
    ----------
    The cook's own record.
    """
    checked_temperature("core temperature", core_c)
    rest = sorted(left for cook in past if (left := _left(core_c, cook)) is not None)
    minutes = Range(rest[0], median(rest), rest[-1]) if rest else None
    if not rest:
        says = f"No past batch of yours passed {core_c:.0f} °C in its log."
    elif len(rest) == 1:
        says = f"Your one like batch took {clock_words(rest[0])} more from {core_c:.0f} °C."
    else:
        says = (
            f"Your {len(rest)} like batches took {clock_words(rest[0])} to "
            f"{clock_words(rest[-1])} more from {core_c:.0f} °C."
        )
    working = Working(
        "How long to go, by your own batches",
        "least, median and most of: done − last time the core rose through this temperature",
        (("Core now", f"{core_c:.1f} °C"), ("Past batches that tell", str(len(rest)))),
        says,
        "Your own record",
        f"{BY_FEEL} Thickness, pit and weather differ from batch to batch.",
    )
    return Finish(minutes, len(rest), says, working)


def _left(core_c: float, cook: PastCook) -> float | None:
    """Minutes from the last time a past core rose through a temperature until it was done."""
    checked_minutes("time a past batch was done", cook.done_min)
    passed = None
    for (t0, c0), (t1, c1) in pairwise(checked_log(cook.log)):
        if c0 <= core_c < c1 or (c0 < core_c == c1):
            passed = t0 + (t1 - t0) * (core_c - c0) / (c1 - c0)
    if passed is None or cook.done_min < passed:
        return None
    return cook.done_min - passed


def _thinned(readings: Sequence[Reading], apart: float = 20.0) -> list[Reading]:
    """Readings at least this far apart, the last one kept."""
    kept: list[Reading] = []
    for reading in readings:
        if not kept or reading[0] - kept[-1][0] >= apart:
            kept.append(reading)
    if readings and kept[-1] != readings[-1]:
        if len(kept) > 1:
            kept[-1] = readings[-1]
        else:
            kept.append(readings[-1])
    return kept
