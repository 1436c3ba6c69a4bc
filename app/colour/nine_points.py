"""Nine points of green light in each cell of a picture, for bounds finer than a cell."""

from bisect import bisect_left

from app.colour.lab import LINEAR
from app.colour.pixels import Bytes

POINTS = 9
"""Points read in each cell."""


def green_points(
    rgba: Bytes, width: int, height: int, columns: int, rows: int, step: int
) -> list[list[int]]:
    """Green levels of nine points spread over each cell: nine lists, row by row [0-255].

    Parameters
    ----------
    rgba, width, height : the picture, already checked
    columns, rows, step : its cells, as `pixels.grid` made them

    Returns
    -------
    For each of the nine points its level in every cell; points fall together in cells of fewer
    than three pixels

    Examples
    --------
    >>> green_points(bytes([9, 7, 9, 255]) * 9, 3, 3, 1, 1, 3) == [[7]] * 9
    True
    """
    stride = 4 * step
    found: list[list[int]] = []
    for down in range(3):
        dy = min(step - 1, height - 1, step * (2 * down + 1) // 6)
        for across in range(3):
            dx = min(step - 1, width - 1, step * (2 * across + 1) // 6)
            levels: list[int] = []
            for row in range(rows):
                at = 4 * ((row * step + dy) * width + dx) + 1
                levels += rgba[at : at + stride * (columns - 1) + 1 : stride]
            found.append(levels)
    return found


def level_of(light: float) -> int:
    """The first level whose linear light is not below the one given [0-255].

    Examples
    --------
    >>> level_of(0.0), level_of(1.0)
    (0, 255)
    """
    return min(255, bisect_left(LINEAR, light))


def count_above(points: list[list[int]], bounds: dict[int, int]) -> dict[int, int]:
    """How many of its nine points are brighter than each cell's bound.

    Examples
    --------
    >>> count_above([[3, 9], [8, 9]], {0: 5, 1: 5})
    {0: 1, 1: 2}
    """
    cells = list(bounds)
    count = [0] * len(cells)
    limit = list(bounds.values())
    for levels in points:
        count = [n + (levels[i] > bound) for n, i, bound in zip(count, cells, limit, strict=True)]
    return dict(zip(cells, count, strict=True))
