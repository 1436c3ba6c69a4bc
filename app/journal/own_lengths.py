"""How long the stages take this cook: by their own slices, and by what truly happened before."""

from collections.abc import Iterable, Mapping

from app.cure.request import MixRequest
from app.journal.advised import Past
from app.journal.lengths import DEFAULT_MIN, Length, lengths_from
from app.journal.own_slices import length_by_slices, own_slices
from app.journal.records import Batch, Stage

CHOSEN: frozenset[Stage] = frozenset({"soak", "dry", "rest"})
"""Running stages that end when the cook ends them; smoke and finish end by feel."""

_BY_MODEL: frozenset[Stage] = frozenset({"thaw", "chill", "cure", "turn"})


def own_lengths(
    mix: MixRequest, cut: str, thickness_mm: float | None, fat_cap_on: bool, pasts: Iterable[Past]
) -> dict[Stage, Length]:
    """Lengths the cook's own batches of a cut give, for a new piece of it.

    Parameters
    ----------
    mix : of the new piece
    cut : as it is named in the batches
    thickness_mm, fat_cap_on : of the new piece [mm]
    pasts : the cook's batches with their records

    Returns
    -------
    The running stages as they went before; the cure by the cook's own slices, where they have
    a say. Stages without a past are left out.
    """
    learned = tuple(pasts)
    found = lengths_from((past.batch for past in learned), cut)
    cure = length_by_slices(mix, thickness_mm, fat_cap_on, own_slices(learned, cut))
    return found if cure is None else {**found, "cure": cure}


def lengths_again(
    batch: Batch,
    mix: MixRequest,
    thickness_mm: float | None,
    fat_cap_on: bool,
    pasts: Iterable[Past] = (),
) -> Mapping[Stage, Length]:
    """Lengths for doing a batch again with another piece of meat.

    What the cook chose, soak, dry and rest, is as it truly was in that batch; what ends by feel
    is the middle of all batches of the cut; where nothing was recorded, as that batch was
    planned. Thaw, chilling and cure hang on the new piece, so only own slices speak for them.
    """
    learned = tuple(pasts)
    planned: dict[Stage, Length] = {
        step.stage: Length(step.minutes, f"as planned for {batch.name}")
        for step in batch.plan
        # A length by habit is one again, and needs no telling where it comes from.
        if step.stage not in _BY_MODEL and step.minutes != DEFAULT_MIN[step.stage]
    }
    own = own_lengths(mix, batch.cut, thickness_mm, fat_cap_on, learned)
    as_it_was = {
        stage: Length(length.minutes, f"as it was in {batch.name}")
        for stage, length in lengths_from([batch], batch.cut).items()
        if stage in CHOSEN
    }
    return {**planned, **own, **as_it_was}
