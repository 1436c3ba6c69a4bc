"""Chilling a brine with ice: where hot water, cold water and ice land together."""

from attrs import frozen

from app.transport.checks import between, not_negative, positive
from app.transport.diffusivity import Range

WATER_KJ_KG_K = 4.18
"""Heat capacity of water between 0 and 100 °C (4.218 at 0 °C); as the science sheet's check."""

MELTING_KJ_KG = 334.0
"""Latent heat of ice."""

LOOSE_ICE_KG_L = Range(0.50, 0.55, 0.60)
"""Household cubes, loose: about 500-600 kg/m³ by analogy (from memory) with tube ice 500-625 and
crushed ice 667-714 (FAO, Ice in fisheries, ch. 12)."""

CRUSHED_ICE_KG_L = Range(0.667, 0.69, 0.714)
"""Crushed ice, loose: FAO, Ice in fisheries, ch. 12."""


@frozen
class Landing:
    """Where a mix of water and ice comes to rest."""

    temperature_c: float
    ice_left_g: float


def landing(hot_g: float, hot_c: float, cold_g: float, cold_c: float, ice_g: float) -> Landing:
    """Temperature and unmelted ice when hot water, cold water and ice at 0 °C are mixed.

    T = (hot·cp·T_hot + cold·cp·T_cold − ice·L) / (cp·(hot + cold + ice)), L = 334, cp = 4.18;
    below 0 it is 0 °C, with ice left over: the heat that is missing, divided by L

    Parameters
    ----------
    hot_g, hot_c : hot water [g] and its temperature [°C]
    cold_g, cold_c : cold water [g] and its temperature [°C]
    ice_g : ice at 0 °C [g]

    Returns
    -------
    The temperature [°C] and the ice left unmelted [g]

    Raises
    ------
    ValueError : a mass is negative or not finite, all are zero, or a temperature is outside
        0 to 110 °C

    Notes
    -----
    Plain water, no heat from pot or room, ice dry and at 0 °C. Ice left in a brine goes on
    melting below 0 °C, down to the brine's freezing point, so a brine with ice left is colder
    and, until it melts, stronger than it says here. Dissolving salt cools by about a degree.

    Examples
    --------
    >>> mixed = landing(1000, 100, 0, 0, 1000)
    >>> round(mixed.temperature_c, 1), mixed.ice_left_g
    (10.0, 0.0)

    References
    ----------
    Heat balance; latent heat 334 kJ/kg and heat capacity 4.18 kJ/kg K.
    """
    not_negative("hot water", hot_g, "g")
    not_negative("cold water", cold_g, "g")
    not_negative("ice", ice_g, "g")
    positive("water and ice together", hot_g + cold_g + ice_g, "g")
    between("temperature of the hot water", hot_c, 0.0, 110.0, "°C")
    between("temperature of the cold water", cold_c, 0.0, 110.0, "°C")
    warmth = WATER_KJ_KG_K * (hot_g * hot_c + cold_g * cold_c)
    spare = warmth - MELTING_KJ_KG * ice_g
    if spare < 0.0:
        return Landing(0.0, min(-spare / MELTING_KJ_KG, ice_g))
    return Landing(spare / (WATER_KJ_KG_K * (hot_g + cold_g + ice_g)), 0.0)


def landing_temperature_c(
    hot_g: float, hot_c: float, cold_g: float, cold_c: float, ice_g: float
) -> float:
    """Temperature when hot water, cold water and ice at 0 °C have been mixed.

    As `landing`, without the ice left over

    Parameters
    ----------
    hot_g, hot_c : hot water [g] and its temperature [°C]
    cold_g, cold_c : cold water [g] and its temperature [°C]
    ice_g : ice at 0 °C [g]

    Returns
    -------
    Temperature [°C]; 0 when ice is left over

    Raises
    ------
    ValueError : as `landing`

    Examples
    --------
    >>> round(landing_temperature_c(1000, 100, 0, 15, 1000), 1)
    10.0
    >>> landing_temperature_c(100, 100, 400, 15, 1000)
    0.0

    References
    ----------
    As `landing`.
    """
    return landing(hot_g, hot_c, cold_g, cold_c, ice_g).temperature_c


