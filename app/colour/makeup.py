"""What tones a cut face is made of: its lean, its fat, and the lamp's falling off over both."""

from math import exp, log
from statistics import median

from attrs import frozen

from app.colour.field import Field
from app.colour.plateaus import Plateau, plateaus

# Judgements, in logarithms of light: what lies this far below the lean is bark or a gap; fat
# lies this far above it, or a little less far where it is duller than all lean.
DARKER = 0.95
_FAT_ABOVE = 0.30
# Of cure tone, and of the way to the reddest lean where it is surely light enough and where not: a
# pale core may be that much lighter than cured meat. In daylight cream is no redder than the last.
_AS_DULL, _MIXED, _MIXED_DIM, _NO_CREAM = 0.12, 0.4, 0.3, 0.4
# Grey lean may be far lighter than cured, but not in red light, where fat still is; with red at
# its end fat must stand out more, unless all of it is at its end. Half way to its end red is
# still recorded in full; from there on less and less.
_RED_ABOVE, _HALF_WAY, _AT_ITS_END = (0.30, 0.06), 0.55, 0.93
_ABOVE_WITHOUT_RED, _ABOVE_WHITE = 0.55, 0.2
# In daylight cream is less red than grey lean: a cure tone below this, the lighter the surer.
_CREAM, _CREAM_BY_LIGHT, _FAT_LIGHT = 0.16, 0.4, 0.8
# What lies less than the second above the lean and so much below nearly the brightest of the face
# is light lean beside fat; plateaus of one cure tone lie nearer than this.
_BRIGHTEST, _SURELY_FAT, _DIMMER, _ONE_TONE = 0.98, 0.8, 0.3, 0.06
_DARK = 1e-4  # light added, so that none is nothing
_ONE_IN = 3  # one cell in so many is enough to tell how the lamp falls off
# Cells within one tone: up to so many times the roughness of the smoothest third, and at most
# this share of all.
_ROUGHER, _LEAST_ROUGH, _EVEN = 2.0, 0.05, 0.75


@frozen
class Makeup:
    """The tones of a face.

    `excess` is each cell's log light with the lamp's falling off taken out, `lamp` that falling
    off as a factor on light; `lean` the plateaus of lean from dull to red, `greens` their linear
    green; `fat_green` the linear green of pure fat, None where there is none.
    """

    excess: dict[int, float]
    lamp: dict[int, float]
    lean: tuple[Plateau, ...]
    greens: tuple[float, ...]
    fat_green: float | None
    noise: float

    def lean_green(self, s: float) -> float:
        """Linear green of lean of a cure tone, between the plateaus' [1]."""
        tones, greens = self.lean, self.greens
        if s <= tones[0].s:
            return greens[0]
        for k in range(1, len(tones)):
            if s < tones[k].s:
                part = (s - tones[k - 1].s) / (tones[k].s - tones[k - 1].s)
                return greens[k - 1] + part * (greens[k] - greens[k - 1])
        return greens[-1]


