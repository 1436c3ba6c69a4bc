"""What a recipe found elsewhere really does: nitrite, strength, salt, middle, chilling."""

from collections.abc import Mapping
from typing import Literal

from attrs import frozen

from app.cure.answer import Caution, UnsuitableCure
from app.cure.brine import SATURATED_PERCENT, salometer_degrees
from app.cure.found_recipe import FoundRecipe, Reckoned, reckon
from app.cure.ice import landing_temperature_c
from app.cure.recipe_verdict import verdict
from app.cure.rules import limit_ppm, rule_set
from app.cure.salts import CuringSalt, check_suitable
from app.cure.targets import WAY
from app.cure.working import Working
from app.transport.brining import SATURATED_G_PER_G, dry_bath
from app.transport.course import Piece, open_faces
from app.transport.days import grey_core
from app.transport.diffusion import uptake_fraction
from app.transport.diffusivity import SALT, Range

Middle = Literal["reached", "perhaps", "not reached", "by the needle", "no cure"]


@frozen
class RecipeFigure:
    """Ingoing nitrite of the recipe by one way of counting, low, likely and high [mg/kg]."""

    basis: Literal["equilibrium", "pick-up", "pumped", "dry"]
    ppm: Range
    binds: bool


@frozen
class RecipeCheck:
    """What a found recipe comes to.

    `could_pass_limit` is true when the high end of the nitrite is above the rule,
    `surely_passes` when its low end is. `salt_percent` is salt in the meat after the days, by
    green weight. `grey_percent` is None where there is no nitrite, or no days to go by.
    """

    reckoned: Reckoned
    figures: tuple[RecipeFigure, ...]
    nitrite_ppm: Range
    limit_ppm: float
    least_ppm: float
    could_pass_limit: bool
    surely_passes: bool
    strength_percent: Range | None
    salometer: Range | None
    salt_percent: Range
    middle: Middle
    grey_percent: Range | None
    landing_c: Range | None
    unsuitable: str
    headline: str
    says: tuple[Caution, ...]
    workings: Mapping[str, Working]


def check_recipe(recipe: FoundRecipe) -> RecipeCheck:
    """Work a found recipe out as it stands, with the spread its spoons and cups leave.

    Nitrite by the handbook's ways, each end of a range from the ends that make it so; salt by
    the water of meat and brine and Crank's series; the middle by `app.transport.days.grey_core`

    Parameters
    ----------
    recipe : as it is written, see `FoundRecipe`

    Returns
    -------
    Everything as ranges, with a verdict in sentences

    Raises
    ------
    ValueError : an amount cannot be read, or there is no meat, or the rules are none

    Notes
    -----
    Ends are combined as if all went wrong together, so the true spread is narrower.

    Examples
    --------
    >>> from app.cure.as_written import WrittenLine
    >>> found = check_recipe(FoundRecipe((
    ...     WrittenLine("meat", "5 kg"), WrittenLine("water", "4 kg"),
    ...     WrittenLine("salt", "300 g"), WrittenLine("cure", "24 g")), days="7 days"))
    >>> round(found.nitrite_ppm.likely), found.could_pass_limit
    (161, False)

    References
    ----------
    USDA FSIS Directive 7620.3 (1995); `app.transport`.
    """
    known = reckon(recipe)
    unsuitable = _unsuitable(recipe, known)
    figures = _figures(recipe, known)
    nitrite = next(figure.ppm for figure in figures if figure.binds)
    most = limit_ppm(WAY[known.method], recipe.rules, recipe.own_limit_ppm)
    least = min(rule_set(recipe.rules).least_ppm, most)
    strength = _strength(known)
    salt = _salt(recipe, known)
    middle, grey = _middle(recipe, known)
    lands = _landing(recipe, known)
    headline, says, workings = verdict(
        recipe, known, nitrite, most, least, strength, salt, middle, grey, lands, unsuitable
    )
    return RecipeCheck(
        reckoned=known,
        figures=figures,
        nitrite_ppm=nitrite,
        limit_ppm=most,
        least_ppm=least,
        could_pass_limit=nitrite.high > most * (1.0 + 1e-9),
        surely_passes=nitrite.low > most * (1.0 + 1e-9),
        strength_percent=strength,
        salometer=None
        if strength is None
        else Range(*(salometer_degrees(w) for w in (strength.low, strength.likely, strength.high))),
        salt_percent=salt,
        middle=middle,
        grey_percent=grey,
        landing_c=lands,
        unsuitable=unsuitable,
        headline=headline,
        says=says,
        workings=workings,
    )


def _unsuitable(recipe: FoundRecipe, known: Reckoned) -> str:
    if known.cure.high == 0.0:
        return ""
    try:
        check_suitable(
            CuringSalt(recipe.cure_name, recipe.cure_nitrite_percent, recipe.cure_nitrate_percent)
        )
    except UnsuitableCure as wrong:
        return wrong.reason
    return ""


