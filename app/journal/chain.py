"""What hangs on what: the order of the stages, and when each may begin.

All reckoning is done in instants; wall-clock text is written only at the end, so that lengths
stay real hours on the nights the clock changes.
"""

from collections.abc import Iterable, Mapping
from typing import get_args

from app.cure.request import Method
from app.journal.records import Moment, Stage, Step
from app.journal.wall import (
    instant_s,
    wall_of,
)

STAGES: tuple[Stage, ...] = get_args(Stage)

AFTER: Mapping[Stage, tuple[Stage, ...]] = {
    "buy": (),
    "thaw": ("buy",),
    "trim": ("thaw",),
    "mix": ("trim",),
    "chill": ("mix",),
    "cure": ("chill",),
    "turn": ("cure",),
    "end": ("cure",),
    "soak": ("end",),
    "dry": ("soak",),
    "rub": ("dry",),
    "smoke": ("rub",),
    "wrap": ("smoke",),
    "finish": ("wrap",),
    "tender": ("finish",),
    "rest": ("tender",),
    "slice": ("rest",),
    "store": ("slice",),
}
"""The stages each one waits for. The brine is mixed for what the meat weighs once it is trimmed."""

RUNNING: frozenset[Stage] = frozenset(
    {"thaw", "chill", "cure", "soak", "dry", "smoke", "finish", "rest"}
)
"""Stages that run by themselves: marked when begun, over when their length has passed.
The others are handling: marked when they are done."""

LAG_MIN: Mapping[Stage, float] = {"store": 90.0}
"""Wait before a stage [min]. Leftovers go away inside the two hours of FSIS, after the meal."""

ALWAYS_TIGHT: frozenset[Stage] = frozenset(
    {"turn", "dry", "wrap", "finish", "tender", "rest", "store"}
)
"""Stages that come when the one before is over, not later: what they end does not wait.
Leftovers of a slice cut early are put away that much earlier."""


def in_order(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Steps in the order of the stages; turns among themselves by their time."""
    return tuple(sorted(steps, key=lambda step: (STAGES.index(step.stage), step.due)))


def active(steps: Iterable[Step]) -> tuple[Step, ...]:
    """The steps that are to be carried out, or have been."""
    return tuple(step for step in in_order(steps) if not step.skipped)


def kept(step: Step) -> bool:
    """Whether a step stays where it is, whatever happens around it."""
    return step.moved_by_hand or step.skipped or step.done is not None


def waits_for(stage: Stage, present: frozenset[Stage]) -> frozenset[Stage]:
    """The stages of a plan that a stage waits for, looking through those left out."""
    found: set[Stage] = set()
    for before in AFTER[stage]:
        found |= {before} if before in present else waits_for(before, present)
    return frozenset(found)


def begins_s(step: Step, zone: str = "") -> float:
    """When a step begins, or truly began, as an instant [s]."""
    if step.done is None or step.stage not in RUNNING:
        return instant_s(step.due, zone)
    return _done_s(step.done, zone)


def ends_s(step: Step, zone: str = "") -> float:
    """When what follows a step may begin, as an instant [s]."""
    if step.done is None:
        return instant_s(step.due, zone) + 60.0 * step.minutes
    return _done_s(step.done, zone) + (60.0 * step.minutes if step.stage in RUNNING else 0.0)


def _done_s(done: Moment, zone: str) -> float:
    # Without a zone all instants are clock readings, so the recorded one must be one too.
    return done.utc_s if zone else instant_s(wall_of(done))


def earliest_s(step: Step, steps: Iterable[Step], zone: str = "") -> float | None:
    """The earliest instant a step can begin after all it waits for; None if for nothing."""
    others = active(steps)
    before = waits_for(step.stage, frozenset(other.stage for other in others))
    ends = [ends_s(other, zone) for other in others if other.stage in before]
    return max(ends) + 60.0 * LAG_MIN.get(step.stage, 0.0) if ends else None


def latest_s(step: Step, steps: Iterable[Step], zone: str = "") -> float | None:
    """The latest instant a step may begin for all that waits for it; None if nothing does."""
    others = active(steps)
    present = frozenset(other.stage for other in others)
    starts = [
        instant_s(other.due, zone) - 60.0 * LAG_MIN.get(other.stage, 0.0)
        for other in others
        if other.stage != "turn" and step.stage in waits_for(other.stage, present)
    ]
    return min(starts) - 60.0 * step.minutes if starts else None


def tight_stages(method: Method) -> frozenset[Stage]:
    """Stages that come when the one before is over, not later.

    Meat in a strong brine goes on taking up salt, so its days end when they end; in an
    equilibrium cure it may stay.
    """
    return ALWAYS_TIGHT | ({"end"} if method in ("cover", "injection") else set())


def last_before_meal(steps: Iterable[Step]) -> str | None:
    """The id of the step that ends when the meal begins."""
    before = [step.id for step in active(steps) if step.stage not in ("store", "turn")]
    return before[-1] if before else None
