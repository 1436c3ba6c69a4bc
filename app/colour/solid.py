"""How solid an outline is: a slice fills most of what a thread drawn round it goes round."""

from app.colour.bits import largest, packed, unpacked
from app.colour.field import Field
from app.colour.masks import smoothed

# Slices, kidney-shaped ones too, fill so much of their hull; what leaks out along the board's grain
# does not. Tails up to twice so many cells wide are tried to be cut off, no more than so much of
# the slice in all (judgements, tried on slices drawn by many hands).
_SOLID, _ENOUGH = 0.84, 0.9
_WIDTHS = (0, 1, 2, 3, 4, 6, 8, 10, 12, 14)
_MOST_CUT = 0.4


def solidity(field: Field, mask: bytearray) -> float:
    """Area of a mask beside that of its convex hull [1].

    Examples
    --------
    >>> none = [0.0] * 9
    >>> grid = Field(3, 3, none, none, none, none)
    >>> solidity(grid, bytearray([1] * 9))
    1.0
    >>> round(solidity(grid, bytearray([1, 0, 0, 1, 0, 0, 1, 1, 1])), 2)
    0.71

    References
    ----------
    Convex hull by monotone chains: Andrew (from memory).
    """
    w = field.columns
    corners: list[tuple[int, int]] = []
    for y in range(field.rows):
        row = mask[y * w : (y + 1) * w]
        first, last = row.find(1), row.rfind(1) + 1
        if last:
            corners += [(first, y), (first, y + 1), (last, y), (last, y + 1)]
    corners = sorted(set(corners))
    hull = _half(corners)[:-1] + _half(corners[::-1])[:-1]
    pairs = zip(hull, hull[1:] + hull[:1], strict=True)
    area = 0.5 * abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs))
    return sum(mask) / area if area else 1.0


def _half(corners: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """One side of the hull of corners in order."""
    hull: list[tuple[int, int]] = []
    for x, y in corners:
        while len(hull) > 1:
            (x0, y0), (x1, y1) = hull[-2:]
            if (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) > 0:
                break
            hull.pop()
        hull.append((x, y))
    return hull


def without_tails(field: Field, mask: bytearray) -> bytearray:
    """The mask without what hangs on it by being narrower, where it is not solid.

    It is opened by wider and wider discs until its largest piece is solid

    Parameters
    ----------
    field : tones of the picture
    mask : a slice, 1 inside

    Returns
    -------
    Mask; the same where it is solid, or no cut makes it so
    """
    if solidity(field, mask) >= _SOLID:
        return mask
    whole = sum(mask)
    for width in _WIDTHS:
        opened = smoothed(field, mask, width, 0)
        cut = unpacked(field, largest(field, packed(field, opened)))
        if sum(cut) < (1.0 - _MOST_CUT) * whole:
            break
        if solidity(field, cut) >= _ENOUGH:
            return cut
    return mask
