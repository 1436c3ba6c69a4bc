"""Plans worked forward from a start, back from a meal, and settled after a change.

All reckoning is done in instants; wall-clock text is written only at the end, so that lengths
stay real hours on the nights the clock changes.
"""

from collections.abc import Iterable

from attrs import evolve

from app.journal.chain import (
    ALWAYS_TIGHT,
    active,
    begins_s,
    earliest_s,
    in_order,
    kept,
    last_before_meal,
    latest_s,
    waits_for,
)
from app.journal.nights import by_day, by_evening, waking
from app.journal.records import Stage, Step
from app.journal.wall import days_later, instant_s, minutes_between, plus, wall_at


def work_forward(
    steps: Iterable[Step],
    start: str,
    zone: str = "",
    tight: frozenset[Stage] = ALWAYS_TIGHT,
    *,
    nights: bool = False,
) -> tuple[Step, ...]:
    """A plan in which everything comes as soon as it can from `start` on.

    Two things wait: the brine is mixed and chilled just in time for the meat, and handling
    that would fall in the night is left for the morning, unless `nights` are worked through.
    Steps done, skipped or moved by hand stay where they are.
    """
    before = tuple(steps)
    plan = {step.id: step for step in in_order(before)}
    for step in tuple(plan.values()):
        if not kept(step) and step.stage != "turn":
            earliest = earliest_s(step, plan.values(), zone)
            if earliest is not None and step.stage not in tight and not nights:
                earliest = by_day(step.stage, earliest, zone)
            due = start if earliest is None else wall_at(earliest, zone)
            plan[step.id] = evolve(step, due=max(start, due))
    return turns_with_cure(before, just_in_time(plan.values(), zone, nights=nights), zone)


def work_back(
    steps: Iterable[Step], serve: str, zone: str = "", *, nights: bool = False
) -> tuple[Step, ...]:
    """A plan in which everything comes as late as it can for the meal at `serve`.

    Handling that would fall in the night is done the evening before, unless `nights` are worked.
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
            begin = begin if nights else by_evening(step.stage, begin, zone)
            plan[step.id] = evolve(step, due=wall_at(begin, zone))
    for step in tuple(plan.values()):
        if step.stage == "store" and not kept(step):
            earliest = earliest_s(step, plan.values(), zone)
            plan[step.id] = evolve(step, due=serve if earliest is None else wall_at(earliest, zone))
    return turns_with_cure(before, plan.values(), zone)


def just_in_time(
    steps: Iterable[Step], zone: str = "", *, nights: bool = False
) -> tuple[Step, ...]:
    """The same plan with the brine made as late as the meat and the night allow."""
    plan = {step.id: step for step in in_order(steps)}
    for stage in ("chill", "mix"):
        for step in tuple(plan.values()):
            latest = latest_s(step, plan.values(), zone)
            if step.stage != stage or kept(step) or latest is None:
                continue
            evening = latest if nights else by_evening(step.stage, latest, zone)
            earliest = earliest_s(step, plan.values(), zone)
            due = latest if earliest is not None and evening < earliest else evening
            plan[step.id] = evolve(step, due=wall_at(due, zone))
    return in_order(plan.values())


def turns_with_cure(
    before: Iterable[Step], after: Iterable[Step], zone: str = ""
) -> tuple[Step, ...]:
    """The turnings carried along by as much as the cure's beginning moved, in waking hours."""
    old = next((step for step in before if step.stage == "cure"), None)
    steps = tuple(after)
    new = next((step for step in steps if step.stage == "cure"), None)
    if old is None or new is None:
        return in_order(steps)
    was, now = (wall_at(begins_s(step, zone), zone) for step in (old, new))
    # By the clock, not by real hours: a turn planned for the evening stays in the evening.
    shift = minutes_between(was, now)
    if not shift:
        return in_order(steps)
    return in_order(
        evolve(step, due=_turn_moved(step.due, was, now))
        if step.stage == "turn" and not kept(step)
        else step
        for step in steps
    )


def _turn_moved(due: str, was: str, now: str) -> str:
    """A turning's time after the cure's beginning moved from `was` to `now`."""
    days = round(minutes_between(was, due) / 1440.0)
    # One that stood at the cure's hour, or was drawn out of the night, finds its hour again.
    if due == waking(days_later(was, days)):
        return waking(days_later(now, days))
    return waking(plus(due, minutes_between(was, now)))


def turn_times(cure_due: str, cure_minutes: float, every_days: int, zone: str = "") -> list[str]:
    """When to turn the meat: every so many days until it comes out, at the hour it went in.

    Where that hour is in the night, at the nearest waking one.
    """
    over = plus(cure_due, cure_minutes, zone)
    times, day = [], every_days
    while minutes_between(days_later(cure_due, day), over, zone) >= 720.0:
        times.append(waking(days_later(cure_due, day)))
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
