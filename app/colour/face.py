"""The whole cut face: which part of it is cured, pale, grey, fat and bark."""

from statistics import median

from attrs import evolve, frozen
from attrs import field as attribute

from app.colour import masks, pale, pixels, reading
from app.colour import outline as outlines
from app.colour.bands import faintest
from app.colour.bark_edges import give_back_shade, lean_under_bark
from app.colour.cell_classes import BARK, CURED, FAT, GREY, NAMES, PALE
from app.colour.edge import settled
from app.colour.fat_and_bark import mark_bark_and_fat
from app.colour.field import Field
from app.colour.lab import Triple, from_linear
from app.colour.lean_cells import (
    clean_cells,
    mark_cured,
    mark_single,
    redder_than_it_looks,
    tone_noise,
    turned_of,
)
from app.colour.lean_levels import lean_levels
from app.colour.makeup import makeup
from app.colour.meaning import kind_under_any_lamp, too_green
from app.colour.nine_points import Points, green_points
from app.colour.one_tint import one_tint
from app.colour.pixels import Bytes, Point
from app.colour.regions import divide
from app.colour.rim import bark_beyond
from app.colour.tone import tones_of
from app.colour.white_point import Rgb

CELLS = 13500
"""Cells in all: enough for four points of a share, few enough for a phone."""

# Log light below the board's: even cured beef on white paper is no darker than L* 42 beside 95,
# 1.9; mottled bark, L* 10 to 20, is 3 to 4 (judgement between).
_DARKER_THAN_MEAT = 2.3
_LEAN = (GREY, PALE, CURED)
# Bark with no cut face has no darker rim; cells two apart differ by so much in log light, and it is
# so much darker than most boards. In a cut face of one tone with no rim they differ by 0.02 to
# 0.06, and it lies at most 1.0 below the board (judgements between).
_LEAST_RIM, _ROUGH, _LUMP_DARKER = 0.01, 0.09, 1.2
_NO_LEAN = "Hardly any lean meat in this outline."
_LIGHT_WEIGHT = 0.3  # log light beside log ratio when regions are made: shade changes light
_BLUR_PX = 6  # JPEG stores colour at half size: fat bleeds about this far into lean


@frozen
class CutFace:
    """Shares of the cut face inside its outline; they add up to 100, None where unknown.

    `classes` holds one number a cell, row by row, for an overlay: 0 board, 1 bark, 2 fat,
    3 grey, 4 pale, 5 cured, 6 gap or glare; a cell is `step` pixels wide. `outline`
    is in pixels and may be given back, dragged, to measure again.
    """

    cured_percent: float | None
    pale_percent: float | None
    grey_percent: float | None
    fat_percent: float | None
    bark_percent: float | None
    confidence: float
    says: str = ""
    outline: tuple[Point, ...] = ()
    columns: int = 0
    rows: int = 0
    step: int = 1
    classes: bytes = attribute(default=b"", repr=False)

    @property
    def known(self) -> bool:
        return self.cured_percent is not None

    @property
    def shares(self) -> dict[str, float]:
        """Per cent by name; empty where unknown."""
        named = {name: getattr(self, f"{name}_percent") for name in NAMES}
        return {name: share for name, share in named.items() if share is not None}


def _usual(lights: list[Triple]) -> Triple:
    """The median of each channel."""
    red, green, blue = (median(light[k] for light in lights) for k in range(3))
    return red, green, blue


def _is_bark(field: Field, cells: list[int], board: list[float]) -> bool:
    """Whether cells of one tone are as dark beside the board's light, and as mottled, as bark."""
    own, light = set(cells), field.l
    steps = [abs(light[i] - light[i + 2]) for i in cells if i + 2 in own]
    if len(steps) < 12 or not board or median(steps) < _ROUGH:
        return False
    return median(light[i] for i in cells) < median(board) - _LUMP_DARKER


def _unknown(says: str) -> CutFace:
    return CutFace(None, None, None, None, None, 0.0, says)


