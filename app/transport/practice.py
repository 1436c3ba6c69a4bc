"""Old rules of thumb for curing days, and where they part from one another and from the model.

All of it common practice, no source: they are shown beside the model, never used by it.
"""

from math import isfinite

from attrs import frozen

from app.transport.course import Piece
from app.transport.diffusivity import Range

_MM_AN_INCH = 25.4


@frozen
class RuleOfThumb:
    """A rule of the trade for one piece: its words, its days, how it sits with the model."""

    words: str
    least_days: float
    most_days: float
    beside_model: str
    source: str = "common practice, no source"


def rules_of_thumb(piece: Piece, model_days: Range | None = None) -> tuple[RuleOfThumb, ...]:
    """What the old rules say for a piece, each set beside the model's range.

    quarter inch a day: path/6.35 mm + 2 d; seven days an inch: thickness/25.4 mm · 7 d;
    a week: 5-7 d whatever the piece

    Parameters
    ----------
    piece : the meat
    model_days : the model's own low, likely, high [d]; None when it never gets there

    Returns
    -------
    The rules, the quickest first

    Examples
    --------
    >>> [(r.least_days, r.most_days) for r in rules_of_thumb(Piece(50.8))]
    [(5.0, 7.0), (6.0, 6.0), (14.0, 14.0)]

    References
    ----------
    Common practice, no source.
    """
    quarter = piece.path_mm / (_MM_AN_INCH / 4.0) + 2.0
    inches = piece.thickness_mm / _MM_AN_INCH * 7.0
    rules = [
        ("A week for any brisket", 5.0, 7.0),
        ("A quarter inch a day from each open face, and two days more", quarter, quarter),
        ("Seven days for every inch of thickness (said of dry cures)", inches, inches),
    ]
    return tuple(
        RuleOfThumb(words, least, most, _beside(least, most, model_days))
        for words, least, most in sorted(rules, key=lambda rule: rule[1])
    )


def disagreement(rules: tuple[RuleOfThumb, ...]) -> str:
    """One sentence on how far the rules of thumb lie apart."""
    if not rules:
        raise ValueError("There is no rule of thumb to compare.")
    least = min(rule.least_days for rule in rules)
    most = max(rule.most_days for rule in rules)
    if most <= 1.25 * least:
        return f"The old rules agree here: {least:.0f} to {most:.0f} days."
    return (
        f"The old rules do not agree: for this piece they run from {least:.0f} to {most:.0f} days."
    )


def _beside(least: float, most: float, model: Range | None) -> str:
    if model is None or not isfinite(model.high):
        return "By the model the middle is never reached with this cure, whatever the days."
    if most < model.low:
        return "Shorter than the model's quickest: the middle would likely stay uncured."
    if least > model.high:
        return "Longer than the model's slowest: safe for the middle, salty in a strong brine."
    if most < model.likely:
        return "Within the model's range, on its short side."
    if least > model.likely:
        return "Within the model's range, on its long side."
    return "Agrees with what the model holds likely."
