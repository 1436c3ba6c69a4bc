"""How far meat has turned from grey to cured: tones, their levels, and what the levels are.

Works on ratios of channels (log red to green, log green to blue), since neither exposure
nor shade changes them and a lamp only shifts them all alike.
"""

from math import log
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
_YELLOW_IN_REDNESS, _GREY_REDNESS, _CURED_REDNESS = 0.4, 4.0, 8.6
# What no lean beef has, cured or not (judgement): a colour stronger or weaker than these.
_LEAST_CHROMA, _MOST_YELLOW_CHROMA, _MOST_HUE_DEG = 3.8, 21.0, 97.0


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
