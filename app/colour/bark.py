"""The colour of bark: measured in a patch, put in words, set beside earlier batches."""

from itertools import chain
from math import isfinite
from statistics import median

from attrs import frozen

from app.colour import pixels
from app.colour.lab import LINEAR, Triple, chroma, delta_e_2000, from_linear, hue_deg
from app.colour.patch_rows import Rows, drawn_patch, round_patch
from app.colour.pixels import CLIPPED_LEVEL, Bytes, Point
from app.colour.reading import given_white
from app.colour.white_point import Rgb, WhitePoint, adapted_lab, adapted_srgb_light

_GLARE, _GAP = 2.2, 0.35  # times the patch's usual light: brighter is glare, darker a gap
_LEAST_LIGHT = 0.0012  # linear; below it 8 bits hold no colour (level 4)

# Words by L* and hue (judgement): bark lies about L* 10-45, hue 20-75°.
_LIGHTNESS_WORDS = (
    (12.0, "near black"),
    (22.0, "very dark"),
    (33.0, "dark"),
    (45.0, "middling"),
    (101.0, "light"),
)
_HUE_WORDS = ((38.0, "red-brown"), (52.0, "chestnut"), (66.0, "brown"), (361.0, "yellow-brown"))
_NO_HUE_BELOW = 4.0  # C*ab: no colour to name
# Steps a person sees side by side (judgement): L*, and a* or b*.
_STEP_L, _STEP_AB = 2.5, 2.0
_SAME = 2.0  # CIEDE2000: the same to the eye across two photos


@frozen
class Bark:
    """A patch of bark: L*a*b* under daylight, a swatch, words, and how sure [0-1].

    `used_percent` is the part of the patch that was neither glare nor gap.
    """

    lab: Triple
    swatch_rgb: tuple[int, int, int]
    words: str
    confidence: float
    used_percent: float
    says: str = ""


@frozen
class Compared:
    """One bark beside another: CIEDE2000 and a sentence."""

    difference: float
    sentence: str


@frozen
class Trend:
    """How bark changes over a smoke: L* and b* an hour, and a sentence."""

    lightness_per_h: float
    redness_per_h: float
    sentence: str


def measure_bark(
    rgba: Bytes,
    width: int,
    height: int,
    centre_xy: Point,
    radius_px: float,
    neutral_rgb: Rgb | None = None,
) -> Bark | None:
    """Robust colour of a round patch of bark, glare and gaps left out.

    The mean linear light of the pixels between 0.35 and 2.2 times the patch's median light,
    adapted to daylight (Bradford), as CIELAB

    Parameters
    ----------
    rgba : pixels, four bytes each, row by row
    width, height : size of the picture [px]
    centre_xy : middle of the patch [px]
    radius_px : its radius [px]
    neutral_rgb : mean sRGB of something white or grey in the same light [0-255]

    Returns
    -------
    Bark; None where the patch is too dark to hold a colour or wholly blown out

    Raises
    ------
    ValueError : no RGBA picture of that size, a patch without radius or outside the picture

    Examples
    --------
    >>> found = measure_bark(bytes((60, 35, 28, 255)) * 400, 20, 20, (10, 10), 6)
    >>> found.swatch_rgb, found.words
    ((60, 35, 28), 'very dark chestnut')
    """
    pixels.check(rgba, width, height)
    pixels.check_point(centre_xy, "middle")
    if not (isfinite(radius_px) and radius_px >= 1.0):
        raise ValueError(f"A patch needs a radius of at least one pixel; {radius_px} was given.")
    cx, cy = centre_xy
    if not (0.0 <= cx < width and 0.0 <= cy < height):
        raise ValueError(f"The patch's middle {centre_xy} lies outside the picture.")
    return _read(rgba, width, round_patch(width, height, centre_xy, radius_px), neutral_rgb)


def measure_drawn_bark(
    rgba: Bytes,
    width: int,
    height: int,
    outline: tuple[Point, ...],
    neutral_rgb: Rgb | None = None,
) -> Bark | None:
    """Robust colour of a patch of bark drawn by hand, glare and gaps left out.

    As `measure_bark`, over the pixels inside a closed outline (even-odd rule)

    Parameters
    ----------
    rgba : pixels, four bytes each, row by row
    width, height : size of the picture [px]
    outline : points of the outline, in order [px]; what lies outside the picture is left out
    neutral_rgb : mean sRGB of something white or grey in the same light [0-255]

    Returns
    -------
    Bark; None where the patch is too dark to hold a colour or wholly blown out

    Raises
    ------
    ValueError : no RGBA picture of that size, fewer than three points, or no pixel inside them

    Examples
    --------
    >>> square = ((2.0, 2.0), (18.0, 2.0), (18.0, 18.0), (2.0, 18.0))
    >>> measure_drawn_bark(bytes((60, 35, 28, 255)) * 400, 20, 20, square).words
    'very dark chestnut'
    """
    pixels.check(rgba, width, height)
    for point in outline:
        pixels.check_point(point, "outline")
    if len(outline) < 3:
        raise ValueError(f"A patch needs at least three points; {len(outline)} were given.")
    rows = drawn_patch(width, height, outline)
    if not rows:
        raise ValueError("This patch holds no pixel of the picture: draw it larger.")
    return _read(rgba, width, rows, neutral_rgb)


def _read(rgba: Bytes, width: int, rows: Rows, neutral_rgb: Rgb | None) -> Bark | None:
    white = given_white(neutral_rgb)
    lights, clipped = _patch(rgba, width, rows)
    usual = median(light[1] for light in lights) if lights else 0.0
    if not lights or usual < _LEAST_LIGHT or clipped > 0.5:
        return None
    kept = [light for light in lights if _GAP * usual <= light[1] <= _GLARE * usual]
    n = len(kept)
    mean = (
        sum(light[0] for light in kept) / n,
        sum(light[1] for light in kept) / n,
        sum(light[2] for light in kept) / n,
    )
    used = n / (len(lights) / (1.0 - clipped))
    return _named(mean, white, used)


