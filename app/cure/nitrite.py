"""Ingoing nitrite by the handbook's four ways of counting it."""

from app.cure.rules import limit_ppm
from app.transport.checks import between, not_negative, positive

__all__ = [
    "ingoing_by_equilibrium_ppm",
    "ingoing_by_pickup_ppm",
    "ingoing_dry_ppm",
    "ingoing_pumped_ppm",
    "limit_ppm",
]


def ingoing_by_equilibrium_ppm(nitrite_g: float, meat_g: float, pickle_g: float) -> float:
    """Ingoing nitrite when meat and cover pickle are taken as one system.

    ppm = nitrite · 10⁶ / (meat + pickle)

    Parameters
    ----------
    nitrite_g : sodium nitrite in the pickle [g]; curing salt times its nitrite fraction
    meat_g : green (raw) weight of the meat [g]
    pickle_g : whole pickle, water and all that is dissolved in it [g]

    Returns
    -------
    Sodium nitrite per mass of meat and pickle [mg/kg]

    Raises
    ------
    ValueError : a mass is negative or not finite, meat and pickle are both zero, or there is
        more nitrite than pickle

    Notes
    -----
    Holds once meat and pickle are at rest with each other; before that the
    pick-up method is the lower and nearer one.

    Examples
    --------
    >>> round(ingoing_by_equilibrium_ppm(1.350, meat_g=5000, pickle_g=4000), 2)
    150.0

    References
    ----------
    USDA FSIS Directive 7620.3 (1995), p. 22, method two.
    """
    not_negative("nitrite", nitrite_g, "g")
    not_negative("meat", meat_g, "g")
    not_negative("pickle", pickle_g, "g")
    positive("meat and pickle together", meat_g + pickle_g, "g")
    _dissolved_in(nitrite_g, pickle_g)
    return nitrite_g * 1e6 / (meat_g + pickle_g)


def ingoing_by_pickup_ppm(nitrite_g: float, pickle_g: float, pickup_fraction: float) -> float:
    """Ingoing nitrite from the weight the meat takes up in the pickle.

    ppm = nitrite · pick-up · 10⁶ / pickle

    Parameters
    ----------
    nitrite_g : sodium nitrite in the pickle [g]
    pickle_g : whole pickle, water and all that is dissolved in it [g]
    pickup_fraction : gain in weight over green weight [0-1]

    Returns
    -------
    Sodium nitrite per green weight [mg/kg]

    Raises
    ------
    ValueError : a number is negative or not finite, there is no pickle or more nitrite than
        pickle, or the pick-up is above 1

    Notes
    -----
    Takes it that nitrite comes in only with the pickle's own weight. Meat left for days takes
    up nitrite without gaining weight, so this is then too low.

    Examples
    --------
    >>> round(ingoing_by_pickup_ppm(1.350, pickle_g=4000, pickup_fraction=0.10), 2)
    33.75

    References
    ----------
    USDA FSIS Directive 7620.3 (1995), pp. 21-22, method one.
    """
    return _by_pickle(nitrite_g, pickle_g, pickup_fraction, "pick-up")


def ingoing_pumped_ppm(nitrite_g: float, pickle_g: float, pump_fraction: float) -> float:
    """Ingoing nitrite from the pickle pumped into the meat.

    ppm = nitrite · pump · 10⁶ / pickle

    Parameters
    ----------
    nitrite_g : sodium nitrite in the pickle [g]
    pickle_g : whole pickle, water and all that is dissolved in it [g]
    pump_fraction : pickle pumped in over green weight [0-1]

    Returns
    -------
    Sodium nitrite per green weight [mg/kg]

    Raises
    ------
    ValueError : a number is negative or not finite, there is no pickle or more nitrite than
        pickle, or the pump is above 1

    Notes
    -----
    Takes it that all that is pumped stays in; what runs out makes the true figure lower. A cover
    pickle adds to it, see `ingoing_by_equilibrium_ppm`.

    Examples
    --------
    2 lb of nitrite in 1000 lb of pickle at 10 % pump:

    >>> round(ingoing_pumped_ppm(907.18474, pickle_g=453592.37, pump_fraction=0.10), 2)
    200.0

    References
    ----------
    USDA FSIS Directive 7620.3 (1995), p. 19.
    """
    return _by_pickle(nitrite_g, pickle_g, pump_fraction, "pump")


def ingoing_dry_ppm(nitrite_g: float, meat_g: float) -> float:
    """Ingoing nitrite of meat rubbed or mixed with the cure, nothing added but that.

    ppm = nitrite · 10⁶ / meat

    Parameters
    ----------
    nitrite_g : sodium nitrite put on the meat [g]
    meat_g : green (raw) weight of the meat [g]

    Returns
    -------
    Sodium nitrite per green weight [mg/kg]

    Raises
    ------
    ValueError : a mass is negative or not finite, there is no meat, or more nitrite than meat

    Examples
    --------
    1 oz of 6.25 % cure on 25 lb of meat:

    >>> round(ingoing_dry_ppm(28.349523 * 0.0625, meat_g=25 * 453.59237), 2)
    156.25

    References
    ----------
    USDA FSIS Directive 7620.3 (1995), pp. 15, 24-27.
    """
    not_negative("nitrite", nitrite_g, "g")
    positive("meat", meat_g, "g")
    if nitrite_g > meat_g:
        raise ValueError(f"More nitrite ({nitrite_g} g) than meat ({meat_g} g) was given.")
    return nitrite_g * 1e6 / meat_g


def _by_pickle(nitrite_g: float, pickle_g: float, fraction: float, what: str) -> float:
    not_negative("nitrite", nitrite_g, "g")
    positive("pickle", pickle_g, "g")
    between(f"{what} as a fraction of the green weight", fraction, 0.0, 1.0)
    _dissolved_in(nitrite_g, pickle_g)
    return nitrite_g * fraction * 1e6 / pickle_g


def _dissolved_in(nitrite_g: float, pickle_g: float) -> None:
    if nitrite_g > pickle_g:
        raise ValueError(
            f"The pickle weighs {pickle_g} g with all that is dissolved in it; it cannot hold "
            f"{nitrite_g} g of nitrite."
        )