def _figures(recipe: FoundRecipe, known: Reckoned) -> tuple[RecipeFigure, ...]:
    nitrite, meat, pickle = known.nitrite, known.meat, known.pickle
    if known.method == "dry":
        return (RecipeFigure("dry", _over(nitrite, meat), True),)
    # The nitrite is in the pickle's mass too, a few parts in ten thousand of it.
    both = Range(meat.low + pickle.low, meat.likely + pickle.likely, meat.high + pickle.high)
    equilibrium = _over(nitrite, both)
    other: Literal["pumped", "pick-up"] = "pumped" if known.method == "injection" else "pick-up"
    part = (recipe.pump_percent if other == "pumped" else recipe.pickup_percent) / 100.0
    short = _over(nitrite, pickle, part)
    binds = equilibrium.likely >= short.likely
    return (
        RecipeFigure("equilibrium", equilibrium, binds),
        RecipeFigure(other, short, not binds),
    )


def _over(above: Range, below: Range, factor: float = 1.0) -> Range:
    return Range(
        above.low * factor * 1e6 / below.high,
        above.likely * factor * 1e6 / below.likely,
        above.high * factor * 1e6 / below.low,
    )


def _strength(known: Reckoned) -> Range | None:
    if known.water.high == 0.0:
        return None
    salt, water = known.nacl, known.water
    ends = (
        salt.low / (salt.low + water.high),
        salt.likely / (salt.likely + water.likely),
        salt.high / (salt.high + water.low),
    )
    # What does not dissolve stays on the bottom.
    return Range(*(min(100.0 * end, SATURATED_PERCENT) for end in ends))


def _corners(known: Reckoned) -> tuple[tuple[float, float, float], ...]:
    """Salt, meat and water that make the meat least, likely and most salty.

    Salt that finds no water to dissolve in stays on the bottom; in a dry cure the meat's own
    water is all there is, and not all of it comes out.
    """
    ends = (
        (known.nacl.low, known.meat.high, known.water.high),
        (known.nacl.likely, known.meat.likely, known.water.likely),
        (known.nacl.high, known.meat.low, known.water.low),
    )
    return tuple(
        (
            min(salt_g, SATURATED_G_PER_G * (water_g or 0.9 * meat_g * known.meat_water)),
            meat_g,
            water_g,
        )
        for salt_g, meat_g, water_g in ends
    )


def _alpha(known: Reckoned, salt_g: float, meat_g: float, water_g: float) -> float:
    if known.method == "dry":
        return dry_bath(meat_g, salt_g, meat_water=known.meat_water).ratio
    return water_g / (meat_g * known.meat_water)


def _salt(recipe: FoundRecipe, known: Reckoned) -> Range:
    found: list[float] = []
    speeds = SALT.at(recipe.temperature_c).slow_to_fast
    days = known.days
    times = (None,) * 3 if days is None else (days.low, days.likely, days.high)
    faces = open_faces(recipe.fat_cap_on)
    for (salt_g, meat_g, water_g), speed, time in zip(_corners(known), speeds, times, strict=True):
        wet_g = meat_g * known.meat_water
        rest_g = salt_g * wet_g / (wet_g + water_g)
        start_g = 0.0
        if known.method == "injection":
            pumped = min(recipe.pump_percent / 100.0 * meat_g / known.pickle.likely, 1.0)
            start_g = min(pumped * salt_g, rest_g)
        taken = 1.0
        if time is not None and salt_g > 0.0:
            alpha = _alpha(known, salt_g, meat_g, water_g)
            taken = uptake_fraction(known.thickness_mm, time, speed, faces, alpha)
        found.append(100.0 * (start_g + (rest_g - start_g) * taken) / meat_g)
    return Range(min(found), found[1], max(found))


def _middle(recipe: FoundRecipe, known: Reckoned) -> tuple[Middle, Range | None]:
    if known.nitrite.likely == 0.0:
        return "no cure", None
    if known.method == "injection":
        return "by the needle", None
    if known.days is None:
        return "reached", None
    meat_g, water_g = known.meat.likely, known.water.likely
    wet_g = meat_g * known.meat_water
    ppm = known.nitrite.likely * known.meat_water * 1e6 / (wet_g + water_g)
    alpha = _alpha(known, _corners(known)[1][0], meat_g, water_g)
    piece = Piece(known.thickness_mm, open_faces(recipe.fat_cap_on))
    early, late = (
        grey_core(piece, day, ppm, alpha, recipe.temperature_c).grey_percent
        for day in (known.days.low, known.days.high)
    )
    likely = (early.likely + late.likely) / 2.0
    grey = Range(min(late.low, likely), likely, max(early.high, likely))
    if grey.high <= 0.0:
        return "reached", grey
    return ("not reached" if grey.likely > 0.0 else "perhaps"), grey


def _landing(recipe: FoundRecipe, known: Reckoned) -> Range | None:
    if known.boiled.high == 0.0 or known.ice.high == 0.0:
        return None
    ends = [
        landing_temperature_c(hot_g, recipe.boil_c, cold_g, recipe.tap_c, ice_g)
        for hot_g, cold_g, ice_g in (
            (known.boiled.low, known.cold.likely, known.ice.high),
            (known.boiled.likely, known.cold.likely, known.ice.likely),
            (known.boiled.high, known.cold.likely, known.ice.low),
        )
    ]
    return Range(*ends)
