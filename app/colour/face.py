"""The whole cut face: which part of it is cured, pale, grey, fat and bark."""

from collections.abc import Callable
from math import exp, log
from statistics import median

from attrs import field as attribute
from attrs import frozen

from app.colour import outline as outlines
from app.colour import pixels, reading
from app.colour.bands import faintest
from app.colour.lab import from_linear
from app.colour.outline import Field
from app.colour.pixels import Bytes, Point
from app.colour.regions import divide
from app.colour.tone import Levels, levels, split, tone
from app.colour.white_point import Rgb

CELLS = 13500
"""Cells in all: enough for four points of a share, few enough for a phone."""

BOARD, BARK, FAT, GREY, PALE, CURED, GAP = range(7)
NAMES = {"cured": CURED, "pale": PALE, "grey": GREY, "fat": FAT, "bark": BARK}

_LIGHT_WEIGHT = 0.3  # log light beside log ratio when regions are made: shade changes light
_DARKER, _HALF_DARK, _BRIGHTER, _LEAST_FAT = (
    0.95,
    -0.75,
    0.32,
    0.43,
)  # as on a line: bark and gaps, fat and glare
_DARK_BOARD, _THIN_BARK = 1.1, 0.04  # below the lean's log light; of the slice's width
_NOISY = 0.17  # faintest pink above which tones are smoothed more
_STREAK = 0.12  # of log light and of tone: a thin streak of fat
_RIM_CELLS = 3  # bark begins no further than this from the outline
_BLUR_PX = 6  # JPEG stores colour at half size: fat bleeds about this far into lean


