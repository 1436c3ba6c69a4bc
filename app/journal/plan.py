"""A batch's plan: made, moved, and told where it no longer fits."""

from collections.abc import Callable, Iterable, Mapping
from itertools import count

from attrs import evolve

from app.cure.request import Method, MixRequest
from app.cure.turning import TURN_EVERY_DAYS
from app.journal.chain import active, begins_s, earliest_s, in_order, kept, tight_stages
from app.journal.lengths import (
    DEFAULT_MIN,
    TITLES,
    Length,
    lengths,
    usual_stages,
)
from app.journal.reckon import settle, turn_times, work_back, work_forward
from app.journal.records import Batch, Moment, Stage, Step
from app.journal.wall import (
    minutes_between,
    next_quarter,
    read_wall,
    wall_at,
    wall_of,
    write_wall,
)

BY_HAND = "as you set it"
"""Where the length of a step comes from when the cook gave it."""

Ids = Callable[[], str]
"""Where new names come from; each call gives one no other record has."""


def new_plan(
    stages: Iterable[Stage],
    minutes: Mapping[Stage, Length],
    ids: Ids,
    *,
    start: str,
    serve: str | None = None,
    zone: str = "",
    method: Method = "equilibrium",
) -> tuple[Step, ...]:
    """Steps for these stages, worked back from the meal, or forward from a start."""
    start = write_wall(read_wall(start))
    steps = tuple(
        Step(
            ids(),
            stage,
            start,
            TITLES[stage],
            float(minutes[stage].minutes),
            why=minutes[stage].why,
        )
        for stage in DEFAULT_MIN
        if stage in frozenset(stages) and stage != "turn"
    )
    if serve is None:
        steps = work_forward(steps, start, zone, tight_stages(method))
    else:
        steps = work_back(steps, write_wall(read_wall(serve)), zone)
    if "turn" not in frozenset(stages):
        return steps
    return in_order((*steps, *_turns(steps, minutes["turn"].minutes, ids, zone)))


def _turns(steps: Iterable[Step], minutes: float, ids: Ids, zone: str) -> tuple[Step, ...]:
    cure = next((step for step in steps if step.stage == "cure"), None)
    if cure is None:
        return ()
    times = turn_times(cure.due, cure.minutes, TURN_EVERY_DAYS, zone)
    return tuple(Step(ids(), "turn", due, TITLES["turn"], minutes) for due in times)


def new_batch(
    mix: MixRequest,
    cut: str,
    name: str,
    now: Moment,
    *,
    ids: Ids,
    zone: str = "",
    start: str | None = None,
    serve: str | None = None,
    thickness_mm: float | None = None,
    fat_cap_on: bool = False,
    smoked: bool = True,
    thawed: bool = False,
    stages: Iterable[Stage] | None = None,
    own_lengths: Mapping[Stage, Length] | None = None,
) -> Batch:
    """A batch with its plan.

    Parameters
    ----------
    mix : what the cook asked of the cure
    cut, name : what it is and what it is called; neither may be empty
    now : this instant, with the local offset beside it
    ids : source of names for the batch and its steps
    zone : name of the local time zone; empty counts as if no clock ever changed
    start : wall-clock time to begin; the next quarter of an hour if not given
    serve : wall-clock time of the meal; the plan is then worked back from it
    thickness_mm : thickness of the meat [mm], if known
    smoked : pastrami if true, corned beef from the pot if false
    thawed : the meat comes frozen and must thaw first
    stages : the stages of the plan, instead of the usual ones
    own_lengths : lengths from a model or from earlier batches, before the defaults

    Raises
    ------
    ValueError : no name or cut, a time that is none, a weight or thickness that cannot be
    """
    if not name.strip():
        raise ValueError("The batch needs a name, so that it can be found again.")
    if not cut.strip():
        raise ValueError("Say which cut it is, brisket flat for example.")
    chosen = usual_stages(mix.method, smoked=smoked, thawed=thawed) if stages is None else stages
    minutes = lengths(mix, thickness_mm, fat_cap_on, own_lengths)
    begin = next_quarter(wall_of(now)) if start is None else start
    batch_id = ids()
    return Batch(
        id=batch_id,
        name=name.strip(),
        cut=cut.strip(),
        created=now,
        changed=now,
        mix=mix,
        thickness_mm=thickness_mm,
        fat_cap_on=fat_cap_on,
        serve=None if serve is None else write_wall(read_wall(serve)),
        plan=new_plan(chosen, minutes, ids, start=begin, serve=serve, zone=zone, method=mix.method),
    )


def step_of(batch: Batch, step_id: str) -> Step:
    """The step of that name; ValueError when the plan has none."""
    for step in batch.plan:
        if step.id == step_id:
            return step
    raise ValueError(f"The plan of {batch.name} has no step {step_id!r}.")


def with_step(batch: Batch, new: Step) -> Batch:
    """The batch with one step replaced, all others where they were."""
    plan = in_order(new if step.id == new.id else step for step in batch.plan)
    return evolve(batch, plan=plan)


def resettle(batch: Batch, changed_id: str, zone: str = "", before: Batch | None = None) -> Batch:
    """Let what hangs on a changed step follow it. `before` is the batch as it was."""
    plan = settle(
        batch.plan,
        changed_id,
        tight_stages(batch.mix.method),
        batch.serve is not None,
        zone,
        was=(before or batch).plan,
    )
    return evolve(batch, plan=plan)