def makeup(
    field: Field, inside: list[int], red: list[float], green: list[float], balanced: bool = False
) -> Makeup | None:
    """The tones of a face, from the cells inside its outline.

    Parameters
    ----------
    field : tones of the picture
    inside : cells inside the outline
    red, green : linear red and green of each cell, as recorded [1]
    balanced : whether the field's tones are those of daylight

    Returns
    -------
    Makeup; None where nothing holds together as lean
    """
    usual = median(field.l[i] for i in inside)
    lit = [i for i in inside if field.l[i] > usual - DARKER]
    usual = median(field.l[i] for i in lit)
    some = [(i, field.l[i]) for i in lit[::_ONE_IN] if abs(field.l[i] - usual) < 0.6]
    plane = _plane(field, some)
    excess = _without(field, inside, plane)
    even, noise = _even(field, lit, excess)
    if len(even) < 12:
        return None
    found = plateaus(_steadied(field, even, excess), 0.45 * noise)
    if not found:
        return None
    # Once more, now that each cell can be held against its own tone.
    off = [(i, field.l[i] - tone.light) for tone in found for i in tone.cells[::_ONE_IN]]
    plane = _plane(field, off)
    excess = _without(field, inside, plane)
    w = field.columns
    lamp = {i: exp(plane[0] * (i % w) + plane[1] * (i // w) + plane[2]) for i in inside}
    found = [_with_light(tone, excess) for tone in found]
    by_light = sorted(excess[i] for i in inside)
    brightest = by_light[int(_BRIGHTEST * (len(by_light) - 1))]
    lean, fat = _told_apart(found, red, green, lamp, balanced, brightest)
    lean = _one_each(lean)
    if not lean:
        return None
    greens = tuple(median(green[i] / lamp[i] for i in tone.cells) for tone in lean)
    return Makeup(
        excess,
        lamp,
        tuple(lean),
        greens,
        median(green[i] / lamp[i] for tone in fat for i in tone.cells) if fat else None,
        noise,
    )


def _with_light(tone: Plateau, excess: dict[int, float]) -> Plateau:
    return Plateau(tone.s, median(excess[i] for i in tone.cells), tone.share, tone.cells)


def _without(field: Field, cells: list[int], plane: tuple[float, float, float]) -> dict[int, float]:
    a, b, c = plane
    w, light = field.columns, field.l
    return {i: light[i] - a * (i % w) - b * (i // w) - c for i in cells}


def _plane(field: Field, values: list[tuple[int, float]]) -> tuple[float, float, float]:
    """Plane through most of the values: the lamp's own falling off."""
    used = values
    a = b = c = 0.0
    for turn in range(3):
        if len(used) < 10:
            break
        n = len(used)
        xs = [i % field.columns for i, _ in used]
        ys = [i // field.columns for i, _ in used]
        ls = [value for _, value in used]
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
        if turn < 2:
            used = [one for one, z in zip(used, off, strict=True) if abs(z - middle) < 0.3]
    return a, b, c


def _even(field: Field, lit: list[int], excess: dict[int, float]) -> tuple[list[int], float]:
    """Cells that differ least from those beside them, and the usual difference in cure tone."""
    own, s = set(lit), field.s
    rough: list[tuple[float, int]] = []
    for i in lit:
        worst, light, tone = 0.0, excess[i], s[i]
        for j in field.beside(i):
            if j not in own:
                worst = 9.0
                break
            step = max(abs(excess[j] - light), abs(s[j] - tone))
            if step > worst:
                worst = step
        if worst < 9.0:
            rough.append((worst, i))
    rough.sort()
    most = max(_LEAST_ROUGH, _ROUGHER * rough[len(rough) // 3][0]) if rough else 0.0
    even = [i for worst, i in rough[: int(_EVEN * len(rough))] if worst <= most]
    steps = [abs(s[i] - s[i + 2]) for i in even if i + 2 in own]
    return even, median(steps) if steps else 0.0


def _steadied(
    field: Field, even: list[int], excess: dict[int, float]
) -> dict[int, tuple[float, float]]:
    """Each cell's cure tone and light as the mean over itself and those beside it."""
    s = field.s
    out = {}
    for i in even:
        near = field.beside(i)
        n = len(near) + 1
        out[i] = (
            (s[i] + sum([s[j] for j in near])) / n,
            (excess[i] + sum([excess[j] for j in near])) / n,
        )
    return out


def _one_each(lean: list[Plateau]) -> list[Plateau]:
    """Of plateaus of one cure tone, such as one in shade, that which holds most."""
    kept: list[Plateau] = []
    for tone in lean:
        if kept and tone.s - kept[-1].s < _ONE_TONE:
            if tone.share > kept[-1].share:
                kept[-1] = tone
        else:
            kept.append(tone)
    return kept


def _told_apart(
    found: list[Plateau],
    red: list[float],
    green: list[float],
    lamp: dict[int, float],
    balanced: bool,
    brightest: float,
) -> tuple[list[Plateau], list[Plateau]]:
    """Lean and fat among the plateaus: fat is lighter than most, also in red light, and dull."""
    by_light = sorted(found, key=lambda tone: tone.light)
    half, usual = 0.5 * sum(tone.share for tone in found), by_light[-1].light
    for tone in by_light:
        half -= tone.share
        if half <= 0.0:
            usual = tone.light
            break
    common = [tone for tone in found if tone.light - usual < _FAT_ABOVE]
    dullest = min(tone.s for tone in common)
    reddest = max(tone.s for tone in common)
    reds = [(tone.s, median(red[i] / lamp[i] for i in tone.cells)) for tone in common]
    lean: list[Plateau] = []
    fat: list[Plateau] = []
    for tone in found:
        above = tone.light - usual
        mixed = _MIXED if above > _SURELY_FAT else _MIXED_DIM
        dull = tone.s < dullest + max(_AS_DULL, mixed * (reddest - dullest))
        dull &= above > _SURELY_FAT or not balanced or tone.s < _NO_CREAM
        own = median(red[i] for i in tone.cells)
        if own < _AT_ITS_END:
            part = max(0.0, own - _HALF_WAY) / (_AT_ITS_END - _HALF_WAY)
            least = _RED_ABOVE[0] + part * (_RED_ABOVE[1] - _RED_ABOVE[0])
            if balanced and tone.s < _CREAM + _CREAM_BY_LIGHT * (above - _FAT_LIGHT):
                least = _RED_ABOVE[1]
            # Beside the lean most like it: cured meat may be as red-bright as a light grey core.
            near = min(reds, key=lambda pair: abs(pair[0] - tone.s))[1]
            redder = log((median(red[i] / lamp[i] for i in tone.cells) + _DARK) / (near + _DARK))
            fatty = above > _FAT_ABOVE and redder > least
        else:
            white = median(green[i] for i in tone.cells) > _AT_ITS_END
            fatty = above > (_ABOVE_WHITE if white else _ABOVE_WITHOUT_RED)
        dim = above < _SURELY_FAT and tone.light < brightest - _DIMMER
        (fat if fatty and dull and not dim else lean).append(tone)
    return lean, fat
