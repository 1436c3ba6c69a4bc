"""What a decision at the fire does to the plan: a step done, the next begun, or looked at later."""

from attrs import evolve

from app.journal.marks import mark_done
from app.journal.plan import move
from app.journal.records import Batch, Moment, Stage, Step
from app.journal.wall import minutes_between, next_quarter, plus, wall_of

LOOK_AGAIN_MIN = 30.0
"""After "not yet" the bark is looked at again; common practice, no source."""

FOLLOWS: dict[str, tuple[Stage, ...]] = {
    "wrapped": ("wrap", "finish"),
    "pulled": ("tender", "rest"),
}
"""The steps a decision marks: the check is over, and what comes of it has begun."""

_AGAIN: dict[str, Stage] = {"not_yet": "wrap", "keep_going": "tender"}


def after_decision(batch: Batch, choice: str, now: Moment, zone: str = "") -> Batch:
    """The batch as its plan stands once the choice is made; the old one serves as the way back.

    Wrapped and pulled mark their check done and the next stage begun. Not yet and keep going
    move their check half an hour on, unless it lies further ahead already.
    """
    for stage in FOLLOWS.get(choice, ()):
        step = _open(batch, stage)
        if step is not None:
            batch = mark_done(batch, step.id, now, zone)
    if choice in _AGAIN:
        step = _open(batch, _AGAIN[choice])
        later = next_quarter(plus(wall_of(now), LOOK_AGAIN_MIN, zone))
        if step is not None and minutes_between(step.due, later, zone) > 0:
            moved = move(batch, step.id, later, zone)
            batch = evolve(
                moved,
                plan=tuple(
                    evolve(one, moved_by_hand=step.moved_by_hand) if one.id == step.id else one
                    for one in moved.plan
                ),
            )
    return batch


def look_again(batch: Batch, choice: str) -> str:
    """When the plan has the check that was put off, by the wall clock; empty when it has none."""
    step = _open(batch, _AGAIN[choice]) if choice in _AGAIN else None
    return step.due if step is not None else ""


def _open(batch: Batch, stage: Stage) -> Step | None:
    return next(
        (s for s in batch.plan if s.stage == stage and s.done is None and not s.skipped), None
    )
