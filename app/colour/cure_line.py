"""How far the cure reached, read off a photo of the cut face."""

from math import hypot, inf
from statistics import median

from attrs import evolve

from app.colour import pixels, reading
from app.colour.bands import Band, faintest
from app.colour.division import Piece, divide, mean_tone, pieces, tones
from app.colour.face import CutFace, measure_face
from app.colour.lab import Triple, from_linear
from app.colour.likeliest import likeliest
from app.colour.line_parts import CureLine, read_off
from app.colour.line_tones import in_order, light_of, mean_light, meant, seen_tones, without_ring
from app.colour.meaning import kind_under_any_lamp, may_be_fat, too_green
from app.colour.mixture import Mixture, mixture
from app.colour.pixels import Bytes, Point, Sample
from app.colour.profile import Profile, profile
from app.colour.tone import Levels, as_daylight, kind_of
from app.colour.white_point import Rgb, WhitePoint

__all__ = ["CureLine", "CutFace", "measure", "measure_face"]

PLACES = 250
"""Places read on a line, edge to edge."""

_BEYOND = 0.10  # the line is read this much further at both ends, to see the board
_AHEAD = 2.1  # in natural logarithms: a single tone is told from the next by this much
_ONLY: dict[str, Band] = {"cured": "cured", "pale": "pale", "grey": "grey"}
_NO_LEAN = "Hardly any lean meat on this line."
_OWN_TONE = 0.05  # what one tone varies by along a line, in s, besides coarse colour
# Log light by which bark is darker than the board, and ten times what places three apart differ by:
# cut meat comes to 2.9 at most, an uncut piece to 3 and more (judgement between).
_MOTTLE_SAYS, _BARK_FROM = 10.0, 2.95
_BLOCK_PX = 16.0  # of one colour: JPEG stores colour at half size, in blocks of eight
_BLUR_PX = 3.0  # JPEG stores colour at half size: fat bleeds this far into lean
# Of the line: half of the short bar that tells what a place is, and of the one for its tone.
_HALF_BAR, _WIDE_BAR = 0.006, 0.012


def _unknown(says: str, shape: Profile | None = None) -> CureLine:
    left, right = (shape.left, shape.right) if shape is not None else (0.0, 1.0)
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
    """Cured, pale and grey parts along a line drawn across a slice from edge to edge.

    The tone s = ln(R/G) − 0.3 ln(G/B) of white-balanced linear light is read along the line;
    what its plateaus are, grey, pale or cured, is told by a* and hue of all of them together,
    and the likeliest few bands between are the answer. A bound lies midway between its tones.
    Board, bark, fat, glare, gaps and a smoke ring are left out.

    Parameters
    ----------
    rgba : pixels, four bytes each (red, green, blue, alpha), row by row
    width, height : size of the picture [px]
    start_xy, end_xy : ends of the line, on the slice's edges or a little beyond [px]
    neutral_rgb : mean sRGB of something white or grey in the same light [0-255]
    thickness_mm : thickness of the meat along the line [mm]; None leaves millimetres out

    Returns
    -------
    CureLine; its parts are None, with the reason in `says`, where the picture cannot tell

    Raises
    ------
    ValueError : no RGBA picture of that size, a point that is not finite, a line shorter than
        24 pixels, a neutral that is no colour, or a thickness that is not above zero

    Notes
    -----
    Without a neutral patch a slice of one single tone is judged by its fat, or not at all.
    A pale band too narrow to show a tone of its own is told by how wide its front is seen; where
    that may be blur as well, the bounds lie in between.

    Examples
    --------
    A slice 40 px thick on white, grey in its middle half:

    >>> pink, dull, board = (190, 110, 105, 255), (140, 120, 105, 255), (250, 250, 250, 255)
    >>> row = [board] * 10 + [pink] * 30 + [dull] * 60 + [pink] * 30 + [board] * 10
    >>> picture = bytes(c for pixel in row for c in pixel) * 12
    >>> found = measure(picture, 140, 12, (8, 6), (131, 6), (250, 250, 250), 80.0)
    >>> round(found.grey_percent), round(found.grey_mm)
    (50, 40)

    References
    ----------
    Cured beef a* 12-18, hue 25-40°; grey beef a* 4-8, hue above 55° (from memory).
    """
    pixels.check(rgba, width, height)
    pixels.check_point(start_xy, "start")
    pixels.check_point(end_xy, "end")
    if thickness_mm is not None and not 0.0 < thickness_mm < inf:
        raise ValueError(f"The thickness must be above zero millimetres; {thickness_mm} was given.")
    run = hypot(end_xy[0] - start_xy[0], end_xy[1] - start_xy[1])
    if run < 24.0:
        raise ValueError(f"The line is too short to measure: {run:.0f} pixels, at least 24 needed.")
    white = reading.given_white(neutral_rgb)
    more = int(_BEYOND * PLACES)
    places = [k / (PLACES - 1) for k in range(-more, PLACES + more)]
    found = pixels.along(
        rgba,
        width,
        height,
        start_xy,
        end_xy,
        places,
        max(1.0, _HALF_BAR * run),
        max(2.5, _WIDE_BAR * run),
    )
    seen = [(p, s) for p, s in zip(places, found, strict=True) if s is not None]
    if sum(1 for p, _ in seen if 0.0 <= p <= 1.0) < 0.7 * PLACES:
        return _unknown("Most of the line lies outside the picture.")
    return _from_samples([p for p, _ in seen], [s for _, s in seen], run, white, thickness_mm)


