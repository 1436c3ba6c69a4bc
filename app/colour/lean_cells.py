"""Cured, pale and grey cells among the lean of a cut face."""

from statistics import median

from app.colour.cell_classes import BARK, CURED, GREY, PALE
from app.colour.field import Field
from app.colour.tone import Levels

_REDDISH, _NEARLY_CURED = 0.55, 0.85  # of the way from grey to cured
_REDDER_OUTSIDE = 0.2  # of the way: surely more than what lies further in
_NOISY = 0.17  # faintest pink above which tones are smoothed more


def clean_cells(field: Field, lean: list[int], classes: bytearray, margin: int) -> list[int]:
    """Lean cells whose tone is their own: no bark beside them, and nothing lighter nearby.

    JPEG spreads the colour of fat and board over `margin` cells; bark has too little light.
    """
    beside_bark, soiled = set(), set()
    for i in lean:
        for j in field.beside(i):
            if classes[j] == BARK:
                beside_bark.add(i)
            elif classes[j] != GREY:
                soiled.add(i)
    layers = [[i for i in lean if i not in soiled and i not in beside_bark]]
    for _ in range(margin - 1):
        soiled |= {j for i in soiled for j in field.beside(i) if classes[j] == GREY}
        layers.append([i for i in layers[-1] if i not in soiled])
    for layer in reversed(layers):
        if len(layer) > 0.15 * len(lean):
            return layer
    return layers[0]


def tone_noise(field: Field, clean: list[int], ends: Levels) -> float:
    """Usual difference of clean cells two apart, of the way from grey to cured."""
    own = set(clean)
    steps = [
        abs(ends.turned(field.s[i]) - ends.turned(field.s[i + 2])) for i in clean if i + 2 in own
    ]
    return median(steps) if len(steps) > 10 else 0.1


def redder_than_it_looks(
    field: Field, clean: list[int], clipped: list[int], ends: Levels, even: bool
) -> None:
    """Take reddish cells whose red is at its end for cured.

    Not so where an `even` pale tone was seen and red is at its end all over the cured meat: there
    green alone still tells pale from cured.
    """
    red = [i for i in clean if ends.turned(field.s[i]) > _REDDISH]
    cured = [i for i in red if ends.turned(field.s[i]) > _NEARLY_CURED]
    if even and 2 * sum(clipped[i] for i in cured) > len(cured):
        return
    for i in red:
        if clipped[i]:
            field.s[i] = max(field.s[i], ends.cured)


def turned_of(
    field: Field, lean: list[int], clean: set[int], ends: Levels, faint: float
) -> dict[int, float]:
    """How far each lean cell has turned, by its own and its neighbours' clean tones.

    At the edges, where no cell is clean, as the lean further in; but what is redder than that is
    so by itself, since neither fat nor board nor bark is as red as cured meat.
    """
    turned: dict[int, float] = {}
    whole = set(lean)
    for i in lean:
        near = [field.s[j] for j in (i, *field.beside(i)) if j in clean]
        if near:
            turned[i] = ends.turned(_middle(near))
    waiting = [i for i in lean if i not in turned]
    for _ in range(6):
        rest = []
        for i in waiting:
            near = [turned[j] for j in field.beside(i) if j in turned]
            if near:
                inward = sum(near) / len(near)
                own = ends.turned(
                    _middle([field.s[j] for j in (i, *field.beside(i)) if j in whole])
                )
                turned[i] = own if own > inward + _REDDER_OUTSIDE else inward
            else:
                rest.append(i)
        waiting = rest
    for i in waiting:
        turned[i] = ends.turned(field.s[i])
    for _ in range(0 if faint < _NOISY else 2 if faint < 2 * _NOISY else 4):
        turned = _smoothed(field, turned)
    return turned


def mark_cured(
    field: Field,
    lean: list[int],
    turned: dict[int, float],
    bounds: tuple[float, float],
    classes: bytearray,
) -> None:
    """Class each lean cell by how far it has turned: grey, pale or cured."""
    grey, cured = bounds
    for i in lean:
        t = turned[i]
        classes[i] = GREY if t < grey else CURED if t >= cured else PALE
    if grey < cured:
        _without_specks(field, lean, classes)


def mark_single(lean: list[int], ends: Levels, classes: bytearray) -> None:
    """Class all lean cells alike."""
    only = {"cured": CURED, "pale": PALE}.get(ends.kind, GREY)
    for i in lean:
        classes[i] = only


def _smoothed(field: Field, turned: dict[int, float]) -> dict[int, float]:
    """Each cell the median of itself and the cells beside it, which keeps bounds sharp."""
    out = {}
    for i, t in turned.items():
        near = [turned[j] for j in field.beside(i) if j in turned]
        near.append(t)
        out[i] = _middle(near)
    return out


def _middle(few: list[float]) -> float:
    """Median of a few numbers, quicker than the library's for many such."""
    few.sort()
    half = len(few) // 2
    return few[half] if len(few) % 2 else 0.5 * (few[half - 1] + few[half])


def _without_specks(field: Field, lean: list[int], classes: bytearray) -> None:
    """Pale cells standing alone take the class of the cells around them."""
    before, w, n = bytes(classes), field.columns, len(classes)
    for i in lean:
        if before[i] == PALE:
            square = (i - w - 1, i - w, i - w + 1, i - 1, i + 1, i + w - 1, i + w, i + w + 1)
            near = [before[j] for j in square if 0 <= j < n]
            cured, grey = near.count(CURED), near.count(GREY)
            if near.count(PALE) <= 3 and max(cured, grey) >= 4:
                classes[i] = CURED if cured > grey else GREY
