"""What the tones of a line mean: which of them is grey, which cured, and when none can say."""

from math import log

from app.colour.lab import Triple
from app.colour.tone import Kind, Levels, as_daylight, kind_of, one_level, redness
from app.colour.white_point import WhitePoint

# Judgements in redness q = a* − 0.4 b* (see `tone`): below the first a tone is grey, above the
# second it is not, and between them by its share of the way to the redder tone.
_GREY, _PINK, _SHARE = 6.5, 9.5, 0.3
_MIDDLE_OF_GREY, _FAINTEST_CURED, _LEAST_APART = 1.0, 4.5, 2.5
# Two tones nearer than this are one, in s.
_LEAST_CONTRAST = 0.16
_CORE = 0.15  # of the lean: from here to twice as much a tone is the likelier the core
_GREENEST = -7.0  # redness of no lean: grey beef has −4 and more
# Lamps from 2700 to 7500 K lie near one line of colour, ln(R/G) = 0.70 v − 0.05 v² with
# v = ln(G/B): midway between black bodies and household lamps as they are commonly drawn.
# Meat under any of them is as far off that line as it is red: grey about 0.3, cured above 0.7.
_LAMPS = (0.70, -0.05)
_MEAT_YELLOW = 0.27  # ln(G/B) of grey beef in daylight, (142, 122, 108) or so
_SURELY_GREY, _SURELY_RED, _NO_MEAT = 0.50, 0.70, -0.08
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
        return -1.0
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
        return off is not None and -0.9 < off < _NO_MEAT
    return redness(as_daylight(light, white)) < _GREENEST


def ends_of(
    low: float,
    high: float,
    own: float,
    held: float,
    dull: Triple,
    vivid: Triple,
    white: WhitePoint | None,
) -> Levels | None:
    """The cured and grey ends of a line's lean, by its two plateaus and their colour.

    Parameters
    ----------
    low, high : tone s of the duller and of the redder plateau
    own : what one tone varies by [1]
    held : share of the lean that has the duller tone [1]
    dull, vivid : their lights, balanced by `white` where it is known
    white : the light's white

    Returns
    -------
    Levels; None where there is one tone only and nothing to judge it by

    Notes
    -----
    Where the white was measured, a* and hue decide. Where it was not, two tones are cured and
    grey unless no lamp could make the duller one look that red.
    """
    contrast = high - low
    two = contrast > max(_LEAST_CONTRAST, 2.2 * own)
    if white is None or not white.sure:
        return _without_white(low, high, own, dull, vivid, white, two)
    day_dull, day_vivid = as_daylight(dull, white), as_daylight(vivid, white)
    kind, red_dull, red_vivid = kind_of(day_dull), redness(day_dull), redness(day_vivid)
    if not two:
        return one_level(0.5 * (low + high), kind, own, red_dull)
    if red_vivid < _FAINTEST_CURED or red_vivid - red_dull < _LEAST_APART:
        # Variation within grey meat, or something that is no meat.
        bright = kind_of(day_vivid)
        return one_level(0.5 * (low + high), bright if bright == "grey" else kind, own, red_dull)
    share = (red_dull - _MIDDLE_OF_GREY) / max(red_vivid - _MIDDLE_OF_GREY, 1.0)
    # Pale lies between others: what much of the line has, with nothing duller, is the core.
    wide = min(1.0, max(0.0, held / _CORE - 1.0))
    pink, most = _PINK + 2.0 * wide, _SHARE + 0.1 * wide
    if red_dull < _GREY or (red_dull < pink and share < most):
        return Levels(high, low, True, "grey", contrast, own, 1.0)
    end = high - contrast / max(0.15, 1.0 - share)
    if share > 0.52 and kind == "cured":
        # Both ends well cured: the redder one is a smoke ring, or the lamp's unevenness.
        return Levels(low, end, True, kind, contrast, own, 0.8)
    return Levels(high, end, True, kind, contrast, own, 0.7)


def _without_white(
    low: float,
    high: float,
    own: float,
    dull: Triple,
    vivid: Triple,
    white: WhitePoint | None,
    two: bool,
) -> Levels | None:
    gains = white.gains if white is not None else (1.0, 1.0, 1.0)
    off_dull, off_vivid = (
        off_the_lamps((c[0] / gains[0], c[1] / gains[1], c[2] / gains[2])) for c in (dull, vivid)
    )
    contrast, middle = high - low, 0.5 * (low + high)
    if two and off_dull is not None and off_dull > _SURELY_RED + 0.1:
        return Levels(low, low - max(0.4, contrast), True, "cured", contrast, own, 0.7)
    if two and (off_vivid is None or off_vivid > _SURELY_GREY or contrast > 0.35):
        return Levels(high, low, True, "grey", contrast, own, min(1.0, contrast / 0.3))
    raw = (dull[0] / gains[0], dull[1] / gains[1], dull[2] / gains[2])
    kind = kind_under_any_lamp(raw)
    if white is not None:
        by_white = kind_of(as_daylight(dull, white))
        red = redness(as_daylight(dull, white))
        if kind is None and not _GREY - 3.0 < red < _PINK + 3.0:
            kind = by_white
        elif kind != by_white:
            kind = None
    if kind is None:
        return None
    return one_level(middle, kind, own, 20.0 if kind == "cured" else -5.0)
