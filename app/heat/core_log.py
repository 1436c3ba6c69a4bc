"""A log of core temperatures: minutes from any beginning, and degrees, in order of time."""

from collections.abc import Sequence
from itertools import pairwise
from math import isfinite

Reading = tuple[float, float]
"""Minutes since some beginning [min] and core temperature [°C]."""


def fahrenheit(celsius: float) -> float:
    """Degrees Fahrenheit: 1.8·C + 32.

    >>> fahrenheit(100.0)
    212.0
    """
    return celsius * 1.8 + 32.0


def celsius(fahrenheit_f: float) -> float:
    """Degrees Celsius: (F − 32)/1.8.

    >>> celsius(212.0)
    100.0
    """
    return (fahrenheit_f - 32.0) / 1.8


def checked_temperature(what: str, temperature_c: float) -> float:
    """The temperature itself, if meat or a kitchen could have it."""
    if not (isfinite(temperature_c) and -60.0 <= temperature_c <= 400.0):
        raise ValueError(f"The {what} must be from -60 to 400 °C; {temperature_c} was given.")
    return temperature_c


def checked_minutes(what: str, minutes: float) -> float:
    """The time itself, if it is a sensible number; before the beginning is less than nought."""
    if not abs(minutes) <= 1e8:
        raise ValueError(f"The {what} must be a number of minutes; {minutes} was given.")
    return minutes


def checked_log(log: Sequence[Reading]) -> tuple[Reading, ...]:
    """The log itself, if its times rise and its temperatures can be."""
    for minutes, core_c in log:
        checked_minutes("time of a reading", minutes)
        checked_temperature("core temperature", core_c)
    for (earlier, _), (later, _) in pairwise(log):
        if later <= earlier:
            raise ValueError(
                "Readings must come in order of time, each later than the one before; "
                f"{later:g} min came after {earlier:g} min."
            )
    return tuple((float(minutes), float(core_c)) for minutes, core_c in log)


def clock_words(minutes: float) -> str:
    """A length of time as a person says it.

    >>> clock_words(4.0), clock_words(95.0)
    ('4 min', '1 h 35 min')
    """
    whole = round(minutes)
    if whole < 60:
        return f"{whole} min"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"
