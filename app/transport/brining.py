"""Weights of meat, water, salt and nitrite turned into baths, and concentrations turned back.

Salt and nitrite live in water, so concentrations are per water: salt in g per g of water,
nitrite in mg per kg of water. At rest these are equal in meat and brine, which is why lean meat
(70 % water) ends with less salt per weight than the brine round it.
"""

from app.transport.checks import between, not_negative, positive
from app.transport.course import Bath

SALT = "salt"
NITRITE = "nitrite"

MEAT_WATER = 0.70
"""Water in lean brisket: flat 69.9 %, point 60.0 %, whole 61.1 % (USDA SR)."""

SATURATED_G_PER_G = 26.395 / (100.0 - 26.395)
"""Salt in saturated brine per water: 26.395 % at 60 °F (salometer scale)."""


def cover_bath(
    meat_g: float,
    water_g: float,
    salt_g: float,
    nitrite_g: float = 0.0,
    meat_water: float = MEAT_WATER,
) -> Bath:
    """The bath of a cover brine, of an equilibrium brine, or of plain water for soaking.

    α = water / (meat · w); salt/water in g/g; nitrite/water in mg/kg

    Parameters
    ----------
    meat_g : green weight of the meat [g]
    water_g : water in the brine, without what is dissolved in it [g]
    salt_g : all salt in the brine, that of the curing salt counted [g]
    nitrite_g : sodium nitrite in the brine [g]
    meat_water : w, water as a part of the green weight [0-1]

    Returns
    -------
    The bath, with `salt` and `nitrite` per water

    Raises
    ------
    ValueError : a weight is impossible, or the salt is more than the water can dissolve

    Examples
    --------
    >>> bath = cover_bath(5000, water_g=3500, salt_g=225, nitrite_g=1.35)
    >>> bath.ratio, round(bath.concentrations["salt"], 4), round(bath.concentrations["nitrite"])
    (1.0, 0.0643, 386)
    """
    _meat(meat_g, meat_water)
    positive("weight of water", water_g, "g")
    not_negative("weight of salt", salt_g, "g")
    not_negative("weight of nitrite", nitrite_g, "g")
    if salt_g / water_g > SATURATED_G_PER_G * (1.0 + 1e-6):
        raise ValueError(
            f"{water_g:g} g of water cannot dissolve {salt_g:g} g of salt; "
            f"it takes {SATURATED_G_PER_G * water_g:.0f} g at most."
        )
    return Bath(
        water_g / (meat_g * meat_water),
        {SALT: salt_g / water_g, NITRITE: nitrite_g * 1e6 / water_g},
    )


def dry_bath(
    meat_g: float, salt_g: float, nitrite_g: float = 0.0, meat_water: float = MEAT_WATER
) -> Bath:
    """The bath of a dry cure in a bag: salt in as much of the meat's own water as dissolves it.

    drawn = salt / 0.3586; α = drawn / (meat · w − drawn)

    Parameters
    ----------
    meat_g : green weight of the meat [g]
    salt_g : all salt rubbed on, that of the curing salt counted [g]
    nitrite_g : sodium nitrite rubbed on [g]
    meat_water : w, water as a part of the green weight [0-1]

    Returns
    -------
    The bath, with `salt` and `nitrite` per water

    Raises
    ------
    ValueError : a weight is impossible, or the salt needs more water than the meat has

    Notes
    -----
    Takes the salt as dissolved at once; the hours that takes are not in it.

    Examples
    --------
    >>> round(dry_bath(1000, salt_g=25).ratio, 3)
    0.111
    """
    _meat(meat_g, meat_water)
    positive("weight of salt", salt_g, "g")
    not_negative("weight of nitrite", nitrite_g, "g")
    drawn = salt_g / SATURATED_G_PER_G
    if drawn >= meat_g * meat_water:
        raise ValueError(
            f"{salt_g:g} g of salt is more than the water of {meat_g:g} g of meat can dissolve."
        )
    return Bath(
        drawn / (meat_g * meat_water - drawn),
        {SALT: salt_g / drawn, NITRITE: nitrite_g * 1e6 / drawn},
    )


def at_rest(bath: Bath, solute: str) -> float:
    """Concentration per water when meat, empty at first, and bath are at rest.

    C∞ = C₀ · α/(1+α)

    >>> round(at_rest(cover_bath(5000, 3500, 225), "salt"), 4)
    0.0321
    """
    filled = bath.concentrations.get(solute, 0.0)
    # Written so that an endless bath stays at its own concentration.
    return filled / (1.0 + 1.0 / bath.ratio)


def salt_percent(per_water: float, meat_water: float = MEAT_WATER) -> float:
    """Salt in the meat as grams per 100 g of green weight.

    100 · C · w

    >>> round(salt_percent(0.0321), 2)
    2.25
    """
    return 100.0 * not_negative("salt per water", per_water) * _part(meat_water)


def salt_per_water(percent: float, meat_water: float = MEAT_WATER) -> float:
    """Salt per water from grams per 100 g of green weight; `salt_percent` read backwards.

    >>> round(salt_per_water(2.25), 4)
    0.0321
    """
    return not_negative("salt", percent, "%") / (100.0 * _part(meat_water))


def water_phase_percent(per_water: float) -> float:
    """Salt as a percentage of water and salt together, as it keeps and as it tastes.

    100 · C / (1 + C)

    >>> round(water_phase_percent(0.0321), 2)
    3.11
    """
    return 100.0 * not_negative("salt per water", per_water) / (1.0 + per_water)


def nitrite_ppm(per_water: float, meat_water: float = MEAT_WATER) -> float:
    """Ingoing sodium nitrite in the meat [mg/kg green weight]: C · w.

    >>> round(nitrite_ppm(200.0))
    140
    """
    return not_negative("nitrite per water", per_water) * _part(meat_water)


def _part(meat_water: float) -> float:
    return between("water in the meat", meat_water, 0.3, 0.85, "of its weight")


def _meat(meat_g: float, meat_water: float) -> None:
    positive("weight of the meat", meat_g, "g")
    _part(meat_water)
