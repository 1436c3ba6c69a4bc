"""Sentences of the models and of errors, with their numbers in the cook's units."""

import re

from attrs import evolve

from app import quantities
from app.cure.working import Working
from app.journal.records import Kit
from app.screens.masses import mass_system

_KINDS = {"°C": "temperature", "mm": "length", "kg": "mass", "g": "mass"}
_TO_OWN = {"°C": 1.0, "mm": 1.0, "kg": 1000.0, "g": 1.0}
"""From the unit written to the kind's own."""

_NUMBER = r"-?\d+(?:,\d{3})*(?:\.\d+)?"
_BESIDE = r"(?: \(-?\d[\d /]*(?:\.\d+)?(?: to \d+)? (?:°F|in|lb)\))?"
"""The same in another unit, as some sentences have it behind in brackets."""

_SAID = re.compile(
    rf"(?P<by>\bby |\bdiffer by |\bless than (?={_NUMBER} °C an hour))?"
    rf"(?:(?P<first>{_NUMBER}) (?P<and>to|and) )?"
    rf"(?P<last>{_NUMBER}) (?P<unit>°C|mm|kg|g)\b{_BESIDE}"
    r"(?P<after> an hour| too (?:high|low))?"
)

_PAIR = re.compile(
    rf"(?P<metric>{_NUMBER} (?P<unit>°C|mm|kg|g|L|mL)) / "
    r"(?P<us>-?\d[\d ./]* (?:lb \d[\d.]* oz|lb|fl oz|oz|qt|gal|°F|in)\b)"
)
"""One quantity in both systems, as the sentences of a mix have it."""


def in_units(sentence: str, kit: Kit) -> str:
    """A sentence with its temperatures, lengths and weights in the cook's units.

    >>> in_units("Hold 62.8 °C (145 °F) for 3 minutes.", Kit())
    'Hold 145 °F for 3 minutes.'
    >>> in_units("About 67 °C, 25 % of 70 mm.", Kit(system="metric"))
    'About 67 °C, 25 % of 70 mm.'
    >>> in_units("From -30 to 110 °C was expected.", Kit())
    'From -22 to 230 °F was expected.'
    >>> in_units("From -5 to 15 °C (23 to 59 °F) was expected.", Kit())
    'From 23 to 59 °F was expected.'
    >>> in_units("1,860 g of pickle", Kit()), in_units("1,860 g of pickle", Kit(system="metric"))
    ('4 lb 1.6 oz of pickle', '1,860 g of pickle')
    >>> in_units("1,860 g of pickle at 4 °C", Kit(weighs_in="kg"))
    '1,860 g of pickle at 39 °F'
    >>> in_units("It fell by 0.5 °C.", Kit()), in_units("25 % of 70 mm was grey.", Kit())
    ('It fell by 0.9 °F.', '25 % of 2 3/4 in was grey.')
    """
    return _SAID.sub(lambda match: _told(match, kit), sentence)


def one_of_both(sentence: str, kit: Kit) -> str:
    """A sentence of a mix with each quantity that stands in both systems in the cook's alone.

    Degrees that stand by themselves are put into the cook's too; weights are not, being those to
    be weighed out.

    >>> one_of_both("Chill it to 4 °C / 40 °F; 12 g on 2.27 L / 2.4 qt at 4 °C.", Kit())
    'Chill it to 40 °F; 12 g on 2.4 qt at 39 °F.'
    >>> one_of_both("Hold 110 g / 3.9 oz down, 70 mm / 2 3/4 in.", Kit("metric"))
    'Hold 110 g down, 70 mm.'
    >>> one_of_both("Hold 110 g / 3.9 oz down at 4 °C / 40 °F.", Kit("both"))
    'Hold 110 g / 3.9 oz down at 4 °C / 40 °F.'
    """
    if kit.system == "both":
        return sentence

    def chosen(match: re.Match[str]) -> str:
        system = mass_system(kit) if match["unit"] in ("g", "kg") else kit.system
        return match["metric"] if system == "metric" else match["us"]

    def degrees(match: re.Match[str]) -> str:
        return _told(match, kit) if match["unit"] == "°C" else match[0]

    return _SAID.sub(degrees, _PAIR.sub(chosen, sentence))


def working_in_units(working: Working, kit: Kit) -> Working:
    """How a number was worked out, with every figure in the cook's units."""
    return evolve(
        working,
        title=in_units(working.title, kit),
        formula=in_units(working.formula, kit),
        inputs=tuple((name, _input(name, value, kit)) for name, value in working.inputs),
        result=in_units(working.result, kit),
        limits=in_units(working.limits, kit),
    )


def degrees_beside(working: Working, kit: Kit) -> Working:
    """How a number of a mix was worked out, with a US cook's degrees beside each temperature.

    Weights stay as they are reckoned with, so that the formula can be followed.

    >>> read = Working("Density", "", (("tap", "15.0 °C"), ("at", "60 °F (15.6 °C)")), "1", "", "")
    >>> degrees_beside(read, Kit()).inputs
    (('tap', '15 °C / 59 °F'), ('at', '60 °F (15.6 °C)'))
    """
    if kit.system == "metric":
        return working

    def beside(match: re.Match[str]) -> str:
        has_both = match.string.endswith("°F (", 0, match.start())
        return match[0] if match["unit"] != "°C" or has_both else _told(match, Kit("both"))

    def told(text: str) -> str:
        return _SAID.sub(beside, text)

    return evolve(
        working,
        title=told(working.title),
        inputs=tuple((told(name), told(value)) for name, value in working.inputs),
        result=told(working.result),
        source=told(working.source),
        limits=told(working.limits),
    )


def _input(name: str, value: str, kit: Kit) -> str:
    if name.endswith(" by"):
        return in_units(f"by {value}", kit).removeprefix("by ")
    return in_units(value, kit)


def _told(match: re.Match[str], kit: Kit) -> str:
    before, after, unit = match["by"] or "", match["after"] or "", match["unit"]
    system = _system(unit, kit)
    if system == "metric":
        both = f"{match['first']} {match['and']} " if match["first"] else ""
        return f"{before}{both}{match['last']} {unit}{after}"
    if unit == "°C" and (before or after):
        told = _difference(_value(match["last"]), kit)
    else:
        told = _written(_value(match["last"]), unit, kit)
    if match["first"]:
        first = _written(_value(match["first"]), unit, kit)
        # "130 to 80 °F", but "7 lb 6 oz to 8 lb".
        first = first.removesuffix(" °F").removesuffix(" in") if system == "us" else first
        told = f"{first} {match['and']} {told}"
    return f"{before}{told}{after}"


def _system(unit: str, kit: Kit) -> str:
    return mass_system(kit) if _KINDS[unit] == "mass" else kit.system


def _value(number: str) -> float:
    """A number as the sentences write it, with commas between thousands."""
    return float(number.replace(",", ""))


def _written(value: float, unit: str, kit: Kit) -> str:
    own = value * _TO_OWN[unit]
    if own < 0.0 and unit != "°C":
        return f"{value:g} {unit}"
    return quantities.format(own, _KINDS[unit], _system(unit, kit))


def _difference(celsius: float, kit: Kit) -> str:
    """So many degrees more or less, which is no place on the scale."""
    fahrenheit = f"{celsius * 1.8:.1f}".removesuffix(".0") + " °F"
    return f"{celsius:g} °C / {fahrenheit}" if kit.system == "both" else fahrenheit
