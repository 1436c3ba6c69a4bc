"""Meat and brine in their container: what covers, where it stands, whether the meat floats."""

from math import pi

from app.cure.amounts import Amounts, nacl_for, sugar_for
from app.cure.answer import BrineFigures, ContainerFit
from app.cure.brine_sheet import volume_ml
from app.cure.figures import grams, millilitres
from app.cure.meat import cut_of, density_g_ml
from app.cure.request import MixRequest
from app.cure.working import Working

# Common practice, no source: how much brine a snug bag wants, how closely pieces lie, how much
# should stand above them.
BAG_WATER_PER_MEAT = 0.5
BAG_LEAST_PER_MEAT = 0.3
PACKED = 0.8
ABOVE_MM = 15.0

CERAMIC_G_ML = 2.4
"""Density of stoneware, from memory."""

_SURE = 1.5
"""Half as much again, so that a piece does not lift at one end. Common practice, no source."""


def floor_mm2(request: MixRequest) -> float | None:
    """Inner floor of the container, None for a bag or a container with no sizes."""
    if request.vessel == "round" and request.vessel_width_mm:
        return pi / 4.0 * request.vessel_width_mm**2
    if request.vessel == "box" and request.vessel_width_mm and request.vessel_length_mm:
        return request.vessel_width_mm * request.vessel_length_mm
    return None


def meat_ml(request: MixRequest) -> float:
    """Room the meat takes up [mL]."""
    return request.meat_g / density_g_ml(cut_of(request.cut))


def brine_to_cover_ml(request: MixRequest) -> float:
    """Brine that just covers the meat.

    V = floor · (stack + 15 mm) − meat, stack = max(thickness, meat / (0.8 · floor));
    in a bag 0.5 g of water for each gram of meat

    Parameters
    ----------
    request : settled, with its container

    Returns
    -------
    Volume of brine [mL]

    Raises
    ------
    ValueError : never for a settled request

    Notes
    -----
    The packing, the 15 mm above and the bag's share are common practice, no source.
    """
    room_ml = meat_ml(request)
    floor = floor_mm2(request)
    if floor is None:
        return BAG_WATER_PER_MEAT * request.meat_g
    stack_mm = max(request.thickness_mm or 0.0, room_ml * 1000.0 / (PACKED * floor))
    return max(floor * (stack_mm + ABOVE_MM) / 1000.0 - room_ml, 0.05 * request.meat_g)


def water_to_cover_g(request: MixRequest) -> float:
    """Water whose brine just covers the meat in its container.

    The water that, with its salt and sugar, has the volume of `brine_to_cover_ml`

    Parameters
    ----------
    request : settled, with its container

    Returns
    -------
    Water, to the nearest 10 g [g]

    Raises
    ------
    ValueError : never for a settled request

    Notes
    -----
    In a bag half the meat's weight, whatever is dissolved in it.

    References
    ----------
    Common practice, no source.
    """
    need_ml = brine_to_cover_ml(request)
    if floor_mm2(request) is None:
        water_g = need_ml
    else:
        # What is pumped in does not cover; the pickle is about as heavy as water.
        if request.method == "injection":
            need_ml += request.pump_percent / 100.0 * request.meat_g
        water_g = need_ml
        for _ in range(4):
            nacl_g = min(nacl_for(request, water_g), 0.35 * water_g)
            sugar_g = sugar_for(request, water_g, nacl_g)
            water_g *= need_ml / volume_ml(water_g, nacl_g, sugar_g)
    # A kitchen scale and a person's patience: to the nearest 10 g.
    return max(round(water_g / 10.0) * 10.0, 10.0)


