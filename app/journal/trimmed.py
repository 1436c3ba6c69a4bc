"""What the trimmed weight means for a mix that was worked out for another one."""

from collections.abc import Iterable

from attrs import evolve, frozen

from app.cure.mix import OverLimit, work_out
from app.journal.chain import active
from app.journal.entries import by_time
from app.journal.naming import name_for
from app.journal.records import Batch, Entry, Weight

WORTH_SAYING = 0.02
"""Part of the weight below which a mix is near enough; our own choice."""

DOUBTFUL = (0.55, 1.3)
"""Trimmed to mixed weight outside which the number or its unit is asked about; a brisket trimmed
hard keeps six tenths, and a pound is 0.45 of a kilogram; our own choice."""


@frozen
class OtherWeight:
    """The meat weighs otherwise than the mix was made for.

    trimmed_g, mixed_g : the weight it has, and the one the mix was worked out for [g]
    in_cure : whether it lies in that cure already
    ppm : nitrite counted on what it weighs, in the cure as it was mixed
    most_ppm : the limit of the rules the mix was made under
    """

    trimmed_g: float
    mixed_g: float
    in_cure: bool
    ppm: float
    most_ppm: float

    @property
    def doubtful(self) -> bool:
        """Far less of it or more than there was: kilograms read as pounds, or the reverse."""
        return not DOUBTFUL[0] <= self.trimmed_g / self.mixed_g <= DOUBTFUL[1]

    @property
    def over_limit(self) -> bool:
        return self.ppm > self.most_ppm + 0.5


def other_weight(batch: Batch, entries: Iterable[Entry]) -> OtherWeight | None:
    """Hold the trimmed weight last written against the mix; None when they agree or none is known.

    The nitrite weighed stays what it was: ppm = 10⁶ · nitrite / (meat + pickle).

    References
    ----------
    USDA FSIS Directive 7620.3 (1995), as `app.cure.nitrite`
    """
    found = [
        entry.body.grams
        for entry in by_time(entries)
        if isinstance(entry.body, Weight) and entry.body.of == "trimmed"
    ]
    begun = {step.stage for step in active(batch.plan) if step.done is not None}
    if not found or batch.finished or "end" in begun:
        return None
    trimmed, mixed = found[-1], batch.mix.meat_g
    if abs(trimmed - mixed) <= WORTH_SAYING * mixed:
        return None
    try:
        nitrite = work_out(batch.mix).nitrite
    except (OverLimit, ValueError):
        return None
    ppm = 0.0
    if nitrite.ppm > 0.0:
        pickle = 1e6 * nitrite.grams / nitrite.ppm - mixed
        ppm = 1e6 * nitrite.grams / (trimmed + pickle)
    return OtherWeight(trimmed, mixed, "cure" in begun, ppm, nitrite.most_ppm)


def mixed_for(batch: Batch, meat_g: float) -> Batch:
    """The batch with its mix worked out for that weight; all that was asked of it stays.

    A weight in the name it was offered follows.
    """
    return evolve(batch, name=name_for(batch, meat_g), mix=evolve(batch.mix, meat_g=meat_g))