def _patch(rgba: Bytes, width: int, rows: Rows) -> tuple[list[Triple], float]:
    """Linear light of unclipped pixels in a patch, and the clipped part."""
    lights: list[Triple] = []
    clipped = 0
    for y, stretches in rows.items():
        for x in chain.from_iterable(stretches):
            at = 4 * (y * width + x)
            r, g, b = rgba[at], rgba[at + 1], rgba[at + 2]
            if max(r, g, b) >= CLIPPED_LEVEL:
                clipped += 1
            else:
                lights.append((LINEAR[r], LINEAR[g], LINEAR[b]))
    whole = len(lights) + clipped
    return lights, clipped / whole if whole else 1.0


def _named(mean: Triple, white: WhitePoint | None, used: float) -> Bark:
    if white is None:
        from_xyz = adapted_lab(mean, _DAYLIGHT)
        swatch = mean
    else:
        from_xyz = adapted_lab(mean, white)
        swatch = adapted_srgb_light(mean, white)
    says = ""
    sure = 1.0 if white is not None and white.sure else 0.5
    if white is None:
        says = "No white patch: colours of two photos may differ by their light alone."
    if used < 0.5:
        sure *= 0.7
        says = says or "Much of this patch is glare or gap: tap a duller place."
    r, g, b = (round(from_linear(max(0.0, c))) for c in swatch)
    return Bark(from_xyz, (r, g, b), in_words(from_xyz), round(sure, 2), 100.0 * used, says)


_DAYLIGHT = WhitePoint((1.0, 1.0, 1.0), (1.0, 1.0, 1.0), "clipped", "")


def in_words(lab: Triple) -> str:
    """Plain words for a bark's colour.

    Parameters
    ----------
    lab : L*, a*, b* [1]

    Returns
    -------
    Lightness by L* (12, 22, 33, 45) and colour by hue (38°, 52°, 66°); bounds are judgement

    Examples
    --------
    >>> in_words((28.0, 14.0, 9.0)), in_words((8.0, 1.0, 1.0))
    ('dark red-brown', 'near black')
    """
    lightness, a, b = lab
    how = next(word for bound, word in _LIGHTNESS_WORDS if lightness < bound)
    if chroma(a, b) < _NO_HUE_BELOW:
        return how if how == "near black" else f"{how} grey"
    hue = hue_deg(a, b)
    hue = hue - 360.0 if hue > 300.0 else hue
    return f"{how} {next(word for bound, word in _HUE_WORDS if hue < bound)}"


def compare(now: Triple, earlier: Triple, name: str) -> Compared:
    """One bark beside another in a sentence.

    Parameters
    ----------
    now, earlier : L*, a*, b* of the two [1]
    name : what the earlier one is called, as it follows "than", such as
        "your best at its wrap"

    Returns
    -------
    Compared; CIEDE2000 below 2 is called the same

    Examples
    --------
    >>> compare((20.0, 12.0, 8.0), (28.0, 8.0, 8.5), "your best at its wrap").sentence
    'Darker and redder than your best at its wrap.'

    References
    ----------
    Sharma, Wu & Dalal, Color Res. Appl. 30 (2005) 21.
    """
    difference = delta_e_2000(now, earlier)
    if difference < _SAME:
        return Compared(difference, f"The same to the eye as {name}.")
    dl, da, db = (n - e for n, e in zip(now, earlier, strict=True))
    said = []
    if abs(dl) >= _STEP_L:
        said.append("much " * (abs(dl) >= 4 * _STEP_L) + ("lighter" if dl > 0 else "darker"))
    if abs(da) >= _STEP_AB:
        said.append("redder" if da > 0 else "less red")
    if abs(db) >= _STEP_AB:
        said.append("yellower" if db > 0 else "less yellow")
    if not said:
        return Compared(difference, f"Close to {name}.")
    words = " and ".join(said) if len(said) < 3 else f"{said[0]}, {said[1]} and {said[2]}"
    return Compared(difference, f"{words[0].upper()}{words[1:]} than {name}.")


def trend(readings: list[tuple[float, Triple]]) -> Trend | None:
    """How bark has changed over a smoke's photos.

    The median of the slopes between all pairs (Theil-Sen, from memory), so that one photo
    with a reflection in it does not turn the line

    Parameters
    ----------
    readings : hours since the smoke began [h] and L*, a*, b* of each photo

    Returns
    -------
    Trend; None with fewer than two photos half an hour apart

    Raises
    ------
    ValueError : a reading is not finite

    Examples
    --------
    >>> trend([(1.0, (40.0, 14.0, 16.0)), (3.0, (30.0, 14.0, 12.0))]).lightness_per_h
    -5.0
    """
    if not all(isfinite(x) for hours, lab in readings for x in (hours, *lab)):
        raise ValueError("A reading of bark must have finite hours and L*, a*, b*.")
    pairs = [
        (later, sooner) for later in readings for sooner in readings if later[0] - sooner[0] >= 0.5
    ]
    if not pairs:
        return None
    lightness = median((b[1][0] - a[1][0]) / (b[0] - a[0]) for b, a in pairs)
    red = median((b[1][1] - a[1][1]) / (b[0] - a[0]) for b, a in pairs)
    if abs(lightness) < 0.5:
        sentence = "The bark's darkness has stopped changing."
    else:
        way = "darker" if lightness < 0 else "lighter"
        sentence = f"The bark is getting {way}, about {abs(lightness):.0f} L* an hour."
    return Trend(lightness, red, sentence)
