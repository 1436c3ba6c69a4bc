"""A found recipe turned into a mix of ours that is safe and keeps its character."""

from app.cure.found_recipe import FoundRecipe, reckon
from app.cure.request import MixRequest
from app.cure.rules import limit_ppm, rule_set
from app.cure.salts import CURING_SALTS, CuringSalt, check_suitable
from app.cure.targets import WAY

STRONG_PERCENT = 6.0
"""A brine above this is a strong one, to be left on time. Our own line; common practice."""

_DISSOLVES = 0.35
"""Salt a gram of water holds, a little less than the 0.3586 g of saturated brine [g]."""


def safe_request(recipe: FoundRecipe, meat_g: float | None = None) -> MixRequest:
    """The recipe as a mix of ours: same way, strength, sweetness and days; safe nitrite.

    Nitrite is what the recipe likely meant, but at least the least that is sensible and, where
    it is above the rules' usual amount, that amount

    Parameters
    ----------
    recipe : as it is written
    meat_g : green weight of the cook's own piece; None takes the recipe's [g]

    Returns
    -------
    A request that can be worked out

    Raises
    ------
    ValueError : the recipe cannot be read, or its salt is beyond what any mix may have

    Notes
    -----
    A brine of 6 % salt or less becomes an equilibrium brine of the same salt on meat and water;
    a stronger one stays a cover brine for its days, or the usual ones if it names none. An
    unsuitable cure becomes US cure no. 1. A recipe without cure gets the usual amount: the
    program has no other way to make it one.

    Examples
    --------
    >>> from app.cure.as_written import WrittenLine
    >>> found = FoundRecipe((WrittenLine("meat", "5 lb"), WrittenLine("water", "1 gal"),
    ...     WrittenLine("salt", "1 lb"), WrittenLine("cure", "3 oz")), days="5-7 days")
    >>> ours = safe_request(found)
    >>> ours.method, round(ours.salt_percent, 1), ours.nitrite_ppm, ours.days
    ('cover', 12.3, 150.0, 6.0)

    References
    ----------
    Limits as `app.cure.rules.RULE_SETS`.
    """
    known = reckon(recipe)
    meat, water = known.meat.likely, known.water.likely
    salt, sugar = known.nacl.likely, known.sugar.likely
    strength = 100.0 * salt / (salt + water)
    method = known.method
    if method in ("cover", "equilibrium"):
        method = "cover" if strength > STRONG_PERCENT else "equilibrium"
    if method == "cover":
        salt_percent = min(strength, 26.0)
        sugar_percent = 100.0 * sugar / (water + salt)
    else:
        salt_percent = min(100.0 * salt / (meat + water), 12.0)
        if method == "injection":
            salt_percent = min(salt_percent, 100.0 * _DISSOLVES * water / (meat + water))
        sugar_percent = 100.0 * sugar / (meat + water)
    rules = rule_set(recipe.rules)
    most = limit_ppm(WAY[method], recipe.rules, recipe.own_limit_ppm)
    usual, least = min(rules.usual_ppm, most), min(rules.least_ppm, most)
    base = meat if method == "dry" else meat + known.pickle.likely
    meant = known.nitrite.likely * 1e6 / base
    nitrite = usual if meant == 0.0 or meant > usual else max(meant, least)
    size = 1.0 if meat_g is None else meat_g / meat
    cure = _cure(recipe)
    return MixRequest(
        meat_g=meat * size,
        method=method,
        cut=recipe.cut,
        thickness_mm=recipe.thickness_mm,
        fat_cap_on=recipe.fat_cap_on,
        water_g=None if method == "dry" else water * size,
        salt_percent=salt_percent,
        sugar_percent=min(sugar_percent, 30.0),
        nitrite_ppm=nitrite,
        cure_name=cure.name,
        cure_nitrite_percent=cure.nitrite_percent,
        rules=recipe.rules,
        own_limit_ppm=recipe.own_limit_ppm,
        pump_percent=recipe.pump_percent if method == "injection" else 10.0,
        pickup_percent=recipe.pickup_percent,
        days=known.days.likely if known.days else None,
    )


def _cure(recipe: FoundRecipe) -> CuringSalt:
    own = CuringSalt(recipe.cure_name, recipe.cure_nitrite_percent, recipe.cure_nitrate_percent)
    try:
        check_suitable(own)
    except ValueError:
        return CURING_SALTS[0]
    return own
