"""Spice blends: what is in them, and how they grow with the brine or with the surface."""

from typing import Literal

from attrs import frozen

Per = Literal["kg_of_meat_and_brine", "100_cm2"]
"""What a blend's grams are for: a brine's by mass, a rub's by the surface it goes on."""


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
