"""A recipe found elsewhere, and its amounts as ranges."""

from attrs import frozen

from app.cure.as_written import What, WrittenLine, days_written, grams_written
from app.cure.meat import cut_of
from app.cure.request import Method
from app.transport.checks import between
from app.transport.diffusivity import Range

_NONE = Range(0.0, 0.0, 0.0)


@frozen
class FoundRecipe:
    """A recipe as it is written, and the piece it is meant for.

    method : None is told by the lines: no water is dry, a pump is injection, else a brine
    days : "5-7 days"; empty when the recipe does not say, and then taken as until at rest
    boil_c, tap_c : temperatures of the boiled and the cold water when they come together
    """

    lines: tuple[WrittenLine, ...]
    method: Method | None = None
    days: str = ""
    cut: str = "brisket"
    thickness_mm: float | None = None
    fat_cap_on: bool = False
    pump_percent: float = 0.0
    pickup_percent: float = 10.0
    temperature_c: float = 4.0
    boil_c: float = 100.0
    tap_c: float = 15.0
    cure_name: str = "US cure no. 1"
    cure_nitrite_percent: float = 6.25
    cure_nitrate_percent: float = 0.0
    rules: str = "us"
    own_limit_ppm: float | None = None


@frozen
class Reckoned:
    """The recipe's amounts in grams, each low, likely and high. `nacl` counts the cure's salt."""

    method: Method
    meat: Range
    water: Range
    boiled: Range
    cold: Range
    ice: Range
    salt: Range
    cure: Range
    sugar: Range
    nitrite: Range
    nacl: Range
    pickle: Range
    days: Range | None
    meat_water: float
    thickness_mm: float


def reckon(recipe: FoundRecipe) -> Reckoned:
    """Every amount of a recipe as a range.

    nitrite = cure · its part; all salt = salt + cure − nitrite; pickle = all but the meat

    Parameters
    ----------
    recipe : as it is written

    Returns
    -------
    The amounts [g], the method they tell of, and the piece

    Raises
    ------
    ValueError : an amount cannot be read, or there is no meat among them

    References
    ----------
    Spreads as `app.cure.as_written` says.
    """
    totals: dict[What, Range] = {}
    for line in recipe.lines:
        totals[line.what] = add(totals.get(line.what, _NONE), grams_written(line))
    meat = totals.get("meat", _NONE)
    if meat.low <= 0.0:
        raise ValueError("Say how much meat the recipe is for, such as 5 lb.")
    part = between("nitrite in the cure", recipe.cure_nitrite_percent, 0.0, 100.0, "%") / 100.0
    between("pump", recipe.pump_percent, 0.0, 40.0, "%")
    between("pick-up", recipe.pickup_percent, 0.0, 100.0, "%")
    cure, salt, sugar = (totals.get(what, _NONE) for what in ("cure", "salt", "sugar"))
    boiled, cold, ice = (totals.get(what, _NONE) for what in ("boiled", "water", "ice"))
    water = add(boiled, cold, ice)
    nacl = add(salt, times(cure, 1.0 - part))
    cut = cut_of(recipe.cut)
    method = recipe.method or _told_by(water, recipe.pump_percent, recipe.days)
    if method == "injection" and recipe.pump_percent < 1.0:
        raise ValueError("Say how much pickle is pumped in, from 1 to 40 % of the meat's weight.")
    if (method == "dry") != (water.high == 0.0):
        raise ValueError(
            "A dry cure has no water in it." if method == "dry" else "A brine needs water."
        )
    return Reckoned(
        method=method,
        meat=meat,
        water=water,
        boiled=boiled,
        cold=cold,
        ice=ice,
        salt=salt,
        cure=cure,
        sugar=sugar,
        nitrite=times(cure, part),
        nacl=nacl,
        pickle=add(water, nacl, times(cure, part), sugar) if water.high else _NONE,
        days=days_written(recipe.days) if recipe.days.strip() else None,
        meat_water=cut.water_percent / 100.0,
        thickness_mm=cut.thickness_mm if recipe.thickness_mm is None else recipe.thickness_mm,
    )


def _told_by(water: Range, pump_percent: float, days: str) -> Method:
    if water.high == 0.0:
        return "dry"
    if pump_percent > 0.0:
        return "injection"
    return "cover" if days.strip() else "equilibrium"


def add(*ranges: Range) -> Range:
    """Sum of ranges, end by end."""
    return Range(
        sum(one.low for one in ranges),
        sum(one.likely for one in ranges),
        sum(one.high for one in ranges),
    )


def times(one: Range, factor: float) -> Range:
    """A range times a number that is not negative."""
    return Range(one.low * factor, one.likely * factor, one.high * factor)
