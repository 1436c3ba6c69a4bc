"""A recipe found elsewhere as it is being typed, and how it is read."""

from collections.abc import Callable, Mapping

from attrs import frozen

from app import quantities
from app.cure.as_written import Crystals, What, WrittenLine, days_written, grams_written
from app.cure.found_recipe import FoundRecipe
from app.cure.salts import CURING_SALTS, CuringSalt
from app.journal.records import Kit

# Seen on labels and named in recipes, though not for this use: the check says so.
NOT_FOR_THIS: tuple[CuringSalt, ...] = (
    CuringSalt("Cure no. 2, with nitrate", 6.25, 4.0),  # nitrate about 4 %, secondary source
    CuringSalt("Pure sodium nitrite", 100.0),
)

LINES: tuple[tuple[What, str, str], ...] = (
    ("meat", "Meat", "5 lb, 2.5 kg"),
    ("water", "Cold water", "2 quarts, 1 L"),
    ("boiled", "Water it heats", "1 gal, empty if none"),
    ("ice", "Ice", "1 gal, 4 cups, 2 lb"),
    ("salt", "Salt", "1 1/2 cups, 300 g"),
    ("cure", "Curing salt", "2 tsp, 1 oz"),
    ("sugar", "Sugar", "1/2 cup, 100 g"),
)
"""What a recipe may name: its kind, the name on the field, and how it may be written."""

SECONDS: tuple[tuple[What, str], ...] = (("salt", "salt_2"), ("sugar", "sugar_2"))
"""What a recipe may name twice, kosher and table salt, say: its kind and its field."""


@frozen
class RecipeDraft:
    """The fields of the check as text, as the recipe has them. Empty means it does not say."""

    meat: str = ""
    water: str = ""
    boiled: str = ""
    ice: str = ""
    salt: str = ""
    cure: str = ""
    sugar: str = ""
    days: str = ""
    thickness: str = ""
    pump: str = ""
    fridge: str = ""
    salt_2: str = ""
    sugar_2: str = ""
    crystals: Crystals = "unknown"
    crystals_2: Crystals = "unknown"
    cure_name: str = "US cure no. 1"
    cut: str = "brisket"
    fat_cap_on: bool = False


@frozen
class ReadRecipe:
    """The recipe when it could be read, else what is wrong, field by field."""

    recipe: FoundRecipe | None
    errors: Mapping[str, str]


def cures_for(kit: Kit) -> tuple[CuringSalt, ...]:
    """The curing salts a found recipe may name: ours, the cook's own, and two to be refused."""
    own = (CuringSalt(s.name, s.nitrite_percent, s.nitrate_percent) for s in kit.salts)
    return (*CURING_SALTS, *own, *NOT_FOR_THIS)


def read_recipe(draft: RecipeDraft, kit: Kit) -> ReadRecipe:
    """Read every line; only the meat has to be there."""
    errors: dict[str, str] = {}
    lines: list[WrittenLine] = []
    crystals: Mapping[str, Crystals] = {"salt": draft.crystals, "salt_2": draft.crystals_2}
    named = [*((what, what) for what, _, _ in LINES), *SECONDS]
    for what, name in named:
        text = str(getattr(draft, name)).strip()
        if not text:
            continue
        line = WrittenLine(what, text, crystals.get(name, "unknown"))
        try:
            grams_written(line)
        except ValueError as wrong:
            errors[name] = str(wrong)
        lines.append(line)

    def typed(name: str, reader: Callable[[str], float], otherwise: float) -> float:
        text = str(getattr(draft, name)).strip()
        if not text:
            return otherwise
        try:
            return reader(text)
        except ValueError as wrong:
            errors[name] = str(wrong)
            return otherwise

    metric = kit.system == "metric"
    length, warmth = ("mm", "°C") if metric else ("in", "°F")
    thickness_mm = typed("thickness", lambda t: quantities.parse(t, "length", length), 0.0)
    fridge_c = typed("fridge", lambda t: quantities.parse(t, "temperature", warmth), 4.0)
    pump = typed("pump", _percent, 0.0)
    if draft.days.strip():
        try:
            days_written(draft.days)
        except ValueError as wrong:
            errors["days"] = str(wrong)
    if errors or not draft.meat.strip():
        return ReadRecipe(None, errors)
    cure = next((one for one in cures_for(kit) if one.name == draft.cure_name), CURING_SALTS[0])
    recipe = FoundRecipe(
        tuple(lines),
        days=draft.days,
        cut=draft.cut,
        thickness_mm=thickness_mm or None,
        fat_cap_on=draft.fat_cap_on,
        pump_percent=pump,
        temperature_c=fridge_c,
        cure_name=cure.name,
        cure_nitrite_percent=cure.nitrite_percent,
        cure_nitrate_percent=cure.nitrate_percent,
        rules=kit.rules,
        own_limit_ppm=kit.own_limit_ppm if kit.rules == "own" else None,
    )
    return ReadRecipe(recipe, {})


def _percent(text: str) -> float:
    plain = text.strip().removesuffix("%").strip().replace(",", ".")
    try:
        return float(plain)
    except ValueError:
        raise ValueError(
            f"“{text.strip()}” is not a part of the meat's weight. Write it in %, like 10."
        ) from None
