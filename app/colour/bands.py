"""The bands of cure: grey, pale and cured, and the faintest pink a picture can show."""

from typing import Literal

from app.colour.tone import Levels

Band = Literal["grey", "pale", "cured"]
BANDS: tuple[Band, Band, Band] = ("grey", "pale", "cured")

_FAINT = 0.10  # judgement


def faintest(noise: float, level: float, ends: Levels) -> float:
    """The least pink, of the way from grey to cured, that a picture can show for certain.

    0.10 + noise + 0.8 · (2.2 / level) / contrast, at most 0.35 (judgement): the last part is
    one step of an 8-bit channel, since JPEG holds colour no finer

    Parameters
    ----------
    noise : usual difference of neighbours, of the way from grey to cured [1]
    level : usual green of the lean [0-255]
    ends : the cured and grey ends

    Returns
    -------
    Share of the way from grey to cured [1]

    Examples
    --------
    >>> round(faintest(0.02, 110.0, Levels(0.9, 0.3, True, "grey", 0.6, 0.02, 1.0)), 3)
    0.147
    """
    step = 2.2 / max(level, 8.0) / (ends.cured - ends.grey)
    return min(0.35, _FAINT + noise + 0.8 * step)
