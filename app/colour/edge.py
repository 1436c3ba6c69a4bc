"""Where, to less than a cell, a slice's edge lies between its own light and the board's."""

from app.colour.field import Field
from app.colour.lab import LINEAR
from app.colour.nine_points import POINTS

# Judgements: cells to either side at which the slice's and the board's own light is read, and
# how many times one must outshine the other for the edge to be told by it.
_AWAY, _OUTSHINES = 2.6, 1.3
_HALF = POINTS // 2


def settled(
    field: Field, mask: bytearray, points: list[list[int]], green: list[float]
) -> bytearray:
    """The mask with each cell along its edge given to the side most of its points belong to.

    A cell half slice and half dark board is by its logarithm, by which regions are made, far
    nearer to the slice; its points, held against half the light of both, tell it right.

    Parameters
    ----------
    field : the picture's grid
    mask : the slice
    points : nine points of green in each cell [0-255]
    green : linear green of each cell [1]

    Returns
    -------
    Mask, changed by at most one cell to either side
    """
    w, h = field.columns, field.rows
    out = bytearray(mask)
    for i in range(w * h):
        own = mask[i]
        if all(mask[j] == own for j in field.beside(i)):
            continue
        x, y = i % w, i // w
        dx = dy = 0
        for oy in range(-2, 3):
            for ox in range(-2, 3):
                if 0 <= x + ox < w and 0 <= y + oy < h and mask[i + oy * w + ox]:
                    dx += ox
                    dy += oy
        far = (dx * dx + dy * dy) ** 0.5
        if far < 3.0:
            continue
        ax, ay = round(_AWAY * dx / far), round(_AWAY * dy / far)
        if not (0 <= x + ax < w and 0 <= x - ax < w and 0 <= y + ay < h and 0 <= y - ay < h):
            continue
        within, beyond = i + ay * w + ax, i - ay * w - ax
        if not mask[within] or mask[beyond]:
            continue
        meat, board = green[within], green[beyond]
        half = 0.5 * (meat + board)
        brighter = sum([LINEAR[levels[i]] > half for levels in points])
        if meat > _OUTSHINES * board:
            # Dark cells two deep are no blurred edge but bark.
            behind = i + round(dy / far) * w + round(dx / far)
            if brighter > _HALF or green[behind] > half:
                out[i] = brighter > _HALF
        elif board > _OUTSHINES * meat:
            out[i] = brighter <= _HALF
    return out
