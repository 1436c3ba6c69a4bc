"""Doing a batch again: another weight, another date, with or without what was learned."""

from collections.abc import Iterable, Mapping, Sequence

from attrs import evolve

from app.cure.mix import MixRequest, scale
from app.journal.advice import Advice, lengths_with, mix_with
from app.journal.advice_colour import days_carried, for_thickness
from app.journal.advised import Past
from app.journal.lengths import Length, usual_stages
from app.journal.naming import name_for
from app.journal.own_lengths import lengths_again
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
    thawed: bool | None = None,
    pasts: Iterable[Past] = (),
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
    name : of the new batch; the old one's if not given, with the new weight if it was offered so
    thickness_mm : of the new piece [mm]; the old one's if not given
    thawed : the new piece comes frozen; as the old one did if not given
    pasts : the cook's batches with their records, this one among them
    own_lengths : lengths to use before all others
    taken : pieces of advice to take up; none repeats the batch as it was

    Notes
    -----
    Stages are those of the old plan, left-out ones left out again. Thaw, chilling and cure are
    worked out anew for the new piece, by the models and the cook's own slices; the other
    lengths are as `app.journal.own_lengths.lengths_again` finds them. Days asked for or advised
    are carried over by the square of the thickness (Fo = D·t/a² stays).
    """
    was_mm = batch.thickness_mm
    now_mm = was_mm if thickness_mm is None else thickness_mm
    advised = tuple(for_thickness(one, was_mm, now_mm) for one in taken)
    asked = {
        stage: Length(length.minutes, "as the advice has it")
        for stage, length in lengths_with(advised).items()
    }
    mix = mix_with(_days_for(batch.mix, was_mm, now_mm), advised)
    scaled = scale(mix, new_meat_g, thickness_mm)
    fat_cap_on = batch.fat_cap_on and not any(one.fat_cap_off for one in advised)
    before = lengths_again(batch, scaled, now_mm, fat_cap_on, pasts)
    fresh = new_batch(
        scaled,
        batch.cut,
        name_for(batch, new_meat_g) if name is None else name,
        now,
        ids=ids,
        zone=zone,
        start=start,
        serve=serve,
        thickness_mm=now_mm,
        fat_cap_on=fat_cap_on,
        stages=_stages(batch, mix, thawed) | set(asked),
        own_lengths={**before, **asked, **(own_lengths or {})},
    )
    return evolve(fresh, repeated_from=batch.id, advice_taken=tuple(one.id for one in taken))


def _stages(batch: Batch, mix: MixRequest, thawed: bool | None) -> set[Stage]:
    """The old plan's stages, with what another method brings or needs no more."""
    stages = {step.stage for step in batch.plan if not step.skipped}
    if mix.method != batch.mix.method:
        was, now = (
            set(usual_stages(method, smoked="smoke" in stages, thawed="thaw" in stages))
            for method in (batch.mix.method, mix.method)
        )
        stages = (stages - (was - now)) | (now - was)
    if thawed is not None:
        stages = stages | {"thaw"} if thawed else stages - {"thaw"}
    return stages


def _days_for(mix: MixRequest, was_mm: float | None, now_mm: float | None) -> MixRequest:
    if mix.days is None or not was_mm or not now_mm or mix.method == "injection":
        return mix
    return evolve(mix, days=days_carried(mix.days, was_mm, now_mm))
