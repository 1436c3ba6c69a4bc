"""Doing a batch again: another weight, another date, with or without what was learned."""

from collections.abc import Mapping, Sequence

from attrs import evolve

from app.cure.mix import MixRequest, scale
from app.journal.advice import Advice, lengths_with, mix_with
from app.journal.advice_colour import days_carried, for_thickness
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
    own_lengths: Mapping[Stage, Length] | None = None,
    taken: Sequence[Advice] = (),
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
    own_lengths : lengths to use instead of the old plan's
    taken : pieces of advice to take up; none repeats the batch as it was

    Notes
    -----
    Stages and lengths are those of the old plan, left-out ones left out again; thaw is worked
    out anew. Weight alone changes no days: what counts for the cure is how thick the piece is,
    so for another thickness its days are worked out anew, and days asked for or advised are
    carried over by its square (Fo = D·t/a² stays).
    """
    was_mm = batch.thickness_mm
    now_mm = was_mm if thickness_mm is None else thickness_mm
    advised = tuple(for_thickness(one, was_mm, now_mm) for one in taken)
    asked = lengths_with(advised)
    stages = {step.stage: None for step in batch.plan if not step.skipped}
    stages |= dict.fromkeys(asked)
    mix = mix_with(_days_for(batch.mix, was_mm, now_mm), advised)
    kept: dict[Stage, Length] = {
        step.stage: Length(step.minutes, f"as in {batch.name}")
        for step in batch.plan
        if step.stage != "thaw" and not (step.stage == "cure" and now_mm != was_mm)
    }
    fresh = new_batch(
        scale(mix, new_meat_g, thickness_mm),
        batch.cut,
        batch.name if name is None else name,
        now,
        ids=ids,
        zone=zone,
        start=start,
        serve=serve,
        thickness_mm=now_mm,
        fat_cap_on=batch.fat_cap_on and not any(one.fat_cap_off for one in advised),
        stages=stages,
        own_lengths={**kept, **asked, **(own_lengths or {})},
    )
    return evolve(fresh, repeated_from=batch.id, advice_taken=tuple(one.id for one in taken))


def _days_for(mix: MixRequest, was_mm: float | None, now_mm: float | None) -> MixRequest:
    if mix.days is None or not was_mm or not now_mm or mix.method == "injection":
        return mix
    return evolve(mix, days=days_carried(mix.days, was_mm, now_mm))
