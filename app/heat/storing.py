"""How long it keeps, and what to write on the label."""

from calendar import monthrange
from datetime import date, timedelta
from typing import Literal

from attrs import frozen

from app.cure.working import Working

What = Literal["raw_pouch", "raw_drained", "cooked"]
Place = Literal["fridge", "freezer"]

REHEAT_C = 74.0
"""Leftovers are reheated to 165 °F (74 °C) (FSIS)."""

_SOURCE = "FSIS, Corned Beef and Food Safety"

# Days or months, shortest and longest, as the FSIS Corned Beef page gives them.
_DAYS: dict[tuple[What, Place], tuple[int, int]] = {
    ("raw_pouch", "fridge"): (5, 7),
    ("cooked", "fridge"): (3, 4),
}
_MONTHS: dict[tuple[What, Place], tuple[int, int]] = {
    ("raw_drained", "freezer"): (1, 1),
    ("cooked", "freezer"): (2, 3),
}
_NAMES: dict[What, str] = {
    "raw_pouch": "raw, in its pouch",
    "raw_drained": "raw, drained and wrapped",
    "cooked": "cooked",
}
_PLACES: dict[Place, str] = {"fridge": "Refrigerator", "freezer": "Freezer"}


@frozen
class StoreBy:
    """Best eaten by the first date, and not kept past the second."""

    best_by: date
    last: date
    says: str
    source: str
    working: Working


def store_by(what: What, place: Place, start: date) -> StoreBy:
    """Dates by which a piece should be eaten.

    raw in its pouch 5-7 days, cooked 3-4 days in the refrigerator; raw drained 1 month, cooked
    2-3 months in the freezer

    Parameters
    ----------
    what : how the piece is
    place : where it is kept
    start : the day it was put there

    Returns
    -------
    The earlier and the later date of the source's range, and a sentence

    Raises
    ------
    ValueError : the source gives no time for this, or the date lies too near the calendar's end

    Notes
    -----
    Months are calendar months; from the 31st to the last day of a shorter month. In the freezer
    it is the eating quality that ends.

    Examples
    --------
    >>> store_by("cooked", "fridge", date(2027, 3, 6)).last
    datetime.date(2027, 3, 10)

    References
    ----------
    FSIS, Corned Beef and Food Safety; refrigerator at 40 °F (4.4 °C) or below.
    """
    if (what, place) in _DAYS:
        least, most = (_after(start, days, 0) for days in _DAYS[what, place])
    elif (what, place) in _MONTHS:
        least, most = (_after(start, 0, months) for months in _MONTHS[what, place])
    else:
        raise ValueError(
            f"No source gives a time for {_NAMES.get(what, what)!s} in the {place}; "
            "use raw in its pouch or cooked for the fridge, raw drained or cooked for the freezer."
        )
    end = "eat by" if place == "fridge" else "best by"
    if least == most:
        says = f"{_PLACES[place]}: {end} {most.isoformat()}."
    else:
        says = f"{_PLACES[place]}: {end} {least.isoformat()}, {most.isoformat()} at the latest."
    working = Working(
        "How long it keeps",
        "day it was put there + the source's days or months",
        (("Kept", f"{_NAMES[what]}, {_PLACES[place].lower()}"), ("Since", start.isoformat())),
        says,
        _SOURCE,
        "Refrigerator at 4.4 °C (40 °F) or below. In the freezer it is the eating quality that "
        "ends.",
    )
    return StoreBy(least, most, says, _SOURCE, working)


def label_text(name: str, what: What, place: Place, start: date, grams: float | None = None) -> str:
    """What to write on the package: four short lines at most.

    >>> print(label_text("Pastrami, flat", "cooked", "freezer", date(2027, 3, 6), 812.4))
    Pastrami, flat, cooked, 812 g
    Packed 2027-03-06
    Freezer: best by 2027-05-06, 2027-06-06 at the latest.
    Reheat to 74 °C (165 °F).
    """
    if not name.strip():
        raise ValueError("A label needs a name; none was given.")
    weight = "" if grams is None else f", {_grams(grams):.0f} g"
    last = (
        f"Reheat to {REHEAT_C:.0f} °C (165 °F)."
        if what == "cooked"
        else "Raw: cook to 62.8 °C (145 °F) and rest 3 min at the least."
    )
    return "\n".join(
        [
            f"{name.strip()}, {_NAMES[what]}{weight}",
            f"Packed {start.isoformat()}",
            store_by(what, place, start).says,
            last,
        ]
    )


def _grams(grams: float) -> float:
    if not 0.0 < grams < float("inf"):
        raise ValueError(f"The weight on a label must be more than 0 g; {grams} was given.")
    return grams


def _after(start: date, days: int, months: int) -> date:
    try:
        if days:
            return start + timedelta(days=days)
        years, month = divmod(start.month - 1 + months, 12)
        year = start.year + years
        return date(year, month + 1, min(start.day, monthrange(year, month + 1)[1]))
    except (OverflowError, ValueError) as trouble:
        raise ValueError(f"{start.isoformat()} lies too near the end of the calendar.") from trouble
