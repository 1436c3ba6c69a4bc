"""Amounts as a found recipe writes them, turned into grams with the spread they leave open."""

import re
from typing import Literal

from attrs import frozen

from app.cure.ice import LOOSE_ICE_KG_L
from app.quantities import ML_PER_GAL, S_PER_DAY, parse
from app.transport.diffusivity import Range

What = Literal["meat", "water", "boiled", "ice", "salt", "cure", "sugar"]
Crystals = Literal["unknown", "fine", "coarse"]

_TSP_ML = ML_PER_GAL / 768.0
_CUP_ML = ML_PER_GAL / 16.0

# Grams in a level teaspoon. Table salt 18 g a tablespoon (USDA SR); coarse salts about 2.8 to
# 4.8 by crystal (seen restated).
_SALT_TSP: dict[Crystals, Range] = {
    "fine": Range(5.7, 6.0, 6.3),
    "coarse": Range(2.8, 3.8, 4.8),
    "unknown": Range(2.8, 4.8, 6.0),
}

_CURE_TSP = Range(4.8, 6.0, 7.2)
"""Curing salt is ground as table salt is, so taken as that, less and more by a fifth for how the
spoon is filled. Our own judgement, no source."""

_SUGAR_CUP = Range(200.0, 200.0, 220.0)
"""White 200, packed brown 220 g (USDA SR)."""

_G_ML: dict[What, Range] = {
    "water": Range(1.0, 1.0, 1.0),
    "boiled": Range(1.0, 1.0, 1.0),
    "ice": LOOSE_ICE_KG_L,
    "cure": Range(*(g / _TSP_ML for g in (_CURE_TSP.low, _CURE_TSP.likely, _CURE_TSP.high))),
    "sugar": Range(*(g / _CUP_ML for g in (_SUGAR_CUP.low, _SUGAR_CUP.likely, _SUGAR_CUP.high))),
}

_SPAN = re.compile(
    r"([\d.,/½¼¾⅓⅔⅛⅜⅝⅞ ]*\d?[\d½¼¾⅓⅔⅛⅜⅝⅞])\s*(?:-|–|—|to\b|or\b)\s*(?!\d+/\d)(.+)", re.I
)
_BARE = re.compile(r"[^A-Za-z#\"'″′°]*")


@frozen
class WrittenLine:
    """One amount of a recipe, as it is written there: "1 gal", "2 cups", "3-4 lb".

    boiled : water that is heated, where the recipe chills it again with ice
    """

    what: What
    text: str
    crystals: Crystals = "unknown"


def grams_written(line: WrittenLine) -> Range:
    """An amount as low, likely and high in grams.

    grams = volume · grams per mL, where it is told by volume

    Parameters
    ----------
    line : what, and how much as written; spoons, cups and gallons are the US ones

    Returns
    -------
    Mass [g]; for a span such as "3-4 lb" from its low to its high end

    Raises
    ------
    ValueError : it has no unit, cannot be read, or is meat by volume

    Notes
    -----
    A spoon of salt or cure is a range because crystals differ; a weight is not.

    Examples
    --------
    >>> salt = grams_written(WrittenLine("salt", "1 cup"))
    >>> round(salt.low), round(salt.high)
    (134, 288)

    References
    ----------
    USDA SR household measures; coarse salt seen restated; loose ice FAO, Ice in fisheries.
    """
    ends = [_grams(line, text) for text in _ends(line.text)]
    low, high = ends[0].low, ends[-1].high
    if not low <= high:
        raise ValueError(f"“{line.text}” goes from more to less; the smaller comes first.")
    return Range(low, (ends[0].likely + ends[-1].likely) / 2.0, high)


def days_written(text: str) -> Range:
    """Days in the cure as low, likely and high: "5 days", "5-7 days", "1 week", "36 h".

    Parameters
    ----------
    text : as the recipe writes it; a bare number is days

    Returns
    -------
    Time [d]

    Raises
    ------
    ValueError : it cannot be read, or goes from more to less

    Examples
    --------
    >>> days_written("5 to 7 days").likely
    6.0

    References
    ----------
    None; reading only.
    """
    ends = [parse(one, "duration", "days") / S_PER_DAY for one in _ends(text)]
    if ends[0] > ends[-1]:
        raise ValueError(f"“{text}” goes from more to less; the smaller comes first.")
    return Range(ends[0], (ends[0] + ends[-1]) / 2.0, ends[-1])


def _ends(text: str) -> list[str]:
    """The two ends of a span, the first with the second's unit; one if it is no span."""
    span = _SPAN.fullmatch(text.strip())
    if span is None:
        return [text]
    unit = re.sub(r"^[\d.,/½¼¾⅓⅔⅛⅜⅝⅞\s]+", "", span[2])
    return [f"{span[1]} {unit}".strip(), span[2]]


def _grams(line: WrittenLine, text: str) -> Range:
    if _BARE.fullmatch(text):
        raise ValueError(
            f"“{line.text}” for the {line.what} has no unit; write it with one, such as 2 cups "
            "or 300 g."
        )
    try:
        exact = parse(text, "mass", "g")
    except ValueError as as_mass:
        try:
            volume_ml = parse(text, "volume", "mL")
        except ValueError:
            raise as_mass from None
    else:
        return Range(exact, exact, exact)
    if line.what == "meat":
        raise ValueError(f"Meat goes by weight; “{line.text}” is a volume.")
    g_ml = _salt_g_ml(line.crystals) if line.what == "salt" else _G_ML[line.what]
    return Range(volume_ml * g_ml.low, volume_ml * g_ml.likely, volume_ml * g_ml.high)


def _salt_g_ml(crystals: Crystals) -> Range:
    if crystals not in _SALT_TSP:
        raise ValueError(f"Crystals are unknown, fine or coarse; {crystals!r} was given.")
    tsp = _SALT_TSP[crystals]
    return Range(tsp.low / _TSP_ML, tsp.likely / _TSP_ML, tsp.high / _TSP_ML)
