"""What a request means once every choice left open is made, and what its percentages are of."""

from attrs import evolve

from app.cure.meat import cut_of
from app.cure.request import Method, MixRequest
from app.cure.rules import Way, limit_ppm, rule_set
from app.transport.checks import between, not_negative

BASIS: dict[Method, str] = {
    "equilibrium": "of meat and water together",
    "cover": "of the brine: salt in salt and water",
    "injection": "of meat and water together",
    "dry": "of the meat",
}
"""What salt and sugar are a percentage of, by method."""

WAY: dict[Method, Way] = {
    "equilibrium": "immersion",
    "cover": "immersion",
    "injection": "pumped",
    "dry": "dry",
}
"""Which way of the rules a method falls under."""

METHOD_NAMES: dict[Method, str] = {
    "equilibrium": "Equilibrium brine",
    "cover": "Strong cover brine",
    "injection": "Injection and cover",
    "dry": "Dry, in a bag",
}

# Defaults for a first mix. Common practice, no source.
_SALT: dict[Method, float] = {"equilibrium": 2.5, "cover": 10.0, "injection": 2.5, "dry": 2.5}
_SUGAR: dict[Method, float] = {"equilibrium": 1.0, "cover": 4.0, "injection": 1.0, "dry": 1.0}
COVER_DAYS = 7.0

_HIGHEST_G = 1e6
"""A tonne: more than that is a slip of the finger in a kitchen."""


def settled(request: MixRequest) -> MixRequest:
    """The request with every None replaced by what is used for it, the water left as asked.

    Parameters
    ----------
    request : as the cook made it

    Returns
    -------
    The same with cut, salt, sugar, nitrite and days filled in

    Raises
    ------
    ValueError : something in it is not finite, negative, or not one of its choices

    Notes
    -----
    Salt, sugar and days are common practice, no source; composition by the cut, nitrite by the
    rules. Nitrite is 0 only when it is asked to be.
    """
    _check(request)
    method = request.method
    cut = cut_of(request.cut)
    rules = rule_set(request.rules)
    most = limit_ppm(WAY[method], request.rules, request.own_limit_ppm)
    days = COVER_DAYS if request.days is None and method == "cover" else request.days
    return evolve(
        request,
        meat_water_fraction=_or(request.meat_water_fraction, cut.water_percent / 100.0),
        thickness_mm=_or(request.thickness_mm, cut.thickness_mm),
        salt_percent=_or(request.salt_percent, _SALT[method]),
        sugar_percent=_or(request.sugar_percent, _SUGAR[method]),
        nitrite_ppm=_or(request.nitrite_ppm, min(rules.usual_ppm, most)),
        days=days,
    )


def _or(asked: float | None, otherwise: float) -> float:
    return otherwise if asked is None else asked


def _check(request: MixRequest) -> None:
    if request.method not in BASIS:
        raise ValueError(
            f"The method must be one of {', '.join(BASIS)}; {request.method!r} was given."
        )
    if request.vessel not in ("bag", "box", "round"):
        raise ValueError(
            f"The container must be a bag, a box or round; {request.vessel!r} was given."
        )
    if not 0.0 < request.meat_g <= _HIGHEST_G:
        raise ValueError(
            f"The meat must weigh more than 0 g and at most 1000 kg; {request.meat_g} g was given."
        )
    most = {"equilibrium": 12.0, "injection": 12.0, "dry": 12.0, "cover": 26.0}[request.method]
    _maybe("salt", request.salt_percent, 0.0, most, "%")
    _maybe("sugar", request.sugar_percent, 0.0, 30.0, "%")
    _maybe("water in the meat as a fraction", request.meat_water_fraction, 0.2, 0.9)
    _maybe("thickness", request.thickness_mm, 3.0, 400.0, "mm")
    _maybe("water", request.water_g, 1.0, 10.0 * _HIGHEST_G, "g")
    _maybe("time in the cure", request.days, 0.0, 120.0, "days")
    if request.nitrite_ppm is not None:
        not_negative("nitrite", request.nitrite_ppm, "ppm")
    # 20 % is the most a corned beef brisket may gain (9 CFR 319.101); above 40 % it runs out.
    between("pump", request.pump_percent, 1.0, 40.0, "%")
    between("pick-up", request.pickup_percent, 0.0, 100.0, "%")
    between("ascorbate", request.ascorbate_ppm, 0.0, 2000.0, "ppm")
    between("weight lost before the rub", request.shrink_percent, 0.0, 80.0, "%")
    between("part of the water boiled", request.boiled_percent, 0.0, 100.0, "%")
    between("temperature of the tap water", request.tap_c, 0.0, 40.0, "°C")
    between("temperature to chill to", request.target_c, 0.0, 30.0, "°C")
    for blend, per in ((request.brine_spices, "kg_of_meat_and_brine"), (request.rub, "100_cm2")):
        if blend is not None and blend.per != per:
            raise ValueError(
                f"{blend.name} is told per {blend.per}; a blend per {per} was expected here."
            )
    for side in ("length", "width", "height"):
        value = getattr(request, f"vessel_{side}_mm")
        between(f"{side} of the container", value, 0.0, 5000.0, "mm")


def _maybe(what: str, value: float | None, least: float, most: float, unit: str = "") -> None:
    if value is not None:
        between(what, value, least, most, unit)
