"""How much raw meat to buy for so many people, through trimming and cooking."""

from attrs import frozen

from app.cure.figures import grams, percent
from app.cure.meat import cut_of
from app.cure.working import Working
from app.transport.checks import positive
from app.transport.diffusivity import Range

SERVING_G = 170.0
"""Sliced meat for one, 6 oz. Common practice, no source."""


@frozen
class Losses:
    """Parts of the weight lost: in trimming, of what is bought; in cooking, of what is trimmed."""

    trim: Range
    cook: Range
    source: str = "common practice, no source"


_COOK = Range(0.30, 0.38, 0.45)

LOSSES: dict[str, Losses] = {
    "brisket": Losses(Range(0.10, 0.18, 0.28), _COOK),
    "flat": Losses(Range(0.03, 0.08, 0.15), _COOK),
    "point": Losses(Range(0.08, 0.15, 0.25), _COOK),
    "navel": Losses(Range(0.05, 0.12, 0.20), Range(0.33, 0.40, 0.48)),
    "chuck": Losses(Range(0.03, 0.08, 0.15), _COOK),
    "round": Losses(Range(0.02, 0.05, 0.10), Range(0.25, 0.32, 0.40)),
    "tongue": Losses(Range(0.10, 0.18, 0.25), Range(0.20, 0.28, 0.35)),
}
"""Losses by cut, for a cook who has no batches of their own yet. Common practice, no source."""


@frozen
class Buying:
    """What to buy for a table, and what becomes of it."""

    raw_g: Range
    trimmed_g: float
    cooked_g: float
    working: Working


def raw_weight(
    servings: float,
    serving_g: float = SERVING_G,
    cut: str = "brisket",
    losses: Losses | None = None,
) -> Buying:
    """Raw weight to buy for a number of servings.

    raw = servings · serving / ((1 − trim) · (1 − cook))

    Parameters
    ----------
    servings : how many eat, or how many times one serving
    serving_g : sliced meat for one [g]
    cut : a key of `app.cure.meat.CUTS`
    losses : the cook's own from past batches, see `own_losses`; None takes the cut's

    Returns
    -------
    Raw weight as low, likely and high, and what of it is left trimmed and cooked [g]

    Raises
    ------
    ValueError : servings or serving not above 0, an unknown cut, or a loss of all there is

    Notes
    -----
    The cure's gain is small beside the losses and left out. Buy nearer the high end when
    running short would be worse than sandwiches.

    Examples
    --------
    >>> need = raw_weight(8, cut="flat")
    >>> round(need.raw_g.likely), round(need.trimmed_g), round(need.cooked_g)
    (2384, 2194, 1360)

    References
    ----------
    Losses: common practice, no source, unless the cook's own are given.
    """
    positive("number of servings", servings)
    positive("serving", serving_g, "g")
    name = cut_of(cut).name
    lost = losses or LOSSES[cut]
    for what, part in (("trimming", lost.trim), ("cooking", lost.cook)):
        if not 0.0 <= part.low <= part.high < 1.0:
            raise ValueError(f"The loss in {what} must be from 0 to less than 1; {part} was given.")
    cooked_g = servings * serving_g
    raw = Range(
        *(
            cooked_g / ((1.0 - trim) * (1.0 - cook))
            for trim, cook in (
                (lost.trim.low, lost.cook.low),
                (lost.trim.likely, lost.cook.likely),
                (lost.trim.high, lost.cook.high),
            )
        )
    )
    working = Working(
        "Raw meat to buy",
        "raw = servings × serving ÷ (1 − trimming) ÷ (1 − cooking)",
        (
            ("servings", f"{servings:g} of {grams(serving_g)}"),
            ("cut", name),
            ("lost in trimming", percent(100.0 * lost.trim.likely, 0)),
            ("lost in cooking", percent(100.0 * lost.cook.likely, 0)),
        ),
        f"{grams(raw.low)} to {grams(raw.high)}, likely {grams(raw.likely)}",
        lost.source,
        "Weigh a batch raw, trimmed and rested, and your own losses take the place of these.",
    )
    return Buying(raw, cooked_g / (1.0 - lost.cook.likely), cooked_g, working)


def own_losses(trims: list[float], cooks: list[float], cut: str = "brisket") -> Losses:
    """A cook's own losses from past batches: lowest, middle and highest of each.

    Parameters
    ----------
    trims, cooks : parts lost in each batch, trimming and cooking [0-1); either may be empty
    cut : gives the default for the one that is empty

    Returns
    -------
    Losses that say how many batches they rest on

    Raises
    ------
    ValueError : a part is not from 0 to less than 1

    Examples
    --------
    >>> own_losses([0.2, 0.1, 0.12], []).trim.likely
    0.12

    References
    ----------
    The cook's own weighings.
    """
    cut_of(cut)
    for part in (*trims, *cooks):
        if not 0.0 <= part < 1.0:
            raise ValueError(f"A loss must be from 0 to less than 1; {part} was given.")
    usual = LOSSES[cut]
    source = f"own batches: {len(trims)} trimmed, {len(cooks)} cooked; the rest common practice"
    return Losses(_spread(trims) or usual.trim, _spread(cooks) or usual.cook, source)


def _spread(parts: list[float]) -> Range | None:
    if not parts:
        return None
    ordered = sorted(parts)
    return Range(ordered[0], ordered[len(ordered) // 2], ordered[-1])
