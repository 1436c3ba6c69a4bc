"""Cautions, each shown where the decision is made, with its source.

Figures are those of the science sheet; the wording is our own.
"""

import re
from collections.abc import Iterable
from typing import Literal

from attrs import frozen

from app.journal.records import Stage
from app.quantities import System

_PAIR = re.compile(
    r"([\d.]+(?: (?:to|and) [\d.]+)?) (°F|lb) \(([\d.]+(?: (?:to|and) [\d.]+)?) (°C|kg)\)"
)

Place = Stage | Literal["kit", "recipe", "share"]
"""Where a caution belongs: a stage of the work, or one of three places besides."""

PRACTICE = "common practice, no source"
DESIGN = "this program's own rule"

DISCLAIMER = (
    "This helps with home cooking. It is not a process approval: for sale or service, follow "
    "local food codes and a qualified process authority."
)


@frozen
class Caution:
    """One sentence or two to heed, where it belongs, and where it comes from.

    key : a stable name; places : where it is shown; source : in the sheet's own words
    cure : the cure it is of, with a brine or dry; None for any
    """

    key: str
    places: tuple[Place, ...]
    text: str
    source: str
    cure: Literal["brine", "dry"] | None = None


CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "weigh_cure",
        ("mix", "recipe", "kit"),
        "Weigh the curing salt on a scale. Never measure it by the spoon: a teaspoon of coarse "
        "salt can weigh 2.8 g or 4.8 g, by its crystal alone.",
        "spoon weights: secondary source",
    ),
    Caution(
        "cure_only",
        ("mix", "kit", "buy"),
        "Curing salt is for curing only. Keep it labelled, apart from the table salt and out of "
        "the reach of children. A pink dye helps to tell it, and is no safeguard.",
        PRACTICE,
    ),
    Caution(
        "not_number_two",
        ("buy", "mix", "kit"),
        "Curing salt no. 2 holds nitrate for months of drying. It is not for this.",
        "nitrate content: secondary source",
    ),
    Caution(
        "clean_vessel",
        ("mix", "cure"),
        "Use a clean, covered container that is food-grade and does not react with salt: no bare "
        "aluminium, no chipped enamel. Write on it what it is and since when.",
        PRACTICE,
    ),
    Caution(
        "cold_brine",
        ("chill", "cure"),
        "The meat goes in only when the brine is cold, at 40 °F (4 °C) or below.",
        "fridge at or below 40 °F: FSIS, secondary copy",
        "brine",
    ),
    Caution(
        "cold_cure",
        ("thaw", "cure", "turn", "soak", "dry"),
        "Keep the meat at 40 °F (4 °C) or below all the time, but not frozen: ice stops the cure. "
        "Read a thermometer in the fridge, not its dial.",
        "fridge at or below 40 °F: FSIS, secondary copy",
    ),
    Caution(
        "thaw_in_fridge",
        ("thaw",),
        "Thaw in the fridge, a day for each 5 lb (2.3 kg), in a tray that holds the drip.",
        "24 h per 5 lb: MSU E3259",
    ),
    Caution(
        "under_brine",
        ("cure", "turn"),
        "All of the meat stays under the brine. What sticks out does not cure and spoils first.",
        PRACTICE,
        "brine",
    ),
    Caution(
        "all_of_the_rub",
        ("cure",),
        "All of the cure goes on the meat, and what falls off into its bag: it was weighed for "
        "this piece. No water is added; what the meat gives off stays with it.",
        PRACTICE,
        "dry",
    ),
    Caution(
        "spoiled",
        ("turn", "end"),
        "If it smells sour or rotten, is slimy, or its liquid ropes or foams, throw it all away.",
        PRACTICE,
    ),
    Caution(
        "throw_brine",
        ("end",),
        "Pour the brine away. It is never used again, neither to cure nor to cook.",
        PRACTICE,
        "brine",
    ),
    Caution(
        "throw_liquid",
        ("end",),
        "Throw away the bag with its liquid. It is never used again, neither to cure nor to cook.",
        PRACTICE,
        "dry",
    ),
    Caution(
        "smoke_outdoors",
        ("smoke",),
        "Smoke outdoors, away from doors and windows. Fuel gives off carbon monoxide, which has "
        "no smell and kills; a garage with its door open is indoors.",
        PRACTICE,
    ),
    Caution(
        "hot_fat",
        ("smoke", "wrap", "finish"),
        "Hot fat gathers in the pan and the wrap. Mind it catching fire, and running out over "
        "hands when the wrap is opened.",
        PRACTICE,
    ),
    Caution(
        "safe_before_tender",
        ("finish", "tender"),
        "Safe comes before tender: whole cuts reach at least 145 °F (62.8 °C) inside and rest "
        "3 minutes. Tenderness takes far more, and does not stand in for it.",
        "145 °F and 3 min rest: FSIS, secondary copy",
    ),
    Caution(
        "hot_rest",
        ("rest",),
        "Rest it hot, above 140 °F (60 °C), or cool it. Between 40 and 140 °F (4 and 60 °C) it "
        "may stay 2 hours in all, 1 hour when it is above 90 °F (32 °C) around it.",
        "danger zone and two hours: FSIS, secondary copy",
    ),
    Caution(
        "cool_fast",
        ("slice", "store"),
        "What is not eaten goes into the fridge within 2 hours, in pieces thin enough to cool "
        "through.",
        "two hours: FSIS, secondary copy",
    ),
    Caution(
        "keep_how_long",
        ("store",),
        "Cooked it keeps 3 to 4 days in the fridge and 2 to 3 months frozen. Heat leftovers to "
        "165 °F (74 °C).",
        "FSIS, Corned Beef; reheating: FSIS, secondary copy",
    ),
    Caution(
        "allergens",
        ("rub", "share"),
        "Tell who eats it what is in it. Mustard and celery are allergens, and some spice blends "
        "and ready cures hold gluten: read the label.",
        PRACTICE,
    ),
    Caution("no_approval", ("recipe", "share", "store", "kit"), DISCLAIMER, DESIGN),
)


def cautions_for(*places: Place, dry: bool = False) -> tuple[Caution, ...]:
    """The cautions of these places, in a brine or a dry cure, in the order of the work, each once.

    >>> [one.key for one in cautions_for("end", dry=True)]
    ['spoiled', 'throw_liquid']
    """
    cure = "dry" if dry else "brine"
    return tuple(
        one
        for one in CAUTIONS
        if one.cure in (None, cure) and any(place in one.places for place in places)
    )


def caution(key: str) -> Caution:
    """The caution of that name; ValueError when there is none."""
    for one in CAUTIONS:
        if one.key == key:
            return one
    raise ValueError(f"There is no caution named {key!r}.")


def texts(cautions: Iterable[Caution], system: System = "us") -> tuple[str, ...]:
    """The sentences alone, with the cook's own units first where a number stands in both.

    >>> texts([caution("thaw_in_fridge")], "metric")[0]
    'Thaw in the fridge, a day for each 2.3 kg (5 lb), in a tray that holds the drip.'
    """
    if system == "us":
        return tuple(one.text for one in cautions)
    return tuple(_PAIR.sub(r"\3 \4 (\1 \2)", one.text) for one in cautions)