def _from_samples(
    places: list[float],
    samples: list[Sample],
    run: float,
    white: WhitePoint | None,
    thickness_mm: float | None,
) -> CureLine:
    """What the light along a line of so many pixels shows."""
    gains = white.gains if white is not None else (1.0, 1.0, 1.0)
    blur = max(2, round(_BLUR_PX * (PLACES - 1) / run))
    shape = profile(places, samples, gains, blur, white is not None and white.sure)
    return _read(shape, samples, white, thickness_mm, blur, _BLOCK_PX * (PLACES - 1) / run)


def _read(
    shape: Profile,
    samples: list[Sample],
    white: WhitePoint | None,
    thickness_mm: float | None,
    blur: int,
    block: float,
) -> CureLine:
    meat = [i for i, kind in enumerate(shape.stuff) if kind in ("lean", "fat")]
    if not meat or median(max(samples[i].light) for i in meat) < reading.BLACK:
        return _unknown(reading.TOO_DARK)
    lean = [i for i in meat if shape.stuff[i] == "lean"]
    clean = [i for i in lean if shape.clean[i]]
    if len(clean) < 14 or len(lean) < 0.25 * sum(kind != "board" for kind in shape.stuff):
        return _unknown(_NO_LEAN, shape)
    fat = [
        i
        for i in meat
        if shape.stuff[i] == "fat" and samples[i].clipped < 0.1 and may_be_fat(samples[i].light)
    ]
    if white is None:
        white = reading.white_by_fat([samples[i].light for i in fat])
    found = pieces(shape, blur, block)
    level = from_linear(median(samples[i].light[1] for i in clean))
    step = 2.2 / max(level, 8.0)
    gains = white.gains if white is not None else (1.0, 1.0, 1.0)
    own = _OWN_TONE + step
    alike = tones(found, own)
    if len(alike) > 1 and too_green(light_of(alike[0], samples, gains), white):
        # Fat whose red is blown out, or a piece of board: no lean is that green.
        found = [piece for piece in found if piece.s > mean_tone(alike[0]) + 0.5 * own]
        shape, lean, clean = _left_out(shape, found)
        if len(clean) < 14:
            return _unknown(_NO_LEAN, shape)
        alike = tones(found, own)
    if not alike:
        return _unknown(_NO_LEAN, shape)
    cream = mean_light([samples[i] for i in fat], gains) if len(fat) > 3 else None
    seen = seen_tones(alike, found, samples, gains, shape)
    told = likeliest(seen, white, cream, in_order(alike, found))
    ends = told.ends(own)
    most = max(alike, key=lambda tone: sum(len(piece.pure) for piece in tone))
    main = light_of(most, samples, gains)
    if not ends.two and (white is None or not white.sure):
        if told.ahead < _AHEAD:
            return _unknown(reading.NO_WHITE, shape)
        if kind_under_any_lamp(light_of(most, samples, (1.0, 1.0, 1.0))) == "not meat":
            return _unknown(reading.NO_FACE, shape)
    dull = [i for i in clean if not ends.two or ends.turned(shape.tones[i].s) < 0.4]
    blown = sum(samples[i].clipped > 0.4 for i in dull) > reading.BLOWN * len(dull)
    apart = ends.two and ends.kind == "grey" and ends.contrast > reading.CLEAR
    if blown and not apart and not reading.red_enough(ends, white):
        return _unknown(reading.TOO_BRIGHT, shape)
    reddest = light_of(alike[-1], samples, gains)
    if white is not None and white.sure and not (_meat(main, white) or _meat(reddest, white)):
        return _unknown(reading.NO_FACE, shape)
    if _uncut(shape, lean) or (not ends.two and not (shape.left_seen or shape.right_seen)):
        return _unknown(reading.NO_FACE, shape)
    clipped = [s.clipped > 0.4 for s in samples]
    pale = told.pale
    if {"grey", "cured"} <= set(told.meanings):
        dull_light, vivid_light = (
            light_of(meant(alike, told.meanings, which), samples, gains)
            for which in ("grey", "cured")
        )
        mixed = mixture(dull_light, vivid_light)
        shape = _as_mixture(shape, found, ends.grey, ends.cured, mixed)
        if pale is not None:
            pale = ends.grey + mixed.share(ends.turned(pale)) * (ends.cured - ends.grey)
    turned = _filled(shape, lean, ends, clipped)
    faint = faintest(_tone_noise(turned), level, ends)
    if ends.two:
        coarse = step / (ends.cured - ends.grey)
        turned_pale = None if pale is None else ends.turned(pale)
        bands = divide(shape, found, ends, turned_pale, coarse, block)
        marks = [bands[i] for i in lean]
    else:
        marks = [_ONLY[ends.kind]] * len(lean)
    kept = without_ring(shape, lean, told)
    rings = kept.count(False)
    lean = [i for i, keep in zip(lean, kept, strict=True) if keep]
    marks = [mark for mark, keep in zip(marks, kept, strict=True) if keep]
    sure = reading.confidence(ends, white, faint, sum(clipped[i] for i in lean) / len(lean))
    if not (shape.left_seen and shape.right_seen):
        sure = round(0.9 * sure, 3)
    return read_off(shape, lean, marks, rings, sure, reading.remark(ends, white), thickness_mm)


