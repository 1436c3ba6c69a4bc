"""Bark, gaps and fat on a cut face, told by light; what is left is lean."""

from collections.abc import Callable
from math import exp, log
from statistics import median

from app.colour.bits import edge_cells
from app.colour.cell_classes import BARK, BOARD, FAT, GAP, GREY
from app.colour.field import Field
from app.colour.lab import LINEAR
from app.colour.makeup import DARKER, Makeup
from app.colour.nine_points import POINTS, count_above, level_of

# Judgements, in logarithms of light beside the lean: bark and gaps lie this far below, half
# bark there; fat above the third, and nothing is called fat below the fourth.
_HALF_DARK, _LEAST_DARK = -0.75, -0.3
_FAT_OVER_LEAN, _WHITE = 1.7, 0.98  # least fat to lean in green; green of what is blown out
_SPAN_OF_NINE, _BEYOND_GRAIN = 2.97, 2.5  # of nine normal deviates; deviations that no grain makes
_RIM_CELLS = 3  # bark begins no further than this from the outline


def mark_bark_and_fat(
    field: Field,
    mask: bytearray,
    inside: list[int],
    made_of: Makeup,
    points: list[list[int]],
    seen: set[int],
    classes: bytearray,
) -> dict[int, float]:
    """Mark bark, gaps and fat; all else grey for the time being.

    `seen` are cells already known as bark.

    Returns the share of fat in the cells that hold some, as their nine points tell
    """
    excess = made_of.excess
    dark = {i for i in inside if excess[i] < -DARKER}
    edge = edge_cells(field, mask)
    rim = set(edge)
    rim |= {i for i in inside if len(field.beside(i)) < 4}
    for _ in range(_RIM_CELLS):
        rim |= {j for i in rim for j in field.beside(i) if mask[j]}
    bark = list({i for i in dark if i in rim} | seen)
    found = set(bark)
    for i in bark:
        for j in field.beside(i):
            if j in dark and j not in found:
                found.add(j)
                bark.append(j)
    # Half bark, half lean is still this dark; such cells lie along the bark on both sides.
    half = _HALF_DARK
    if len(bark) > 12:
        half = log(0.5 + 0.5 * exp(median(excess[i] for i in bark)))
        half = min(_LEAST_DARK, half + min(0.0, min(tone.light for tone in made_of.lean)))
    for _ in range(2):
        for i in list(found):
            for j in field.beside(i):
                if mask[j] and j not in found and excess[j] < half:
                    found.add(j)
    share = _fat_shares(
        field, [i for i in inside if i not in found and i not in dark], made_of, points
    )
    for i in inside:
        if i in found:
            classes[i] = BARK
        elif i in dark:
            classes[i] = GAP
        else:
            classes[i] = FAT if share.get(i, 0.0) > 0.5 else GREY
    _rim(field, mask, edge, classes)
    _outside_bark(field, mask, inside, edge, classes)
    _bright_fringe(field, mask, inside, edge, classes)
    return {i: part for i, part in share.items() if classes[i] in (FAT, GREY)}


def _fat_shares(
    field: Field, cells: list[int], made_of: Makeup, points: list[list[int]]
) -> dict[int, float]:
    """Share of fat in each cell that holds some: points nearer to fat than to lean in light."""
    lamp, s = made_of.lamp, field.s
    fat = made_of.fat_green
    grain = _grain(cells, points)
    if fat is None:
        fat = _streaks_green(field, cells, made_of, points, grain)
    bounds = {}
    for i in cells:
        lean = made_of.lean_green(s[i])
        bright = max(fat, _FAT_OVER_LEAN * lean) * lamp[i]
        # Nothing is brighter than white: there fat stands out less.
        half = level_of(0.5 * (lean * lamp[i] + min(bright, _WHITE)))
        bounds[i] = max(half, level_of(lean * lamp[i]) + round(_BEYOND_GRAIN * grain))
    return {i: count / POINTS for i, count in count_above(points, bounds).items() if count}


def _grain(cells: list[int], points: list[list[int]]) -> float:
    """Usual deviation of single points within a cell, in levels [0-255]."""
    spans = []
    for i in cells[::7]:
        levels = [one[i] for one in points]
        spans.append(max(levels) - min(levels))
    return median(spans) / _SPAN_OF_NINE if spans else 0.0


def _streaks_green(
    field: Field, cells: list[int], made_of: Makeup, points: list[list[int]], grain: float
) -> float:
    """Green of fat that lies only in streaks thinner than a cell, by their brightest points."""
    bright = []
    for i in cells:
        lean = made_of.lean_green(field.s[i]) * made_of.lamp[i]
        level = max([levels[i] for levels in points])
        if LINEAR[level] > _FAT_OVER_LEAN * lean and level > level_of(lean) + 4.5 * grain:
            bright.append(LINEAR[level] / made_of.lamp[i])
    return median(bright) if len(bright) > 5 else 0.0


def _rim(field: Field, mask: bytearray, edge: list[int], classes: bytearray) -> None:
    """Cells between bark and board hold some of each: count them as bark."""
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
    edge: list[int],
    classes: bytearray,
    layers: int,
    is_board: Callable[[int, list[int]], bool],
) -> None:
    """Make board of edge cells for which the test holds, layer by layer."""
    middle = _middle(field, inside)
    near = edge
    for _ in range(layers):
        gone = [
            i
            for i in near
            if classes[i] not in (BOARD, BARK)
            and any(classes[j] == BOARD for j in field.beside(i))
            and is_board(i, _inward(field, middle, i, 4))
        ]
        for i in gone:
            classes[i], mask[i] = BOARD, 0
        if not gone:
            return
        near = [*edge, *{j for i in gone for j in field.beside(i) if mask[j]}.difference(edge)]


def _outside_bark(
    field: Field, mask: bytearray, inside: list[int], edge: list[int], classes: bytearray
) -> None:
    """Give back to the board what lies outside the bark."""
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
    _give_back(
        field,
        mask,
        inside,
        edge,
        classes,
        6,
        lambda i, way: any(classes[j] == BARK for j in way),
    )


def _bright_fringe(
    field: Field, mask: bytearray, inside: list[int], edge: list[int], classes: bytearray
) -> None:
    """Give back a bright fringe too thin to be a layer of fat: it is board, blurred."""
    _give_back(
        field,
        mask,
        inside,
        edge,
        classes,
        2,
        lambda i, way: classes[i] == FAT and all(classes[j] != FAT for j in way[1:3]),
    )
