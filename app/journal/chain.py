"""What hangs on what: the order of the stages, and plans worked forward or back along it.

All reckoning is done in instants; wall-clock text is written only at the end, so that lengths
stay real hours on the nights the clock changes.
"""

from collections.abc import Iterable, Mapping
from datetime import timedelta
from typing import get_args

from attrs import evolve

from app.cure.request import Method
from app.journal.records import Moment, Stage, Step
from app.journal.wall import (
    days_later,
    instant_s,
    minutes_between,
    plus,
    read_wall,
    wall_at,
    wall_of,
    write_wall,
)

STAGES: tuple[Stage, ...] = get_args(Stage)

AFTER: Mapping[Stage, tuple[Stage, ...]] = {
    "buy": (),
    "thaw": ("buy",),
    "trim": ("thaw",),
    "mix": ("buy",),
    "chill": ("mix",),
    "cure": ("trim", "chill"),
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
"""The stages each one waits for. The brine is made beside the meat's own thaw and trim."""

RUNNING: frozenset[Stage] = frozenset(
    {"thaw", "chill", "cure", "soak", "dry", "smoke", "finish", "rest"}
)
"""Stages that run by themselves: marked when begun, over when their length has passed.
The others are handling: marked when they are done."""

LAG_MIN: Mapping[Stage, float] = {"store": 90.0}
"""Wait before a stage [min]. Leftovers go away inside the two hours of FSIS, after the meal."""

ALWAYS_TIGHT: frozenset[Stage] = frozenset({"turn", "dry", "wrap", "finish", "tender", "rest"})
"""Stages that come when the one before is over, not later: what they end does not wait."""

BY_DAY: Mapping[Stage, tuple[int, int]] = {"trim": (7, 21), "end": (7, 21), "rub": (6, 10)}
"""Handling that can wait for the morning, and the hours of the clock it is planned to begin in.

What is before it loses nothing by waiting; the rub begins the smoker's long day. Our own choice.
"""


def by_day(stage: Stage, earliest_s: float, zone: str = "") -> float:
    """The instant itself, or the next morning when this handling would fall in the night."""
    when = read_wall(wall_at(earliest_s, zone))
    from_h, to_h = BY_DAY.get(stage, (0, 24))
    if from_h <= when.hour < to_h:
        return earliest_s
    morning = when.replace(hour=from_h, minute=0)
    morning += timedelta(days=1 if when.hour >= to_h else 0)
    return instant_s(write_wall(morning), zone)


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


def work_forward(
    steps: Iterable[Step], start: str, zone: str = "", tight: frozenset[Stage] = ALWAYS_TIGHT
) -> tuple[Step, ...]:
    """A plan in which everything comes as soon as it can from `start` on.

    Two things wait: the brine is mixed and chilled just in time for the meat, and handling
    that would fall in the night is left for the morning.
    Steps done, skipped or moved by hand stay where they are.
    """
    before = tuple(steps)
    plan = {step.id: step for step in in_order(before)}
    for step in tuple(plan.values()):
        if not kept(step) and step.stage != "turn":
            earliest = earliest_s(step, plan.values(), zone)
            if earliest is not None and step.stage not in tight:
                earliest = by_day(step.stage, earliest, zone)
            due = start if earliest is None else wall_at(earliest, zone)
            plan[step.id] = evolve(step, due=max(start, due))
    return turns_with_cure(before, just_in_time(plan.values(), zone), zone)


def work_back(steps: Iterable[Step], serve: str, zone: str = "") -> tuple[Step, ...]:
    """A plan in which everything comes as late as it can for the meal at `serve`.

    Steps done, skipped or moved by hand stay where they are.
    """
    before = tuple(steps)
    plan = {step.id: step for step in in_order(before)}
    last = last_before_meal(plan.values())
    for step in reversed(tuple(plan.values())):
        if kept(step) or step.stage in ("turn", "store"):
            continue
        if step.id == last:
            begin: float | None = instant_s(serve, zone) - 60.0 * step.minutes
        else:
            begin = latest_s(step, plan.values(), zone)
        if begin is not None:
            plan[step.id] = evolve(step, due=wall_at(begin, zone))
    for step in tuple(plan.values()):
        if step.stage == "store" and not kept(step):
            earliest = earliest_s(step, plan.values(), zone)
            plan[step.id] = evolve(step, due=serve if earliest is None else wall_at(earliest, zone))
    return turns_with_cure(before, plan.values(), zone)


def last_before_meal(steps: Iterable[Step]) -> str | None:
    """The id of the step that ends when the meal begins."""
    before = [step.id for step in active(steps) if step.stage not in ("store", "turn")]
    return before[-1] if before else None


def just_in_time(steps: Iterable[Step], zone: str = "") -> tuple[Step, ...]:
    """The same plan with the brine made as late as the meat allows."""
    plan = {step.id: step for step in in_order(steps)}
    for stage in ("chill", "mix"):
        for step in tuple(plan.values()):
            if step.stage == stage and not kept(step):
                latest = latest_s(step, plan.values(), zone)
                if latest is not None:
                    plan[step.id] = evolve(step, due=wall_at(latest, zone))
    return in_order(plan.values())


def turns_with_cure(
    before: Iterable[Step], after: Iterable[Step], zone: str = ""
) -> tuple[Step, ...]:
    """The turnings carried along by as much as the cure's beginning moved."""
    old = next((step for step in before if step.stage == "cure"), None)
    steps = tuple(after)
    new = next((step for step in steps if step.stage == "cure"), None)
    if old is None or new is None:
        return in_order(steps)
    was, now = (wall_at(begins_s(step, zone), zone) for step in (old, new))
    # By the clock, not by real hours: a turn planned for the evening stays in the evening.
    shift = minutes_between(was, now)
    return in_order(
        evolve(step, due=plus(step.due, shift)) if step.stage == "turn" and not kept(step) else step
        for step in steps
    )


def turn_times(cure_due: str, cure_minutes: float, every_days: int, zone: str = "") -> list[str]:
    """When to turn the meat: at the hour it went in, every so many days, until it comes out."""
    over = plus(cure_due, cure_minutes, zone)
    times, day = [], every_days
    while minutes_between(days_later(cure_due, day), over, zone) >= 720.0:
        times.append(days_later(cure_due, day))
        day += every_days
    return times


def settle(
    steps: Iterable[Step],
    moved_id: str,
    tight: frozenset[Stage],
    held: bool,
    zone: str = "",
    was: Iterable[Step] = (),
) -> tuple[Step, ...]:
    """Let everything that hangs on a changed step follow it.

    Steps done, skipped or moved by hand stay. When the meal is fixed (`held`), a step that
    may wait is only pushed later, never pulled earlier; a step in `tight` always comes when
    the one before it is over. `was` is the plan before the change, for the turnings to follow.
    """
    plan = {step.id: step for step in in_order(steps)}
    moved = plan[moved_id].stage
    shifted = {moved_id}
    meal = last_before_meal(plan.values()) if held else None
    for step in tuple(plan.values()):
        if step.id in shifted or kept(step) or step.stage == "turn" or step.id == meal:
            continue
        present = frozenset(other.stage for other in active(plan.values()))
        # A step just left out no longer holds back what waited for it.
        before = waits_for(step.stage, present) | waits_for(step.stage, present | {moved})
        if not any(plan[one].stage in before for one in shifted):
            continue
        earliest = earliest_s(step, plan.values(), zone)
        if earliest is None:
            continue
        now = instant_s(step.due, zone)
        if step.stage in tight:
            due = earliest
        else:
            due = max(now, earliest) if held else by_day(step.stage, earliest, zone)
        if due != now:
            plan[step.id] = evolve(step, due=wall_at(due, zone))
            shifted.add(step.id)
    settled: Iterable[Step] = plan.values()
    if any(plan[one].stage in ("mix", "chill", "cure") for one in shifted):
        settled = turns_with_cure(was, just_in_time(settled, zone), zone)
    return in_order(settled)
