"""Curing salts: what is in them, and which are not for this use."""

from attrs import frozen

from app.cure.answer import UnsuitableCure
from app.transport.checks import between

STRONGEST_PERCENT = 10.0
"""Strongest curing salt taken. Our own judgement: a kitchen scale that is 1 g out is 1 part in 20
of the US cure for a brisket, but more than the whole of it in pure nitrite, and a few grams of
pure nitrite swallowed can kill."""


@frozen
class CuringSalt:
    """A curing salt by its label: sodium nitrite and nitrate by mass, the rest salt."""

    name: str
    nitrite_percent: float
    nitrate_percent: float = 0.0


CURING_SALTS: tuple[CuringSalt, ...] = (
    CuringSalt("US cure no. 1", 6.25),  # 6.25 % sodium nitrite and 93.75 % salt, seen restated
    CuringSalt("EU nitrited salt 0.9 %", 0.9),  # EU: 0.4 to 0.9 % nitrite, the rest salt
    CuringSalt("EU nitrited salt 0.6 %", 0.6),
    CuringSalt("EU nitrited salt 0.5 %", 0.5),
    CuringSalt("EU nitrited salt 0.4 %", 0.4),
)


def check_suitable(salt: CuringSalt) -> None:
    """Refuse a curing salt that is not for short, cold cures that are then cooked.

    Parameters
    ----------
    salt : the curing salt as its label states it

    Returns
    -------
    Nothing

    Raises
    ------
    UnsuitableCure : it has nitrate in it (cure no. 2), or is too near pure nitrite to weigh
    ValueError : a percentage is not one, or there is no nitrite in it

    References
    ----------
    Cure no. 2 is for long dry curing (seen restated); the 10 % is our own judgement.
    """
    between(f"nitrate in {salt.name}", salt.nitrate_percent, 0.0, 100.0, "%")
    between(f"nitrite in {salt.name}", salt.nitrite_percent, 0.0, 100.0, "%")
    if salt.nitrate_percent > 0.0:
        raise UnsuitableCure(
            f"{salt.name} has nitrate in it ({salt.nitrate_percent:g} %). Such a cure (no. 2) is "
            "for meat dried over weeks or months; here the nitrate would stay in the meat unused. "
            "Use cure no. 1 or another salt with nitrite only."
        )
    if salt.nitrite_percent > STRONGEST_PERCENT:
        raise UnsuitableCure(
            f"{salt.name} is {salt.nitrite_percent:g} % nitrite. Above {STRONGEST_PERCENT:g} % a "
            "kitchen scale cannot weigh it safely, and a mistake can kill. Use a curing salt that "
            "is mostly salt, such as the 6.25 % kind."
        )
    if salt.nitrite_percent == 0.0:
        raise ValueError(
            f"{salt.name} has no nitrite in it. Give its nitrite in % as the label states it."
        )
