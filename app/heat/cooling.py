"""Cooling cooked meat in time: the two stages, with the plain and the cured limit."""

from collections.abc import Sequence
from typing import Literal

from attrs import evolve, frozen

from app.cure.working import Working
from app.heat.core_log import (
    Reading,
    celsius,
    checked_log,
    checked_minutes,
    checked_temperature,
    clock_words,
)
from app.transport.checks import not_negative

State = Literal["not_begun", "running", "passed", "failed", "unknown"]


@frozen
class CoolingLimit:
    """Two stages: from 130 to 80 °F, then on to the cold end."""

    name: str
    first_minutes: float
    second_minutes: float
    end_c: float
    source: str


HOT_C = celsius(130.0)
MIDDLE_C = celsius(80.0)

PLAIN = CoolingLimit(
    "plain", 90.0, 300.0, celsius(40.0),
    "FSIS Appendix B: 130 to 80 °F in 1.5 h, then 80 to 40 °F in 5 h",
)  # fmt: skip
CURED = CoolingLimit(
    "cured", 300.0, 600.0, celsius(45.0),
    "FSIS Appendix B, cured: 130 to 80 °F in 5 h, then 80 to 45 °F in 10 h (45 °F from memory)",
)  # fmt: skip

CURED_NITRITE_PPM = 100.0
"""Ingoing nitrite from which the cured limit may be used (Appendix B; from memory)."""

CURED_ASCORBATE_PPM = 250.0
"""Ascorbate the 2021 text asks for beside it (from memory)."""


@frozen
class CoolingStage:
    """One of the two stages: how it stands, how long it took or may take [min].

    `least_minutes` and `most_minutes` bound the time by the readings before and after each
    crossing; `deadline_min` is on the log's own clock, None until the stage has begun.
    """

    state: State
    limit_minutes: float
    least_minutes: float | None
    most_minutes: float | None
    deadline_min: float | None
    says: str


@frozen
class Cooling:
    """Both stages, what they come to, and why this limit."""

    state: State
    limit: CoolingLimit
    first: CoolingStage
    second: CoolingStage
    says: str
    why_limit: str
    working: Working


@frozen
class TwoHours:
    """The two-hour rule: how long food may still stand out."""

    state: Literal["fine", "over"]
    limit_minutes: float
    left_minutes: float
    says: str
    working: Working


def cooling_limit(
    ingoing_ppm: float, ascorbate_ppm: float = 0.0, counted: str = "ingoing"
) -> tuple[CoolingLimit, str]:
    """Which limit applies, and why.

    cured: ingoing ≥ 100 ppm and ascorbate ≥ 250 ppm; otherwise plain

    Parameters
    ----------
    ingoing_ppm : lowest nitrite the meat may have got anywhere [mg/kg]
    ascorbate_ppm : ascorbate or erythorbate [mg/kg]
    counted : how that nitrite was counted, in a word that goes before it

    Returns
    -------
    The limit and a sentence

    Raises
    ------
    ValueError : a number is negative or not finite

    Examples
    --------
    >>> cooling_limit(150.0)[0].name, cooling_limit(150.0, 500.0)[0].name
    ('plain', 'cured')

    References
    ----------
    FSIS Appendix B; 100 ppm, and 250 ppm of the 2021 text, from memory.
    """
    not_negative("ingoing nitrite", ingoing_ppm, "ppm")
    not_negative("ascorbate", ascorbate_ppm, "ppm")
    if ingoing_ppm < CURED_NITRITE_PPM:
        return PLAIN, (
            f"Plain limit: {ingoing_ppm:.0f} ppm of {counted} nitrite is less than 100 ppm."
        )
    if ascorbate_ppm < CURED_ASCORBATE_PPM:
        return PLAIN, (
            f"Plain limit: cured with {ingoing_ppm:.0f} ppm of {counted} nitrite, but "
            f"{ascorbate_ppm:.0f} ppm ascorbate is less than the 250 ppm the newer text asks for."
        )
    return CURED, (
        f"Cured limit: {ingoing_ppm:.0f} ppm of {counted} nitrite and {ascorbate_ppm:.0f} ppm "
        "ascorbate. A grey core got no cure: then the plain limit holds."
    )


