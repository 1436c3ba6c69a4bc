"""Resting in a wrapped cooler: how long the meat stays hot enough, from two readings."""

from math import exp, log

from attrs import frozen

from app.cure.working import Working
from app.heat.core_log import Reading, checked_log, checked_temperature, clock_words
from app.transport.checks import between, not_negative
from app.transport.diffusivity import Range

HOT_C = 60.0
"""Hot food is kept at 140 °F (60 °C) or above (FSIS)."""

LEAST_APART_MIN = 15.0
"""Readings nearer together than this tell the thermometer's error, not the cooling."""

READING_ERROR_C = 0.5
"""What two readings of one good kitchen thermometer may differ by; common practice, no source."""


@frozen
class RestForecast:
    """Minutes above 60 °C counted from the second reading. `minutes` is None if not known."""

    minutes: Range | None
    says: str
    working: Working


def rest_forecast(
    first: Reading,
    second: Reading,
    around_c: Range | None = None,
    hold_c: float = HOT_C,
    error_c: float = READING_ERROR_C,
) -> RestForecast:
    """How long a wrapped piece stays above 60 °C, from two readings.

    Newton: T = Ta + (T₀ − Ta)·exp(−k·t), k = ln((T₁ − Ta)/(T₂ − Ta))/Δt,
    minutes = ln((T₂ − Ta)/(60 − Ta))/k

    Parameters
    ----------
    first, second : minutes and core temperature, the second later
    around_c : what the cooler stands in [°C]; a room of 15 to 25 °C when not given
    hold_c : temperature to stay above [°C]
    error_c : how far one reading may be off the other [°C]

    Returns
    -------
    Minutes as low, likely, high, counted from the second reading; or None with the reason

    Raises
    ------
    ValueError : the second reading is not later, or a number is impossible

    Notes
    -----
    A core that still rises, falls by less than the thermometer's error, or was read twice within
    a quarter of an hour tells nothing: then it says so. Opening the cooler ends the forecast.

    Examples
    --------
    >>> rest_forecast((0, 90.0), (60, 84.0)).says
    'About 5 h 15 min more above 60 °C, from 4 h 41 min to 5 h 56 min.'

    References
    ----------
    Newton's law of cooling; 140 °F (60 °C) for hot holding, FSIS.
    """
    (t1, c1), (t2, c2) = checked_log([first, second])
    around = around_c if around_c is not None else Range(15.0, 20.0, 25.0)
    checked_temperature("temperature around the cooler", around.low)
    checked_temperature("temperature around the cooler", around.high)
    checked_temperature("temperature to stay above", hold_c)
    between("error of a reading", error_c, 0.0, 10.0, "°C")
    trouble = _trouble(t2 - t1, c1, c2, around, hold_c, error_c)
    inputs = (
        ("First reading", f"{c1:.1f} °C at {t1:g} min"),
        ("Second reading", f"{c2:.1f} °C at {t2:g} min"),
        ("Around the cooler", f"{around.low:.0f} to {around.high:.0f} °C"),
        ("A reading may be off by", f"{error_c:.1f} °C"),
    )
    if trouble:
        return RestForecast(None, trouble, _working(inputs, trouble, hold_c))
    likely = _minutes(t2 - t1, c1, c2, around.likely, hold_c)
    corners = [
        _minutes(t2 - t1, c1 + off, c2 - off, air, hold_c)
        for off in (-error_c / 2.0, error_c / 2.0)
        for air in (around.low, around.high)
    ]
    minutes = Range.around(likely, *corners)
    says = (
        f"About {clock_words(likely)} more above {hold_c:.0f} °C, from {clock_words(minutes.low)} "
        f"to {clock_words(minutes.high)}."
    )
    return RestForecast(minutes, says, _working(inputs, says, hold_c))


def core_after(first: Reading, second: Reading, minutes: float, around_c: float) -> float:
    """Core temperature that long after the second reading, by Newton's law [°C].

    T = Ta + (T₂ − Ta)·((T₂ − Ta)/(T₁ − Ta))^(t/Δt)

    >>> round(core_after((0, 90.0), (60, 84.0), 60, 20.0), 1)
    78.5
    """
    (t1, c1), (t2, c2) = checked_log([first, second])
    not_negative("time after the second reading", minutes, "min")
    checked_temperature("temperature around the cooler", around_c)
    if not around_c < min(c1, c2):
        raise ValueError("The cooler must stand somewhere cooler than the meat.")
    pace = log((c1 - around_c) / (c2 - around_c)) / (t2 - t1)
    return around_c + (c2 - around_c) * exp(-pace * minutes)


def _trouble(
    apart: float, c1: float, c2: float, around: Range, hold_c: float, error_c: float
) -> str:
    if c2 < hold_c:
        return f"Already below {hold_c:.0f} °C: eat it, or cool it down in time."
    if around.high >= hold_c:
        return f"What is around it is not below {hold_c:.0f} °C, so it does not cool that far."
    if apart < LEAST_APART_MIN:
        return f"The readings are {apart:.0f} min apart: read again a quarter of an hour later."
    if c2 > c1:
        return "The core is still rising, so how fast it will fall is not known yet: read later."
    if c1 - c2 <= error_c:
        return (
            f"It fell by {c1 - c2:.1f} °C, no more than a thermometer may be off: read again later."
        )
    return ""


def _minutes(apart: float, c1: float, c2: float, air: float, hold_c: float) -> float:
    pace = log((c1 - air) / (c2 - air)) / apart
    return max(log((c2 - air) / (hold_c - air)) / pace, 0.0)


def _working(inputs: tuple[tuple[str, str], ...], result: str, hold_c: float) -> Working:
    return Working(
        f"How long above {hold_c:.0f} °C",
        "minutes = ln((T₂ − Ta)/(hold − Ta)) / k, k = ln((T₁ − Ta)/(T₂ − Ta)) / Δt",
        inputs,
        result,
        "Newton's law of cooling; 140 °F (60 °C) for hot holding, FSIS.",
        "Cooler shut and wrapped as it was. A preheated cooler, towels still warming up, or a core "
        "that still evens out bends the first half hour.",
    )
