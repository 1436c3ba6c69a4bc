"""Dividing a grid of tones into regions that differ from each other more than within."""

from operator import itemgetter

from attrs import frozen

# Preference for larger regions: how unlike two small ones must be to stay apart (judgement).
_SIZE_BONUS = 0.9
# Regions smaller than this many cells join the neighbour they are most like.
_SMALLEST = 6


@frozen
class Regions:
    """Which region each cell belongs to (the number of one of its cells), and their cells."""

    of: list[int]
    cells: dict[int, list[int]]


def divide(
    columns: int, rows: int, light: list[float], u: list[float], v: list[float], light_weight: float
) -> Regions:
    """Regions of a grid, by joining neighbours from the most alike on.

    Two regions join over an edge of weight w when w ≤ min(d₁ + k/n₁, d₂ + k/n₂), with d the
    greatest weight joined within and n the number of cells

    Parameters
    ----------
    columns, rows : size of the grid [cells]
    light, u, v : log light and log ratios of each cell, row by row
    light_weight : what a step of log light counts beside one of a log ratio [1]

    Returns
    -------
    Regions

    Examples
    --------
    >>> flat = [0.0] * 32 + [2.0] * 32
    >>> len(divide(8, 8, flat, flat, flat, 0.3).cells)
    2

    References
    ----------
    Felzenszwalb & Huttenlocher, Int. J. Comput. Vision 59 (2004) 167 (from memory).
    """
    n = columns * rows
    weight = light_weight * light_weight
    edges: list[tuple[float, int, int]] = []
    for y in range(rows):
        first = y * columns
        for i in range(first, first + columns):
            li, ui, vi = light[i], u[i], v[i]
            for j in (i + 1, i + columns) if i + 1 < first + columns else (i + columns,):
                if j < n:
                    dl, du, dv = li - light[j], ui - u[j], vi - v[j]
                    edges.append((weight * dl * dl + du * du + dv * dv, i, j))
    edges.sort(key=itemgetter(0))
    parent = list(range(n))
    size = [1] * n
    slack = [_SIZE_BONUS] * n
    left_over: list[tuple[int, int]] = []
    for square, i, j in edges:
        while parent[i] != i:
            parent[i] = parent[parent[i]]
            i = parent[i]
        while parent[j] != j:
            parent[j] = parent[parent[j]]
            j = parent[j]
        if i == j:
            continue
        w = square**0.5
        if w <= slack[i] and w <= slack[j]:
            if size[i] < size[j]:
                i, j = j, i
            parent[j] = i
            size[i] += size[j]
            slack[i] = w + _SIZE_BONUS / size[i]
        else:
            left_over.append((i, j))
    for i, j in left_over:
        while parent[i] != i:
            i = parent[i]
        while parent[j] != j:
            j = parent[j]
        if i != j and (size[i] < _SMALLEST or size[j] < _SMALLEST):
            if size[i] < size[j]:
                i, j = j, i
            parent[j] = i
            size[i] += size[j]
    of = [0] * n
    cells: dict[int, list[int]] = {}
    for k in range(n):
        root = k
        while parent[root] != root:
            root = parent[root]
        parent[k] = root
        of[k] = root
        cells.setdefault(root, []).append(k)
    return Regions(of, cells)