def _shares(
    field: Field,
    classes: bytearray,
    fatty: dict[int, float],
    barky: dict[int, float],
) -> dict[str, float]:
    """Per cent of each class; a cell with some fat in it counts for both."""
    counts = {name: float(classes.count(number)) for name, number in NAMES.items()}
    name_of = {number: name for name, number in NAMES.items()}
    under = 0.0
    for i, share in fatty.items():
        if classes[i] == FAT:
            counts["fat"] -= 1.0 - share
            under += 1.0 - share
        elif classes[i] in name_of:
            counts["fat"] += share
            counts[name_of[classes[i]]] -= share
    for i, share in barky.items():
        if classes[i] == BARK:
            near = [classes[j] for j in field.beside(i) if classes[j] in _LEAN]
            if near:
                counts["bark"] -= share
                counts[name_of[near[0]]] += share
        elif classes[i] in _LEAN:
            counts["bark"] += 1.0 - share
            counts[name_of[classes[i]]] -= 1.0 - share
    # What lies in a cell mostly of fat beside the fat is lean of the usual kinds.
    lean = counts["cured"] + counts["pale"] + counts["grey"]
    for name in ("cured", "pale", "grey"):
        counts[name] *= 1.0 + under / lean if lean else 1.0
    whole = sum(counts.values())
    return {name: 100.0 * count / whole for name, count in counts.items()}


