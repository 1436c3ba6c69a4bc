"""Refusing numbers that cannot be: one sentence saying what was wrong and what was expected."""

from math import inf, isfinite

# No kitchen has more than this of anything, in any unit used here, nor less than that; it keeps
# nonsense from overflowing far from where it was typed.
_MOST, _LEAST = 1e9, 1e-18
_LEAST_RATIO = 1e-9


def positive(what: str, value: float, unit: str = "") -> float:
    """The value itself, if it is a sensible number above nought."""
    if not (isfinite(value) and value >= _LEAST):
        raise ValueError(f"The {what} must be more than 0{_space(unit)}; {value} was given.")
    return _sensible(what, value, unit)


def not_negative(what: str, value: float, unit: str = "") -> float:
    """The value itself, if it is a sensible number, nought or above."""
    if not (isfinite(value) and value >= 0.0):
        raise ValueError(f"The {what} must be 0{_space(unit)} or more; {value} was given.")
    return _sensible(what, value, unit)


def between(what: str, value: float, least: float, most: float, unit: str = "") -> float:
    """The value itself, if it lies from `least` to `most`."""
    if not least <= value <= most:
        raise ValueError(
            f"The {what} must be from {least:g} to {most:g}{_space(unit)}; {value} was given."
        )
    return value


def bath_ratio(value: float) -> float:
    """The ratio itself, if a bath could have it; infinite is a bath that never runs down."""
    if not (value == inf or _LEAST_RATIO <= value <= _MOST):
        raise ValueError(
            f"The bath ratio must be more than 0, up to {_MOST:g} or infinite; {value} was given."
        )
    return value


def _sensible(what: str, value: float, unit: str) -> float:
    if value > _MOST:
        raise ValueError(
            f"The {what} must be a sensible number, {_MOST:g}{_space(unit)} at most; "
            f"{value} was given."
        )
    return value


def _space(unit: str) -> str:
    return f" {unit}" if unit else ""
