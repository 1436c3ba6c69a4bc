"""What a closed dark line goes round: bark is darker than the meat behind it and most boards."""

from collections.abc import Iterator

from app.colour.field import Field

# A cell lies on a dark line when it is so much darker, in log light, than what lies so many cells
# to both sides of it; gaps in a line are closed by so many cells from either side (judgements).
_DEPTHS = (1.0, 0.7, 0.45, 0.3)
_SIDES = (2, 4)
_WIDER = (0, 1, 2)
_LINE_CELLS = 4  # of the line's width that belong to what it goes round
_LEAST_AREA, _MOST_AREA = 0.03, 0.85  # of the picture
_OPEN, _OUTSIDE, _LINE, _COUNTED = range(4)


def enclosed(field: Field) -> Iterator[bytearray]:
    """The largest piece that a closed dark line goes round, the deepest line's first.

    A cell's depth is how much darker it is than the darker of the cells to both sides, across,
    down or along a diagonal; what cannot be reached from the border without crossing a line of
    that depth is enclosed. Lines with gaps come after those without

    Parameters
    ----------
    field : tones of the picture

    Returns
    -------
    Masks with the line itself, each found when it is asked for; none where no line is closed
    """
    depth = _depths(field)
    for wider in _WIDER:
        for least in _DEPTHS:
            mask = _within(field, depth, least, wider)
            if mask is not None:
                yield mask


def _depths(field: Field) -> list[float]:
    w, light = field.columns, field.l
    n = len(light)
    depth = [0.0] * n
    for far in _SIDES:
        for way in (far, far * w, far * (w + 1), far * (w - 1)):
            if 2 * way < n:
                depth[way : n - way] = [
                    m if (m := (a if a < b else b) - c) > d else d
                    for a, b, c, d in zip(
                        light, light[2 * way :], light[way:], depth[way:], strict=False
                    )
                ]
    return depth


def _within(field: Field, depth: list[float], least: float, wider: int) -> bytearray | None:
    w, n, around = field.columns, len(depth), field.around
    state = bytearray(_LINE if d >= least else _OPEN for d in depth)
    line = [i for i, on in enumerate(state) if on]
    for _ in range(wider):
        line = [j for i in line for j in around[i] if not state[j]]
        for i in line:
            state[i] = _LINE
    border = [*range(w), *range(n - w, n), *range(0, n, w), *range(w - 1, n, w)]
    for i in border:
        if not state[i]:
            _reach(around, state, i, _OUTSIDE)
    best: list[int] = []
    for first in range(n):
        if not state[first]:
            best = max(best, _reach(around, state, first, _COUNTED), key=len)
    if not _LEAST_AREA * n <= len(best) <= _MOST_AREA * n:
        return None
    mask = bytearray(n)
    edge = best
    for i in best:
        mask[i] = 1
    for _ in range(_LINE_CELLS + wider):
        edge = [j for i in edge for j in around[i] if not mask[j] and state[j] == _LINE]
        for i in edge:
            mask[i] = 1
    return mask


def _reach(around: list[tuple[int, ...]], state: bytearray, first: int, mark: int) -> list[int]:
    """Mark and give all open cells that hang together with one."""
    piece = [first]
    state[first] = mark
    for i in piece:
        for j in around[i]:
            if not state[j]:
                state[j] = mark
                piece.append(j)
    return piece
