"""How far meat has turned from grey to cured: tones, their levels, and what the levels are.

Works on ratios of channels (log red to green, log green to blue), since neither exposure
nor shade changes them and a lamp only shifts them all alike.
"""

from bisect import bisect_left
from math import log
from statistics import median
from typing import Literal

from attrs import frozen

from app.colour.lab import Triple, chroma, hue_deg, lab_from_xyz, xyz_from_linear
from app.colour.white_point import WhitePoint, adapted_srgb_light

Kind = Literal["cured", "pale", "grey", "not meat"]

# Weight of log green-to-blue beside log red-to-green: cured colour has more red and less yellow.
_YELLOW_WEIGHT = 0.3
# Luminance colours are brought to before they are judged, L* 54: the middle of sliced beef.
_JUDGED_Y = 0.22
# Redness q = a* − 0.4 b*. Grey, well-done beef: a* 4-8, hue above 55°, so q −4 to 3; cured beef:
# a* 12-18, hue 25-40°, so q 8 to 15 (a* and hue from memory, q worked out from them).
_YELLOW_IN_REDNESS, _GREY_REDNESS, _CURED_REDNESS, _MIDDLE_OF_GREY = 0.4, 4.0, 8.6, 1.0
# Beside cured meat grey is told with more care, since a pale core looks like it; a tone held by
# less of the lean than this is no plateau but the point of a slope that never reached grey.
_GREY_BESIDE_CURED, _PLATEAU, _FAINTEST_CURED = 6.5, 0.07, 4.5
# Without a sure white: the least share of a second tone, and a redness no grey beef shows.
_MINOR, _SURELY_RED = 0.07, 13.0
# What no lean beef has, cured or not (judgement): a colour stronger or weaker than these.
_LEAST_CHROMA, _MOST_YELLOW_CHROMA, _MOST_HUE_DEG = 3.8, 21.0, 97.0
# A contrast below this is within one tone's own variation (judgement).
_LEAST_CONTRAST = 0.11


@frozen
class Tone:
    """Lightness and ratios of one light: log Y, log R/G, log G/B, and the cure tone s."""

    l: float  # noqa: E741
    u: float
    v: float
    s: float


@frozen
class Levels:
    """The cured end and the grey end of a slice's tones, and what was seen of them.

    `two` tells that two different tones were there; otherwise one end is reckoned from the
    other. `kind` is what the single tone is, or the darker of the two ends.
    """

    cured: float
    grey: float
    two: bool
    kind: Kind
    contrast: float
    spread: float
    certainty: float

    def turned(self, s: float) -> float:
        """0 at the grey end, 1 at the cured end."""
        return (s - self.grey) / (self.cured - self.grey)


def tone(light: Triple, floor: float) -> Tone:
    """Tone of a white-balanced linear light.

    l = ln(Y + f), u = ln((R + f)/(G + f)), v = ln((G + f)/(B + f)), s = u − 0.3 v

    Parameters
    ----------
    light : linear R, G, B [1]
    floor : small light f added so that the darkest pixels' noise has no say [1]

    Returns
    -------
    Tone

    Examples
    --------
    >>> tone((0.5, 0.5, 0.5), 0.01).s
    0.0
    """
    red, green, blue = light[0] + floor, light[1] + floor, light[2] + floor
    u, v = log(red / green), log(green / blue)
    return Tone(log(0.2126 * red + 0.7152 * green + 0.0722 * blue), u, v, u - _YELLOW_WEIGHT * v)


def tones_of(
    lights: list[Triple], floor: float
) -> tuple[list[float], list[float], list[float], list[float]]:
    """`tone` of many lights as four lists, l, u, v and s, for the cells of a picture.

    Examples
    --------
    >>> [values[0] for values in tones_of([(0.5, 0.5, 0.5)], 0.5)]
    [0.0, 0.0, 0.0, 0.0]
    """
    of_light: list[float] = []
    of_u: list[float] = []
    of_v: list[float] = []
    of_s: list[float] = []
    for r, g, b in lights:
        red, green, blue = r + floor, g + floor, b + floor
        log_green = log(green)
        u, v = log(red) - log_green, log_green - log(blue)
        of_light.append(log(0.2126 * red + 0.7152 * green + 0.0722 * blue))
        of_u.append(u)
        of_v.append(v)
        of_s.append(u - _YELLOW_WEIGHT * v)
    return of_light, of_u, of_v, of_s


def at_meat_lightness(light: Triple) -> tuple[float, float]:
    """a* and b* of a white-balanced light brought to the lightness of meat, L* 54 [1].

    Examples
    --------
    >>> [round(abs(c), 3) for c in at_meat_lightness((0.01, 0.01, 0.01))]
    [0.0, 0.0]
    """
    xyz = xyz_from_linear(*light)
    factor = _JUDGED_Y / max(xyz[1], 1e-9)
    _, a, b = lab_from_xyz(*(max(0.0, c * factor) for c in xyz))
    return a, b


