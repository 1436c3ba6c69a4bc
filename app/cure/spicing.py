"""A blend grown to the batch: with the brine it goes in, or with the surface it goes on."""

from app.cure.amounts import Amounts
from app.cure.answer import Ingredient
from app.cure.blends import GRAMS_PER_TABLESPOON, Blend
from app.cure.figures import grams
from app.cure.meat import cut_of, surface_cm2
from app.cure.request import MixRequest
from app.cure.working import Working
from app.transport.checks import not_negative


def scaled(blend: Blend, size: float, working: str) -> tuple[Ingredient, ...]:
    """Every part of a blend for a size in its own measure (kg, or 100 cm²)."""
    return tuple(
        Ingredient(
            "spice",
            part.name[:1].upper() + part.name[1:],
            not_negative(part.name, part.grams) * size,
            _spoons(part.name, part.grams * size),
            working,
        )
        for part in blend.parts
    )


def _spoons(name: str, mass_g: float) -> str:
    """Spice may be spooned: how many tablespoons that is, when its weight by spoon is known."""
    spoon = GRAMS_PER_TABLESPOON.get(name.casefold())
    if spoon is None or mass_g < 0.1 * spoon:
        return ""
    return f"about {mass_g / spoon:.1f} tbsp"


def brine_spices(request: MixRequest, amounts: Amounts) -> tuple[Ingredient, ...]:
    """The brine's spices; on the meat alone for a dry cure."""
    if request.brine_spices is None:
        return ()
    return scaled(request.brine_spices, (amounts.meat_g + amounts.pickle_g) / 1000.0, "spices")


def rub_surface_cm2(request: MixRequest) -> float:
    """Surface the rub goes on, after the cure and before the smoke [cm²]."""
    cut = cut_of(request.cut)
    thick_mm = request.thickness_mm or cut.thickness_mm
    return surface_cm2(request.meat_g, cut, thick_mm, request.shrink_percent / 100.0)


def rub(request: MixRequest) -> tuple[Ingredient, ...]:
    """The rub by surface."""
    if request.rub is None:
        return ()
    return scaled(request.rub, rub_surface_cm2(request) / 100.0, "rub")


def spice_workings(request: MixRequest, amounts: Amounts) -> dict[str, Working]:
    """How spices and rub were come by."""
    found: dict[str, Working] = {}
    if request.brine_spices is not None:
        found["spices"] = Working(
            request.brine_spices.name,
            "grams = grams for a kilogram × (meat + pickle)",
            (("meat", grams(amounts.meat_g)), ("pickle", grams(amounts.pickle_g))),
            grams(sum(part.grams for part in brine_spices(request, amounts))),
            "Our own proportions; common practice, no source",
            "Taste. Little of it reaches the middle.",
        )
    if request.rub is not None:
        found["rub"] = Working(
            request.rub.name,
            "grams = grams for 100 cm² × surface; surface of a flat block, shrunk by "
            "(1 − loss)^(2/3)",
            (
                ("meat", grams(request.meat_g)),
                ("thickness", f"{request.thickness_mm:g} mm"),
                ("loss by then", f"{request.shrink_percent:g} %"),
                ("surface", f"{rub_surface_cm2(request):.0f} cm²"),
            ),
            grams(sum(part.grams for part in rub(request))),
            "Our own proportions; geometry; common practice, no source",
            "Some falls off; a ragged piece takes more.",
        )
    return found
