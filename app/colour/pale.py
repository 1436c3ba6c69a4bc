"""Where pale begins and ends among the lean of a face, by how the tones are spread."""

from app.colour.field import Field
from app.colour.fronts import NARROW_PALE

# Judgements. The middle half of the turn from grey to cured, counted, tells how wide the turn
# is: a sharp bound seen through pixels holds few cells a length of bound, a slow turn many.
_MIDDLE = (0.25, 0.75)
# Times the picture's own blur: a sharp bound is hardly wider, and so much more is surely slow.
_SHARP, _SLOWER = 0.9, 0.35
# Where a slow turn is neither grey nor cured: half way to the pale tone such a turn may hide.
_GREY_END, _CURED_END = 0.5 * NARROW_PALE, 0.5 * (1.0 + NARROW_PALE)
_BLUR_PX = 3.5  # the middle half of a sharp bound, as JPEG spreads colour [px]
_LENGTH = 0.785  # cell sides counted along a bound, to its true length: π/4 on the mean


def pale_bounds(
    field: Field, turned: dict[int, float], pale: float | None, step: int, grey_seen: bool = True
) -> tuple[float, float]:
    """Below the first grey, above the second cured, pale between.

    Parameters
    ----------
    field : the picture's grid
    turned : how far each lean cell has turned, 0 grey to 1 cured
    pale : how far an even pale tone has turned; None where there is none
    step : pixels to a cell [px]
    grey_seen : whether there is grey; beside cured meat alone pale has but one bound

    Returns
    -------
    The two bounds: half way to the pale tone from either end, nearer to each other the more the
    band between them is only the blurred bound of cured and grey; then equal
    """
    if pale is not None and not grey_seen:
        return 0.5 * pale, 0.5 * (1.0 + pale)
    low, high = (0.5 * pale, 0.5 * (1.0 + pale)) if pale is not None else _MIDDLE
    middle = sum(1 for t in turned.values() if low < t < high)
    sides = 0
    for i, t in turned.items():
        for j in field.beside(i):
            if j > i and j in turned:
                other = turned[j]
                sides += ((t < low) != (other < low)) + ((t < high) != (other < high))
    if not sides:
        return (low, high) if pale is not None else (0.5, 0.5)
    width = middle / (_LENGTH * 0.5 * sides)
    blurred = 0.5 + _BLUR_PX / step
    slow = min(1.0, max(0.0, (width / blurred - _SHARP) / _SLOWER))
    if pale is None:
        low, high = _GREY_END, _CURED_END
    return 0.5 - slow * (0.5 - low), 0.5 + slow * (high - 0.5)
