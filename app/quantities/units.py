"""The units people use, by kind, and the numbers between them."""

from functools import lru_cache
from typing import Literal, get_args

import pint
from attrs import frozen

Kind = Literal["mass", "volume", "length", "temperature", "duration"]
System = Literal["us", "metric", "both"]

KINDS: tuple[Kind, ...] = get_args(Kind)

# NIST Handbook 44, exact (from memory).
G_PER_LB = 453.59237
G_PER_OZ = G_PER_LB / 16.0
ML_PER_GAL = 3785.411784
MM_PER_IN = 25.4
S_PER_H = 3600.0
S_PER_DAY = 86400.0

# Only what a cook writes, so that pint starts at once and nothing else can be meant.
_DEFINITIONS = (
    "gram = [mass]",
    "milligram = 0.001 gram",
    "kilogram = 1000 gram",
    f"pound = {G_PER_LB!r} gram",
    "ounce = pound / 16",
    "millilitre = [volume]",
    "litre = 1000 millilitre",
    "centilitre = 10 millilitre",
    "decilitre = 100 millilitre",
    f"gallon = {ML_PER_GAL!r} millilitre",
    "quart = gallon / 4",
    "pint = gallon / 8",
    "cup = gallon / 16",
    "fluid_ounce = gallon / 128",
    "tablespoon = gallon / 256",
    "teaspoon = gallon / 768",
    "millimetre = [length]",
    "centimetre = 10 millimetre",
    "metre = 1000 millimetre",
    f"inch = {MM_PER_IN!r} millimetre",
    "foot = 12 inch",
    "kelvin = [temperature]",
    "celsius = kelvin; offset: 273.15",
    "fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9",
    "second = [time]",
    "minute = 60 second",
    "hour = 3600 second",
    "day = 86400 second",
    "week = 604800 second",
)

_BASE: dict[Kind, str] = {
    "mass": "gram",
    "volume": "millilitre",
    "length": "millimetre",
    "temperature": "celsius",
    "duration": "second",
}

_NAMES: dict[Kind, dict[str, str]] = {
    "mass": {
        "milligram": "mg milligram milligrams",
        "gram": "g gr gm gram grams gramme grammes",
        "kilogram": "kg kgs kilo kilos kilogram kilograms",
        "ounce": "oz ounce ounces",
        "pound": "lb lbs pound pounds #",
    },
    "volume": {
        "millilitre": "ml cc millilitre millilitres milliliter milliliters",
        "centilitre": "cl",
        "decilitre": "dl",
        "litre": "l litre litres liter liters",
        "teaspoon": "tsp tsps teaspoon teaspoons",
        "tablespoon": "tbsp tbsps tbs tablespoon tablespoons",
        "fluid_ounce": "floz|fl oz|fluid ounce|fluid ounces",
        "cup": "cup cups",
        "pint": "pt pts pint pints",
        "quart": "qt qts quart quarts",
        "gallon": "gal gals gallon gallons",
    },
    "length": {
        "millimetre": "mm millimetre millimetres millimeter millimeters",
        "centimetre": "cm centimetre centimetres centimeter centimeters",
        "metre": "m metre metres meter meters",
        "inch": 'in inch inches " ″ ”',
        "foot": "ft foot feet ' ′ ’",
    },
    "temperature": {
        "celsius": "c °c ℃ celsius centigrade|deg c|degrees c|degrees celsius|° c",
        "fahrenheit": "f °f ℉ fahrenheit|deg f|degrees f|degrees fahrenheit|° f",
    },
    "duration": {
        "second": "s sec secs second seconds",
        "minute": "min mins minute minutes",
        "hour": "h hr hrs hour hours",
        "day": "d day days",
        "week": "week weeks wk wks",
    },
}

EXAMPLES: dict[Kind, str] = {
    "mass": "a weight such as 7 lb 6 oz, 3.4 kg or 350 g",
    "volume": "a volume such as 1½ gal, 2 qt, 3 cups or 1.5 L",
    "length": "a length such as 2 1/4 in, 57 mm or 5.7 cm",
    "temperature": "a temperature such as 38 °F or 3 °C",
    "duration": "a time such as 5 days 12 h, 90 min or 2 weeks",
}


