"""What one light can be under some lamp: cured or grey beef, fat, or no meat at all."""

from math import log

from app.colour.lab import Triple
from app.colour.tone import Kind, as_daylight, redness
from app.colour.white_point import WhitePoint

_GREENEST = -7.0  # redness of no lean: grey beef has −4 and more
# Lamps from 2700 to 7500 K lie near one line of colour, ln(R/G) = 0.70 v − 0.05 v² with
# v = ln(G/B): midway between black bodies and household lamps as they are commonly drawn.
# Meat under any of them is as far off that line as it is red: grey about 0.3, cured above 0.7.
_LAMPS = (0.70, -0.05)
_MEAT_YELLOW = 0.27  # ln(G/B) of grey beef in daylight, (142, 122, 108) or so
_SURELY_GREY, _SURELY_RED, _NO_MEAT = 0.50, 0.70, -0.08
_NO_COLOUR = -1.0  # stands for a light of none
_COLOURLESS = 0.06  # of both ratios: no lamp makes meat that neutral
_MOST_FAT = 0.4  # fat is about 0.13
_BLUEST_LOST = 2.4  # ln(G/B) from which blue is mostly noise


def off_the_lamps(light: Triple) -> float | None:
    """How much redder than any lamp's white a recorded light is.

    w = u − 0.70 (v − 0.27) + 0.05 (v − 0.27)², u = ln(R/G), v = ln(G/B)

    Parameters
    ----------
    light : linear red, green and blue as recorded, not balanced [1]

    Returns
    -------
    w [1]: about 0.3 for grey beef, above 0.7 for cured, -1 for what has no colour at all;
    None where blue is too weak

    Examples
    --------
    >>> round(off_the_lamps((0.26, 0.19, 0.15)), 2)
    0.34
    """
    red, green, blue = (max(c, 1e-6) for c in light)
    u, v = log(red / green), log(green / blue)
    if abs(u) < _COLOURLESS and abs(v) < _COLOURLESS:
        return _NO_COLOUR
    if v > _BLUEST_LOST:
        return None
    over = v - _MEAT_YELLOW
    return u - _LAMPS[0] * over - _LAMPS[1] * over * over


def kind_under_any_lamp(light: Triple) -> Kind | None:
    """What a single tone is, where no white is known; None where that cannot be told.

    Examples
    --------
    >>> kind_under_any_lamp((0.26, 0.19, 0.15)), kind_under_any_lamp((0.5, 0.16, 0.14))
    ('grey', 'cured')
    """
    off = off_the_lamps(light)
    if off is None or _SURELY_GREY < off < _SURELY_RED:
        return None
    return "cured" if off >= _SURELY_RED else "grey" if off > _NO_MEAT else "not meat"


def may_be_fat(light: Triple) -> bool:
    """Whether a recorded light can be fat under some lamp: cream is hardly redder than white.

    Examples
    --------
    >>> may_be_fat((0.80, 0.70, 0.56)), may_be_fat((0.5, 0.16, 0.14))
    (True, False)
    """
    off = off_the_lamps(light)
    return off is not None and _NO_MEAT - 0.2 < off < _MOST_FAT


def too_green(light: Triple, white: WhitePoint | None) -> bool:
    """Whether a light, balanced by `white` where that is known, is greener than any lean.

    Examples
    --------
    >>> too_green((0.65, 0.83, 0.61), None), too_green((0.26, 0.19, 0.15), None)
    (True, False)
    """
    if white is None or white.by_fat:
        r, g, b = white.gains if white is not None else (1.0, 1.0, 1.0)
        off = off_the_lamps((light[0] / r, light[1] / g, light[2] / b))
        return off is not None and off != _NO_COLOUR and off < _NO_MEAT
    return redness(as_daylight(light, white)) < _GREENEST
