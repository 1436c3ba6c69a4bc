"""Masks of cells: filled, smoothed, turned into an outline and back."""

from math import atan2, cos, hypot, pi, sin

from app.colour.bits import CELLS, DIGITS, everything, packed, reached, unpacked
from app.colour.field import Field

RAYS = 48
"""Points of an outline: few enough to drag, enough for a kidney-shaped slice."""


def filled(field: Field, mask: bytearray) -> bytearray:
    """The mask with all that it surrounds.

    Examples
    --------
    >>> ring = bytearray([1, 1, 1, 1, 0, 1, 1, 1, 1])
    >>> none = [0.0] * 9
    >>> sum(filled(Field(3, 3, none, none, none, none), ring))
    9
    """
    outside = everything(field) & ~packed(field, mask)
    return unpacked(field, everything(field) & ~reached(field, outside))


def _grown(rows: list[int], by: int, full: int) -> list[int]:
    """Rows of bits grown by some cells all round, corners cut."""
    for k in range(by):
        wide = [row | (row << 1 | row >> 1) & full for row in rows]
        over = [0, *rows[:-1]]
        under = [*rows[1:], 0]
        if k % 2:  # every other step square, so that a disc grows about round
            over, under = [0, *wide[:-1]], [*wide[1:], 0]
        rows = [a | b | c for a, b, c in zip(wide, over, under, strict=True)]
    return rows


def smoothed(field: Field, mask: bytearray, opening: int, closing: int) -> bytearray:
    """The mask with narrow bays closed, then narrow whiskers taken off.

    Examples
    --------
    >>> none = [0.0] * 81
    >>> mask = bytearray([1] * 81)
    >>> mask[40] = 0
    >>> sum(smoothed(Field(9, 9, none, none, none, none), mask, 0, 1))
    81
    """
    w, h = field.columns, field.rows
    pad = max(opening, closing)
    full = (1 << (w + 2 * pad)) - 1
    digits = mask.translate(DIGITS)
    rows = [int(digits[at : at + w], 2) << pad for at in range(0, w * h, w)]
    rows = [0] * pad + rows + [0] * pad
    inverted = [row ^ full for row in _grown(rows, closing, full)]
    closed = [row ^ full for row in _grown(inverted, closing, full)]
    # What was in the mask stays: eroding counts what lies beyond the frame as outside.
    closed = [a | b for a, b in zip(closed, rows, strict=True)]
    eroded = [row ^ full for row in _grown([row ^ full for row in closed], opening, full)]
    opened = [a & b for a, b in zip(_grown(eroded, opening, full), closed, strict=True)]
    inner = (1 << w) - 1
    lines = [format(row >> pad & inner, f"0{w}b").encode() for row in opened[pad : pad + h]]
    return bytearray(b"".join(lines).translate(CELLS))


def polygon(field: Field, mask: bytearray, step: int) -> tuple[tuple[float, float], ...]:
    """The outline as points to drag, one on each of 48 rays from the middle [px].

    Examples
    --------
    >>> none = [0.0] * 25
    >>> len(polygon(Field(5, 5, none, none, none, none), bytearray([1] * 25), 4))
    48
    """
    w = field.columns
    cells = [(i % w + 0.5, i // w + 0.5) for i, inside in enumerate(mask) if inside]
    if not cells:
        return ()
    cx = sum(x for x, _ in cells) / len(cells)
    cy = sum(y for _, y in cells) / len(cells)
    reach = [0.0] * RAYS
    for x, y in cells:
        ray = int((atan2(y - cy, x - cx) / (2 * pi) % 1.0) * RAYS) % RAYS
        reach[ray] = max(reach[ray], hypot(x - cx, y - cy) + 0.5)
    points = []
    for ray, far in enumerate(reach):
        angle = 2 * pi * (ray + 0.5) / RAYS
        points.append(((cx + far * cos(angle)) * step, (cy + far * sin(angle)) * step))
    return tuple(points)


def from_polygon(field: Field, points: tuple[tuple[float, float], ...], step: int) -> bytearray:
    """The cells whose middles lie inside an outline given in pixels.

    Raises
    ------
    ValueError : fewer than three points

    Examples
    --------
    >>> none = [0.0] * 16
    >>> square = ((0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (0.0, 8.0))
    >>> sum(from_polygon(Field(4, 4, none, none, none, none), square, 4))
    4
    """
    if len(points) < 3:
        raise ValueError(f"An outline needs at least three points; {len(points)} were given.")
    w, h = field.columns, field.rows
    mask = bytearray(w * h)
    pairs = list(zip(points, (*points[1:], points[0]), strict=True))
    for row in range(h):
        y = (row + 0.5) * step
        crossed = sorted(
            x0 + (y - y0) * (x1 - x0) / (y1 - y0)
            for (x0, y0), (x1, y1) in pairs
            if (y0 <= y) != (y1 <= y)
        )
        for left, right in zip(crossed[::2], crossed[1::2], strict=False):
            for column in range(w):
                if left <= (column + 0.5) * step < right:
                    mask[row * w + column] = 1
    return mask
