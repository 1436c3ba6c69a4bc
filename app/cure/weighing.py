"""The ingredients of a mix in the order they are weighed."""

from app.cure.amounts import Amounts
from app.cure.answer import IcePlan, Ingredient
from app.cure.figures import grams, ppm
from app.cure.request import MixRequest
from app.cure.spicing import brine_spices
from app.cure.working import Working

_LEAST_G = 1e-9


def ingredients(
    request: MixRequest, amounts: Amounts, ice: IcePlan | None
) -> tuple[Ingredient, ...]:
    """Everything to weigh, curing salt first after meat and water: it is what must be right."""
    found = [Ingredient("meat", "Meat", amounts.meat_g, "green weight")]
    if ice is not None:
        found += [
            Ingredient("water", "Water, boiled", ice.boiled_g, "for salt, sugar and spices", "ice"),
            Ingredient("water", "Water, cold", ice.cold_g, "from the tap", "ice"),
            Ingredient("ice", "Ice", ice.ice_g, "weighed, not measured", "ice"),
        ]
    found += [
        Ingredient("cure", request.cure_name, amounts.cure_g, "weigh on a fine scale", "cure"),
        Ingredient("salt", "Salt", amounts.salt_g, "any plain salt, by weight", "salt"),
        Ingredient("sugar", "Sugar", amounts.sugar_g, "", "sugar"),
        Ingredient(
            "ascorbate", "Sodium ascorbate", amounts.ascorbate_g, "or erythorbate", "ascorbate"
        ),
        *brine_spices(request, amounts),
    ]
    return tuple(one for one in found if one.grams > _LEAST_G)


def ascorbate_working(request: MixRequest, amounts: Amounts) -> Working:
    """How the ascorbate was come by."""
    return Working(
        "Ascorbate",
        "ascorbate = ppm × (meat + pickle) ÷ 1,000,000",
        (
            ("asked", ppm(request.ascorbate_ppm)),
            ("meat", grams(amounts.meat_g)),
            ("pickle", grams(amounts.pickle_g)),
        ),
        grams(amounts.ascorbate_g),
        "At most 550 ppm, 9 CFR 424.21(c), from memory",
        "It speeds the colour and is not needed. Never mix it dry with the curing salt.",
    )
