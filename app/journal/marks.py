"""What becomes of a step: done, left out, taken back, its reminder on or off.

Each act returns a new batch; the old one is untouched and serves as the way back. The caller
stamps `changed` when it saves.
"""

from attrs import evolve

from app.journal.plan import replan, resettle, step_of, with_step
from app.journal.records import Batch, Moment


def mark_done(batch: Batch, step_id: str, at: Moment, zone: str = "") -> Batch:
    """Mark a step done at a moment, or begun if it is one that runs by itself.

    What hangs on it follows what truly happened. With the last step the batch is finished;
    turnings that were missed do not hold it open. One called finished earlier stays so.
    """
    step = step_of(batch, step_id)
    done = with_step(batch, evolve(step, done=at, skipped=False))
    done = resettle(done, step_id, zone, before=batch)
    return evolve(done, finished=batch.finished or _all_over(done))


def _all_over(batch: Batch) -> bool:
    return all(s.done or s.skipped or s.stage == "turn" for s in batch.plan)


def undo_done(batch: Batch, step_id: str, zone: str = "") -> Batch:
    """Take back that a step was done; what hangs on it goes by the plan again."""
    step = step_of(batch, step_id)
    if step.done is None:
        return batch
    undone = evolve(with_step(batch, evolve(step, done=None)), finished=False)
    undone = resettle(undone, step_id, zone, before=batch)
    return replan(undone, zone) if batch.serve else undone


def skip(batch: Batch, step_id: str, zone: str = "") -> Batch:
    """Leave a step out; what waited for it closes up."""
    step = step_of(batch, step_id)
    if step.skipped:
        return batch
    if step.done is not None:
        raise ValueError(f"“{step.title}” is done already; take that back before leaving it out.")
    return _left_out(batch, step_id, True, zone)


def unskip(batch: Batch, step_id: str, zone: str = "") -> Batch:
    """Bring back a step that was left out."""
    return _left_out(batch, step_id, False, zone) if step_of(batch, step_id).skipped else batch


def _left_out(batch: Batch, step_id: str, skipped: bool, zone: str) -> Batch:
    changed = with_step(batch, evolve(step_of(batch, step_id), skipped=skipped))
    if batch.serve is not None:
        changed = replan(changed, zone)
    else:
        changed = resettle(changed, step_id, zone, before=batch)
    return evolve(changed, finished=(batch.finished and skipped) or _all_over(changed))


def release(batch: Batch, step_id: str, zone: str = "") -> Batch:
    """Let a step moved by hand go back to where the plan would have it."""
    freed = with_step(batch, evolve(step_of(batch, step_id), moved_by_hand=False))
    return replan(freed, zone)


def with_reminder(batch: Batch, step_id: str, on: bool) -> Batch:
    """Turn the reminder of one step on or off."""
    return with_step(batch, evolve(step_of(batch, step_id), reminder=on))
