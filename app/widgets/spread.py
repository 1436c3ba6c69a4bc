"""Numbers along a line moved apart so that each can be read."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil

from attrs import frozen


@frozen
class Placed:
    """A number's own place along the line, and its row: 0 is the one next to the line."""

    at: float
    row: int


def spread(places: Sequence[float], least: float, low: float, high: float) -> tuple[float, ...]:
    """Places moved as little as may be, so that neighbours stand `least` apart.

    Least squares of the moves, in order: with yᵢ = xᵢ − i · least the answer is the isotonic
    regression of y, found by pooling neighbours that fall; then kept within the ends.

    Parameters
    ----------
    places : in ascending order [px]
    least : from one to the next [px]
    low, high : where the first and the last may stand [px]

    Returns
    -------
    The new places, in the same order [px]

    Raises
    ------
    ValueError : the places are not in order, or have no room between the ends

    Examples
    --------
    >>> spread([10.0, 12.0, 90.0], 10.0, 0.0, 100.0)
    (6.0, 16.0, 90.0)
    >>> spread([0.0, 0.0], 10.0, 0.0, 100.0)
    (0.0, 10.0)

    References
    ----------
    Barlow and others, Statistical Inference under Order Restrictions, 1972 (from memory).
    """
    if any(left > right for left, right in pairwise(places)):
        raise ValueError("Places in ascending order were expected.")
    room = high - low - least * (len(places) - 1)
    if places and room < 0.0:
        raise ValueError(f"{len(places)} places {least:g} apart have no room in {high - low:g}.")
    pools: list[tuple[float, int]] = []  # sum and count
    for index, place in enumerate(places):
        total, count = place - index * least, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            before = pools.pop()
            total, count = total + before[0], count + before[1]
        pools.append((total, count))
    level = [total / count for total, count in pools for _ in range(count)]
    return tuple(min(max(one, low), low + room) + index * least for index, one in enumerate(level))


def in_rows(places: Sequence[float], least: float, low: float, high: float) -> tuple[Placed, ...]:
    """Places in as few rows as hold them: neighbours in turn in one row and the next.

    No two stand at one place, so that a line drops from each past the rows below it.

    Parameters
    ----------
    places : in ascending order [px]
    least : from one to the next in a row [px]
    low, high : where the first and the last may stand [px]

    Returns
    -------
    Place and row of each, in the same order

    Raises
    ------
    ValueError : the places are not in order, or the ends are

    Examples
    --------
    >>> [(one.at, one.row) for one in in_rows([0.0, 5.0, 50.0], 30.0, 0.0, 50.0)]
    [(0.0, 0), (15.0, 1), (50.0, 0)]

    References
    ----------
    None; see `spread`.
    """
    if not places:
        return ()
    if high <= low:
        raise ValueError(f"An end beyond {low:g} was expected; {high:g} was given.")
    rows = max(1, ceil(least * (len(places) - 1) / (high - low)))
    apart = spread(places, least / rows, low, high)
    return tuple(Placed(at, index % rows) for index, at in enumerate(apart))
