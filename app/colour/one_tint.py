"""Whether a picture has colour at all: a black-and-white one says nothing about pink and grey."""

from math import hypot
from statistics import median

from app.colour.field import Field

# Judgements, in log ratios and in log light: grey beef is this unlike its fat and any board, and
# what is so much darker than the lightest shows too little of its colour to be asked.
_UNLIKE, _TOO_DARK = 0.05, 1.6
_LEAST_CELLS = 12


def one_tint(field: Field, things: list[list[int]]) -> bool:
    """Whether things of different light all have one colour, as in a picture without any.

    Parameters
    ----------
    field : tones of the picture
    things : cells of each thing, such as board, lean and fat

    Returns
    -------
    True where at least two things can be asked and all agree in log ratios within 0.05

    Examples
    --------
    >>> none = [0.0] * 48
    >>> grey = Field(8, 6, [0.0] * 24 + [1.0] * 24, none, none, none)
    >>> one_tint(grey, [list(range(24)), list(range(24, 48))])
    True
    """
    seen = [
        (
            median(field.l[i] for i in cells),
            median(field.u[i] for i in cells),
            median(field.v[i] for i in cells),
        )
        for cells in things
        if len(cells) >= _LEAST_CELLS
    ]
    lightest = max((light for light, _, _ in seen), default=0.0)
    asked = [(u, v) for light, u, v in seen if light > lightest - _TOO_DARK]
    return len(asked) > 1 and all(
        hypot(u - asked[0][0], v - asked[0][1]) < _UNLIKE for u, v in asked[1:]
    )
