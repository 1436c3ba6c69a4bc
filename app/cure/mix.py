"""The mix: from what a cook asks to what to weigh, with everything worth knowing about it."""

from app.cure.answer import (
    BrineFigures,
    ContainerFit,
    IcePlan,
    Ingredient,
    Mix,
    Nitrite,
    NitriteFigure,
    OverLimit,
    SaltForecast,
    Severity,
    ShoppingItem,
    UnsuitableCure,
    Caution,
)
from app.cure.request import Method, MixRequest, Vessel

__all__ = [
    "BrineFigures",
    "ContainerFit",
    "IcePlan",
    "Ingredient",
    "Method",
    "Mix",
    "MixRequest",
    "Nitrite",
    "NitriteFigure",
    "OverLimit",
    "SaltForecast",
    "Severity",
    "ShoppingItem",
    "UnsuitableCure",
    "Vessel",
    "Caution",
]
