"""The whole cut face: which part of it is cured, pale, grey, fat and bark."""

from math import exp, log
from statistics import median

from attrs import field as attribute
from attrs import frozen

from app.colour import outline as outlines
from app.colour import pixels
from app.colour.outline import Field
from app.colour.pixels import Bytes, Point
from app.colour.regions import divide
from app.colour.tone import Levels, levels, tone
from app.colour.white_point import Rgb, from_neutral

CELLS = 110
"""Cells along the longer side: enough for four points of a share, few enough for a phone."""

BOARD, BARK, FAT, GREY, PALE, CURED, GAP = range(7)
NAMES = {"cured": CURED, "pale": PALE, "grey": GREY, "fat": FAT, "bark": BARK}

_LIGHT_WEIGHT = 0.3  # log light beside log ratio when regions are made: shade changes light
_DARKER, _BRIGHTER = 0.95, 0.32  # as on a line: bark and gaps, fat and glare
_GREY_BELOW, _CURED_ABOVE = 0.22, 0.78
_BLACK, _BLOWN = 0.0035, 0.55


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
    white = from_neutral(neutral_rgb) if neutral_rgb is not None else None
    gains = white.gains if white is not None else (1.0, 1.0, 1.0)
    grid = pixels.grid(rgba, width, height, CELLS)
    lights = [
        (r * gains[0], g * gains[1], b * gains[2])
        for r, g, b in zip(grid.red, grid.green, grid.blue, strict=True)
    ]
    floor = 0.015 * median(grid.green) + 1e-5
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
    if median(max(lights[i]) for i in inside) < _BLACK:
        return _unknown("Too dark: nothing of the cut face can be seen.")
    classes = bytearray(len(mask))
    _dark_and_fat(field, mask, inside, classes)
    lean = [i for i in inside if classes[i] == GREY]
    clean = [i for i in lean if all(classes[j] == GREY for j in field.beside(i))]
    if len(clean) < 12 or len(lean) < 0.2 * len(inside):
        return _unknown("Hardly any lean meat in this outline.")
    ends = levels([(field.s[i], lights[i]) for i in clean], white)
    if ends.kind == "not meat" and white is not None and white.known:
        return _unknown("No cut face here: this is not the colour of meat.")
    _cure_classes(field, lean, set(clean), ends, classes)
    counts = {name: classes.count(number) for name, number in NAMES.items()}
    whole = sum(counts.values())
    part = {name: 100.0 * count / whole for name, count in counts.items()}
    return CutFace(
        part["cured"],
        part["pale"],
        part["grey"],
        part["fat"],
        part["bark"],
        ends.certainty,
        "",
        outlines.polygon(field, mask, grid.step),
        grid.columns,
        grid.rows,
        grid.step,
        bytes(classes),
    )


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


def _dark_and_fat(field: Field, mask: bytearray, inside: list[int], classes: bytearray) -> None:
    """Mark bark, gaps and fat; all else grey for the time being."""
    w = field.columns
    usual = median(field.l[i] for i in inside)
    lit = [i for i in inside if field.l[i] > usual - _DARKER]
    usual = median(field.l[i] for i in lit)
    a, b, c = _slope(field, [i for i in lit if abs(field.l[i] - usual) < 0.6])
    excess = {i: field.l[i] - a * (i % w) - b * (i // w) - c for i in inside}
    dark = {i for i in inside if excess[i] < -_DARKER}
    bark = [
        i for i in dark if any(not mask[j] for j in field.beside(i)) or len(field.beside(i)) < 4
    ]
    found = set(bark)
    for i in bark:
        for j in field.beside(i):
            if j in dark and j not in found:
                found.add(j)
                bark.append(j)
    bright = sorted(x for x in excess.values() if x > _BRIGHTER)
    fattest = bright[(3 * len(bright)) // 4] if len(bright) > 12 else 0.0
    bound = max(_BRIGHTER, log(0.5 + 0.5 * exp(fattest)))
    for i in inside:
        if i in found:
            classes[i] = BARK
        elif i in dark:
            classes[i] = GAP
        else:
            classes[i] = FAT if excess[i] > bound else GREY


def _cure_classes(
    field: Field, lean: list[int], clean: set[int], ends: Levels, classes: bytearray
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
    for i in lean:
        t = turned.get(i, ends.turned(field.s[i]))
        classes[i] = GREY if t < _GREY_BELOW else CURED if t > _CURED_ABOVE else PALE
    _sharpen(field, lean, turned, classes)


def _sharpen(field: Field, lean: list[int], turned: dict[int, float], classes: bytearray) -> None:
    """Divide pale strips too narrow to be told from a blurred bound."""
    w, n = field.columns, len(classes)
    before = bytes(classes)
    for i in lean:
        if before[i] != PALE:
            continue
        x = i % w
        around = {
            before[i + dy * w + dx]
            for dy in (-2, -1, 0, 1, 2)
            for dx in (-2, -1, 0, 1, 2)
            if 0 <= x + dx < w and 0 <= i + dy * w < n
        }
        if CURED in around and GREY in around:
            classes[i] = CURED if turned.get(i, 0.5) > 0.5 else GREY