def container_fit(request: MixRequest, amounts: Amounts, brine: BrineFigures) -> ContainerFit:
    """Levels, floating and holding down, for a settled request and its brine.

    level = (meat + brine) / floor; lift = (ρ brine − ρ meat) · meat;
    plate = 1.5 · lift / (1 − ρ brine / ρ plate)

    Parameters
    ----------
    request : settled, with its container
    amounts, brine : of the mix

    Returns
    -------
    What it needs, where it stands, whether it covers, fits and floats

    Raises
    ------
    ValueError : never for a settled request

    Notes
    -----
    In a bag there is no level, and 0.3 g of water for each gram of meat counts as covering.

    References
    ----------
    Archimedes; densities as `app.cure.meat` and `app.cure.brine`.
    """
    density = density_g_ml(cut_of(request.cut))
    solid_ml = meat_ml(request)
    floor = floor_mm2(request)
    # The pumped part is in the meat, so meat and pickle together take the same room.
    both_ml = solid_ml + brine.volume_ml
    height = request.vessel_height_mm or None
    level = None if floor is None else both_ml * 1000.0 / floor
    brine_g_ml = brine.density_kg_m3 / 1000.0
    lift_g = max((brine_g_ml - density) * solid_ml, 0.0)
    covers = (
        amounts.water_g >= BAG_LEAST_PER_MEAT * request.meat_g
        if level is None
        else level >= (request.thickness_mm or 0.0)
    )
    room_ml = None if floor is None or height is None else floor * height / 1000.0
    return ContainerFit(
        meat_ml=solid_ml,
        brine_ml=brine.volume_ml,
        need_ml=both_ml,
        room_ml=room_ml,
        level_mm=level,
        height_mm=height if floor is not None else None,
        covers=covers,
        fits=room_ml is None or both_ml <= room_ml,
        floats=lift_g > 0.0,
        hold_down_g=_SURE * lift_g / (1.0 - brine_g_ml / CERAMIC_G_ML),
    )


def vessel_workings(
    request: MixRequest, amounts: Amounts, brine: BrineFigures, fit: ContainerFit
) -> dict[str, Working]:
    """How water, level, floating and holding down were come by."""
    meat = ("meat", f"{millilitres(fit.meat_ml)} ({request.meat_g / fit.meat_ml:.3f} g/mL)")
    floor = floor_mm2(request)
    found = {
        "water": Working(
            "Water",
            "as asked"
            if request.water_g is not None
            else "0.5 × meat"
            if floor is None
            else "brine = floor × (height of the meat + 15 mm) − meat; water is what is left of it",
            (meat, ("thickness", f"{request.thickness_mm:g} mm")),
            grams(amounts.water_g),
            "Common practice, no source",
            "Enough to cover in a snug bag or the container given; ice counts as water by weight.",
        ),
        "float": Working(
            "Does it float",
            "it floats when the brine is heavier than the meat, volume for volume",
            (meat, ("brine", f"{brine.density_kg_m3 / 1000.0:.3f} g/mL")),
            "floats" if fit.floats else "sinks",
            f"Meat from its composition ({cut_of(request.cut).source}), Choi & Okos (1986)",
            "Air in folds and the bag lifts meat that would sink.",
        ),
        "hold_down": Working(
            "Weight to hold it down",
            "plate = 1.5 × (brine − meat, in g/mL) × meat ÷ (1 − brine ÷ plate, in g/mL)",
            (
                meat,
                ("brine", f"{brine.density_kg_m3 / 1000.0:.3f} g/mL"),
                ("plate", f"{CERAMIC_G_ML} g/mL, stoneware"),
            ),
            grams(fit.hold_down_g),
            "Archimedes; stoneware's density from memory; half as much again, common practice",
            "A bag of the same brine weighs nothing under it: use a plate, glazed and unchipped.",
        ),
    }
    if fit.level_mm is not None and floor is not None:
        found["level"] = Working(
            "Level in the container",
            "level = (meat + brine) ÷ floor",
            (meat, ("brine", millilitres(fit.brine_ml)), ("floor", f"{floor / 100.0:.0f} cm²")),
            f"{fit.level_mm:.0f} mm",
            "Geometry",
            "Straight walls; a tapered one stands higher.",
        )
    return found