def largest_boiled_fraction(target_c: float, boil_c: float = 100.0) -> float:
    """Most of the final water that may have been boiled, all the rest being ice.

    f = (L + cp·T) / (L + cp·T_boil)

    Parameters
    ----------
    target_c : temperature to land at [°C]
    boil_c : temperature of the hot water when the ice goes in [°C]

    Returns
    -------
    Hot part of the final water, by mass [0-1]

    Raises
    ------
    ValueError : the target is below 0 °C, or the hot water not hotter than the target

    Notes
    -----
    Letting the hot part cool first is the way to boil more of it.

    Examples
    --------
    >>> round(largest_boiled_fraction(4.0), 3)
    0.466

    References
    ----------
    Heat balance as in `landing`.
    """
    between("temperature to land at", target_c, 0.0, 100.0, "°C")
    between("temperature of the hot water", boil_c, 0.0, 110.0, "°C")
    if boil_c <= target_c:
        raise ValueError(
            f"The hot water ({boil_c} °C) must be hotter than where it should land ({target_c} °C)."
        )
    return (MELTING_KJ_KG + WATER_KJ_KG_K * target_c) / (MELTING_KJ_KG + WATER_KJ_KG_K * boil_c)


def ice_to_land_at_g(
    hot_g: float, hot_c: float, other_g: float, tap_c: float, target_c: float
) -> float:
    """Ice to put in place of cold water so that the whole lands at a temperature.

    ice = cp·(hot·T_hot + other·T_tap − (hot + other)·T) / (L + cp·T_tap)

    Parameters
    ----------
    hot_g, hot_c : hot water [g] and its temperature [°C]
    other_g : all other water, as cold water and ice together [g]
    tap_c : temperature of the cold water [°C]
    target_c : temperature to land at [°C]

    Returns
    -------
    Ice [g], never more than `other_g` nor less than 0

    Raises
    ------
    ValueError : a mass is negative or not finite, or a temperature is outside 0 to 110 °C

    Examples
    --------
    >>> ice = ice_to_land_at_g(800, 100, 3200, 15, 4)
    >>> round(landing_temperature_c(800, 100, 3200 - ice, 15, ice), 6)
    4.0

    References
    ----------
    Heat balance as in `landing`.
    """
    not_negative("hot water", hot_g, "g")
    not_negative("other water", other_g, "g")
    for what, value in (("hot water", hot_c), ("cold water", tap_c), ("finished mix", target_c)):
        between(f"temperature of the {what}", value, 0.0, 110.0, "°C")
    surplus = hot_g * hot_c + other_g * tap_c - (hot_g + other_g) * target_c
    ice = WATER_KJ_KG_K * surplus / (MELTING_KJ_KG + WATER_KJ_KG_K * tap_c)
    return min(max(ice, 0.0), other_g)


def loose_volume_ml(ice_g: float, loose_kg_l: Range = LOOSE_ICE_KG_L) -> Range:
    """Room a weight of loose ice takes up.

    V = ice / bulk density

    Parameters
    ----------
    ice_g : ice [g]
    loose_kg_l : bulk density of the loose ice [kg/L]

    Returns
    -------
    Volume as low, likely and high [mL]

    Raises
    ------
    ValueError : the ice is negative or not finite

    Examples
    --------
    >>> loose_volume_ml(1000).high
    2000.0

    References
    ----------
    Bulk densities: FAO, Ice in fisheries, ch. 12; household cubes from memory.
    """
    not_negative("ice", ice_g, "g")
    return Range(ice_g / loose_kg_l.high, ice_g / loose_kg_l.likely, ice_g / loose_kg_l.low)


@frozen
class EqualVolumes:
    """What boiled water and the same volume of loose ice really come to."""

    water_g: Range
    stated_water_g: float
    landing_c: Range


def equal_volumes(boiled_ml: float, loose_kg_l: Range = LOOSE_ICE_KG_L) -> EqualVolumes:
    """The trade's rule, checked: a gallon of boiled water and a gallon of ice for two of water.

    ice = volume · bulk density; then the balance of `landing`

    Parameters
    ----------
    boiled_ml : water boiled, and volume of loose ice put to it [mL]
    loose_kg_l : bulk density of the loose ice [kg/L]

    Returns
    -------
    Water there really is, water the rule states [g], and where it lands [°C]

    Raises
    ------
    ValueError : the volume is not above 0

    Notes
    -----
    The boiled water is taken as weighed before boiling, 1 g/mL, still at 100 °C.

    Examples
    --------
    >>> real = equal_volumes(1000)
    >>> round(real.water_g.likely), round(real.landing_c.likely)
    (1550, 36)

    References
    ----------
    The rule is common practice, no source; the balance is that of `landing`.
    """
    positive("boiled water", boiled_ml, "mL")
    ice = [boiled_ml * density for density in (loose_kg_l.low, loose_kg_l.likely, loose_kg_l.high)]
    lands = [landing_temperature_c(boiled_ml, 100.0, 0.0, 0.0, g) for g in reversed(ice)]
    return EqualVolumes(Range(*(boiled_ml + g for g in ice)), 2.0 * boiled_ml, Range(*lands))