def kind_of(light: Triple) -> Kind:
    """What a single tone is, by a* and hue under daylight.

    Parameters
    ----------
    light : white-balanced linear R, G, B [1]

    Returns
    -------
    cured, pale, grey or not meat

    Examples
    --------
    >>> from app.colour.lab import to_linear
    >>> seen = (185, 112, 106), (140, 121, 106), (90, 90, 90)
    >>> [kind_of(tuple(map(to_linear, c))) for c in seen]
    ['cured', 'grey', 'not meat']

    References
    ----------
    Cured beef a* 12-18, hue 25-40°; grey well-done beef a* 4-8, hue above 55° (from memory).
    """
    a, b = at_meat_lightness(light)
    hue, strength = hue_deg(a, b), chroma(a, b)
    folded = hue if hue < 180.0 else hue - 360.0
    if strength < _LEAST_CHROMA or not -25.0 < folded < _MOST_HUE_DEG:
        return "not meat"
    if folded > 60.0 and strength > _MOST_YELLOW_CHROMA:
        return "not meat"
    red = redness(light)
    return "grey" if red < _GREY_REDNESS else "cured" if red > _CURED_REDNESS else "pale"


def redness(light: Triple) -> float:
    """q = a* − 0.4 b* of a white-balanced light brought to the lightness of meat [1].

    Examples
    --------
    >>> round(abs(redness((0.3, 0.3, 0.3))), 3)
    0.0
    """
    a, b = at_meat_lightness(light)
    return a - _YELLOW_IN_REDNESS * b


def split(values: list[float]) -> tuple[float, float, float]:
    """Best division of values in two, by least variance within (Otsu, from memory).

    Parameters
    ----------
    values : at least two numbers

    Returns
    -------
    mean below, mean above, deviation within

    Examples
    --------
    >>> split([1.0, 1.0, 3.0, 3.0])
    (1.0, 3.0, 0.0)
    """
    ranked = sorted(values)
    n, total = len(ranked), sum(ranked)
    squares = sum(v * v for v in ranked)
    best, below, at = -1.0, 0.0, 1
    for k in range(1, n):
        below += ranked[k - 1]
        gap = below / k - (total - below) / (n - k)
        between = k * (n - k) * gap * gap
        if between > best:
            best, at = between, k
    low, high = sum(ranked[:at]) / at, sum(ranked[at:]) / (n - at)
    within = max(0.0, squares - at * low * low - (n - at) * high * high) / n
    return low, high, within**0.5


