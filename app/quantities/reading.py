"""Reading what a person wrote: never a guess, and a sentence when it cannot be read."""

import re
import unicodedata
from math import isfinite

from app.quantities.units import EXAMPLES, Kind, Unit, from_unit, known_kind, unit_of

_NUMBER = r"\d+[ -]\d+/\d+|\d+/\d+|[\d.,]*\d|[\d.,]+"
_PART = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>[^\d\s+-][^\d+-]*)?")
_GROUPS = re.compile(r"\d{1,3}(,\d{3})+(\.\d+)?")
_GROUPS_CONTINENTAL = re.compile(r"\d{1,3}(\.\d{3})+,\d+|\d{1,3}(\.\d{3}){2,}")
_ONE_GROUP = re.compile(r"[1-9]\d{0,2},\d{3}")

# In these a comma before three digits can only part thousands: nobody weighs to a thousandth of
# a gram, but scales in shops do print thousandths of a kilogram.
_SMALL = {"gram", "millilitre", "millimetre", "second", "minute"}

_MOST: dict[Kind, tuple[float, float, str]] = {
    "mass": (0.0, 1e6, "0 and 1000 kg"),
    "volume": (0.0, 1e6, "0 and 1000 L"),
    "length": (0.0, 1e4, "0 and 10 m"),
    "temperature": (-100.0, 1000.0, "-100 and 1000 °C"),
    "duration": (0.0, 3.2e8, "0 and 10 years"),
}

_AGREE = 0.03
# How far two writings of one amount may lie apart by rounding alone, in the kind's own unit.
_ROUNDING: dict[Kind, float] = {
    "mass": 0.3,
    "volume": 0.5,
    "length": 1.7,
    "temperature": 0.7,
    "duration": 60.0,
}


def parse(text: str, kind: str, default_unit: str) -> float:
    """The number a person wrote, in the kind's own unit.

    Parts are added: 7 lb 6 oz = 7 · 453.59237 g + 6 · 28.349523 g

    Parameters
    ----------
    text : what was written: "7 lb 6 oz", "3.4kg", "1½ gal", "2 1/4 in", "3,4 kg", "38 F"
    kind : mass, volume, length, temperature or duration
    default_unit : the unit of a bare number; the field shows it

    Returns
    -------
    The number in g, mL, mm, °C or s

    Raises
    ------
    ValueError : it cannot be read, can be read two ways, is of another kind, is negative where
        that cannot be, or far too large; the sentence says what was expected

    Notes
    -----
    A comma or a point may part decimals. "1,200" is 1200 in g, mL, mm, min and s, and refused
    in larger units, where it may be 1.2 as well. Gallons, cups and spoons are the US ones. A
    second writing of the same, as in "3.35 kg / 7 lb 6 oz", must agree with the first.

    Examples
    --------
    >>> round(parse("7 lb 6 oz", "mass", "lb"), 2)
    3345.24
    >>> parse("3,4 kg", "mass", "lb"), parse("2 1/4 in", "length", "mm")
    (3400.0, 57.15)

    References
    ----------
    NIST Handbook 44, exact (from memory).
    """
    known = known_kind(kind)
    unit_of(default_unit, known)
    if not isinstance(text, str):
        raise ValueError(f"Text was expected: {EXAMPLES[known]}; {text!r} was given.")
    tidy = _tidy(text)
    if not tidy:
        raise ValueError(f"Nothing is written here; expected {EXAMPLES[known]}.")
    first, *others = _writings(tidy)
    value = _read(first, text, known, default_unit)
    for other in others:
        again = _read(other, text, known, default_unit)
        if abs(again - value) > max(_AGREE * abs(value), _ROUNDING[known]):
            raise ValueError(f"“{text.strip()}” says two different things; write one of them.")
    return value


