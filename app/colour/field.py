"""A picture as a grid of tones, and which cells lie beside each other."""

from functools import lru_cache

from attrs import field as attribute
from attrs import frozen


@frozen
class Field:
    """A grid of tones: log light l, log ratios u and v, cure tone s, row by row."""

    columns: int
    rows: int
    l: list[float]  # noqa: E741
    u: list[float]
    v: list[float]
    s: list[float]

    around: list[tuple[int, ...]] = attribute(init=False, repr=False, eq=False)

    @around.default
    def _around(self) -> list[tuple[int, ...]]:
        return neighbours(self.columns, self.rows)

    def beside(self, i: int) -> tuple[int, ...]:
        """The up to four cells around one."""
        return self.around[i]


@lru_cache(maxsize=2)
def neighbours(columns: int, rows: int) -> list[tuple[int, ...]]:
    """For each cell of a grid the up to four cells beside it, row by row.

    Examples
    --------
    >>> neighbours(2, 2)
    [(1, 2), (0, 3), (3, 0), (2, 1)]
    """
    n = columns * rows
    found = []
    for i in range(n):
        x = i % columns
        near = []
        if x:
            near.append(i - 1)
        if x + 1 < columns:
            near.append(i + 1)
        if i >= columns:
            near.append(i - columns)
        if i + columns < n:
            near.append(i + columns)
        found.append(tuple(near))
    return found
