"""How far a thermometer is off, by ice water."""

from collections.abc import Sequence
from statistics import fmean

from attrs import frozen

from app.cure.working import Working
from app.heat.core_log import checked_temperature

ICE_WATER_C = 0.0
GOOD_WITHIN_C = 1.0
"""A kitchen thermometer should be within about 1 °C (2 °F); common practice, no source."""

USELESS_BEYOND_C = 5.0
"""So far off it is broken or the ice water was not stirred; common practice, no source."""

HOW = (
    "Fill a glass with crushed ice, top up with water, stir, hold the probe in the middle without "
    "touching the glass, wait until it stands still. It should read 0 °C (32 °F)."
)


@frozen
class IceCheck:
    """What ice water showed: the offset to take off every reading, and how steady it was."""

    offset_c: float
    spread_c: float
    usable: bool
    says: str
    working: Working
    how: str = HOW


def ice_check(readings_c: Sequence[float]) -> IceCheck:
    """The offset of a thermometer from readings in ice water.

    offset = mean of the readings − 0 °C; true = reading − offset

    Parameters
    ----------
    readings_c : one or more steady readings in stirred ice water [°C]

    Returns
    -------
    The offset, the spread of the readings, whether it can be used, a sentence

    Raises
    ------
    ValueError : no reading, or one that could not be

    Notes
    -----
    One point only: a thermometer right in ice water may still be off at 90 °C. Mineral water or
    salt in the glass lowers the true temperature.

    Examples
    --------
    >>> ice_check([0.8, 1.0]).says
    'It reads 0.9 °C too high: within what a kitchen thermometer may be off, and taken off.'

    References
    ----------
    Melting ice stands at 0 °C.
    """
    if not readings_c:
        raise ValueError("An ice-water check needs a reading; none was given.")
    for reading in readings_c:
        checked_temperature("reading in ice water", reading)
    offset = fmean(readings_c) - ICE_WATER_C
    spread = max(readings_c) - min(readings_c)
    usable = abs(offset) <= USELESS_BEYOND_C and spread <= 2.0 * GOOD_WITHIN_C
    says = _says(offset, spread, usable)
    working = Working(
        "Thermometer in ice water",
        "offset = mean of the readings − 0 °C; true = reading − offset",
        tuple((f"Reading {i}", f"{reading:.1f} °C") for i, reading in enumerate(readings_c, 1)),
        says,
        "Melting ice stands at 0 °C",
        "One point only: a thermometer right in ice water may still be off when hot.",
    )
    return IceCheck(offset, spread, usable, says, working)


def corrected(reading_c: float, offset_c: float) -> float:
    """The true temperature: reading − offset.

    >>> corrected(93.5, offset_c=0.5)
    93.0
    """
    checked_temperature("reading", reading_c)
    return reading_c - checked_temperature("offset of the thermometer", offset_c)


def _says(offset: float, spread: float, usable: bool) -> str:
    if spread > 2.0 * GOOD_WITHIN_C:
        return f"The readings differ by {spread:.1f} °C: stir, wait, and read again."
    if abs(offset) < 0.05:
        return "It reads ice water right."
    side = "high" if offset > 0.0 else "low"
    start = f"It reads {abs(offset):.1f} °C too {side}: "
    if not usable:
        return start + "too far to trust. Check the ice water, then the battery, then replace it."
    if abs(offset) <= GOOD_WITHIN_C:
        return start + "within what a kitchen thermometer may be off, and taken off."
    return start + "more than it should; it is taken off, but check again before you rely on it."
