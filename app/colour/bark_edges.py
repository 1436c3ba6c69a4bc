"""Where bark ends: inward by red light, in which a smoke ring is as light as cured meat.

Cured meat at L* 50, a* 22 and a smoke ring at L* 45, a* 31 both have a linear red of 0.35, bark at
L* 18 has 0.04; in green or in luma the ring lies between the two (worked out from those colours).
"""

from math import hypot

from app.colour.cell_classes import BARK, BOARD, FAT, GREY
from app.colour.field import Field
from app.colour.nine_points import POINTS, Points

_PLACES = [(x, y) for y in (-1, 0, 1) for x in (-1, 0, 1)]
_THIRD = 2  # the third darkest of nine points: bark's own light, but no crumb's
_BOUND = 0.45  # of the way from bark's red light to the lean's (judgement)
_LEAST_BARK, _CLEAR = 12, 0.55  # cells of bark; bark's red light of the lean's, at most

# Board: so many cells further out, so much lighter than bark, nearer to its light than to bark's by
# so much of the way, about half of it as the eye sees it; and so many layers of cells may be shade
# (judgements).
_AWAY, _OUTSHINES, _SHADE, _LAYERS = 4, 1.8, 0.25, 2
# Where the board's log R/G is below that of any bark, shade on it is told by its colour too: so
# many layers of it, as far from the board's colour at most, more where that is strong, since the
# dimmest channel drowns in noise, and darker by no more than so much log light (judgements).
_NO_BARK, _COLOURED_LAYERS, _LIKE_BOARD, _BY_STRENGTH, _DEEPEST = 0.12, 6, 0.15, 0.5, 1.0


