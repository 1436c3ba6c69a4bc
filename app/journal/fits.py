"""Where a plan no longer fits, said in a sentence, and what would make it fit."""

from collections.abc import Iterable

from attrs import evolve, frozen

from app.journal.chain import (
    LAG_MIN,
    active,
    earliest_s,
    ends_s,
    last_before_meal,
    latest_s,
    tight_stages,
    waits_for,
)
from app.journal.reckon import work_back, work_forward
from app.journal.records import Batch, Step
from app.journal.wall import instant_s, next_quarter, say_minutes, say_wall, wall_at

_SLACK_S = 90.0  # A minute of rounding is no misfit.


@frozen
class Misfit:
    """One place where the plan does not fit.

    step_id : the step that would have to move
    start_by : wall-clock time by which it would have to begin
    short_min : how much time is missing [min]
    later_id, fits_at : the step that comes too early, and when it could come
    serve_at : when it could be eaten, where the meal is too near
    needle : injecting the cure would save the days
    """

    step_id: str
    sentence: str
    start_by: str
    short_min: float
    later_id: str = ""
    fits_at: str = ""
    serve_at: str = ""
    needle: bool = False


def misfits(batch: Batch, now: str, zone: str = "") -> tuple[Misfit, ...]:
    """What does not fit in a batch's plan, seen from `now` by the wall clock."""
    if batch.finished:
        return ()
    too_late = _too_late(batch, now, zone)
    return (*((too_late,) if too_late else ()), *_overlaps(batch, now, zone))


def _overlaps(batch: Batch, now: str, zone: str) -> Iterable[Misfit]:
    """Steps planned to begin before what they wait for is over."""
    steps = active(batch.plan)
    present = frozenset(step.stage for step in steps)
    for later in steps:
        if later.done is not None:
            continue
        begin = instant_s(later.due, zone) - 60.0 * LAG_MIN.get(later.stage, 0.0)
        if later.stage == "turn":
            yield from _turn_outside(later, steps, now, zone)
            continue
        for step in steps:
            if step.stage not in waits_for(later.stage, present):
                continue
            short = (ends_s(step, zone) - begin) / 60.0
            if 60.0 * short <= _SLACK_S:
                continue
            latest = latest_s(step, steps, zone)
            by = wall_at(begin - 60.0 * step.minutes if latest is None else latest, zone)
            yield Misfit(
                step.id,
                _overlap_words(batch, step, later, short, by, now),
                by,
                short,
                later_id=later.id,
                fits_at=_fits_at(later, batch.plan, zone),
                needle=_may_inject(batch, step),
            )


def _fits_at(later: Step, steps: Iterable[Step], zone: str) -> str:
    """The next quarter of an hour at which all it waits for is over."""
    earliest = earliest_s(later, steps, zone)
    return later.due if earliest is None else next_quarter(wall_at(earliest, zone))


def _overlap_words(
    batch: Batch, step: Step, later: Step, short_min: float, by: str, now: str
) -> str:
    when = say_wall(later.due, now)
    if step.done is not None:
        return (
            f"“{later.title}”, {when}, comes {say_minutes(short_min)} too early "
            f"after “{step.title}”: move it to a later time."
        )
    text = (
        f"“{step.title}” needs {say_minutes(step.minutes)} before “{later.title}”, {when}, "
        f"and lacks {say_minutes(short_min)}: start by {say_wall(by, now)}"
    )
    return f"{text}, or inject." if _may_inject(batch, step) else f"{text}, or move what follows."


def _may_inject(batch: Batch, step: Step) -> bool:
    """Whether the needle could still take the place of days in the cure."""
    return step.stage == "cure" and step.done is None and batch.mix.method != "injection"


def _turn_outside(turn: Step, steps: Iterable[Step], now: str, zone: str) -> Iterable[Misfit]:
    cure = next((step for step in steps if step.stage == "cure"), None)
    if cure is None:
        return
    begin, over = instant_s(cure.due, zone), ends_s(cure, zone)
    if not begin <= instant_s(turn.due, zone) <= over:
        yield Misfit(
            turn.id,
            f"“{turn.title}”, {say_wall(turn.due, now)}, lies outside the days in the cure: "
            "leave it out or move it.",
            wall_at(over, zone),
            0.0,
        )


def _too_late(batch: Batch, now: str, zone: str) -> Misfit | None:
    """The meal's time, when the steps still to come no longer fit before it."""
    if batch.serve is None:
        return None
    meal = last_before_meal(batch.plan)
    free = (evolve(step, moved_by_hand=False) for step in batch.plan)
    open_steps = [
        step
        for step in active(work_back(free, batch.serve, zone))
        if step.done is None and step.stage not in ("turn", "store")
    ]
    if not any(step.id == meal for step in open_steps):
        return None
    first = min(open_steps, key=lambda step: step.due)
    short = (instant_s(now, zone) - instant_s(first.due, zone)) / 60.0
    serving = earliest_serving(batch, now, zone)
    # Something under way may end too late although nothing waits to be begun before now.
    short = max(short, (instant_s(serving, zone) - instant_s(batch.serve, zone)) / 60.0)
    if 60.0 * short <= _SLACK_S:
        return None
    cure_open = any(_may_inject(batch, step) for step in open_steps)
    sentence = (
        f"To eat {say_wall(batch.serve, now)}: “{first.title}” by {say_wall(first.due, now)}"
        f"{', or inject' if cure_open else ''}. As it stands, it can be on the table "
        f"{say_wall(serving, now)}."
    )
    return Misfit(
        first.id, sentence, first.due, short, serve_at=next_quarter(serving), needle=cure_open
    )


def earliest_serving(batch: Batch, now: str, zone: str = "") -> str:
    """The earliest wall-clock time of the meal, if every step still to come starts at once."""
    free = (evolve(step, moved_by_hand=False) for step in batch.plan)
    plan = work_forward(free, now, zone, tight_stages(batch.mix.method))
    meal = last_before_meal(plan)
    step = next((step for step in plan if step.id == meal), None)
    return now if step is None else wall_at(ends_s(step, zone), zone)
