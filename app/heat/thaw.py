"""Thawing in the refrigerator."""

from math import ceil

from attrs import frozen

from app.cure.working import Working
from app.transport.checks import positive

G_A_POUND = 453.59237
HOURS_A_POUND = 24.0 / 5.0
"""24 h for every 5 lb in the refrigerator (Michigan State University Extension, E3259)."""


@frozen
class ThawTime:
    """Hours by the rule, and whole days to plan with."""

    hours: float
    plan_days: int
    says: str
    working: Working


def thaw_time(frozen_g: float) -> ThawTime:
    """How long a frozen piece takes to thaw in the refrigerator.

    hours = 24 · pounds / 5; planned in whole days, begun days counted

    Parameters
    ----------
    frozen_g : weight of the piece [g]

    Returns
    -------
    Hours and days to plan with

    Raises
    ------
    ValueError : the weight is not above 0

    Notes
    -----
    The rule knows weight only. A thick piece, a full or a cold refrigerator take longer; feel for
    ice in the middle before it goes into the cure, since ice stops the cure.

    Examples
    --------
    >>> thaw_time(5 * 453.59237).plan_days, thaw_time(6000).plan_days
    (1, 3)

    References
    ----------
    Michigan State University Extension, E3259.
    """
    pounds = positive("weight of the frozen piece", frozen_g, "g") / G_A_POUND
    hours = HOURS_A_POUND * pounds
    days = max(ceil(hours / 24.0 - 1e-9), 1)
    says = (
        f"About {hours:.0f} hours in the refrigerator; plan {days} day{'s' if days > 1 else ''}, "
        "and feel for ice in the middle."
    )
    working = Working(
        "Thawing in the refrigerator",
        "24 h · pounds / 5",
        (("Weight", f"{frozen_g:.0f} g"),),
        says,
        "Michigan State University Extension, E3259",
        "By weight only; thickness and how cold the refrigerator runs are not in it.",
    )
    return ThawTime(hours, days, says, working)
