"""Where pale begins and ends among the lean of a face, by how the tones are spread."""

from app.colour.field import Field

# Judgements. The middle half of the turn from grey to cured, counted, tells how wide the turn
# is: a sharp bound seen through pixels holds few cells a length of bound, a slow turn many.
_MIDDLE = (0.25, 0.75)
# Times the picture's own blur: no wider than a sharp bound, and so much more than that for a
# turn that is surely slow.
_SHARP, _SLOWER = 1.25, 0.65
# Where a slow turn is neither grey nor cured: people draw that bound anywhere from a tenth to two
# fifths of the way from either end, and this is the middle of it.
_GREY_END, _CURED_END = 0.22, 0.78
_BLUR_PX = 3.5  # the middle half of a sharp bound, as JPEG spreads colour [px]
_LENGTH = 0.785  # cell sides counted along a bound, to its true length: π/4 on the mean
# So much of what lies between these ends within so narrow a span is an even band; of tones that
# lie spread evenly a third does.
_CROWD_FROM, _CROWD, _CROWDED = 0.2, 0.2, 0.58


def pale_bounds(
    field: Field, turned: dict[int, float], pale: float | None, step: int
) -> tuple[float, float]:
    """Below the first grey, above the second cured, pale between.

    Parameters
    ----------
    field : the picture's grid
    turned : how far each lean cell has turned, 0 grey to 1 cured
    pale : how far an even pale band has turned; None where there is none
    step : pixels to a cell [px]

    Returns
    -------
    The two bounds; equal where the bound between cured and grey is sharp
    """
    if pale is not None:
        return 0.5 * pale, 0.5 * (1.0 + pale)
    low, high = _MIDDLE
    middle = sum(1 for t in turned.values() if low < t < high)
    sides = 0
    for i, t in turned.items():
        for j in field.beside(i)[-2:]:
            if j > i and j in turned and (t < 0.5) != (turned[j] < 0.5):
                sides += 1
    if not sides:
        return 0.5, 0.5
    width = middle / (_LENGTH * sides)
    blurred = 0.5 + _BLUR_PX / step
    if width < _SHARP * blurred:
        return 0.5, 0.5
    even = _even_tone(sorted(turned.values()))
    if even is not None:
        return 0.5 * even, 0.5 * (1.0 + even)
    slow = min(1.0, (width / blurred - _SHARP) / _SLOWER)
    return 0.5 - slow * (0.5 - _GREY_END), 0.5 + slow * (_CURED_END - 0.5)


def _even_tone(ranked: list[float]) -> float | None:
    """Where the tones between the ends crowd, as those of an even band too thin to hold a cell of
    its own do; None where they lie spread."""
    between = [t for t in ranked if _CROWD_FROM < t < 1.0 - _CROWD_FROM]
    best, at, first = 0, 0.5, 0
    for last, t in enumerate(between):
        while t - between[first] > _CROWD:
            first += 1
        middle = between[(first + last) // 2]
        if last - first + 1 > best and 0.3 < middle < 0.7:
            best, at = last - first + 1, middle
    return at if best > _CROWDED * len(between) else None
