"""Doing a batch again: another weight, another date, with or without what was learned."""

from attrs import evolve

from app.cure.mix import MixRequest, scale
from app.journal.lengths import Length
from app.journal.plan import Ids, new_batch
from app.journal.records import Batch, Moment, Stage


def repeat(
    batch: Batch,
    new_meat_g: float,
    start: str | None,
    now: Moment,
    ids: Ids,
    *,
    zone: str = "",
    serve: str | None = None,
    name: str | None = None,
    thickness_mm: float | None = None,
    mix: MixRequest | None = None,
    own_lengths: dict[Stage, Length] | None = None,
    advice_taken: tuple[str, ...] = (),
) -> Batch:
    """A new batch after the pattern of an old one.

    Parameters
    ----------
    batch : the one to repeat
    new_meat_g : weight of the new piece [g]
    start : wall-clock time to begin, or None with `serve` to work back from a meal
    now : this instant
    ids : source of names
    thickness_mm : of the new piece [mm]; the old one's if not given
    mix : the mix with advice taken up, for the old weight; the old mix if not given
    own_lengths : lengths to use instead of the old plan's
    advice_taken : names of the pieces of advice taken up, kept with the batch

    Notes
    -----
    Stages and lengths are those of the old plan, left-out ones left out again; thaw, and the
    cure if the piece is of another thickness, are worked out anew. Weight alone changes no
    days: what counts for the cure is how thick the piece is.
    """
    stages = tuple({step.stage: None for step in batch.plan if not step.skipped})
    new_thickness = batch.thickness_mm if thickness_mm is None else thickness_mm
    new_mix = scale(mix or batch.mix, new_meat_g, thickness_mm)
    kept: dict[Stage, Length] = {
        step.stage: Length(step.minutes, f"as in {batch.name}")
        for step in batch.plan
        if step.stage != "thaw"
        and not (step.stage == "cure" and new_thickness != batch.thickness_mm)
    }
    fresh = new_batch(
        new_mix,
        batch.cut,
        batch.name if name is None else name,
        now,
        ids=ids,
        zone=zone,
        start=start,
        serve=serve,
        thickness_mm=new_thickness,
        fat_cap_on=batch.fat_cap_on,
        stages=stages,
        own_lengths=kept | (own_lengths or {}),
    )
    return evolve(fresh, repeated_from=batch.id, advice_taken=advice_taken)
