"""How far a reading of a cut face can be trusted, and the words for why not."""

from statistics import median

from app.colour.lab import Triple
from app.colour.tone import Levels
from app.colour.white_point import Rgb, WhitePoint, from_light, from_neutral

TOO_DARK = "Too dark: nothing of the cut face can be seen."
TOO_BRIGHT = "Too bright: the meat's red is blown out. Take it again, a little darker."
NO_FACE = "No cut face here: this is not the colour of meat."
NO_COLOUR = "No colour in this picture: pink and grey cannot be told apart."
NO_WHITE = (
    "All one colour, and no white to judge it by: pink and grey cannot be told apart. "
    "Tap paper towel or a grey card in the same light."
)
TWO_WITHOUT_WHITE = "No white patch: its tones are judged by what beef and lamps look like."
ONE_WITHOUT_WHITE = "No white patch: its one colour is judged by what lamps can do."
JUDGED_BY_FAT = "No white patch: judged by the fat, taken as cream."
HALF_SURE = "The colour lies between grey and cured: look for yourself."

BLACK = 0.0035
"""Median of the brightest channel, linear, below which nothing is read (8 bits: level 11)."""
BLOWN = 0.55
"""Share of the duller tone's pixels with red or green at its end, above which nothing is read,
unless the other channels alone tell two tones apart."""
CLEAR = 0.32
"""Contrast of two tones, in s, that is clear although red is at its end."""

# Beef fat in daylight: cream, red to green 1.13, green to blue 1.28 in linear light
# (judgement; about a* 1, b* 10).
_CREAM = (1.13, 1.28)
_LEAST_FAT_PLACES = 4


def given_white(neutral_rgb: Rgb | None) -> WhitePoint | None:
    """The white from a tapped patch, or None when none was tapped or it is unfit.

    Raises
    ------
    ValueError : the patch is not three numbers from 0 to 255

    Examples
    --------
    >>> given_white(None) is None, given_white((255, 255, 255)) is None
    (True, True)
    """
    white = from_neutral(neutral_rgb) if neutral_rgb is not None else None
    return white if white is not None and white.known else None


def white_by_fat(fat: list[Triple]) -> WhitePoint | None:
    """An unsure white from the slice's own fat, when no patch was tapped.

    Parameters
    ----------
    fat : linear light of unclipped fat

    Returns
    -------
    WhitePoint that is not `sure`; None with too little fat

    Examples
    --------
    >>> white_by_fat([(0.8, 0.7, 0.5)] * 9).sure
    False
    """
    if len(fat) < _LEAST_FAT_PLACES:
        return None
    red, green, blue = (median(light[k] for light in fat) for k in range(3))
    white = from_light((red / _CREAM[0], green, blue * _CREAM[1]), by_fat=True)
    return white if white.known else None


def red_enough(ends: Levels, white: WhitePoint | None) -> bool:
    """Whether one single tone is cured although its red is blown out: it can only be redder.

    Holds too where only the patch's red was blown out, but not where fat had to do for white.

    Examples
    --------
    >>> red_enough(Levels(0.9, 0.5, False, "cured", 0.0, 0.02, 0.8), given_white((90, 90, 90)))
    True
    """
    certain = white is not None and not white.by_fat
    return certain and not ends.two and ends.kind == "cured"


def confidence(ends: Levels, white: WhitePoint | None, faint: float, clipped: float) -> float:
    """How sure a reading is [0-1].

    The certainty of the levels, less for a white that is missing (× 0.6) or reckoned (× 0.75),
    for noise (down to × 0.75) and for clipped pixels (down to × 0.5); judgement throughout

    Parameters
    ----------
    ends : the levels found
    white : the white known
    faint : least pink the picture can show, see `bands.faintest` [1]
    clipped : share of the lean with red or green at its end [1]

    Examples
    --------
    >>> ends = Levels(0.9, 0.3, True, "grey", 0.6, 0.02, 1.0)
    >>> confidence(ends, None, 0.12, 0.0)
    0.6
    """
    sure = ends.certainty
    sure *= 0.6 if white is None else 1.0 if white.sure else 0.75
    sure *= 1.0 - 0.25 * min(1.0, max(0.0, (faint - 0.15) / 0.2))
    return round(max(0.0, min(1.0, sure * (1.0 - 0.5 * clipped))), 3)


def remark(ends: Levels, white: WhitePoint | None) -> str:
    """What the user should know about a reading; empty when there is nothing.

    Examples
    --------
    >>> remark(Levels(0.9, 0.3, True, "grey", 0.6, 0.02, 1.0), None)
    'No white patch: its tones are judged by what beef and lamps look like.'
    """
    if ends.certainty < 0.5:
        return HALF_SURE
    if white is None:
        return TWO_WITHOUT_WHITE if ends.two else ONE_WITHOUT_WHITE
    return JUDGED_BY_FAT if white.by_fat else white.says
