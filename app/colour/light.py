"""What a photo's light is good for: the marks a photo carries beside its colours."""

from typing import Literal

from app.colour.false_white import likely_no_white
from app.colour.pixels import Bytes, grid
from app.colour.white_point import Rgb, from_neutral, mixed

Mark = Literal["no white patch", "white in doubt", "too dark", "clipped", "mixed light"]

WORDS: dict[Mark, str] = {
    "no white patch": "No white patch: tap paper towel or a grey card in the same light.",
    "white in doubt": "The meat looks blue under this white, as it does when wood or brown paper "
    "was tapped: tap white paper, a paper towel or a grey card.",
    "too dark": "Too dark: colours this deep in shadow are mostly noise.",
    "clipped": "Blown out in places: take it again with less light, or tap the meat to expose.",
    "mixed light": "Two kinds of light: turn one lamp off, or move out of the window's edge.",
}
"""What each mark tells the user."""

# Judgements: a photo is dark when even its brighter quarter lies below this linear light
# (8 bits: level 30), clipped when this share of its cells has red or green at its end.
_DARK, _CLIPPED_SHARE = 0.013, 0.12
_CELLS = 900


def marks(rgba: Bytes, width: int, height: int, patches: list[Rgb]) -> tuple[Mark, ...]:
    """Marks of a photo's light, in the order they matter.

    Parameters
    ----------
    rgba : pixels, four bytes each, row by row
    width, height : size of the picture [px]
    patches : mean sRGB of the neutral patches tapped, none or more [0-255]

    Returns
    -------
    Marks; empty for a photo in good light with a fit patch

    Raises
    ------
    ValueError : no RGBA picture of that size, or a patch that is no colour

    Examples
    --------
    >>> marks(bytes((90, 80, 70, 255)) * 100, 10, 10, [(180, 180, 180)])
    ()
    >>> marks(bytes((255, 255, 255, 255)) * 100, 10, 10, [])
    ('no white patch', 'clipped')
    """
    cells = grid(rgba, width, height, _CELLS)
    found: list[Mark] = []
    fit = [patch for patch in patches if from_neutral(patch).known]
    if not fit:
        found.append("no white patch")
    elif likely_no_white(cells, from_neutral(fit[0])):
        found.append("white in doubt")
    if sorted(cells.green)[(3 * len(cells.green)) // 4] < _DARK:
        found.append("too dark")
    if sum(cells.clipped) > _CLIPPED_SHARE * len(cells.clipped):
        found.append("clipped")
    if any(mixed(fit[0], other) for other in fit[1:]):
        found.append("mixed light")
    return tuple(found)
