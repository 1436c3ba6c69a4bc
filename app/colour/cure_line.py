"""How far the cure reached, read off a photo of the cut face."""

from math import hypot
from statistics import median

from attrs import frozen

from app.colour import pixels
from app.colour.bands import Band, bands, faintest
from app.colour.lab import from_linear
from app.colour.pixels import Bytes, Point
from app.colour.profile import Profile, profile
from app.colour.tone import Levels, levels
from app.colour.white_point import Rgb, from_neutral

PLACES = 250
"""Places read on a line, edge to edge."""

# Of the way from grey to cured: below the first grey, above the second cured, pale between.
# Judgement; grey is where the eye sees no pink yet (about 14 ppm of nitrite, science of the
# transport room), so the bound lies low.
GREY_BELOW, CURED_ABOVE = 0.24, 0.74

_BEYOND = 0.10  # the line is read this much further at both ends, to see the board
_RING_REDDER, _RING_WIDTH = 1.15, 0.09  # beside the cured end; share of the lean
_ONLY: dict[str, Band] = {"cured": "cured", "pale": "pale", "grey": "grey", "not meat": "grey"}
_BLUR_PX = 3.0  # JPEG stores colour at half size: fat bleeds this far into lean
_BLACK, _BLOWN = 0.0035, 0.55  # linear light of the slice; share of clipped pixels


@frozen
class CureLine:
    """What a line across a slice shows.

    The three parts are shares of the lean between the edges and add up to 100; they are None
    where the picture cannot tell, and `says` then gives the reason. `left_edge` and
    `right_edge` are the slice's edges as fractions of the drawn line, 0 at its start and 1 at
    its end. `confidence` runs from 0 to 1. Depths are counted from each edge to where the
    cured part first ends, in per cent of the distance between the edges; millimetres are
    given when the thickness was.
    """

    cured_percent: float | None
    pale_percent: float | None
    grey_percent: float | None
    left_edge: float
    right_edge: float
    confidence: float
    says: str = ""
    left_depth_percent: float | None = None
    right_depth_percent: float | None = None
    cured_mm: float | None = None
    pale_mm: float | None = None
    grey_mm: float | None = None
    left_depth_mm: float | None = None
    right_depth_mm: float | None = None
    bands: tuple[tuple[float, float, str], ...] = ()

    @property
    def known(self) -> bool:
        return self.grey_percent is not None


def _unknown(says: str, left: float = 0.0, right: float = 1.0) -> CureLine:
    return CureLine(None, None, None, left, right, 0.0, says)


def measure(
    rgba: Bytes,
    width: int,
    height: int,
    start_xy: Point,
    end_xy: Point,
    neutral_rgb: Rgb | None = None,
    thickness_mm: float | None = None,
) -> CureLine:
    """Cured, pale and grey parts along a line drawn across a slice from edge to edge."""
    pixels.check(rgba, width, height)
    pixels.check_point(start_xy, "start")
    pixels.check_point(end_xy, "end")
    run = hypot(end_xy[0] - start_xy[0], end_xy[1] - start_xy[1])
    if run < 24.0:
        raise ValueError(f"The line is too short to measure: {run:.0f} pixels, at least 24 needed.")
    white = from_neutral(neutral_rgb) if neutral_rgb is not None else None
    white_known = white is not None and white.known
    gains = white.gains if white is not None and white.known else (1.0, 1.0, 1.0)
    more = int(_BEYOND * PLACES)
    places = [k / (PLACES - 1) for k in range(-more, PLACES + more)]
    half = max(1.0, 0.006 * run)
    found = pixels.along(rgba, width, height, start_xy, end_xy, places, half)
    seen = [(p, s) for p, s in zip(places, found, strict=True) if s is not None]
    if sum(1 for p, _ in seen if 0.0 <= p <= 1.0) < 0.7 * PLACES:
        return _unknown("Most of the line lies outside the picture.")
    samples = [s for _, s in seen]
    blur = max(2, round(_BLUR_PX * (PLACES - 1) / run))
    shape = profile([p for p, _ in seen], samples, gains, blur)
    inner = [s for (p, s), kind in zip(seen, shape.stuff, strict=True) if kind in ("lean", "fat")]
    if not inner or median(max(s.light) for s in inner) < _BLACK:
        return _unknown("Too dark: nothing of the cut face can be seen.")
    lean = [i for i, kind in enumerate(shape.stuff) if kind == "lean"]
    inside = sum(1 for kind in shape.stuff if kind != "board")
    if len(lean) < 0.25 * inside or len(lean) < 20:
        return _unknown("Hardly any lean meat on this line.", shape.left, shape.right)
    clean = [i for i in lean if shape.clean[i]]
    if len(clean) < 12:
        return _unknown("Too much fat on this line to read the lean.", shape.left, shape.right)
    ends = levels([(shape.tones[i].s, shape.lights[i]) for i in clean], white)
    dull = [i for i in clean if not ends.two or ends.turned(shape.tones[i].s) < 0.4]
    if sum(samples[i].clipped > 0.4 for i in dull) > _BLOWN * len(dull):
        return _unknown(
            "Too bright: the meat's red is blown out. Take it again, a little darker.",
            shape.left,
            shape.right,
        )
    clipped = [s.clipped > 0.4 for s in samples]
    level = from_linear(median(samples[i].light[1] for i in clean))
    return _result(shape, lean, ends, clipped, white_known, thickness_mm, level, _BLUR_PX / run)