def lean_under_bark(
    field: Field,
    mask: bytearray,
    classes: bytearray,
    points: Points,
) -> dict[int, float]:
    """Class bark cells that are red inside as lean, and tell how much of each cell is lean.

    Lean's red light is carried outward from behind the bark; a point of a cell is bark where its
    red light is nearer to bark's

    Parameters
    ----------
    field : tones of the picture
    mask : the slice
    classes : class of each cell, lean as grey; changed
    points : the picture's light within cells

    Returns
    -------
    Share of lean in the cells of bark and beside it [0-1]; empty where no bark is seen
    """
    own = _carried(field, mask, classes, points)
    bark = {i: points.reds(i) for i in own if classes[i] == BARK}
    if len(bark) < _LEAST_BARK:
        return {}
    parts = sorted(sorted(levels)[_THIRD] / (own[i] + 1e-6) for i, levels in bark.items())
    dark = parts[len(parts) // 4]  # half of them and more may be smoke ring
    if dark > _CLEAR:
        return {}
    part = dark + _BOUND * (1.0 - dark)
    share: dict[int, float] = {}
    for i, levels in bark.items():
        out = _outward(field, mask, classes, i)
        bound = part * own[i]
        lean = [
            level > bound and (out is None or out[0] * dx + out[1] * dy < 0.0)
            for level, (dx, dy) in zip(levels, _PLACES, strict=True)
        ]
        share[i] = sum(lean) / POINTS
    beside = {j for i in bark for j in field.beside(i) if classes[j] == GREY and j in own}
    for i in beside:
        bound = part * own[i]
        share[i] = sum([level > bound for level in points.reds(i)]) / POINTS
    for i, lean_share in share.items():
        classes[i] = GREY if lean_share > 0.5 else BARK
    return share


def give_back_shade(
    field: Field,
    mask: bytearray,
    classes: bytearray,
    points: Points,
) -> None:
    """Give cells at the outline that are board in the bark's shade back to the board.

    A point on the outer side of a cell is board where its light is nearer to the board's, some
    cells further out, than to bark's; a cell is board where most of its points are, or where it
    has the colour of a board that is less red than bark

    Parameters
    ----------
    field : tones of the picture
    mask, classes : the slice, and the class of each cell; changed
    points : the picture's light within cells
    """
    bark = [i for i, kind in enumerate(classes) if kind == BARK]
    if len(bark) < _LEAST_BARK:
        return
    some = sorted(sorted(points.lumas(i))[_THIRD] for i in bark[::5])
    dark = some[len(some) // 4]
    for layer in range(_COLOURED_LAYERS):
        gone = []
        for i in bark:
            out = _outward(field, mask, classes, i) if classes[i] == BARK else None
            board = _further_out(field, mask, i, out) if out is not None else None
            if board is None or out is None:
                continue
            shade = _shade_by_colour(field, i, board)
            if shade or (layer < _LAYERS and _shade_by_light(points, i, out, board, dark)):
                gone.append(i)
        for i in gone:
            mask[i], classes[i] = 0, BOARD


def _shade_by_light(
    points: Points, i: int, out: tuple[float, float], board: int, dark: float
) -> bool:
    """Whether most of a cell's points lie outward and are nearer to the board's light than to
    bark's."""
    light = sum(points.lumas(board)) / POINTS
    if light < _OUTSHINES * dark:
        return False
    bound = dark + _SHADE * (light - dark)
    beyond = [
        level > bound and out[0] * dx + out[1] * dy >= 0.0
        for level, (dx, dy) in zip(points.lumas(i), _PLACES, strict=True)
    ]
    return 2 * sum(beyond) > POINTS


def _shade_by_colour(field: Field, i: int, board: int) -> bool:
    """Whether a cell has the colour of a board that bark cannot have, no darker than in shade."""
    if field.u[board] > _NO_BARK or field.l[board] - field.l[i] > _DEEPEST:
        return False
    near = (board, *field.beside(board))
    u, v = (sum(ratio[j] for j in near) / len(near) for ratio in (field.u, field.v))
    off = hypot(field.u[i] - u, field.v[i] - v)
    return off < _LIKE_BOARD + _BY_STRENGTH * hypot(u, v)


def _further_out(field: Field, mask: bytearray, i: int, out: tuple[float, float]) -> int | None:
    """The cell some way further out; None where that is no board or beyond the picture."""
    far = hypot(*out)
    if not far:
        return None
    x = i % field.columns + round(_AWAY * out[0] / far)
    y = i // field.columns + round(_AWAY * out[1] / far)
    if not (0 <= x < field.columns and 0 <= y < field.rows):
        return None
    j = y * field.columns + x
    return None if mask[j] else j


def _outward(
    field: Field, mask: bytearray, classes: bytearray, i: int
) -> tuple[float, float] | None:
    """The way from the slice to the board at a cell that touches the board; None further in."""
    w = field.columns
    x, y = i % w, i // w
    across = down = 0.0
    outside = False
    for dx, dy in _PLACES:
        if not (0 <= x + dx < w and 0 <= y + dy < field.rows):
            continue
        j = i + dy * w + dx
        if not mask[j]:
            outside = True
            across += dx
            down += dy
        elif classes[j] in (GREY, FAT):
            across -= dx
            down -= dy
    return (across, down) if outside else None


def _carried(field: Field, mask: bytearray, classes: bytearray, points: Points) -> dict[int, float]:
    """Red light of what lies behind the bark, there and carried outward through it."""
    layers = [{i for i, kind in enumerate(classes) if kind == BARK}]
    near = set(layers[0])
    for _ in range(3):
        layers.append(
            {
                j
                for i in layers[-1]
                for j in field.beside(i)
                if mask[j] and j not in near and classes[j] in (GREY, FAT)
            }
        )
        near |= layers[-1]
    # What touches the bark is half of it.
    carried = {i: sum(points.reds(i)) / POINTS for i in layers[2] | layers[3]}
    waiting = list(carried)
    while waiting:
        new: dict[int, float] = {}
        for i in waiting:
            for j in field.beside(i):
                if j in near and j not in carried and j not in new:
                    found = [carried[k] for k in field.beside(j) if k in carried]
                    new[j] = sum(found) / len(found)
        carried.update(new)
        waiting = list(new)
    return carried
