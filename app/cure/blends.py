"""Spice blends: what is in them, and how they grow with the brine or with the surface."""

from typing import Literal

from attrs import frozen

Per = Literal["kg_of_meat_and_brine", "100_cm2"]
"""What a blend's grams are for: a brine's by mass, a rub's by the surface it goes on."""


GRAMS_PER_TABLESPOON: dict[str, float] = {
    # USDA SR household measures: black pepper, paprika, ginger, cinnamon, clove, allspice and
    # the powders ground; coriander and mustard as seed; bay crumbled.
    "black pepper": 6.9,
    "coriander seed": 5.0,
    "mustard seed": 6.3,
    "garlic powder": 9.7,
    "onion powder": 6.9,
    "paprika": 6.8,
    "allspice": 6.0,
    "bay": 1.8,
    "clove": 6.5,
    "ginger": 5.2,
    "cinnamon": 7.8,
}
"""Grams in a level tablespoon of spice: for spice only, never for salt or cure."""


@frozen
class BlendPart:
    """One spice of a blend and its grams on the blend's own measure."""

    name: str
    grams: float


@frozen
class Blend:
    """A named blend. The cook's own are kept in the kit in this same form."""

    name: str
    per: Per
    parts: tuple[BlendPart, ...]


def _blend(name: str, per: Per, **grams: float) -> Blend:
    parts = tuple(BlendPart(key.replace("_", " "), value) for key, value in grams.items())
    return Blend(name, per, parts)


# Our own proportions; that such spices go with cured beef is common practice, no source.
_BRINE = _blend(
    "Plain pickling spice",
    "kg_of_meat_and_brine",
    coriander_seed=1.6,
    mustard_seed=1.3,
    black_pepper=1.1,
    allspice=0.4,
    bay=0.2,
    clove=0.1,
)
_RUB = _blend(
    "Pepper and coriander rub",
    "100_cm2",
    black_pepper=1.9,
    coriander_seed=1.3,
    paprika=0.4,
    garlic_powder=0.3,
    mustard_seed=0.3,
)


def brine_spices_of_ours() -> Blend:
    """The blend a brine gets when the cook names none."""
    return _BRINE


def rub_of_ours() -> Blend:
    """The rub a piece gets when the cook names none."""
    return _RUB
