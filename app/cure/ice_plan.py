"""The water of a mix in three parts: boiled, cold and ice, so that it lands cold."""

from app.cure.answer import IcePlan
from app.cure.figures import celsius, grams
from app.cure.ice import (
    ice_to_land_at_g,
    landing,
    largest_boiled_fraction,
    loose_volume_ml,
)
from app.cure.request import MixRequest
from app.cure.working import Working

BOIL_C = 100.0


def ice_plan(request: MixRequest, water_g: float) -> IcePlan:
    """Boiled water, cold water and ice for a mix.

    As `app.cure.ice.ice_to_land_at_g` and `landing`

    Parameters
    ----------
    request : settled
    water_g : all the water, ice with it [g]

    Returns
    -------
    The three parts, where they land, and the most that may be boiled

    Raises
    ------
    ValueError : a temperature or mass that cannot be

    Notes
    -----
    Asked to boil more than ice alone can bring down, it takes ice for all the rest and lands
    warmer; the cautions say so.

    References
    ----------
    As `app.cure.ice`.
    """
    boiled_g = water_g * request.boiled_percent / 100.0
    other_g = max(water_g - boiled_g, 0.0)
    ice_g = ice_to_land_at_g(boiled_g, BOIL_C, other_g, request.tap_c, request.target_c)
    cold_g = max(other_g - ice_g, 0.0)
    end = landing(boiled_g, BOIL_C, cold_g, request.tap_c, ice_g)
    return IcePlan(
        boiled_g=boiled_g,
        cold_g=cold_g,
        ice_g=ice_g,
        landing_c=end.temperature_c,
        target_c=request.target_c,
        most_boiled_g=water_g * largest_boiled_fraction(request.target_c, BOIL_C),
        ice_ml=loose_volume_ml(ice_g),
        ice_water_ml=ice_g,
        leftover_ice_g=end.ice_left_g,
    )


def ice_workings(request: MixRequest, plan: IcePlan) -> dict[str, Working]:
    """How ice, landing and the most that may be boiled were come by."""
    balance = "Heat balance: ice takes 334 kJ/kg to melt, water 4.18 kJ/kg for each °C"
    whole = plan.boiled_g + plan.cold_g + plan.ice_g
    return {
        "ice": Working(
            "Ice by weight",
            "ice = 4.18 × (boiled × 100 + other × tap − all × target) ÷ (334 + 4.18 × tap)",
            (
                ("boiled", grams(plan.boiled_g)),
                ("other water", grams(plan.cold_g + plan.ice_g)),
                ("tap", celsius(request.tap_c)),
                ("target", celsius(plan.target_c)),
            ),
            grams(plan.ice_g),
            balance,
            "Nothing is counted for pot and room, nor for the salt, which cools by about a degree.",
        ),
        "landing": Working(
            "Where it lands",
            "T = 4.18 × (boiled × 100 + cold × tap) − 334 × ice, over 4.18 × all",
            (
                ("boiled", grams(plan.boiled_g)),
                ("cold", f"{grams(plan.cold_g)} at {celsius(request.tap_c)}"),
                ("ice", grams(plan.ice_g)),
            ),
            celsius(plan.landing_c),
            balance,
            "Measure it before the meat goes in.",
        ),
        "boiled": Working(
            "Most that may be boiled",
            "boiled ÷ all = (334 + 4.18 × target) ÷ (334 + 418)",
            (("all water", grams(whole)), ("target", celsius(plan.target_c))),
            grams(plan.most_boiled_g),
            balance,
            "With all the rest as ice, and straight from the boil. Cooled first, more may be.",
        ),
        "ice_volume": Working(
            "Room the loose ice takes",
            "volume = ice ÷ 0.50 to 0.60 kg/L",
            (("ice", grams(plan.ice_g)),),
            f"{plan.ice_ml.low / 1000.0:.1f} to {plan.ice_ml.high / 1000.0:.1f} L loose, "
            f"{plan.ice_water_ml / 1000.0:.1f} L as water",
            "Tube ice 500-625, crushed 667-714 kg/m³ (FAO, Ice in fisheries, ch. 12); household "
            "cubes from memory",
            "So a measure of loose ice is only about 0.55 of it in water: weigh the ice.",
        ),
    }
