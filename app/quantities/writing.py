"""Writing a number as a cook reads it."""

from math import isfinite

from app.quantities.units import (
    G_PER_LB,
    G_PER_OZ,
    ML_PER_GAL,
    MM_PER_IN,
    known_kind,
    to_unit,
    unit_of,
)


def format(value: float, kind: str, system: str) -> str:
    """A number in the kind's own unit, written in the cook's.

    Parameters
    ----------
    value : the number in g, mL, mm, °C or s
    kind : mass, volume, length, temperature or duration
    system : us, metric or both

    Returns
    -------
    Such as "3.35 kg / 7 lb 6 oz"

    Raises
    ------
    ValueError : no such kind or system, the value is not finite, or negative and no temperature

    Notes
    -----
    Rounded as a kitchen can use it: below 100 g to 0.1 g (below 1 g to 0.01) and, in the US
    system, in grams with ounces to 0.01 beside them, for cure is weighed on a gram scale;
    inches to an eighth, below one inch to a sixteenth.

    Examples
    --------
    >>> format(3345.0, "mass", "both"), format(21.6, "mass", "us")
    ('3.35 kg / 7 lb 6 oz', '21.6 g (0.76 oz)')
    >>> format(57.15, "length", "us"), format(4.0, "temperature", "both")
    ('2 1/4 in', '4 °C / 39 °F')

    References
    ----------
    NIST Handbook 44, exact (from memory).
    """
    known = known_kind(kind)
    if system not in ("us", "metric", "both"):
        raise ValueError(f"The system must be us, metric or both; {system!r} was given.")
    if not isfinite(value):
        raise ValueError(f"A finite number was expected; {value} was given.")
    if value < 0.0 and known != "temperature":
        raise ValueError(f"A {known} of 0 or more was expected; {value} was given.")
    if known == "duration":
        return _duration(value)
    metric, us = _METRIC[known](value), _US[known](value)
    if system == "metric":
        return metric
    if system == "both":
        return f"{metric} / {us}"
    # A fine scale shows grams, in a US kitchen too.
    return f"{metric} ({us})" if known == "mass" and value < 100.0 else us


def plain(value: float, kind: str, unit: str) -> str:
    """A number in one unit with no unit behind it, for a field that shows its unit.

    Parameters
    ----------
    value : the number in g, mL, mm, °C or s
    kind : mass, volume, length, temperature or duration
    unit : the unit of the field

    Returns
    -------
    At most four places after the point, none that are nought

    Raises
    ------
    ValueError : no such kind or unit, or the value is not finite

    Examples
    --------
    >>> plain(3345.0, "mass", "kg"), plain(4.0, "temperature", "°F")
    ('3.345', '39.2')

    References
    ----------
    NIST Handbook 44, exact (from memory).
    """
    unit_of(unit, known_kind(kind))
    if not isfinite(value):
        raise ValueError(f"A finite number was expected; {value} was given.")
    return _trim(to_unit(value, kind, unit), 4)


def _trim(value: float, places: int) -> str:
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _grams(value: float) -> str:
    if value < 0.995:
        return f"{_trim(value, 2)} g"
    if value < 99.95:
        return f"{_trim(value, 1)} g"
    if value < 999.5:
        return f"{value:.0f} g"
    return f"{_trim(value / 1000.0, 2)} kg"


def _pounds(value: float) -> str:
    if value < 100.0:
        return f"{_trim(value / G_PER_OZ, 2)} oz"
    # A tenth of an ounce for what goes in, a whole one for the meat.
    tenths = round(value / G_PER_OZ * 10.0) if value < 5.0 * G_PER_LB else 0
    tenths = tenths or round(value / G_PER_OZ) * 10
    pounds, rest = divmod(tenths, 160)
    ounces = f"{_trim(rest / 10.0, 1)} oz"
    if not pounds:
        return ounces
    return f"{pounds} lb {ounces}" if rest else f"{pounds} lb"


def _litres(value: float) -> str:
    if value < 9.95:
        return f"{_trim(value, 1)} mL"
    return f"{value:.0f} mL" if value < 999.5 else f"{_trim(value / 1000.0, 2)} L"


def _gallons(value: float) -> str:
    if value >= 0.995 * ML_PER_GAL:
        return f"{_trim(value / ML_PER_GAL, 2)} gal"
    if value >= 0.995 * ML_PER_GAL / 4.0:
        return f"{_trim(value / ML_PER_GAL * 4.0, 2)} qt"
    cups = value / ML_PER_GAL * 16.0
    if cups >= 0.995:
        return f"{_trim(cups, 2)} {'cup' if _trim(cups, 2) == '1' else 'cups'}"
    return f"{_trim(value / ML_PER_GAL * 128.0, 2)} fl oz"


def _millimetres(value: float) -> str:
    if value < 9.95:
        return f"{_trim(value, 1)} mm"
    return f"{value:.0f} mm" if value < 99.5 else f"{_trim(value / 10.0, 1)} cm"


def _inches(value: float) -> str:
    parts = 16 if value < MM_PER_IN else 8
    count = round(value / MM_PER_IN * parts)
    whole, above = divmod(count, parts)
    while above and above % 2 == 0:
        above, parts = above // 2, parts // 2
    fraction = f"{above}/{parts}" if above else ""
    return f"{' '.join(part for part in (str(whole) if whole else '', fraction) if part) or '0'} in"


def _celsius(value: float) -> str:
    return f"{_trim(value, 1)} °C"


def _fahrenheit(value: float) -> str:
    return f"{_trim(to_unit(value, 'temperature', '°F'), 0)} °F"


def _duration(value: float) -> str:
    if value < 59.5:
        return f"{value:.0f} s"
    minutes = round(value / 60.0)
    if minutes < 60:
        return f"{minutes} min"
    hours, rest = divmod(minutes, 60)
    if hours < 48:
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    days, hours = divmod(round(value / 3600.0), 24)
    return f"{days} days {hours} h" if hours else f"{days} days"


_METRIC = {
    "mass": _grams,
    "volume": _litres,
    "length": _millimetres,
    "temperature": _celsius,
}
_US = {
    "mass": _pounds,
    "volume": _gallons,
    "length": _inches,
    "temperature": _fahrenheit,
}
