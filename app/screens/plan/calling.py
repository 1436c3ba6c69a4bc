"""Notices of the device: one for each step that became due, gone again when it was seen to."""

from collections.abc import Sequence

from app.device.device import Device
from app.journal.becoming_due import became_due
from app.journal.due import waiting
from app.journal.records import Batch
from app.screens.plan.step_place import place_of


def call(
    device: Device, batches: Sequence[Batch], since: str, wall: str, zone: str
) -> frozenset[str]:
    """Give notice of what became due between two looks at the clock; the ids of its steps."""
    due = became_due(batches, since, wall, zone)
    for one in due:
        device.notify(
            one.step.title,
            one.batch_name,
            tag=one.step.id,
            route=place_of(one.batch_id, one.step.stage),
        )
    return frozenset(one.step.id for one in due)


def withdraw(device: Device, called: frozenset[str], batches: Sequence[Batch]) -> frozenset[str]:
    """Take away the notices of steps that wait no more; the ids of those that still do."""
    still = frozenset(step.id for batch in batches for step in waiting(batch))
    for step_id in called - still:
        device.unnotify(step_id)
    return called & still
