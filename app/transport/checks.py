"""Refusing numbers that cannot be: one sentence saying what was wrong and what was expected."""

from math import isfinite


def positive(what: str, value: float, unit: str = "") -> float:
    """The value itself, if it is a finite number above nought."""
    if not (isfinite(value) and value > 0.0):
        raise ValueError(f"The {what} must be more than 0{_space(unit)}; {value} was given.")
    return value


def not_negative(what: str, value: float, unit: str = "") -> float:
    """The value itself, if it is a finite number, nought or above."""
    if not (isfinite(value) and value >= 0.0):
        raise ValueError(f"The {what} must be 0{_space(unit)} or more; {value} was given.")
    return value


def between(what: str, value: float, least: float, most: float, unit: str = "") -> float:
    """The value itself, if it lies from `least` to `most`."""
    if not least <= value <= most:
        raise ValueError(
            f"The {what} must be from {least:g} to {most:g}{_space(unit)}; {value} was given."
        )
    return value


def _space(unit: str) -> str:
    return f" {unit}" if unit else ""