def _ends(values: list[float]) -> tuple[float, float, float]:
    """The lowest plateau and the usual upper one, and the deviation within the division."""
    low, high, within = split(values)
    ranked = sorted(values)
    top = high
    for _ in range(4):
        above = ranked[bisect_left(ranked, low + 0.78 * (top - low)) :]
        if len(above) < 3:
            break
        top = above[len(above) // 2]
    # From the lowest few up to the nearest plateau, so that a wide pale band is not the grey end.
    reach = max(0.1 * (top - low), 0.5 * within, 0.01)
    bottom = ranked[(3 * len(ranked)) // 100]
    for _ in range(12):
        first = bisect_left(ranked, bottom - reach)
        last = bisect_left(ranked, bottom + reach)
        if last <= first:
            break
        mean = sum(ranked[first:last]) / (last - first)
        if abs(mean - bottom) < 0.02 * reach:
            break
        bottom = mean
    below = ranked[: bisect_left(ranked, low + 0.22 * (top - low))]
    for _ in range(3):
        if len(below) < 3:
            return bottom, top, within
        low = below[len(below) // 2]
        below = ranked[: bisect_left(ranked, low + 0.22 * (top - low))]

    def near(s: float) -> int:
        half = 0.06 * (top - low)
        return bisect_left(ranked, s + half) - bisect_left(ranked, s - half)

    # A plateau of its own, with a valley between; otherwise only the low end of one.
    apart = low - bottom > 0.12 * (top - low) and near(bottom) > 0.04 * len(ranked)
    distinct = apart and near(0.5 * (low + bottom)) < 0.6 * min(near(low), near(bottom))
    return (bottom if distinct else low), top, within


def levels(tones: list[tuple[float, Triple]], white: WhitePoint | None) -> Levels:
    """The cured and grey ends of a slice's lean.

    Parameters
    ----------
    tones : cure tone s and white-balanced light of each place
    white : the light's white if it was measured, so that hue can be trusted

    Returns
    -------
    Levels

    Raises
    ------
    ValueError : fewer than eight places

    Notes
    -----
    Two tones clearly apart are taken as cured and grey if the duller of them has the hue of
    grey meat; with a cured hue it is pale or cured, and the grey end is reckoned from a* and
    hue of grey beef. Without a known white two tones are taken as cured and grey.
    """
    if len(tones) < 8:
        raise ValueError("Too little lean meat to tell its tones apart.")
    values = [s for s, _ in tones]
    low, high, within = _ends(values)
    contrast = high - low
    two = (contrast > 3.0 * within and contrast > _LEAST_CONTRAST) or contrast > 0.3
    if not two:
        middle = median(values)
        light = as_daylight(_mean_light(tones, middle - 0.05, middle + 0.05), white)
        return one_level(middle, kind_of(light), within, redness(light))
    dull = _mean_light(tones, low - 0.2 * contrast, low + 0.2 * contrast)
    vivid = _mean_light(tones, high - 0.2 * contrast, high + 0.2 * contrast)
    dull, vivid = as_daylight(dull, white), as_daylight(vivid, white)
    kind = kind_of(dull)
    if white is None or not white.sure:
        # A few places of another tone prove nothing while the hue cannot be trusted.
        above = sum(1 for s in values if s > 0.5 * (low + high)) / len(values)
        reckoned = white is not None and not white.by_fat
        if not reckoned and not _MINOR < above < 1.0 - _MINOR:
            main = vivid if above > 0.5 else dull
            middle = high if above > 0.5 else low
            return one_level(middle, kind_of(main), within, redness(main))
        if white is not None and (redness(dull) > _SURELY_RED or redness(vivid) < 0.0):
            told = dull if redness(dull) > _SURELY_RED else vivid
            return one_level(low, kind_of(told), within, redness(told))
        return Levels(high, low, True, "grey", contrast, within, min(1.0, contrast / 0.3))
    bright = kind_of(vivid)
    red_dull, red_vivid = redness(dull), redness(vivid)
    faded = red_vivid < _FAINTEST_CURED or red_vivid - red_dull < 2.5
    if bright == "not meat" or (bright == "grey" and faded):
        # Both ends dull: variation within grey meat, or something that is no meat.
        only = bright if bright == "grey" else kind
        return one_level(median(values), only, within, redness(dull))
    share = (red_dull - _MIDDLE_OF_GREY) / max(red_vivid - _MIDDLE_OF_GREY, 1.0)
    reach = max(0.1 * contrast, within)
    held = sum(1 for s in values if abs(s - low) < reach)
    pointed = held < _PLATEAU * len(values) and red_dull > _GREY_BESIDE_CURED - 2.0
    if not pointed and (red_dull < _GREY_BESIDE_CURED or share < 0.26 or kind == "not meat"):
        return Levels(high, low, True, "grey", contrast, within, 1.0)
    end = high - contrast / max(0.15, 1.0 - share)
    if share > 0.52 and kind == "cured":
        # Both ends well cured: the redder one is a smoke ring, or the lamp's unevenness.
        return Levels(low, end, True, kind, contrast, within, 0.8)
    return Levels(high, end, True, kind, contrast, within, 0.7)


def as_daylight(light: Triple, white: WhitePoint | None, by_cones: float = 0.5) -> Triple:
    """Daylight colour of a light balanced by channels: so far from that to Bradford [1].

    Cameras balance by channels of their own, lamps act on the cones: the truth lies between.
    """
    if white is None or not white.known:
        return light
    raw = (light[0] / white.gains[0], light[1], light[2] / white.gains[2])
    other = adapted_srgb_light(raw, white)
    return (
        light[0] + by_cones * (other[0] - light[0]),
        light[1] + by_cones * (other[1] - light[1]),
        light[2] + by_cones * (other[2] - light[2]),
    )


def one_level(middle: float, kind: Kind, within: float, red: float) -> Levels:
    """Ends set around the only tone there is, wide enough to hold its own variation."""
    span = max(0.4, 8.0 * within)
    below = {"cured": 1.0, "pale": 0.5, "grey": 0.0, "not meat": 0.0}[kind] * span
    off = abs(red - 0.5 * (_GREY_REDNESS + _CURED_REDNESS))
    certainty = 0.3 + 0.55 * min(1.0, off / 6.0)
    return Levels(middle - below + span, middle - below, False, kind, 0.0, within, certainty)


def _mean_light(tones: list[tuple[float, Triple]], low: float, high: float) -> Triple:
    near = [light for s, light in tones if low <= s <= high] or [light for _, light in tones]
    n = len(near)
    return (
        sum(c[0] for c in near) / n,
        sum(c[1] for c in near) / n,
        sum(c[2] for c in near) / n,
    )
