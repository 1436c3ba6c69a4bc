"""Bark, gaps and fat on a cut face, told by light; what is left is lean."""

from collections.abc import Callable
from math import exp, log
from statistics import median

from app.colour.cell_classes import BARK, BOARD, FAT, GAP, GREY
from app.colour.field import Field
from app.colour.tone import split

# Judgements, in logarithms of light beside the lean: bark and gaps lie this far below, half
# bark there; fat above the third, and nothing is called fat below the fourth.
_DARKER, _HALF_DARK, _BRIGHTER, _LEAST_FAT = 0.95, -0.75, 0.32, 0.36
_DARK_BOARD, _THIN_BARK = 1.1, 0.04  # below the lean's log light; of the slice's width
_STREAK = 0.12  # of log light and of tone: a thin streak of fat
_RIM_ONLY = 1.1  # cells of bark to one of outline
_RIM_CELLS = 3  # bark begins no further than this from the outline


def mark_bark_and_fat(
    field: Field, mask: bytearray, inside: list[int], classes: bytearray
) -> set[int]:
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


def _rim(field: Field, mask: bytearray, inside: list[int], classes: bytearray) -> None:
    """Cells between bark and board hold some of each: count them as bark."""
    edge = [i for i in inside if any(not mask[j] for j in field.beside(i))]
    for i in edge:
        if classes[i] != BARK and any(classes[j] == BARK for j in field.beside(i)):
            inward = [j for j in field.beside(i) if mask[j]]
            if sum(classes[j] == BARK for j in inward) >= 2 or len(inward) < 3:
                classes[i] = BARK


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
    edge = sum(1 for i in inside if any(not mask[j] for j in field.beside(i)))
    if sum(classes[i] == BARK and i in kept for i in inside) < _RIM_ONLY * edge:
        kept = near  # a rim one cell thick is lean and board, mixed
    for i in inside:
        if classes[i] == BARK and i not in kept:
            classes[i], mask[i] = BOARD, 0


def _outside_bark(field: Field, mask: bytearray, inside: list[int], classes: bytearray) -> None:
    """Give back to the board what lies outside the bark."""
    edge = [i for i in inside if mask[i] and any(not mask[j] for j in field.beside(i))]
    if sum(classes[i] == BARK for i in inside) < 0.03 * len(inside):
        return
    reached = {i for i in edge if classes[i] not in (BARK, BOARD)}
    waiting = list(reached)
    for i in waiting:
        for j in field.beside(i):
            if mask[j] and j not in reached and classes[j] not in (BARK, BOARD):
                reached.add(j)
                waiting.append(j)
    if len(reached) < 0.3 * len(inside):
        # The bark is closed all round: whatever can be reached from outside is board.
        for i in reached:
            classes[i], mask[i] = BOARD, 0
        return
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