@frozen
class Unit:
    """A unit of one kind by pint's name for it, and how many of the kind's own it is."""

    kind: Kind
    name: str
    size: float


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[float]:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    for definition in _DEFINITIONS:
        registry.define(definition)
    return registry


@lru_cache(maxsize=1)
def _by_word() -> dict[str, list[Unit]]:
    found: dict[str, list[Unit]] = {}
    for kind, units in _NAMES.items():
        for name, words in units.items():
            size = 1.0
            if kind != "temperature":
                size = float(_registry().Quantity(1.0, name).to(_BASE[kind]).magnitude)
            first, *phrases = words.split("|")
            for word in (*first.split(), *phrases):
                found.setdefault(word, []).append(Unit(kind, name, size))
    return found


def known_kind(kind: str) -> Kind:
    """The kind itself; says which there are when it is not one."""
    for one in KINDS:
        if one == kind:
            return one
    raise ValueError(f"The kind must be one of {', '.join(KINDS)}; {kind!r} was given.")


def unit_of(word: str, kind: Kind) -> Unit:
    """The unit a person means by a word, or a sentence on why there is none."""
    plain = " ".join(word.casefold().replace(".", "").split())
    meant = _by_word().get(plain, [])
    for unit in meant:
        if unit.kind == kind:
            return unit
    if plain == "oz" and kind == "volume":
        raise ValueError("“oz” is a weight; write “fl oz” for a volume.")
    if meant:
        raise ValueError(f"“{word}” is a {meant[0].kind}; expected {EXAMPLES[kind]}.")
    raise ValueError(f"“{word}” is no unit known here; expected {EXAMPLES[kind]}.")


@lru_cache(maxsize=256)
def _known(word: str, kind: str) -> Unit:
    return unit_of(word, known_kind(kind))


def from_unit(value: float, kind: str, unit: str) -> float:
    """A number in a person's unit as one in the kind's own.

    Parameters
    ----------
    value : the number
    kind : mass, volume, length, temperature or duration
    unit : a unit of that kind, as a person writes it

    Returns
    -------
    The number in g, mL, mm, °C or s

    Raises
    ------
    ValueError : no such kind or unit

    Examples
    --------
    >>> from_unit(1.0, "mass", "lb"), round(from_unit(38.0, "temperature", "°F"), 2)
    (453.59237, 3.33)

    References
    ----------
    NIST Handbook 44, exact (from memory).
    """
    known = _known(unit, kind)
    if known.kind == "temperature":
        return _celsius(value, known.name, "celsius")
    return value * known.size


def to_unit(value: float, kind: str, unit: str) -> float:
    """A number in the kind's own unit as one in a person's.

    Parameters
    ----------
    value : the number in g, mL, mm, °C or s
    kind : mass, volume, length, temperature or duration
    unit : a unit of that kind, as a person writes it

    Returns
    -------
    The number in that unit

    Raises
    ------
    ValueError : no such kind or unit

    Examples
    --------
    >>> to_unit(25.4, "length", "in"), round(to_unit(4.4444, "temperature", "F"))
    (1.0, 40)

    References
    ----------
    NIST Handbook 44, exact (from memory).
    """
    known = _known(unit, kind)
    if known.kind == "temperature":
        return _celsius(value, "celsius", known.name)
    return value / known.size


def _celsius(value: float, given: str, wanted: str) -> float:
    if given == wanted:
        return value
    return float(_registry().Quantity(value, given).to(wanted).magnitude)


_USUAL: dict[System, dict[Kind, str]] = {
    "us": {
        "mass": "lb",
        "volume": "gal",
        "length": "in",
        "temperature": "°F",
        "duration": "h",
    },
    "metric": {
        "mass": "kg",
        "volume": "L",
        "length": "mm",
        "temperature": "°C",
        "duration": "h",
    },
}


def usual_unit(kind: str, system: str) -> str:
    """The unit a bare number is taken to be in; "both" writes metric first and reads so."""
    if system not in ("us", "metric", "both"):
        raise ValueError(f"The system must be us, metric or both; {system!r} was given.")
    return _USUAL["us" if system == "us" else "metric"][known_kind(kind)]
