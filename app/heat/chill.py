"""How long a mixed brine takes to get cold in the refrigerator."""

from math import log

from attrs import frozen

from app.cure.working import Working
from app.heat.core_log import checked_temperature, clock_words
from app.transport.checks import between, positive
from app.transport.diffusivity import Range

COLD_C = 4.4
"""Meat goes into brine at 40 °F (4.4 °C) or below (FSIS, refrigerator temperature)."""

SURFACE_W_M2_K = Range(5.0, 7.5, 12.0)
"""Heat leaving a pot in still to gently moving refrigerator air; a judgement, no source."""

# cp of water at 20 °C, and of dissolved salt in it; the second a judgement that gives about
# 3.7 kJ/kg K at 10 % (from memory).
_WATER_J_KG_K, _SALT_J_KG_K = 4182.0, -600.0
_POT_SHAPE = 5.54  # surface over volume^(2/3) of a pot as wide as high: 1.5π·(4/π)^(2/3)


@frozen
class ChillForecast:
    """Hours until cold. `hours` is None when this refrigerator never gets it there."""

    hours: Range | None
    says: str
    working: Working


def hours_to_chill(
    brine_g: float,
    salt_percent: float,
    start_c: float,
    fridge_c: float = 3.0,
    target_c: float = COLD_C,
    density_kg_m3: float = 1050.0,
) -> ChillForecast:
    """How long a pot of brine takes from mixed to cold in the refrigerator.

    t = m·cp/(h·A) · ln((T₀ − Tf)/(T − Tf)), A = 5.54·V^(2/3)

    Parameters
    ----------
    brine_g : weight of the brine [g]
    salt_percent : salt in it [% by weight]
    start_c : temperature it begins at [°C]
    fridge_c : temperature of the refrigerator's air [°C]
    target_c : temperature wanted [°C]
    density_kg_m3 : density of the brine [kg/m³]

    Returns
    -------
    Hours as low, likely, high

    Raises
    ------
    ValueError : a number is impossible

    Notes
    -----
    Rough: brine taken as one lump, the pot as wide as high with all sides free, the refrigerator
    as keeping its own temperature, which a hot pot spoils. Stirred ice is far quicker.

    Examples
    --------
    >>> hours_to_chill(5300, 8.0, start_c=20.0).says
    'About 11 h 25 min in the refrigerator, from 7 h 8 min to 17 h 8 min. Measure before ...'

    References
    ----------
    Lumped cooling by Newton's law; surface coefficient and heat capacity judged, no source.
    """
    positive("weight of the brine", brine_g, "g")
    between("salt", salt_percent, 0.0, 26.4, "%")
    between("density of the brine", density_kg_m3, 900.0, 1300.0, "kg/m³")
    between("temperature of the brine", start_c, -20.0, 105.0, "°C")
    checked_temperature("temperature of the refrigerator", fridge_c)
    checked_temperature("temperature wanted", target_c)
    inputs = (
        ("Brine", f"{brine_g:.0f} g at {salt_percent:.1f} % salt"),
        ("From, to", f"{start_c:.1f} °C, {target_c:.1f} °C"),
        ("Refrigerator", f"{fridge_c:.1f} °C"),
        (
            "Heat leaving the pot",
            f"{SURFACE_W_M2_K.low:g} to {SURFACE_W_M2_K.high:g} W/m² K",
        ),
    )
    if start_c <= target_c:
        says = "Cold enough already."
        return ChillForecast(Range(0.0, 0.0, 0.0), says, _working(inputs, says))
    if target_c <= fridge_c:
        says = (
            f"A refrigerator at {fridge_c:.1f} °C never brings it to {target_c:.1f} °C: set it "
            "colder, or use ice."
        )
        return ChillForecast(None, says, _working(inputs, says))
    mass_kg = brine_g / 1000.0
    capacity = mass_kg * (
        _WATER_J_KG_K * (1.0 - salt_percent / 100.0) + _SALT_J_KG_K * salt_percent / 100.0
    )
    surface_m2 = _POT_SHAPE * (mass_kg / density_kg_m3) ** (2.0 / 3.0)
    falls = log((start_c - fridge_c) / (target_c - fridge_c))
    high, likely, low = (
        capacity / (h * surface_m2) * falls / 3600.0
        for h in (SURFACE_W_M2_K.low, SURFACE_W_M2_K.likely, SURFACE_W_M2_K.high)
    )
    hours = Range(low, likely, high)
    says = (
        f"About {clock_words(likely * 60.0)} in the refrigerator, from {clock_words(low * 60.0)} "
        f"to {clock_words(high * 60.0)}. Measure before the meat goes in."
    )
    if start_c > 40.0:
        says += " Cool it with ice or in a sink first: a hot pot warms everything beside it."
    return ChillForecast(hours, says, _working(inputs, says))


def _working(inputs: tuple[tuple[str, str], ...], result: str) -> Working:
    return Working(
        "Chilling the brine",
        "t = m · cp / (h · A) · ln((T₀ − Tf) / (T − Tf))",
        inputs,
        result,
        "Newton's law of cooling; heat leaving the pot judged, no source; ≤ 4.4 °C FSIS.",
        "Rough, and only a range: pot shape, lid, how full the refrigerator is and its fan decide.",
    )
