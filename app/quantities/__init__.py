"""The edge where people's units become the program's and back.

Inside the program a number is in the one unit of its kind: mass g, volume mL, length mm,
temperature °C, duration s. Only here, where pint does the converting, are there any others.
"""

from app.quantities.reading import parse
from app.quantities.units import (
    G_PER_LB,
    G_PER_OZ,
    KINDS,
    ML_PER_GAL,
    MM_PER_IN,
    S_PER_DAY,
    S_PER_H,
    Kind,
    System,
    from_unit,
    to_unit,
    usual_unit,
)
from app.quantities.writing import format, plain

__all__ = [
    "G_PER_LB",
    "G_PER_OZ",
    "KINDS",
    "ML_PER_GAL",
    "MM_PER_IN",
    "S_PER_DAY",
    "S_PER_H",
    "Kind",
    "System",
    "format",
    "from_unit",
    "parse",
    "plain",
    "to_unit",
    "usual_unit",
]
