"""What a closed dark line goes round: bark is darker than the meat behind it and most boards."""

from collections.abc import Iterator

from app.colour.bits import everything, grown, largest, packed, reached, unpacked
from app.colour.field import Field

# A cell lies on a dark line when it is so much darker, in log light, than what lies so many cells
# to both sides of it; gaps in a line are closed by so many cells from either side (judgements).
_DEPTHS = (1.0, 0.7, 0.45, 0.3)
_SIDES = (2, 4)
_WIDER = (0, 1, 2)
_LINE_CELLS = 4  # of the line's width that belong to what it goes round
_LEAST_AREA, _MOST_AREA = 0.03, 0.85  # of the picture


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
    Masks with the line itself and all within, each found when it is asked for; none where no line
    is closed
    """
    depth = _depths(field)
    cells = everything(field)
    lines = [packed(field, bytearray([d >= least for d in depth])) for least in _DEPTHS]
    for wider in _WIDER:
        for line in lines:
            within = _within(field, line, cells, wider)
            if within:
                yield unpacked(field, within)


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


def _within(field: Field, line: int, cells: int, wider: int) -> int:
    """What a line goes round, with the line and all that is within it; 0 where it is not closed."""
    line = grown(field, line, cells, wider)
    clear = cells & ~line
    n = field.columns * field.rows
    inner = largest(field, clear & ~reached(field, clear))
    if not _LEAST_AREA * n <= inner.bit_count() <= _MOST_AREA * n:
        return 0
    inner = grown(field, inner, line, _LINE_CELLS + wider)
    return cells & ~reached(field, cells & ~inner)
