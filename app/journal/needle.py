"""The needle instead of days: a batch not yet in the cure, injected after all."""

from attrs import evolve

from app.cure.mix import work_out
from app.journal.lengths import TITLES, lengths, usual_stages
from app.journal.plan import Ids, replan, turned_anew
from app.journal.records import Batch, Step


def by_needle(batch: Batch, ids: Ids, zone: str = "") -> Batch:
    """The same piece of meat with its cure pumped in.

    Parameters
    ----------
    batch : not yet in the cure
    ids : source of names for steps that come in
    zone : name of the local time zone

    Returns
    -------
    The batch with its mix by injection, to be weighed anew, and its plan worked out anew

    Raises
    ------
    ValueError : it is in the cure already, or it is injected already, or it cannot be mixed so

    Notes
    -----
    Salt told for an equilibrium keeps its meaning; by the other methods it is told of another
    thing, so the usual salt for injection is taken.
    """
    cure = next((step for step in batch.plan if step.stage == "cure"), None)
    if cure is None or cure.done is not None:
        raise ValueError(f"{batch.name} is in the cure already; what is in it cannot be pumped.")
    was = batch.mix
    if was.method == "injection":
        raise ValueError(f"{batch.name} is injected already.")
    same = was.method == "equilibrium"
    mix = evolve(
        was,
        method="injection",
        days=None,
        salt_percent=was.salt_percent if same else None,
        sugar_percent=was.sugar_percent if same else None,
    )
    mix = work_out(mix).request
    stages = {step.stage for step in batch.plan}
    new = lengths(mix, batch.thickness_mm, batch.fat_cap_on)
    shorter = tuple(
        evolve(step, minutes=new[step.stage].minutes, why=new[step.stage].why)
        if step.stage in ("cure", "chill") and step.done is None
        else step
        for step in batch.plan
    )
    added = tuple(
        Step(ids(), stage, cure.due, TITLES[stage], new[stage].minutes, why=new[stage].why)
        for stage in usual_stages("injection", smoked="smoke" in stages, thawed="thaw" in stages)
        if stage not in stages and stage in ("chill", "soak")
    )
    return turned_anew(replan(evolve(batch, mix=mix, plan=(*shorter, *added)), zone), zone)
