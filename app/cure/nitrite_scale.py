"""The nitrite of a mix on one scale: what is too weak, asked, legal most, and what binds."""

from typing import Literal, cast

from attrs import evolve

from app.cure.amounts import Amounts, factors
from app.cure.answer import Nitrite, NitriteFigure, OverLimit
from app.cure.figures import grams, percent, ppm
from app.cure.request import MixRequest
from app.cure.rules import HOME_PACK_PPM, ION_PER_SALT, limit_ppm, rule_set
from app.cure.targets import WAY
from app.cure.working import Working

Basis = Literal["equilibrium", "pick-up", "pumped", "dry"]

_NAMES: dict[str, str] = {
    "equilibrium": "Meat and pickle as one (handbook, immersion, method two)",
    "pick-up": "By the weight taken up (handbook, immersion, method one)",
    "pumped": "By the pickle pumped in (handbook)",
    "dry": "On the green weight (handbook, dry)",
}
_FORMULAS: dict[str, str] = {
    "equilibrium": "ppm = nitrite × 1,000,000 ÷ (meat + pickle)",
    "pick-up": "ppm = nitrite × pick-up × 1,000,000 ÷ pickle",
    "pumped": "ppm = nitrite × pump × 1,000,000 ÷ pickle",
    "dry": "ppm = nitrite × 1,000,000 ÷ meat",
}
_PAGES: dict[str, str] = {
    "equilibrium": "p. 22, method two",
    "pick-up": "pp. 21-22, method one",
    "pumped": "p. 19",
    "dry": "pp. 15, 24-27",
}


def refuse_above_limit(original: MixRequest, request: MixRequest) -> None:
    """Stop a request for more nitrite than the rules allow.

    Parameters
    ----------
    original : the request as the cook made it, from which the safe one is made
    request : the same, settled

    Returns
    -------
    Nothing

    Raises
    ------
    OverLimit : more is asked than allowed; it carries the same request with the most allowed

    References
    ----------
    `app.cure.rules.RULE_SETS`.
    """
    most = limit_ppm(WAY[request.method], request.rules, request.own_limit_ppm)
    asked = request.nitrite_ppm or 0.0
    if asked <= most * (1.0 + 1e-9):
        return
    rules = rule_set(request.rules)
    raise OverLimit(
        f"{asked:g} ppm of nitrite is more than the {most:.4g} ppm allowed for this method "
        f"({rules.name}: {rules.source}). Too much nitrite is a poison; the most that can be mixed "
        f"is {most:.4g} ppm.",
        limit_ppm=most,
        asked_ppm=asked,
        largest_safe=evolve(original, nitrite_ppm=most),
    )


def nitrite_scale(request: MixRequest, amounts: Amounts) -> Nitrite:
    """Nitrite of a mix by every way of counting that applies, on one scale.

    ppm = nitrite · factor · 10⁶ for each way; the highest binds

    Parameters
    ----------
    request : settled
    amounts : its masses

    Returns
    -------
    The figures, which binds and why, the legal most and the lowest sensible [mg/kg]

    Raises
    ------
    ValueError : no such rules, or an own limit that cannot be

    References
    ----------
    USDA FSIS Directive 7620.3 (1995), pp. 15-27; `app.cure.rules.RULE_SETS`.
    """
    rules = rule_set(request.rules)
    most = limit_ppm(WAY[request.method], request.rules, request.own_limit_ppm)
    ways = factors(request, amounts.pickle_g)
    binding = max(ways, key=lambda way: way[1])[0]
    figures = tuple(
        NitriteFigure(
            cast(Basis, basis), _NAMES[basis], amounts.nitrite_g * factor * 1e6, basis == binding
        )
        for basis, factor in ways
    )
    value = next(figure.ppm for figure in figures if figure.binds)
    return Nitrite(
        ppm=value,
        asked_ppm=request.nitrite_ppm or 0.0,
        least_ppm=min(rules.least_ppm, most),
        most_ppm=most,
        grams=amounts.nitrite_g,
        rule=f"{rules.name}: {rules.source}",
        least_reason=rules.least_source,
        figures=figures,
        binding_reason=_why(request, binding),
        ion_ppm=value * ION_PER_SALT,
        home_pack_ppm=HOME_PACK_PPM,
    )


