"""How far cooking has made meat safe: the reduction of Salmonella, from core temperatures."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, exp, floor, log

from attrs import frozen

from app.cure.working import Working
from app.heat.core_log import (
    Reading,
    celsius,
    checked_log,
    checked_temperature,
    clock_words,
    fahrenheit,
)
from app.transport.checks import not_negative

TARGET_LOG = 6.5

# Minimum internal temperature [°F] and time [s] for a 6.5-log reduction of Salmonella in beef.
# FSIS Appendix A (1999), kept in the 2017 guideline; seen in restatements.
TABLE_S: dict[int, int] = {
    130: 112 * 60, 131: 89 * 60, 132: 71 * 60, 133: 56 * 60, 134: 45 * 60, 135: 36 * 60,
    136: 28 * 60, 137: 23 * 60, 138: 18 * 60, 139: 15 * 60, 140: 12 * 60, 141: 9 * 60,
    142: 8 * 60, 143: 6 * 60, 144: 5 * 60, 145: 4 * 60, 146: 169, 147: 134, 148: 107, 149: 85,
    150: 67, 151: 54, 152: 43, 153: 34, 154: 27, 155: 22, 156: 17, 157: 14,
}  # fmt: skip

AT_ONCE_F = 158
"""From here on the table asks for no time at all."""

Z_F = 10.0
"""Degrees Fahrenheit for a tenfold quicker kill, as the table falls (worked out from it)."""

CONSUMER_C = 62.8
CONSUMER_REST_MIN = 3.0
"""Whole cuts of beef for the home: 145 °F (62.8 °C) and 3 minutes of rest (FSIS)."""

_LOWEST_F, _HIGHEST_F = min(TABLE_S), max(TABLE_S)
# The table prints its Celsius to a tenth, so 54.4 °C (129.92 °F) is meant as 130 °F.
_PRINTED_F = 0.1
_STEP_C = 0.1
_LN_10 = log(10.0)
_SOURCE = "FSIS Appendix A (1999), kept in the 2017 guideline: 6.5-log Salmonella in beef"


@frozen
class Lethality:
    """What a log of core temperatures adds up to.

    `reached_min` is when 6.5 log was reached, on the log's own clock, None when not;
    `by_reading` the sum at each reading, for a chart.
    """

    log_reduction: float
    reached_min: float | None
    by_reading: tuple[float, ...]
    says: str
    working: Working


@frozen
class ConsumerRule:
    """Whether 62.8 °C (145 °F) was held for three minutes, and when."""

    met: bool
    met_min: float | None
    says: str
    working: Working


def minutes_for_target(core_c: float) -> float:
    """Holding time for 6.5 log at a temperature.

    row(T)·10^(−(T − T_row)/10 °F), never less than the next row

    Parameters
    ----------
    core_c : lowest temperature anywhere in the meat [°C]

    Returns
    -------
    Minutes; infinite below 130 °F, nought from 158 °F

    Raises
    ------
    ValueError : the temperature is not a number or could not be

    Notes
    -----
    On a row it is the table's own time, between rows never shorter than the next row's: it is
    nowhere better than the table.

    Examples
    --------
    >>> minutes_for_target(60.0), minutes_for_target(50.0), minutes_for_target(71.0)
    (12.0, inf, 0.0)

    References
    ----------
    FSIS Appendix A (1999); z = 10 °F as the table falls.
    """
    temperature_f = fahrenheit(checked_temperature("core temperature", core_c))
    row = floor(temperature_f + _PRINTED_F)
    if row < _LOWEST_F:
        return float("inf")
    if row >= AT_ONCE_F:
        return 0.0
    # Within the printing's rounding the row itself is meant, on either side of it.
    beyond = max(temperature_f - row - _PRINTED_F, 0.0)
    seconds = TABLE_S[row] * _falling(beyond)
    return max(seconds, TABLE_S.get(row + 1, 0)) / 60.0


def log_reduction(minutes: float, core_c: float) -> float:
    """Reduction of Salmonella from holding a temperature.

    6.5 · minutes / time(T)

    Parameters
    ----------
    minutes : time held [min]
    core_c : lowest temperature anywhere in the meat [°C]

    Returns
    -------
    Reduction [log10]; nought below 130 °F (54.4 °C), at least 6.5 from 158 °F (70 °C)

    Raises
    ------
    ValueError : the minutes are negative, or a number is not one

    Notes
    -----
    The table is for a moist surface and a core held; what lies below 130 °F counts nothing here
    although it kills a little, and long hours there let bacteria grow instead.

    Examples
    --------
    >>> log_reduction(112, 54.4), log_reduction(6, 60.0), log_reduction(500, 52.0)
    (6.5, 3.25, 0.0)

    References
    ----------
    FSIS Appendix A (1999).
    """
    not_negative("time held", minutes, "minutes")
    needed = minutes_for_target(core_c)
    if needed == 0.0:
        # Past the table's end the last row goes on falling by z, for what comes after 6.5.
        needed = _past_the_table(core_c)
        return max(TARGET_LOG, TARGET_LOG * minutes / needed)
    return TARGET_LOG * minutes / needed


def accumulate(log: Sequence[Reading]) -> Lethality:
    """Reduction of Salmonella added up along a log, and the moment 6.5 log was reached.

    Σ 6.5·dt/time(T), straight lines between readings cut into tenths of a degree, each at its
    cooler end

    Parameters
    ----------
    log : minutes and core temperatures in order of time

    Returns
    -------
    The sum, the moment, the sum at each reading, a sentence and the working

    Raises
    ------
    ValueError : the times do not rise, or a number is impossible

    Notes
    -----
    The probe must sit in the coolest part. A gap in the log is taken as a straight line.

    Examples
    --------
    >>> round(accumulate([(0, 60.0), (20, 60.0)]).reached_min, 6)
    12.0

    References
    ----------
    FSIS Appendix A (1999).
    """
    readings = checked_log(log)
    total, reached = 0.0, None
    sums = []
    for number, (minute, core_c) in enumerate(readings):
        if number:
            for start, length, cooler in _pieces(readings[number - 1], (minute, core_c)):
                gained = _rate(cooler) * length
                if reached is None and total + gained >= TARGET_LOG and gained > 0.0:
                    reached = start + length * (TARGET_LOG - total) / gained
                total += gained
        if fahrenheit(core_c) + _PRINTED_F >= AT_ONCE_F:
            total = max(total, TARGET_LOG)
            reached = minute if reached is None else min(reached, minute)
        sums.append(total)
    says = _says(readings, total, reached)
    inputs = (
        ("Readings", str(len(readings))),
        ("Highest core", f"{max(c for _, c in readings):.1f} °C" if readings else "none"),
    )
    working = Working(
        "Safe by time and temperature",
        "Σ 6.5 · minutes / time for 6.5 log at that temperature",
        inputs,
        says,
        _SOURCE,
        "Counts only from 54.4 °C (130 °F) up, with the probe in the coolest part and straight "
        "lines between readings. Tender comes far later than safe.",
    )
    return Lethality(total, reached, tuple(sums), says, working)


def consumer_rule(log: Sequence[Reading]) -> ConsumerRule:
    """Whether the rule for whole cuts at home was met: 62.8 °C (145 °F), then 3 minutes.

    The core at 62.8 °C or above for 3 minutes together, by straight lines between readings

    Parameters
    ----------
    log : minutes and core temperatures in order of time

    Returns
    -------
    Met or not, when, and a sentence

    Raises
    ------
    ValueError : the times do not rise, or a number is impossible

    Notes
    -----
    The rule lets the meat rest after it leaves the heat; asking that the core stay up meanwhile
    is stricter, and large cuts do.

    Examples
    --------
    >>> consumer_rule([(0, 55.0), (30, 65.0), (40, 66.0)]).met
    True

    References
    ----------
    FSIS, safe minimum internal temperatures: whole cuts of beef.
    """
    readings = checked_log(log)
    when = _three_minutes(readings)
    if when is not None:
        says = "62.8 °C (145 °F) was held for 3 minutes."
    elif any(core_c >= CONSUMER_C for _, core_c in readings):
        says = "62.8 °C (145 °F) was reached, but 3 minutes at it are not seen yet."
    else:
        says = "62.8 °C (145 °F) has not been reached yet."
    working = Working(
        "The rule for whole cuts at home",
        "core at 62.8 °C or above for 3 minutes together",
        (("Readings", str(len(readings))),),
        says,
        "FSIS, safe minimum internal temperatures: whole cuts of beef, 145 °F and 3 min rest",
        "The probe must sit in the coolest part; straight lines between readings.",
    )
    return ConsumerRule(when is not None, when, says, working)


def _three_minutes(readings: Sequence[Reading]) -> float | None:
    """When the core had been at 62.8 °C or above for three minutes together."""
    since: float | None = None
    for (t0, c0), (t1, c1) in pairwise(readings):
        if c0 < CONSUMER_C and c1 < CONSUMER_C:
            since = None
            continue
        crossing = t0 if c0 == c1 else t0 + (t1 - t0) * (CONSUMER_C - c0) / (c1 - c0)
        if c0 < CONSUMER_C:
            since = crossing
        elif since is None:
            since = t0
        end = crossing if c1 < CONSUMER_C else t1
        if end - since >= CONSUMER_REST_MIN:
            return since + CONSUMER_REST_MIN
        if c1 < CONSUMER_C:
            since = None
    return None


def _falling(beyond_f: float) -> float:
    """What is left of a row's time this far past it."""
    return exp(-beyond_f / Z_F * _LN_10)


