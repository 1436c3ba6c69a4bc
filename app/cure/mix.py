"""The mix: from what a cook asks to what to weigh, with everything worth knowing about it."""

from attrs import evolve

from app.cure.amounts import Amounts, work_out_amounts
from app.cure.answer import (
    BrineFigures,
    Caution,
    ContainerFit,
    IcePlan,
    Ingredient,
    Mix,
    Nitrite,
    NitriteFigure,
    OverLimit,
    SaltForecast,
    Severity,
    ShoppingItem,
    UnsuitableCure,
)
from app.cure.brine_sheet import brine_figures, brine_workings
from app.cure.cautions import cautions
from app.cure.ice_plan import ice_plan, ice_workings
from app.cure.nitrite_scale import nitrite_scale, nitrite_workings, refuse_above_limit
from app.cure.request import Method, MixRequest, Vessel
from app.cure.salt_forecast import forecast, salt_workings
from app.cure.salts import CuringSalt, check_suitable
from app.cure.shopping import shopping, shopping_text
from app.cure.spicing import rub, spice_workings
from app.cure.targets import settled
from app.cure.vessel import container_fit, vessel_workings, water_to_cover_g
from app.cure.weighing import ascorbate_working, ingredients
from app.cure.working import Working

__all__ = [
    "BrineFigures",
    "Caution",
    "ContainerFit",
    "IcePlan",
    "Ingredient",
    "Method",
    "Mix",
    "MixRequest",
    "Nitrite",
    "NitriteFigure",
    "OverLimit",
    "SaltForecast",
    "Severity",
    "ShoppingItem",
    "UnsuitableCure",
    "Vessel",
    "scale",
    "shopping_text",
    "work_out",
]


def work_out(request: MixRequest) -> Mix:
    """Everything about a mix: what to weigh, how safe, how salty, how cold, what to buy.

    Parameters
    ----------
    request : what the cook asks; only the weight is needed

    Returns
    -------
    The mix, of one shape for all four methods; brine, ice and container are None for a dry cure

    Raises
    ------
    OverLimit : more nitrite than the rules allow; carries the most that may be mixed
    UnsuitableCure : the curing salt is not for this use
    ValueError : something asked is not finite, out of its range, or cannot be mixed

    Notes
    -----
    Helps with home cooking; it is no process approval.

    Examples
    --------
    >>> mix = work_out(MixRequest(5000.0, water_g=4000.0, salt_percent=2.0))
    >>> round(mix.nitrite.ppm, 6), [(i.name, round(i.grams, 1)) for i in mix.ingredients[4:6]]
    (150.0, [('US cure no. 1', 22.3), ('Salt', 159.1)])

    References
    ----------
    Each working in `Mix.workings` names its own.
    """
    wanted = settled(request)
    check_suitable(
        CuringSalt(wanted.cure_name, wanted.cure_nitrite_percent, wanted.cure_nitrate_percent)
    )
    refuse_above_limit(request, wanted)
    amounts = work_out_amounts(wanted, _water_g(wanted))
    nitrite = nitrite_scale(wanted, amounts)
    salt = forecast(wanted, amounts)
    brine = ice = fit = None
    if amounts.water_g:
        brine = brine_figures(amounts)
        ice = ice_plan(wanted, amounts.water_g)
        fit = container_fit(wanted, amounts, brine)
    weighed = ingredients(wanted, amounts, ice)
    rubbed = rub(wanted)
    return Mix(
        request=wanted,
        ingredients=weighed,
        rub=rubbed,
        water_g=amounts.water_g,
        nitrite=nitrite,
        salt=salt,
        brine=brine,
        ice=ice,
        fit=fit,
        warnings=cautions(wanted, amounts, nitrite, salt, brine, ice, fit),
        workings=_workings(wanted, amounts, nitrite, salt, brine, ice, fit),
        shopping=shopping((*weighed, *rubbed)),
    )


def scale(request: MixRequest, meat_g: float, thickness_mm: float | None = None) -> MixRequest:
    """The same mix for another piece of meat.

    water · new weight / old weight; everything told in percent, ppm or days stays

    Parameters
    ----------
    request : the mix as it was
    meat_g : weight of the new piece [g]
    thickness_mm : its thickness; None keeps the old [mm]

    Returns
    -------
    A request for the new piece; water worked out to cover is worked out anew

    Raises
    ------
    ValueError : the weight or thickness is out of its range

    Notes
    -----
    The water is scaled with the meat, so that salt and nitrite come out alike; whether it still
    covers is said by the new mix.

    Examples
    --------
    >>> scale(MixRequest(3000.0, water_g=2000.0), 4500.0).water_g
    3000.0

    References
    ----------
    Proportion.
    """
    new = evolve(request, meat_g=meat_g)
    if thickness_mm is not None:
        new = evolve(new, thickness_mm=thickness_mm)
    settled(new)
    if request.water_g is None:
        return new
    return evolve(new, water_g=request.water_g * meat_g / request.meat_g)


def _water_g(wanted: MixRequest) -> float:
    if wanted.method == "dry":
        return 0.0
    return wanted.water_g if wanted.water_g is not None else water_to_cover_g(wanted)


def _workings(
    wanted: MixRequest,
    amounts: Amounts,
    nitrite: Nitrite,
    salt: SaltForecast,
    brine: BrineFigures | None,
    ice: IcePlan | None,
    fit: ContainerFit | None,
) -> dict[str, Working]:
    found = nitrite_workings(wanted, amounts, nitrite)
    found |= salt_workings(wanted, amounts, salt)
    found |= spice_workings(wanted, amounts)
    if amounts.ascorbate_g:
        found["ascorbate"] = ascorbate_working(wanted, amounts)
    if brine is not None and ice is not None and fit is not None:
        found |= brine_workings(amounts, brine)
        found |= ice_workings(wanted, ice)
        found |= vessel_workings(wanted, amounts, brine, fit)
    return found