def _why(request: MixRequest, binding: str) -> str:
    if binding == "dry":
        return "All the nitrite stays in the bag with the meat, so all of it counts on the meat."
    if binding == "pumped":
        return (
            "Counted by the pump: that is the higher of the two here, because most of the pickle "
            "goes in by the needle."
        )
    if binding == "pick-up":
        return (
            "Counted by the weight taken up: with so little pickle that is the higher of the two."
        )
    if request.method == "injection":
        return (
            "Counted with meat and pickle as one: the meat lies in the same pickle for days, so "
            "it takes up more than was pumped."
        )
    return (
        "Counted with meat and pickle as one: over days the meat comes to rest with the brine, "
        "and that is the higher of the two figures. By the weight taken up it is lower, and true "
        "only of a short dip."
    )


def nitrite_workings(request: MixRequest, amounts: Amounts, nitrite: Nitrite) -> dict[str, Working]:
    """How the nitrite figures, the curing salt, the limit and the least were come by."""
    rules = rule_set(request.rules)
    part = f"{request.cure_nitrite_percent:g} %"
    found = {
        f"nitrite_{figure.basis}": Working(
            _NAMES[figure.basis],
            _FORMULAS[figure.basis],
            _inputs(figure.basis, request, amounts),
            ppm(figure.ppm),
            f"USDA FSIS Directive 7620.3 (1995), {_PAGES[figure.basis]}",
            "Takes it that all of it stays in the meat; what runs out makes it less.",
        )
        for figure in nitrite.figures
    }
    binding = next(figure.basis for figure in nitrite.figures if figure.binds)
    found["nitrite"] = evolve(
        found[f"nitrite_{binding}"], title="Ingoing nitrite", limits=nitrite.binding_reason
    )
    found["cure"] = Working(
        "Curing salt",
        "curing salt = nitrite ÷ its nitrite part",
        (("nitrite", grams(amounts.nitrite_g)), ("nitrite part", part)),
        grams(amounts.cure_g),
        f"{request.cure_name}: nitrite as its label states it",
        f"{grams(amounts.cure_g - amounts.nitrite_g)} of it is salt and counts as salt. "
        "Weigh it, never spoon it.",
    )
    found["limit"] = Working(
        "Most nitrite allowed",
        f"{rules.name}, counted as {rules.counted_as}",
        (("way", WAY[request.method]), ("as the ion", ppm(nitrite.most_ppm * ION_PER_SALT))),
        ppm(nitrite.most_ppm),
        rules.source,
        f"Retail home-cure packs keep the finished meat at {HOME_PACK_PPM:g} ppm or less "
        "(21 CFR 172.170).",
    )
    found["least"] = Working(
        "Nitrite below which a cure is too weak",
        "the least of the rules, or what was found to be enough",
        (),
        ppm(nitrite.least_ppm),
        rules.least_source,
        "Below it the colour comes out pale or patchy and the cure protects less.",
    )
    return found


def _inputs(basis: str, request: MixRequest, amounts: Amounts) -> tuple[tuple[str, str], ...]:
    nitrite = ("nitrite", grams(amounts.nitrite_g))
    meat = ("meat", grams(amounts.meat_g))
    pickle = ("pickle", grams(amounts.pickle_g))
    if basis == "equilibrium":
        return (nitrite, meat, pickle)
    if basis == "pick-up":
        return (nitrite, ("pick-up", percent(request.pickup_percent, 1)), pickle)
    if basis == "pumped":
        return (nitrite, ("pump", percent(request.pump_percent, 1)), pickle)
    return (nitrite, meat)