def _past_the_table(core_c: float) -> float:
    beyond = max(fahrenheit(core_c) - _HIGHEST_F, 0.0)
    return TABLE_S[_HIGHEST_F] * _falling(beyond) / 60.0


def _rate(core_c: float) -> float:
    """Log reduction a minute."""
    needed = minutes_for_target(core_c)
    return TARGET_LOG / (needed if needed > 0.0 else _past_the_table(core_c))


def _pieces(earlier: Reading, later: Reading) -> list[tuple[float, float, float]]:
    """A straight line in short pieces: start, length [min], temperature of the cooler end."""
    (t0, c0), (t1, c1) = earlier, later
    count = max(ceil(abs(c1 - c0) / _STEP_C), 1)
    length = (t1 - t0) / count
    rise = (c1 - c0) / count
    return [
        (t0 + i * length, length, min(c0 + i * rise, c0 + (i + 1) * rise)) for i in range(count)
    ]


def _says(readings: Sequence[Reading], total: float, reached: float | None) -> str:
    if not readings:
        return "No core temperature logged yet."
    if reached is not None:
        return (
            "Safe by time and temperature: reached "
            f"{clock_words(reached - readings[0][0])} into the log."
        )
    if total == 0.0:
        return f"Not counting yet: that begins at {celsius(_LOWEST_F):.1f} °C (130 °F)."
    core_c = readings[-1][1]
    left = minutes_for_target(core_c) * (1.0 - total / TARGET_LOG)
    if left == float("inf"):
        return f"{total / TARGET_LOG:.0%} of the way, and now too cool to count further."
    return f"{total / TARGET_LOG:.0%} of the way; at {core_c:.1f} °C {clock_words(left)} more."