def move(batch: Batch, step_id: str, to: str, zone: str = "") -> Batch:
    """Move a step to another wall-clock time; what hangs on it follows.

    What is done, skipped or was moved by hand stays where it is, and so does the meal of a
    plan worked back from one. `app.journal.fits.misfits` says what no longer fits.
    """
    step = step_of(batch, step_id)
    due = write_wall(read_wall(to))
    moved = with_step(batch, evolve(step, due=due, moved_by_hand=True))
    return resettle(moved, step_id, zone, before=batch)


def set_minutes(batch: Batch, step_id: str, minutes: float, zone: str = "") -> Batch:
    """Give a step another length [min]; what hangs on it follows.

    A step not begun, in a plan worked back from a meal, begins earlier or later instead.
    """
    if not 0 <= minutes <= 366 * 1440:
        raise ValueError(f"A length from 0 min to a year was expected; {minutes} min was given.")
    step = step_of(batch, step_id)
    changed = with_step(batch, evolve(step, minutes=float(minutes), why=BY_HAND))
    if batch.serve is not None and step.done is None:
        settled = replan(changed, zone)
    else:
        settled = resettle(changed, step_id, zone, before=batch)
    return turned_anew(settled, zone) if step.stage == "cure" else settled


def turned_anew(batch: Batch, zone: str = "") -> Batch:
    """As many turnings as the days in the cure ask for, if it is turned at all.

    Those done, left out or moved by hand stay; new ones are named after the cure's own step. A
    usual plan that has none had too few days for one, and has them again when the days come back.
    """
    turns = [step for step in batch.plan if step.stage == "turn"]
    cure = next((step for step in active(batch.plan) if step.stage == "cure"), None)
    if cure is None or not (turns or _usually_turned(batch)):
        return batch
    stay = [step for step in turns if kept(step)]
    begun = wall_at(begins_s(cure, zone), zone)
    wanted = [
        due
        for due in turn_times(begun, cure.minutes, TURN_EVERY_DAYS, zone)
        if not any(abs(minutes_between(due, step.due)) < 1440.0 for step in stay)
    ]
    free = iter(step for step in turns if not kept(step))
    taken = {step.id for step in batch.plan}
    names = (name for n in count(1) if (name := f"{cure.id}-turn{n}") not in taken)
    minutes, why = (turns[0].minutes, turns[0].why) if turns else (DEFAULT_MIN["turn"], "")
    fresh = [
        evolve(step, due=due)
        if (step := next(free, None)) is not None
        else Step(next(names), "turn", due, TITLES["turn"], float(minutes), why=why)
        for due in wanted
    ]
    rest = (step for step in batch.plan if step.stage != "turn")
    return evolve(batch, plan=in_order((*rest, *stay, *fresh)))


def _usually_turned(batch: Batch) -> bool:
    """Whether the plan has all the usual stages, turning among them but for the days."""
    stages = {step.stage for step in batch.plan}
    usual = usual_stages(batch.mix.method, smoked="smoke" in stages, thawed="thaw" in stages)
    return "turn" in usual and stages >= {*usual} - {"turn"}


def replan(
    batch: Batch, zone: str = "", *, serve: str | None = None, start: str | None = None
) -> Batch:
    """Work the whole plan anew, back from a meal or forward from a start.

    With neither given, from the meal the batch has, or from its first step. What is done,
    skipped or was moved by hand stays.
    """
    if serve is not None and start is not None:
        raise ValueError("A plan is worked back from a meal or forward from a start, not both.")
    if start is None:
        meal = batch.serve if serve is None else write_wall(read_wall(serve))
        if meal is not None:
            return evolve(batch, serve=meal, plan=work_back(batch.plan, meal, zone))
        start = min((step.due for step in batch.plan), default=wall_of(batch.created))
    begin = write_wall(read_wall(start))
    return evolve(
        batch,
        serve=None,
        plan=work_forward(batch.plan, begin, zone, tight_stages(batch.mix.method)),
    )


def add_stage(
    batch: Batch, stage: Stage, ids: Ids, zone: str = "", minutes: float | None = None
) -> Batch:
    """Add a stage the plan does not have, or one more turning; what hangs on it follows."""
    if stage != "turn" and any(step.stage == stage for step in batch.plan):
        raise ValueError(f"The plan already has this step: {TITLES[stage].lower()}.")
    length = lengths(batch.mix, batch.thickness_mm, batch.fat_cap_on)[stage]
    if minutes is not None:
        length = Length(float(minutes), BY_HAND)
    first = min((step.due for step in batch.plan), default=wall_of(batch.created))
    new = Step(ids(), stage, first, TITLES[stage], length.minutes, why=length.why)
    if stage == "turn":
        cures = [step.due for step in batch.plan if step.stage in ("cure", "turn")]
        due = turn_times(max(cures), 1e6, TURN_EVERY_DAYS)[0] if cures else first
        return evolve(batch, plan=in_order((*batch.plan, evolve(new, due=due))))
    earliest = earliest_s(new, (*batch.plan, new), zone)
    placed = new if earliest is None else evolve(new, due=wall_at(earliest, zone))
    grown = evolve(batch, plan=in_order((*batch.plan, placed)))
    if batch.serve is not None:
        return replan(grown, zone)
    return resettle(grown, new.id, zone, before=batch)
