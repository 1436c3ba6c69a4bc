"""Weights as this cook weighs them: what a bare number means, and how one is written.

The unit is the kit's alone. It is chosen beside the weight of the mix or in Kit, and holds for
the mix and the whole record.
"""

from attrs import evolve

from app import quantities
from app.journal.records import Kit, WeighsIn
from app.quantities import System

_METRIC: tuple[WeighsIn, ...] = ("kg", "g")
_US: tuple[WeighsIn, ...] = ("lb", "lb oz")
_OZ_PER_LB = 16.0
_INCH_SIGNS = '"″”'
"""Signs that say inches: a number with one is not bare."""

NAMES: dict[WeighsIn, str] = {
    "kg": "kilograms",
    "g": "grams",
    "lb": "pounds",
    "lb oz": "pounds and ounces",
}
"""What the units are called."""

LIKE = "Like 7 lb 6 oz"
"""How a weight is typed in pounds and ounces."""


def _usual(kit: Kit) -> WeighsIn:
    return "kg" if kit.system == "metric" else "lb"


def mass_unit(kit: Kit) -> WeighsIn:
    """What a bare number means for a weight.

    >>> mass_unit(Kit()), mass_unit(Kit(weighs_in="kg")), mass_unit(Kit("metric"))
    ('lb', 'kg', 'kg')
    """
    return kit.weighs_in or _usual(kit)


def mass_units(kit: Kit) -> tuple[WeighsIn, ...]:
    """The units to choose from, those of the cook's system first."""
    return (*_METRIC, *_US) if kit.system == "metric" else (*_US, *_METRIC)


def weighing_in(kit: Kit, unit: str) -> Kit:
    """The kit with another unit for weights; the one its system says is none of its own.

    >>> weighing_in(Kit(), "kg").weighs_in, weighing_in(Kit(weighs_in="kg"), "lb").weighs_in
    ('kg', '')
    """
    known = next(one for one in mass_units(kit) if one == unit)
    return evolve(kit, weighs_in="" if known == _usual(kit) else known)


def in_system(kit: Kit, system: System) -> Kit:
    """The kit in another system, weights with it. "Both" tells nothing of what the scale shows.

    >>> in_system(Kit(weighs_in="lb oz"), "metric").weighs_in
    ''
    >>> in_system(Kit(weighs_in="kg"), "both").weighs_in, in_system(Kit("metric"), "both").weighs_in
    ('kg', 'kg')
    """
    changed = evolve(kit, system=system, weighs_in="")
    return weighing_in(changed, mass_unit(kit)) if system == "both" else changed


def small_mass_unit(kit: Kit) -> str:
    """What a bare number means for a serving."""
    return "g" if mass_unit(kit) in _METRIC else "oz"


def mass_system(kit: Kit) -> System:
    """The system in which the record writes weights.

    >>> mass_system(Kit(weighs_in="kg")), mass_system(Kit("metric", weighs_in="lb oz"))
    ('metric', 'us')
    >>> mass_system(Kit("both", weighs_in="kg"))
    'both'
    """
    if kit.system == "both":
        return "both"
    return "metric" if mass_unit(kit) in _METRIC else "us"


def mix_system(kit: Kit) -> System:
    """The system in which the mix writes weights; "both" has the metric one first.

    >>> mix_system(Kit(weighs_in="kg")), mix_system(Kit("metric")), mix_system(Kit("both"))
    ('both', 'metric', 'us')
    """
    if mass_unit(kit) not in _METRIC:
        return "us"
    return "metric" if kit.system == "metric" else "both"


def grams(value: float, kit: Kit) -> str:
    """A weight in the cook's units."""
    return quantities.format(value, "mass", mass_system(kit))


def read_mass(text: str, unit: str) -> float:
    """A weight as typed [g]; where pounds and ounces are chosen, two bare numbers are just those.

    Raises ValueError with a sentence when it cannot be read.

    >>> read_mass("3.4", "kg"), round(read_mass("7 6", "lb oz"), 2)
    (3400.0, 3345.24)
    """
    parts = text.split()
    if unit == "lb oz" and _is_pair(parts):
        if float(parts[1]) >= _OZ_PER_LB:
            raise ValueError(
                f"A pound has 16 ounces, so {parts[1]} oz after {parts[0]} lb cannot be. Write it "
                "like 7 lb 6 oz."
            )
        text = f"{parts[0]} lb {parts[1]} oz"
    return quantities.parse(text, "mass", "lb" if unit == "lb oz" else unit)


def typed_mass(value: float, unit: str) -> str:
    """A weight [g] as it would have been typed, as exact as a kitchen's scale.

    >>> typed_mass(3400.0, "kg"), typed_mass(3345.24, "g"), typed_mass(3345.24, "lb oz")
    ('3.4', '3345.2', '7 lb 6 oz')
    """
    if unit == "lb oz":
        pounds, ounces = divmod(round(value / quantities.G_PER_OZ, 1), _OZ_PER_LB)
        return f"{pounds:.0f} lb {round(ounces, 1):g} oz" if ounces else f"{pounds:.0f} lb"
    text = f"{quantities.to_unit(value, 'mass', unit):.{1 if unit == 'g' else 3}f}"
    return text.rstrip("0").rstrip(".")


def with_unit(text: str, unit: str) -> str:
    """What was typed with the unit behind it, where it is a bare number.

    >>> with_unit("7.4", "lb"), with_unit("7 6", "lb oz"), with_unit("3 kg", "lb")
    ('7.4 lb', '7 lb 6 oz', '3 kg')
    >>> with_unit('2"', "in"), with_unit("7 20", "lb oz")  # inches; and what is refused stays so
    ('2"', '7 20')
    """
    parts = text.split()
    if unit == "lb oz":
        if _is_pair(parts):
            return f"{parts[0]} lb {parts[1]} oz" if float(parts[1]) < _OZ_PER_LB else text
        unit = "lb"
    plain = text.strip()
    bare = plain and not any(sign.isalpha() or sign in _INCH_SIGNS for sign in plain)
    return f"{plain} {unit}" if bare else text


def _is_pair(parts: list[str]) -> bool:
    return len(parts) == 2 and all(part.replace(".", "", 1).isdecimal() for part in parts)