def cooling_clocks(
    log: Sequence[Reading],
    now_min: float,
    ingoing_ppm: float = 0.0,
    ascorbate_ppm: float = 0.0,
    *,
    over: bool = False,
) -> Cooling:
    """Both cooling stages from logged core temperatures.

    A stage lasts from the last crossing of its upper to the last crossing of its lower
    temperature; each crossing lies between two readings, so the time has a least and a most

    Parameters
    ----------
    log : minutes and core temperatures in order of time
    now_min : the present, on the log's clock [min]
    ingoing_ppm, ascorbate_ppm : what decides the limit [mg/kg]
    over : nothing more will be read, so that no clock that began runs on and what was not read is
        unknown

    Returns
    -------
    Each stage passed, failed, running, not begun or unknown, with deadline and sentence

    Raises
    ------
    ValueError : the times do not rise, now lies before the last reading, a number is impossible

    Notes
    -----
    Passed only if even the longest time fits, failed only if even the shortest does not; between
    them it is unknown, and says what reading would have told.

    Examples
    --------
    >>> log = [(0, 60.0), (10, 54.0), (60, 30.0), (75, 26.0), (200, 10.0), (300, 4.0)]
    >>> cooling_clocks(log, now_min=300).state
    'passed'

    References
    ----------
    FSIS Appendix B.
    """
    limit, why = cooling_limit(ingoing_ppm, ascorbate_ppm)
    readings = checked_log(log)
    checked_minutes("time now", now_min)
    if readings and now_min < readings[-1][0]:
        raise ValueError(
            f"Now ({now_min:g} min) must not lie before the last reading ({readings[-1][0]:g} min)."
        )
    first = _stage(readings, now_min, HOT_C, MIDDLE_C, limit.first_minutes)
    second = _stage(readings, now_min, MIDDLE_C, limit.end_c, limit.second_minutes)
    if over and first.state != "not_begun":
        first = _stopped(first, readings, MIDDLE_C)
        second = _stopped(second, readings, limit.end_c)
    state = _both(first.state, second.state)
    says = _says(state, first, second)
    inputs = (
        ("Limit", limit.name),
        ("First stage", f"{HOT_C:.1f} to {MIDDLE_C:.1f} °C in {clock_words(limit.first_minutes)}"),
        (
            "Second stage",
            f"{MIDDLE_C:.1f} to {limit.end_c:.1f} °C in {clock_words(limit.second_minutes)}",
        ),
        ("Readings", str(len(readings))),
    )
    working = Working(
        "Cooling in two stages",
        "time between crossings, bounded by the readings on either side",
        inputs,
        says,
        limit.source,
        "The probe must sit in the warmest part. A process rule, stricter than a home needs.",
    )
    return Cooling(state, limit, first, second, says, why, working)


def two_hours(minutes_out: float, room_c: float = 21.0, *, put_away: bool = False) -> TwoHours:
    """How long food may still stand out of oven and refrigerator.

    2 h, or 1 h where it is above 90 °F (32.2 °C)

    Parameters
    ----------
    minutes_out : time already between 40 and 140 °F, out on the table [min]
    room_c : temperature where it stands [°C]
    put_away : it went into the cold then, so that nothing is left to run

    Returns
    -------
    Fine or over, minutes left, a sentence

    Raises
    ------
    ValueError : the minutes are negative, or a number is not one

    Examples
    --------
    >>> two_hours(90.0).left_minutes, two_hours(90.0, room_c=35.0).state
    (30.0, 'over')

    References
    ----------
    FSIS, danger zone 40-140 °F (4.4-60 °C).
    """
    not_negative("time out", minutes_out, "minutes")
    checked_temperature("temperature of the room", room_c)
    limit = 60.0 if room_c > celsius(90.0) else 120.0
    left = limit - minutes_out
    over = left < 0.0
    if over:
        says = f"Out for {clock_words(minutes_out)}, over the {clock_words(limit)}: throw it away."
    elif put_away:
        says = f"In the cold after {clock_words(minutes_out)}, within the {clock_words(limit)}."
    else:
        says = f"{clock_words(left)} left before it must be in the cold."
    working = Working(
        "The two-hour rule",
        "2 h out of oven and refrigerator, 1 h where it is above 32.2 °C (90 °F)",
        (("Out for", clock_words(minutes_out)), ("Where it stands", f"{room_c:.0f} °C")),
        says,
        "FSIS, danger zone 40 to 140 °F (4.4 to 60 °C)",
        "Counts all the time it stood out, not only the last.",
    )
    return TwoHours("over" if over else "fine", limit, max(left, 0.0), says, working)