def measure_face(
    rgba: Bytes,
    width: int,
    height: int,
    neutral_rgb: Rgb | None = None,
    outline: tuple[Point, ...] | None = None,
) -> CutFace:
    """Shares of a cut face that are cured, pale, grey, fat and bark.

    The picture is read in about 13,500 cells; what is not joined to the border by likeness is
    the slice; bark and fat are told by light, the lean by its tone as on a line.

    Parameters
    ----------
    rgba : pixels, four bytes each (red, green, blue, alpha), row by row
    width, height : size of the picture [px]
    neutral_rgb : mean sRGB of something white or grey in the same light [0-255]
    outline : the slice's outline where the user has drawn or dragged it [px]

    Returns
    -------
    CutFace; its shares are None, with the reason in `says`, where the picture cannot tell

    Raises
    ------
    ValueError : no RGBA picture of that size, a neutral that is no colour, or an outline of
        fewer than three points

    Notes
    -----
    Bark on a board as dark as itself, and fat against a white plate, are told by shape alone.
    A smoke ring counts as cured: it is lean turned pink, and the five are all there is.

    Examples
    --------
    >>> board, pink = bytes((250, 250, 250, 255)), bytes((190, 110, 105, 255))
    >>> rows = [board * 60] * 12 + [board * 12 + pink * 36 + board * 12] * 36 + [board * 60] * 12
    >>> round(measure_face(b"".join(rows), 60, 60, (250, 250, 250)).cured_percent)
    100

    References
    ----------
    Cured beef a* 12-18, hue 25-40°; grey beef a* 4-8, hue above 55° (from memory).
    """
    white = reading.given_white(neutral_rgb)
    gains = white.gains if white is not None else (1.0, 1.0, 1.0)
    grid = pixels.grid(rgba, width, height, CELLS)
    lights = [
        (r * gains[0], g * gains[1], b * gains[2])
        for r, g, b in zip(grid.red, grid.green, grid.blue, strict=True)
    ]
    floor = 0.02 * sum(grid.green) / len(grid.green) + 1e-4
    light, red_green, green_blue, cure = tones_of(lights, floor)
    field = Field(grid.columns, grid.rows, light, red_green, green_blue, cure)
    points = green_points(rgba, width, height, grid.columns, grid.rows, grid.step)
    bark: set[int] = set()
    if outline is not None:
        mask: bytearray | None = masks.from_polygon(field, outline, grid.step)
    else:
        regions = divide(field.columns, field.rows, field.l, field.u, field.v, _LIGHT_WEIGHT)
        mask = outlines.find(field, regions)
        if mask is not None:
            mask, bark = settled(field, mask, rgba, width, height, grid.step)
            rim = bark_beyond(field, mask, bark, rgba, width, height, grid.step)
            if rim is not None:
                mask, bark = rim
    if mask is None or sum(mask) < 40:
        return _unknown("No slice stands out from the board: draw its outline, or move closer.")
    inside = [i for i, on in enumerate(mask) if on]
    if median(max(lights[i]) for i in inside) < reading.BLACK:
        return _unknown(reading.TOO_DARK)
    board = [x for x, on in zip(field.l, mask, strict=True) if not on]
    darkest = median(board) - _DARKER_THAN_MEAT if board else 0.0
    if outline is None and board and median(field.l[i] for i in inside) < darkest:
        return _unknown(reading.NO_FACE)
    made_of = makeup(field, inside, grid.red, grid.green, white is not None)
    if made_of is None:
        return _unknown(_NO_LEAN)
    classes = bytearray(len(mask))
    fatty = mark_bark_and_fat(field, mask, inside, made_of, points, bark, classes)
    looked = Points(rgba, width, height, grid.columns, grid.step)
    give_back_shade(field, mask, classes, looked)
    barky = lean_under_bark(field, mask, classes, looked)
    inside = [i for i in inside if mask[i]]
    lean = [i for i in inside if classes[i] == GREY]
    mixed = {i for i, share in fatty.items() if classes[i] == GREY}
    clean = [
        i for i in clean_cells(field, lean, classes, -(-_BLUR_PX // grid.step)) if i not in mixed
    ]
    if len(clean) < 12 or len(lean) < 0.2 * len(inside):
        return _unknown(_NO_LEAN)
    judged = lights
    all_fat = [i for i in inside if classes[i] == FAT]
    if white is None:
        fat = [lights[i] for i in all_fat if not grid.clipped[i]]
        # Of fat mostly blown out the rest is no cream but half lean.
        white = reading.white_by_fat(fat) if 2 * len(fat) > len(all_fat) else None
        if white is not None:
            gains = white.gains
            judged = [(x[0] * gains[0], x[1] * gains[1], x[2] * gains[2]) for x in lights]
    found = lean_levels(field, clean, judged, made_of.noise, white, all_fat)
    ends = found.ends
    dull = [i for i in clean if not ends.two or ends.turned(field.s[i]) < 0.4]
    blown = sum(grid.clipped[i] for i in dull) > reading.BLOWN * len(dull)
    apart = ends.two and ends.kind == "grey" and ends.contrast > reading.CLEAR
    if blown and not apart and not reading.red_enough(ends, white):
        return _unknown(reading.TOO_BRIGHT)
    if not ends.two and (white is None or not white.sure):
        off = [i for i, on in enumerate(mask) if not on]
        if one_tint(field, [off, clean, all_fat]):
            return _unknown(reading.NO_COLOUR)
    if white is None and not ends.two:
        told = kind_under_any_lamp(_usual([lights[i] for i in clean]))
        if told is None:
            return _unknown(reading.NO_WHITE)
        ends = evolve(ends, kind=told)
    if too_green(_usual([judged[i] for i in clean]), white):
        return _unknown(reading.NO_FACE)
    rimless = outline is None and classes.count(BARK) < _LEAST_RIM * len(inside)
    if rimless and not ends.two and _is_bark(field, clean, board):
        return _unknown(reading.NO_FACE)
    if ends.kind == "not meat" and (not ends.two or (white is not None and white.sure)):
        return _unknown(reading.NO_FACE)
    redder_than_it_looks(field, clean, grid.clipped, ends, found.pale is not None)
    level = from_linear(median(grid.green[i] for i in clean))
    faint = faintest(tone_noise(field, clean, ends), level, ends)
    if ends.two:
        turned = turned_of(field, lean, set(clean), ends, faint)
        bounds = pale.pale_bounds(field, turned, found.pale, grid.step, ends.kind == "grey")
        mark_cured(field, lean, turned, bounds, classes)
    else:
        mark_single(lean, ends, classes)
    part = _shares(field, classes, fatty, barky)
    return CutFace(
        part["cured"],
        part["pale"],
        part["grey"],
        part["fat"],
        part["bark"],
        reading.confidence(ends, white, faint, sum(grid.clipped[i] for i in lean) / len(lean)),
        reading.remark(ends, white),
        masks.polygon(field, mask, grid.step),
        grid.columns,
        grid.rows,
        grid.step,
        bytes(classes),
    )
