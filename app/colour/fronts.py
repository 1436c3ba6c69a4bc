"""Fronts between grey and cured along a line, and whether a narrow pale band lies in them."""

from math import exp

from app.colour.bands import Band

NARROW_PALE = 0.45
"""How far a pale band has turned that is too narrow to show a tone of its own [grey to cured]."""

# A front is what lies between these shares of the way, from a few places of grey to a few of cured,
# with no fat between (judgements).
_LOW, _HIGH, _SOLID, _NEIGHBOURS = 0.2, 0.8, 4, 3
# Places of a line of 250: a front without pale is seen so wide, and wider by this share of the
# places over which the picture holds one colour; and how sharply that divides. Slices drawn by many
# hands show 3 to 11 places without pale, and at least its own width where there is some.
_WITHOUT_PALE, _BY_BLOCK, _SHARPLY = 5.5, 0.19, 2.0


def widths(places: list[int], turned: list[float]) -> list[int]:
    """How many places each front holds.

    Parameters
    ----------
    places : places of lean along the line, rising
    turned : how far each has turned from grey to cured [1]

    Returns
    -------
    One width a front, in order; a front with fat in it is left out

    Examples
    --------
    >>> widths(list(range(12)), [0.0] * 5 + [0.4, 0.6] + [1.0] * 5)
    [2]
    """
    found: list[int] = []
    was, at = "", 0  # the last solid stretch, and where it ends
    now, held = "", 0
    for k, t in enumerate(turned):
        if k and places[k] - places[k - 1] > _NEIGHBOURS:
            was, now, held = "", "", 0
        kind = "grey" if t < _LOW else "cured" if t > _HIGH else ""
        now, held = kind, held + 1 if kind and kind == now else 1
        if kind and held >= _SOLID:
            if was not in ("", kind):
                found.append(sum(_LOW <= t <= _HIGH for t in turned[at + 1 : k - held + 1]))
            was, at = kind, k
    return found


def chance_of_pale(found: list[int], block: float) -> float:
    """How likely narrow pale bands lie in the fronts of a slice, by how wide they are on average.

    p = 1/(1 + exp(−(w − 5.5 − 0.19 b)/2)), w places wide, b places a block of colour

    Parameters
    ----------
    found : width of each front [places]
    block : places over which the picture holds one colour

    Returns
    -------
    Chance, 0 where there is no front [1]

    Examples
    --------
    >>> round(chance_of_pale([4, 4], 8.0), 2), round(chance_of_pale([14, 16], 8.0), 2)
    (0.18, 0.98)
    """
    if not found:
        return 0.0
    over = sum(found) / len(found) - _WITHOUT_PALE - _BY_BLOCK * block
    return 1.0 / (1.0 + exp(-max(-30.0, min(30.0, over / _SHARPLY))))


def put_likely_pale(marked: list[Band], turned: list[float], chance: float) -> None:
    """Give each bound between grey and cured the pale band that is likely in it, in place.

    Without pale it lies at ½ of the way; with pale, grey ends at ½ · 0.45 and cured begins at
    ½ · 1.45. Each bound is put between both by the chance, which errs least.

    Parameters
    ----------
    marked : band of each place, grey or cured
    turned : how far each has turned from grey to cured [1]
    chance : that pale lies there [1]

    Examples
    --------
    >>> marked = ["grey"] * 4 + ["cured"] * 4
    >>> put_likely_pale(marked, [0.0, 0.1, 0.3, 0.45, 0.55, 0.8, 0.9, 1.0], 0.5)
    >>> marked[2:6]
    ['grey', 'pale', 'pale', 'cured']
    """
    low = 0.5 - 0.5 * (1.0 - NARROW_PALE) * chance
    high = 0.5 + 0.5 * NARROW_PALE * chance
    before = list(marked)
    for k in range(len(before) - 1):
        if {before[k], before[k + 1]} != {"grey", "cured"}:
            continue
        for at, way in ((k, -1), (k + 1, 1)):
            mine = before[at]
            while 0 <= at < len(before) and before[at] == mine and low < turned[at] < high:
                marked[at] = "pale"
                at += way