def _stage(
    readings: Sequence[Reading], now_min: float, from_c: float, to_c: float, limit: float
) -> CoolingStage:
    last_above = max((i for i, (_, c) in enumerate(readings) if c >= from_c), default=None)
    if last_above is None:
        if not readings:
            return _not_begun(limit, from_c)
        says = f"The first reading was already below {from_c:.1f} °C, so its start is not known."
        return CoolingStage("unknown", limit, None, None, None, says)
    if last_above == len(readings) - 1:
        return _not_begun(limit, from_c)
    earliest, latest = readings[last_above][0], readings[last_above + 1][0]
    # Cold only counts when the meat stayed cold.
    last_warm = max(i for i, (_, c) in enumerate(readings) if c > to_c)
    deadline = earliest + limit
    if last_warm == len(readings) - 1:
        least = max(readings[-1][0] - latest, 0.0)
        return _unfinished(readings[-1], now_min, to_c, limit, least, deadline)
    least = max(readings[last_warm][0] - latest, 0.0)
    most = readings[last_warm + 1][0] - earliest
    if most <= limit:
        says = f"Down to {to_c:.1f} °C in at most {clock_words(most)} of {clock_words(limit)}."
        return CoolingStage("passed", limit, least, most, deadline, says)
    if least > limit:
        says = f"Took at least {clock_words(least)}; {clock_words(limit)} was the limit."
        return CoolingStage("failed", limit, least, most, deadline, says)
    says = (
        f"Took between {clock_words(least)} and {clock_words(most)}; {clock_words(limit)} is the "
        "limit, and the readings lie too far apart to tell."
    )
    return CoolingStage("unknown", limit, least, most, deadline, says)


def _unfinished(
    last: Reading, now_min: float, to_c: float, limit: float, least: float, deadline: float
) -> CoolingStage:
    if least > limit:
        says = f"Still {last[1]:.1f} °C after {clock_words(least)}; the limit is past."
        return CoolingStage("failed", limit, least, None, deadline, says)
    if now_min > deadline:
        says = f"The time is up and the last reading was {last[1]:.1f} °C: measure now."
        return CoolingStage("unknown", limit, least, None, deadline, says)
    says = f"{clock_words(deadline - now_min)} left to come below {to_c:.1f} °C."
    return CoolingStage("running", limit, least, None, deadline, says)


def _stopped(stage: CoolingStage, readings: Sequence[Reading], to_c: float) -> CoolingStage:
    """A stage that still waited for a reading, when none will come."""
    if stage.most_minutes is not None or stage.state == "failed":
        return stage
    if not readings or readings[-1][1] <= to_c:
        return stage
    says = f"Last read at {readings[-1][1]:.1f} °C and not down to {to_c:.1f} °C: not known."
    return evolve(stage, state="unknown", deadline_min=None, says=says)


def _not_begun(limit: float, from_c: float) -> CoolingStage:
    says = f"Begins when the core falls below {from_c:.1f} °C."
    return CoolingStage("not_begun", limit, None, None, None, says)


def _both(first: State, second: State) -> State:
    for state in ("failed", "unknown"):
        if state in (first, second):
            return state
    if first == second == "passed":
        return "passed"
    return "not_begun" if first == "not_begun" else "running"


def _says(state: State, first: CoolingStage, second: CoolingStage) -> str:
    if state == "passed":
        return "Cooled in time, both stages."
    if state == "not_begun":
        return first.says
    if state == "failed":
        bad = first if first.state == "failed" else second
        return f"Cooled too slowly. {bad.says} Do not keep it: throw it away."
    for stage in (first, second):
        if stage.state in ("unknown", "running"):
            return stage.says
    return second.says
