"""A plan before it is begun: what comes when, how long it takes, and where that comes from."""

from collections.abc import Callable, Iterable

import flet as ft

from app.journal.fits import misfits
from app.journal.lengths import PRACTICE
from app.journal.records import Batch, Step
from app.journal.wall import say_minutes, say_wall
from app.screens.bench import Bench
from app.screens.plan.short_cure_notes import short_cure_told
from app.widgets import panels, words
from app.widgets.frame import Act, side_button

CHOOSE_MEAL = "Choose when it is to be eaten, or plan forward from a start."


def length_told(step: Step, *, habit: str = "") -> str:
    """ "7 days, worked out by how far nitrite moves"; `habit` is said of one by habit."""
    why = habit if step.why == PRACTICE else step.why
    said = say_minutes(step.minutes)
    return f"{said}, {why}" if why else said


def preview(bench: Bench, fresh: Batch, set_meal: Callable[[str], object]) -> list[ft.Control]:
    """What does not fit, with the meal's time that would; too few days in the cure; the plan."""
    now = bench.wall()
    notes: list[ft.Control] = []
    for one in misfits(fresh, now, bench.zone):
        notes.append(panels.notice(one.sentence, "attention"))
        if one.serve_at:
            notes.append(
                side_button(
                    Act(
                        f"Eat {say_wall(one.serve_at, now)}",
                        lambda at=one.serve_at: set_meal(at),  # type: ignore[misc]
                    )
                )
            )
    return [
        *notes,
        *short_cure_told(bench, fresh),
        panels.panel([*_rows(fresh.plan, now), words.small(HABIT)], title="The plan"),
    ]


HABIT = (
    "Lengths without a reason beside them are habits of the trade. Move any step, and the rest "
    "follows."
)


def _rows(plan: Iterable[Step], now: str) -> list[ft.Control]:
    return [
        panels.figure(step.title, say_wall(step.due, now), note=length_told(step)) for step in plan
    ]
