"""Nine points of light in each cell of a picture, for bounds finer than a cell."""

from bisect import bisect_left

from attrs import frozen

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


@frozen
class Points:
    """The linear light of nine points of one cell at a time, row by row [1].

    Examples
    --------
    >>> red = bytes([255, 0, 0, 255])
    >>> Points(red * 9, 3, 3, 1, 3).reds(0) == [1.0] * 9
    True
    """

    rgba: Bytes
    width: int
    height: int
    columns: int
    step: int

    def reds(self, cell: int) -> list[float]:
        """Linear red."""
        return [LINEAR[self.rgba[at]] for at in self._places(cell)]

    def lumas(self, cell: int) -> list[float]:
        """Linear light by luma."""
        rgba = self.rgba
        return [
            LINEAR[(77 * rgba[at] + 150 * rgba[at + 1] + 29 * rgba[at + 2]) >> 8]
            for at in self._places(cell)
        ]

    def _places(self, cell: int) -> list[int]:
        """Where the points begin among the picture's bytes."""
        step, width, below, beyond = self.step, self.width, self.height - 1, self.width - 1
        left, top = cell % self.columns * step, cell // self.columns * step
        rows = [min(below, top + step * down // 6) * width for down in (1, 3, 5)]
        across = [min(beyond, left + step * right // 6) for right in (1, 3, 5)]
        return [4 * (row + x) for row in rows for x in across]


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
