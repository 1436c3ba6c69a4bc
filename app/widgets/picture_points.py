"""Points on a picture, as parts of its width and height: found under a finger, and moved."""

from collections.abc import Sequence
from math import exp

Place = tuple[float, float]
Points = tuple[Place, ...]


def inside(x: float, y: float) -> Place:
    """A place brought back into the picture.

    >>> inside(1.2, -0.1)
    (1.0, 0.0)
    """
    return min(1.0, max(0.0, x)), min(1.0, max(0.0, y))


def nearest(points: Sequence[Place], at: Place, ratio: float = 1.0) -> int:
    """Which point lies nearest; `ratio` is the picture's width over its height.

    >>> nearest([(0.1, 0.1), (0.9, 0.9)], (0.7, 0.6))
    1
    """

    def far(point: Place) -> float:
        return ((point[0] - at[0]) * ratio) ** 2 + (point[1] - at[1]) ** 2

    return min(range(len(points)), key=lambda i: far(points[i]))


def moved(points: Points, index: int, by: Place, spread: float = 0.0) -> Points:
    """The points with one moved; of a closed outline its neighbours follow, less and less.

    spread : over how many neighbours the pull falls to about a third; 0 moves one point only

    >>> moved(((0.25, 0.5), (0.75, 0.5)), 0, (0.25, 0.0))
    ((0.5, 0.5), (0.75, 0.5))
    """
    count = len(points)
    new = []
    for i, (x, y) in enumerate(points):
        off = min((i - index) % count, (index - i) % count)
        if spread > 0.0:
            pull = exp(-((off / spread) ** 2))
        else:
            pull = 1.0 if off == 0 else 0.0
        new.append(inside(x + pull * by[0], y + pull * by[1]) if pull > 0.01 else (x, y))
    return tuple(new)


def round_about(points: Points) -> tuple[Place, float]:
    """The middle of what points span, and half of the longer way across, as a part of the side.

    >>> round_about(((0.25, 0.5), (0.75, 0.5)))
    ((0.5, 0.5), 0.25)
    """
    (left, top), (right, bottom) = (
        tuple(edge(point[k] for point in points) for k in (0, 1)) for edge in (min, max)
    )
    return ((left + right) / 2.0, (top + bottom) / 2.0), max(right - left, bottom - top) / 2.0


def swollen(points: Points, factor: float) -> Points:
    """An outline made wider or narrower about its middle.

    >>> swollen(((0.25, 0.25), (0.75, 0.25), (0.75, 0.75), (0.25, 0.75)), 0.5)[0]
    (0.375, 0.375)
    """
    cx = sum(x for x, _ in points) / len(points)
    cy = sum(y for _, y in points) / len(points)
    return tuple(inside(cx + factor * (x - cx), cy + factor * (y - cy)) for x, y in points)