def _meat(light: Triple, white: WhitePoint) -> bool:
    return kind_of(as_daylight(light, white)) != "not meat"


def _uncut(shape: Profile, lean: list[int]) -> bool:
    """Whether this is the bark of an uncut piece, by how dark and mottled it is."""
    board = [
        t.l
        for p, t in zip(shape.places, shape.tones, strict=True)
        if (shape.left_seen and p < shape.left - 0.02)
        or (shape.right_seen and p > shape.right + 0.02)
    ]
    if not board:
        return False
    darker = median(board) - median(shape.tones[i].l for i in lean)
    own = set(lean)
    steps = [abs(shape.tones[i].l - shape.tones[i + 3].l) for i in lean if i + 3 in own]
    mottle = median(steps) if len(steps) > 12 else 0.0
    return darker + _MOTTLE_SAYS * mottle > _BARK_FROM


def _left_out(shape: Profile, found: list[Piece]) -> tuple[Profile, list[int], list[int]]:
    """The line with only those pieces as its lean, their places, and the pure ones."""
    lean = [i for piece in found for i in piece.places]
    kept = set(lean)
    stuff = [
        "fat" if kind == "lean" and i not in kept else kind for i, kind in enumerate(shape.stuff)
    ]
    return evolve(shape, stuff=stuff), lean, [i for i in lean if shape.clean[i]]


def _as_mixture(
    shape: Profile, found: list[Piece], low: float, high: float, mixed: Mixture
) -> Profile:
    """The line with its tones spread as shares of cured meat between the two ends."""

    def share(s: float) -> float:
        return low + mixed.share((s - low) / (high - low)) * (high - low)

    for piece in found:
        piece.s = share(piece.s)
    return evolve(shape, tones=[evolve(t, s=share(t.s)) for t in shape.tones])


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
