"""What no longer fits in a plan, said where it is seen, with what would make it fit."""

import flet as ft

from app.journal.fits import Misfit, misfits
from app.journal.needle import by_needle
from app.journal.plan import move, replan, step_of
from app.journal.records import Batch
from app.journal.wall import say_wall
from app.screens.bench import Bench, new_id
from app.widgets import panels
from app.widgets.frame import Act, side_button


def misfit_notes(bench: Bench, batch: Batch, *, plan: bool = True) -> list[ft.Control]:
    """One sheet for each place where the plan does not fit; `plan` offers to open it."""
    return [
        panels.stack(
            [
                panels.notice(one.sentence, "attention"),
                panels.row_of([side_button(act) for act in remedies(bench, batch, one, plan)]),
            ]
        )
        for one in misfits(batch, bench.wall(), bench.zone)
    ]


def remedies(bench: Bench, batch: Batch, one: Misfit, plan: bool = True) -> list[Act]:
    """What may be done about it, each a press that can be taken back."""
    zone, now = bench.zone, bench.wall()
    acts: list[Act] = []
    if one.serve_at:
        acts.append(
            Act(
                f"Eat {say_wall(one.serve_at, now)}",
                lambda: bench.save_batch(
                    replan(batch, zone, serve=one.serve_at), "Worked back from the new meal."
                ),
            )
        )
    if one.later_id:
        later = step_of(batch, one.later_id)
        acts.append(
            Act(
                f"{later.title}: {say_wall(one.fits_at, now)}",
                lambda: bench.save_batch(
                    move(batch, later.id, one.fits_at, zone), f"Moved: {later.title}."
                ),
            )
        )
    elif not one.serve_at:
        step = step_of(batch, one.step_id)
        acts.append(Act(f"Leave out: {step.title}", lambda: bench.skip(batch.id, step.id)))
    if one.needle:
        acts.append(Act("Inject", lambda: inject(bench, batch)))
    if plan:
        acts.append(Act("Plan", lambda: bench.go(f"/journal/{batch.id}/plan")))
    return acts


def inject(bench: Bench, batch: Batch) -> None:
    """Take the needle instead of the days, and show what has to be weighed now."""
    try:
        injected = by_needle(batch, new_id, bench.zone)
    except ValueError as wrong:
        bench.show(said=str(wrong))
        return
    bench.save_batch(injected, "By the needle now: weigh it anew, as it stands here.")
    bench.go(f"/journal/{batch.id}/mix")
