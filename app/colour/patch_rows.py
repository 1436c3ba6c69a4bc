"""The pixels of a patch, round or drawn by hand, row by row."""

from app.colour.pixels import Point

Rows = dict[int, list[range]]
"""Stretches of columns by row [px]."""

_MOST_PIXELS = 3600  # read in a patch; more change the third digit only


def round_patch(width: int, height: int, centre: Point, radius: float) -> Rows:
    """The columns of each row in a round patch, thinned where it is large.

    Examples
    --------
    >>> {y: list(xs) for y, (xs,) in round_patch(9, 9, (4.0, 4.0), 1.0).items()}
    {3: [4], 4: [3, 4, 5], 5: [4]}
    """
    cx, cy = centre
    step = _step(3.1416 * radius * radius)
    rows: Rows = {}
    for y in range(max(0, int(cy - radius)), min(height, int(cy + radius) + 1), step):
        half = max(0.0, radius * radius - (y - cy) ** 2) ** 0.5
        rows[y] = [range(max(0, int(cx - half)), min(width, int(cx + half) + 1), step)]
    return rows


def drawn_patch(width: int, height: int, outline: tuple[Point, ...]) -> Rows:
    """The columns of each row inside an outline (even-odd rule), thinned where it is large.

    Examples
    --------
    >>> square = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
    >>> {y: list(xs) for y, (xs,) in drawn_patch(9, 9, square).items()}
    {1: [1, 2], 2: [1, 2]}
    """
    pairs = list(zip(outline, (*outline[1:], outline[0]), strict=True))
    step = _step(abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs)) / 2.0)
    top = max(0, int(min(y for _, y in outline)))
    bottom = min(height, int(max(y for _, y in outline)) + 1)
    rows: Rows = {}
    for y in range(top, bottom, step):
        middle = y + 0.5
        crossed = sorted(
            ax + (middle - ay) * (bx - ax) / (by - ay)
            for (ax, ay), (bx, by) in pairs
            if (ay <= middle) != (by <= middle)
        )
        stretches = [
            range(max(0, round(left)), min(width, round(right)), step)
            for left, right in zip(crossed[::2], crossed[1::2], strict=True)
        ]
        if any(stretches):
            rows[y] = stretches
    return rows


def _step(area_px: float) -> int:
    return max(1, int((area_px / _MOST_PIXELS) ** 0.5))