@frozen
class CutFace:
    """Shares of the cut face inside its outline; they add up to 100, None where unknown.

    `classes` holds one number a cell, row by row, for an overlay: 0 board, 1 bark, 2 fat,
    3 grey, 4 pale, 5 cured, 6 gap or glare; a cell is `step` pixels wide. `outline` is in
    pixels and may be given back, dragged, to measure again.
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


def _unknown(says: str) -> CutFace:
    return CutFace(None, None, None, None, None, 0.0, says)


def measure_face(
    rgba: Bytes,
    width: int,
    height: int,
    neutral_rgb: Rgb | None = None,
    outline: tuple[Point, ...] | None = None,
) -> CutFace:
    """Shares of a cut face that are cured, pale, grey, fat and bark."""
    white = reading.given_white(neutral_rgb)
    gains = white.gains if white is not None else (1.0, 1.0, 1.0)
    grid = pixels.grid(rgba, width, height, CELLS)
    lights = [
        (r * gains[0], g * gains[1], b * gains[2])
        for r, g, b in zip(grid.red, grid.green, grid.blue, strict=True)
    ]
    floor = 0.02 * sum(grid.green) / len(grid.green) + 1e-4
    tones = [tone(light, floor) for light in lights]
    field = Field(
        grid.columns,
        grid.rows,
        [t.l for t in tones],
        [t.u for t in tones],
        [t.v for t in tones],
        [t.s for t in tones],
    )
    if outline is not None:
        mask: bytearray | None = outlines.from_polygon(field, outline, grid.step)
    else:
        regions = divide(field.columns, field.rows, field.l, field.u, field.v, _LIGHT_WEIGHT)
        mask = outlines.find(field, regions)
    if mask is None or sum(mask) < 40:
        return _unknown("No slice stands out from the board: draw its outline, or move closer.")
    inside = [i for i, on in enumerate(mask) if on]
    if median(max(lights[i]) for i in inside) < reading.BLACK:
        return _unknown(reading.TOO_DARK)
    classes = bytearray(len(mask))
    mixed = _dark_and_fat(field, mask, inside, classes)
    lean = [i for i in inside if classes[i] == GREY]
    clean = [i for i in _clean(field, lean, classes, -(-_BLUR_PX // grid.step)) if i not in mixed]
    if len(clean) < 12 or len(lean) < 0.2 * len(inside):
        return _unknown("Hardly any lean meat in this outline.")
    judged = lights
    if white is None:
        fat = [lights[i] for i in inside if classes[i] == FAT and not grid.clipped[i]]
        white = reading.white_by_fat(fat)
        if white is not None:
            gains = white.gains
            judged = [(x[0] * gains[0], x[1] * gains[1], x[2] * gains[2]) for x in lights]
    ends = levels([(field.s[i], judged[i]) for i in clean], white)
    dull = [i for i in clean if not ends.two or ends.turned(field.s[i]) < 0.4]
    blown = sum(grid.clipped[i] for i in dull) > reading.BLOWN * len(dull)
    if blown and not reading.red_enough(ends, white):
        return _unknown(reading.TOO_BRIGHT)
    if white is None and not ends.two:
        return _unknown(reading.NO_WHITE)
    if white is not None and ends.kind == "not meat" and (white.sure or not ends.two):
        return _unknown(reading.NO_FACE)
    for i in clean:
        if grid.clipped[i] and ends.turned(field.s[i]) > 0.55:
            field.s[i] = max(field.s[i], ends.cured)  # red is at its end: redder than it looks
    level = from_linear(median(grid.green[i] for i in clean))
    faint = faintest(_tone_noise(field, clean, ends), level, ends)
    _cure_classes(field, lean, set(clean), ends, faint, grid.step <= 4, classes)
    counts = {name: classes.count(number) for name, number in NAMES.items()}
    whole = sum(counts.values())
    part = {name: 100.0 * count / whole for name, count in counts.items()}
    return CutFace(
        part["cured"],
        part["pale"],
        part["grey"],
        part["fat"],
        part["bark"],
        reading.confidence(ends, white, faint, sum(grid.clipped[i] for i in lean) / len(lean)),
        reading.remark(ends, white),
        outlines.polygon(field, mask, grid.step),
        grid.columns,
        grid.rows,
        grid.step,
        bytes(classes),
    )


def _clean(field: Field, lean: list[int], classes: bytearray, margin: int) -> list[int]:
    """Lean cells with nothing else nearby, so that their tone is their own."""
    layers = [[i for i in lean if all(classes[j] == GREY for j in field.beside(i))]]
    for _ in range(margin - 1):
        kept = set(layers[-1])
        layers.append([i for i in layers[-1] if all(j in kept for j in field.beside(i))])
    for layer in reversed(layers):
        if len(layer) > 0.15 * len(lean):
            return layer
    return layers[0]


def _tone_noise(field: Field, clean: list[int], ends: Levels) -> float:
    """Usual difference of clean cells two apart, of the way from grey to cured."""
    own = set(clean)
    steps = [
        abs(ends.turned(field.s[i]) - ends.turned(field.s[i + 2])) for i in clean if i + 2 in own
    ]
    return median(steps) if len(steps) > 10 else 0.1


def _slope(field: Field, cells: list[int]) -> tuple[float, float, float]:
    """Plane through the log light of most of the cells: the lamp's own falling off."""
    used = cells
    a = b = c = 0.0
    for _ in range(3):
        if len(used) < 10:
            break
        n = len(used)
        xs = [i % field.columns for i in used]
        ys = [i // field.columns for i in used]
        ls = [field.l[i] for i in used]
        mx, my, ml = sum(xs) / n, sum(ys) / n, sum(ls) / n
        xx = sum((x - mx) ** 2 for x in xs) + 1e-9
        yy = sum((y - my) ** 2 for y in ys) + 1e-9
        xy = sum((x - mx) * (y - my) for x, y in zip(xs, ys, strict=True))
        xl = sum((x - mx) * (z - ml) for x, z in zip(xs, ls, strict=True))
        yl = sum((y - my) * (z - ml) for y, z in zip(ys, ls, strict=True))
        det = xx * yy - xy * xy + 1e-9
        a, b = (xl * yy - yl * xy) / det, (yl * xx - xl * xy) / det
        c = ml - a * mx - b * my
        off = [z - a * x - b * y - c for x, y, z in zip(xs, ys, ls, strict=True)]
        middle = median(off)
        c += middle
        used = [i for i, z in zip(used, off, strict=True) if abs(z - middle) < 0.3]
    return a, b, c


def _dark_and_fat(field: Field, mask: bytearray, inside: list[int], classes: bytearray) -> set[int]:
    """Mark bark, gaps and fat; all else grey for the time being.

    Returns the grey cells that hold a little fat, whose tone must not be read.
    """
    w = field.columns
    usual = median(field.l[i] for i in inside)
    lit = [i for i in inside if field.l[i] > usual - _DARKER]
    usual = median(field.l[i] for i in lit)
    a, b, c = _slope(field, [i for i in lit if abs(field.l[i] - usual) < 0.6])
    excess = {i: field.l[i] - a * (i % w) - b * (i // w) - c for i in inside}
    dark = {i for i in inside if excess[i] < -_DARKER}
    rim = {i for i in inside if any(not mask[j] for j in field.beside(i))}
    rim |= {i for i in inside if len(field.beside(i)) < 4}
    for _ in range(_RIM_CELLS):
        rim |= {j for i in rim for j in field.beside(i) if mask[j]}
    bark = [i for i in dark if i in rim]
    found = set(bark)
    for i in bark:
        for j in field.beside(i):
            if j in dark and j not in found:
                found.add(j)
                bark.append(j)
    vivid = _even_out(field, [i for i in inside if i not in dark], excess)
    bright = sorted(x for i, x in excess.items() if x > _BRIGHTER and field.s[i] < vivid)
    fattest = bright[(2 * len(bright)) // 3] if len(bright) > 12 else 0.0
    # In a bright picture fat stands out less, since nothing is brighter than white.
    headroom = max(field.l) - usual
    bound = max(_LEAST_FAT, 0.52 * fattest)
    bound = min(bound, max(0.15, log(0.5 + 0.5 * exp(max(0.0, headroom)))))
    # Half bark, half lean is still this dark; such cells lie along the bark on both sides.
    for i in list(found):
        for j in field.beside(i):
            if mask[j] and j not in found and excess[j] < _HALF_DARK:
                found.add(j)
    for i in inside:
        if i in found:
            classes[i] = BARK
        elif i in dark:
            classes[i] = GAP
        else:
            fat = excess[i] > bound and field.s[i] < vivid
            classes[i] = FAT if fat else GREY
    mixed = _streaks(field, inside, classes, excess)
    _rim(field, mask, inside, classes)
    _dark_board(field, mask, inside, classes, c - _DARK_BOARD)
    _outside_bark(field, mask, inside, classes)
    _bright_fringe(field, mask, inside, classes)
    return mixed


def _streaks(
    field: Field, inside: list[int], classes: bytearray, excess: dict[int, float]
) -> set[int]:
    """Cells with a streak of fat thinner than a cell: lighter and less red than beside them."""
    w, found = field.columns, set()
    for i in inside:
        if classes[i] != GREY:
            continue
        for step in (2, 2 * w, 2 * w + 2, 2 * w - 2):
            a, b = i - step, i + step
            if (
                a in excess
                and b in excess
                and classes[a] == classes[b] == GREY
                and excess[i] - max(excess[a], excess[b]) > _STREAK
                and min(field.s[a], field.s[b]) - field.s[i] > _STREAK
            ):
                found.add(i)
                break
    return found


def _even_out(field: Field, lit: list[int], excess: dict[int, float]) -> float:
    """Allow for a grey core lighter or darker than the cured meat around it.

    Returns the cure tone above which nothing can be fat, since fat is not that red.
    """
    low, high, within = split([field.s[i] for i in lit])
    if high - low < max(0.1, 2.5 * within):
        return high + 1.0
    dull = [i for i in lit if field.s[i] < 0.5 * (low + high)]
    ranked = sorted(excess[i] for i in dull)
    off = min(0.15, max(-0.2, ranked[(35 * len(ranked)) // 100]))
    for i in dull:
        excess[i] -= off
    return low + 0.65 * (high - low)


def _middle(field: Field, inside: list[int]) -> tuple[float, float]:
    n, w = len(inside), field.columns
    return sum(i % w for i in inside) / n, sum(i // w for i in inside) / n


def _inward(field: Field, middle: tuple[float, float], i: int, steps: int) -> list[int]:
    """The cells met on the way from a cell to the middle of the slice."""
    w = field.columns
    cx, cy = middle
    dx, dy = cx - i % w, cy - i // w
    far = max(1.0, (dx * dx + dy * dy) ** 0.5)
    return [
        round(i // w + k * dy / far) * w + round(i % w + k * dx / far) for k in range(1, steps + 1)
    ]


def _give_back(
    field: Field,
    mask: bytearray,
    inside: list[int],
    classes: bytearray,
    layers: int,
    is_board: Callable[[int, list[int]], bool],
) -> None:
    """Make board of edge cells for which the test holds, layer by layer."""
    middle = _middle(field, inside)
    for _ in range(layers):
        edge = [
            i
            for i in inside
            if classes[i] not in (BOARD, BARK) and any(classes[j] == BOARD for j in field.beside(i))
        ]
        gone = [i for i in edge if is_board(i, _inward(field, middle, i, 4))]
        for i in gone:
            classes[i], mask[i] = BOARD, 0
        if not gone:
            return


def _dark_board(
    field: Field, mask: bytearray, inside: list[int], classes: bytearray, darkest: float
) -> None:
    """On a board as dark as bark keep only bark near the lean: the rest cannot be told apart."""
    board = [field.l[i] for i, on in enumerate(mask) if not on]
    if not board or median(board) > darkest:
        return
    near = {i for i in inside if classes[i] not in (BARK, BOARD)}
    kept, layer = set(near), near
    for _ in range(max(1, round(_THIN_BARK * len(near) ** 0.5))):
        layer = {j for i in layer for j in field.beside(i) if mask[j] and j not in kept}
        kept |= layer
    for i in inside:
        if classes[i] == BARK and i not in kept:
            classes[i], mask[i] = BOARD, 0


def _outside_bark(field: Field, mask: bytearray, inside: list[int], classes: bytearray) -> None:
    """Give back to the board what lies outside the bark."""
    edge = [i for i in inside if any(not mask[j] for j in field.beside(i))]
    if sum(classes[i] == BARK for i in edge) < 0.4 * len(edge):
        return
    _give_back(field, mask, inside, classes, 6, lambda i, way: any(classes[j] == BARK for j in way))


def _bright_fringe(field: Field, mask: bytearray, inside: list[int], classes: bytearray) -> None:
    """Give back a bright fringe too thin to be a layer of fat: it is board, blurred."""
    _give_back(
        field,
        mask,
        inside,
        classes,
        2,
        lambda i, way: classes[i] == FAT and all(classes[j] != FAT for j in way[1:3]),
    )


def _rim(field: Field, mask: bytearray, inside: list[int], classes: bytearray) -> None:
    """Cells between bark and board hold some of each: count them as bark."""
    edge = [i for i in inside if any(not mask[j] for j in field.beside(i))]
    for i in edge:
        if classes[i] != BARK and any(classes[j] == BARK for j in field.beside(i)):
            inward = [j for j in field.beside(i) if mask[j]]
            if sum(classes[j] == BARK for j in inward) >= 2 or len(inward) < 3:
                classes[i] = BARK


def _cure_classes(
    field: Field,
    lean: list[int],
    clean: set[int],
    ends: Levels,
    faint: float,
    blurred: bool,
    classes: bytearray,
) -> None:
    """Class each lean cell by its own and its neighbours' clean tones."""
    if not ends.two:
        only = {"cured": CURED, "pale": PALE}.get(ends.kind, GREY)
        for i in lean:
            classes[i] = only
        return
    turned: dict[int, float] = {}
    for i in lean:
        near = [field.s[j] for j in (i, *field.beside(i)) if j in clean]
        if near:
            turned[i] = ends.turned(median(near))
    waiting = [i for i in lean if i not in turned]
    for _ in range(6):
        rest = []
        for i in waiting:
            near = [turned[j] for j in field.beside(i) if j in turned]
            if near:
                turned[i] = sum(near) / len(near)
            else:
                rest.append(i)
        waiting = rest
    for _ in range(1 if faint < _NOISY else 3 if faint < 2 * _NOISY else 5):
        turned = _smoothed(field, turned)
    for i in lean:
        t = turned.get(i, ends.turned(field.s[i]))
        classes[i] = GREY if t < faint else CURED if t > 1.0 - faint else PALE
    _sharpen(field, lean, turned, blurred, classes)
    _without_specks(field, lean, classes)


def _without_specks(field: Field, lean: list[int], classes: bytearray) -> None:
    """Pale cells standing alone take the class of the cells around them."""
    before = bytes(classes)
    for i in lean:
        if before[i] == PALE:
            near = [before[j] for j in field.beside(i)]
            cured, grey = near.count(CURED), near.count(GREY)
            if near.count(PALE) <= 1 and cured != grey:
                classes[i] = CURED if cured > grey else GREY


def _smoothed(field: Field, turned: dict[int, float]) -> dict[int, float]:
    """Each cell the median of itself and the cells beside it, which keeps bounds sharp."""
    return {
        i: median([t, *(turned[j] for j in field.beside(i) if j in turned)])
        for i, t in turned.items()
    }


def _sharpen(
    field: Field, lean: list[int], turned: dict[int, float], blurred: bool, classes: bytearray
) -> None:
    """Divide pale strips too narrow to be told from a blurred bound."""
    before = bytes(classes)
    for i in lean:
        if before[i] != PALE:
            continue
        around = {before[j] for j in field.beside(i)}
        if blurred:
            around |= {before[k] for j in field.beside(i) for k in field.beside(j)}
        if CURED in around and GREY in around:
            classes[i] = CURED if turned.get(i, 0.5) > 0.5 else GREY