def _result(
    shape: Profile,
    lean: list[int],
    ends: Levels,
    clipped: list[bool],
    white_known: bool,
    thickness_mm: float | None,
    level: float,
    blur: float,
) -> CureLine:
    if ends.kind == "not meat" and white_known:
        return _unknown(
            "No cut face here: this is not the colour of meat.", shape.left, shape.right
        )
    turned = _filled(shape, lean, ends, clipped)
    if ends.two:
        marks = bands(turned, faintest(_tone_noise(turned), level, ends), blur)
    else:
        marks = [_ONLY[ends.kind]] * len(turned)
    kept = _without_ring(marks, turned)
    marks = [mark for mark, keep in zip(marks, kept, strict=True) if keep]
    n = len(marks)
    cured, pale, grey = (100.0 * marks.count(k) / n for k in ("cured", "pale", "grey"))
    return CureLine(cured, pale, grey, shape.left, shape.right, ends.certainty)


def _tone_noise(turned: list[float]) -> float:
    """Usual difference of places three apart, of the way from grey to cured."""
    return median(abs(a - b) for a, b in zip(turned, turned[3:], strict=False))


def _filled(shape: Profile, lean: list[int], ends: Levels, clipped: list[bool]) -> list[float]:
    """How far each lean place has turned; places with a little fat in them as the nearest pure.

    Where red is clipped the true tone is redder still.
    """
    filled: list[float] = []
    for i in lean:
        at = i if shape.clean[i] else _nearest_pure(shape, i)
        turned = ends.turned(shape.tones[at].s)
        filled.append(max(turned, 1.0) if clipped[at] and turned > 0.55 else turned)
    return filled


def _nearest_pure(shape: Profile, i: int) -> int:
    """The nearest place of pure lean with no fat between, or the place itself."""
    reach = range(1, 12)
    for way in reach:
        for j in (i - way, i + way):
            if 0 <= j < len(shape.clean) and shape.clean[j]:
                between = shape.stuff[min(i, j) : max(i, j)]
                if all(kind == "lean" for kind in between):
                    return j
    return i


def _without_ring(marks: list[Band], turned: list[float]) -> list[bool]:
    """Which places are no smoke ring: a narrow rim redder than the cured meat behind it."""
    keep, n = [True] * len(marks), len(marks)
    for order in (range(n), range(n - 1, -1, -1)):
        rim = 0
        for k, j in enumerate(order):
            if turned[j] > _RING_REDDER:
                rim = k + 1
            elif k - rim >= 3:
                break
        behind = [turned[j] for j in list(order)[rim : rim + 12] if marks[j] == "cured"]
        if 3 <= rim <= _RING_WIDTH * n and len(behind) >= 6 and median(behind) < 1.08:
            for j in list(order)[:rim]:
                keep[j] = False
    return keep