def _tidy(text: str) -> str:
    """Plain digits, fractions as n/d, one kind of space and minus."""
    spelled = []
    for sign in text:
        made_of = unicodedata.decomposition(sign)
        spelled_out = unicodedata.normalize("NFKC", sign)
        if made_of.startswith("<fraction>"):
            spelled.append(f" {spelled_out} ")
        elif made_of.startswith(("<super>", "<sub>")):
            # A raised 2 made level would turn 5² into 52.
            spelled.append(sign)
        else:
            spelled.append(spelled_out)
    plain = "".join(spelled)
    plain = plain.replace("\u2044", "/").replace("\u2212", "-").replace("\u2013", "-")
    return " ".join(plain.split())


def _writings(tidy: str) -> list[str]:
    bracketed = re.fullmatch(r"([^()]+)\(([^()]+)\)", tidy)
    if bracketed:
        return [bracketed[1].strip(), bracketed[2].strip()]
    return [part.strip() for part in tidy.split(" / ")]


def _read(tidy: str, text: str, kind: Kind, default_unit: str) -> float:
    negative = tidy.startswith("-")
    if negative and kind != "temperature":
        raise ValueError(f"“{text.strip()}” is below 0; expected {EXAMPLES[kind]}.")
    parts = _parts(tidy.lstrip("+-").strip() if tidy[0] in "+-" else tidy, text, kind)
    value = 0.0
    last_size = float("inf")
    for number, word in parts:
        if word is None and len(parts) > 1:
            raise ValueError(
                f"In “{text.strip()}” a number has no unit; expected {EXAMPLES[kind]}."
            )
        unit = unit_of(default_unit if word is None else word, kind)
        if unit.size >= last_size:
            raise ValueError(
                f"“{text.strip()}” does not go from large to small units; "
                f"expected {EXAMPLES[kind]}."
            )
        last_size = unit.size
        amount = _number(number, text, unit)
        value += from_unit(-amount if negative else amount, kind, word or default_unit)
    least, most, words = _MOST[kind]
    if not (isfinite(value) and least <= value <= most):
        raise ValueError(
            f"“{text.strip()}” is too small or too large: between {words} was expected."
        )
    return value


def _parts(tidy: str, text: str, kind: Kind) -> list[tuple[str, str | None]]:
    found: list[tuple[str, str | None]] = []
    at = 0
    while at < len(tidy):
        match = _PART.match(tidy, at)
        if match is None or match.end() == at:
            raise ValueError(f"“{text.strip()}” cannot be read; expected {EXAMPLES[kind]}.")
        word = match["unit"]
        if word is not None:
            # "7 lb, 6 oz" and "7 lb and 6 oz" are said as well.
            word = re.sub(r"(,|\band)\s*$", "", word.strip()).strip() or None
        if word is None and match.end() < len(tidy):
            raise ValueError(
                f"In “{text.strip()}” two numbers follow each other; expected {EXAMPLES[kind]}."
            )
        found.append((match["number"], word))
        at = match.end()
    if kind == "temperature" and len(found) > 1:
        raise ValueError(f"“{text.strip()}” is more than one number; expected {EXAMPLES[kind]}.")
    return found


def _number(number: str, text: str, unit: Unit) -> float:
    if "/" in number:
        *whole, fraction = re.split(r"[ -]", number)
        above, below = fraction.split("/")
        if int(below) == 0 or (whole and int(above) >= int(below)):
            raise ValueError(f"“{number}” in “{text.strip()}” is no fraction.")
        return (int(whole[0]) if whole else 0) + int(above) / int(below)
    if _ONE_GROUP.fullmatch(number) and unit.name not in _SMALL:
        thousands, decimal = number.replace(",", ""), number.replace(",", ".")
        raise ValueError(
            f"“{number}” in “{text.strip()}” may be {thousands} or {decimal.rstrip('0')}; "
            "write it without the comma, or with a point for the decimals."
        )
    if _GROUPS.fullmatch(number) and not number.startswith("0"):
        return float(number.replace(",", ""))
    if _GROUPS_CONTINENTAL.fullmatch(number) and not number.startswith("0"):
        return float(number.replace(".", "").replace(",", "."))
    if number.count(",") + number.count(".") > 1 or not re.search(r"\d", number):
        raise ValueError(f"“{number}” in “{text.strip()}” is no number.")
    return float(number.replace(",", "."))
