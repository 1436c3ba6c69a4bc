"""The plan of a batch: every step with its time, moved by hand, the rest following."""

import flet as ft

from app import quantities
from app.journal.due import waiting
from app.journal.fits import misfits
from app.journal.lengths import TITLES
from app.journal.marks import release, with_reminder
from app.journal.plan import add_stage, move, replan, set_minutes
from app.journal.records import Batch, Step
from app.journal.wall import next_quarter, say_minutes, say_wall
from app.screens.bench import Bench, new_id, use_batch, use_bench
from app.screens.journal.missing import no_batch
from app.screens.plan.calendar_file import hand_out_calendar
from app.screens.plan.misfit_notes import misfit_notes
from app.screens.plan.plan_preview import length_told
from app.screens.plan.short_cure_notes import short_cure_notes, short_days_told, too_short
from app.screens.plan.when import when_field
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen, side_button


@ft.component
def PlanScreen() -> ft.View:
    """All steps; a press on one opens it for moving."""
    bench = use_bench()
    batch = use_batch()
    opened, set_opened = ft.use_state("")
    if batch is None:
        return no_batch()
    unfit = {
        step_id
        for one in misfits(batch, bench.wall(), bench.zone)
        for step_id in (one.step_id, one.later_id)
    }
    short = too_short(bench, batch)
    return screen(
        "Plan",
        [
            words.small(batch.name),
            panels.stack(
                [
                    *short_cure_notes(bench, batch, plan=False),
                    *misfit_notes(bench, batch, plan=False),
                ]
            ),
            Meal(),
            *(
                StepCard(
                    step,
                    opened == step.id,
                    step.id in unfit,
                    short is not None and step.id == short.step_id,
                    lambda step=step: set_opened("" if opened == step.id else step.id),
                    key=step.id,  # type: ignore[call-arg]
                )
                for step in batch.plan
            ),
            _adding(bench, batch),
            words.small(
                "No web app can wake a phone that has closed it. The calendar file puts every "
                "step into the phone's own calendar, with alarms."
            ),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act(
            "Calendar file",
            lambda: hand_out_calendar(bench, [batch], f"{batch.name}.ics"),
            icon=ft.Icons.EVENT_AVAILABLE,
        ),
    )


@ft.component
def Meal() -> ft.Control:
    """When it is to be eaten: set, moved, or let go; the plan is worked anew."""
    bench = use_bench()
    batch = use_batch()
    if batch is None:
        return ft.Container()

    def set_meal(to: str) -> None:
        if to:
            bench.save_batch(replan(batch, bench.zone, serve=to), "Worked back from the meal.")
        else:
            start = min((step.due for step in batch.plan), default=bench.wall())
            bench.save_batch(replan(batch, bench.zone, start=start), "Worked forward.")

    def from_now() -> None:
        start = next_quarter(bench.wall())
        bench.save_batch(replan(batch, bench.zone, start=start), "Worked forward from now.")

    meal = when_field(
        bench,
        "To be eaten",
        batch.serve or "",
        set_meal,
        empty="No time set; choose one to work back from it",
    )
    waits = [step.due for step in waiting(batch)]
    if batch.serve or not waits or min(waits) >= bench.wall():
        return meal
    return panels.stack([meal, side_button(Act("What is left, from now", from_now))])


def _adding(bench: Bench, batch: Batch) -> ft.Control:
    """Stages the plan does not have yet, each a press away."""
    there = {step.stage for step in batch.plan}
    missing = [stage for stage in TITLES if stage not in there or stage == "turn"]
    return panels.panel(
        [
            panels.row_of(
                [
                    side_button(
                        Act(
                            TITLES[stage],
                            lambda stage=stage: bench.save_batch(  # type: ignore[misc]
                                add_stage(batch, stage, new_id, bench.zone), "Added."
                            ),
                            icon=ft.Icons.ADD,
                        )
                    )
                    for stage in missing
                ]
            )
        ],
        title="Add a step",
    )


def _state(step: Step) -> str:
    if step.done is not None:
        return "done"
    if step.skipped:
        return "left out"
    return "moved by hand" if step.moved_by_hand else ""


@ft.component
def StepCard(step: Step, is_open: bool, unfit: bool, short: bool, on_toggle: object) -> ft.Control:
    """One step, folded or open for moving.

    unfit : it no longer fits with another; short : it is the cure, and its days are too few
    """
    bench = use_bench()
    batch = use_batch()
    text, set_text = ft.use_state("")
    error, set_error = ft.use_state("")
    if batch is None:
        return ft.Container()
    summary = [say_wall(step.due, bench.wall())]
    if step.minutes:
        summary.append(say_minutes(step.minutes))
    if _state(step):
        summary.append(_state(step))
    if unfit:
        summary.append("does not fit")
    if short:
        summary.append("too few days")

    def typed(now: str) -> None:
        set_text(now)
        set_error("")

    def lengthen() -> None:
        try:
            minutes = quantities.parse(text, "duration", _length_unit(step)) / 60.0
            after = set_minutes(batch, step.id, minutes, bench.zone)
            bench.save_batch(after, f"Plan changed.{_now_short(bench, batch, after)}")
        except ValueError as wrong:
            set_error(str(wrong))
            return
        set_text("")
        set_error("")

    return panels.fold(
        step.title,
        " · ".join(summary),
        _inside(bench, batch, step, text, typed, error, lengthen) if is_open else [],
        is_open=is_open,
        on_toggle=on_toggle,  # type: ignore[arg-type]
    )


def _length_unit(step: Step) -> str:
    """What a bare number in a step's length means: what its own length is told in."""
    return "days" if step.minutes >= 2 * 1440.0 else "h"


def moved_told(bench: Bench, before: Batch, after: Batch, step: Step) -> str:
    """What a move did: what followed it, and whether something no longer fits."""
    was = {one.id: one.due for one in before.plan}
    count = sum(was.get(one.id) != one.due for one in after.plan if one.id != step.id)
    said = f"Moved: {step.title}."
    if count:
        said += f" {count} {'step' if count == 1 else 'steps'} followed."
    told = {one.sentence for one in misfits(before, bench.wall(), bench.zone)}
    new = any(m.sentence not in told for m in misfits(after, bench.wall(), bench.zone))
    said += _now_short(bench, before, after)
    return f"{said} Something no longer fits: see the top of the plan." if new else said


def _now_short(bench: Bench, before: Batch, after: Batch) -> str:
    """That a change left too few days in the cure; empty when it did not."""
    was, now = too_short(bench, before), too_short(bench, after)
    if now is None or (was is not None and was.short_days >= now.short_days - 0.01):
        return ""
    return " Too few days in the cure: see the top of the plan."


def _inside(
    bench: Bench,
    batch: Batch,
    step: Step,
    text: str,
    set_text: object,
    error: str,
    lengthen: object,
) -> list[ft.Control]:
    def moved(to: str) -> None:
        if to:
            after = move(batch, step.id, to, bench.zone)
            bench.save_batch(after, moved_told(bench, batch, after, step))

    other = "36 h" if _length_unit(step) == "days" else "6 days"
    # Said once more where it is decided: by the cure's length, or by when the meat comes out.
    warned = short_days_told(bench, batch) if step.stage in ("cure", "end") else []
    return [
        *warned,
        when_field(bench, "Begins", step.due, moved, empty="Choose", clearable=False),
        fields.quantity_field(
            "Takes",
            text,
            set_text,  # type: ignore[arg-type]
            unit=_length_unit(step),
            error=error or None,
            helper=f"Now {length_told(step, habit='a habit of the trade')}. “{other}” is read too.",
            words_allowed=True,
        ),
        panels.row_of(
            [
                side_button(Act("Set length", lengthen, enabled=bool(text))),  # type: ignore[arg-type]
                side_button(
                    Act("Bring back", lambda: bench.unskip(batch.id, step.id))
                    if step.skipped
                    else Act("Leave out", lambda: bench.skip(batch.id, step.id))
                ),
                *(
                    [
                        side_button(
                            Act(
                                "Back to the plan's time",
                                lambda: bench.save_batch(
                                    release(batch, step.id, bench.zone), "Back in the plan."
                                ),
                            )
                        )
                    ]
                    if step.moved_by_hand and step.done is None
                    else []
                ),
                quiet_button(
                    Act(
                        "Reminder off" if step.reminder else "Reminder on",
                        lambda: bench.save_batch(
                            with_reminder(batch, step.id, not step.reminder), "Saved."
                        ),
                        icon=ft.Icons.NOTIFICATIONS_OFF
                        if step.reminder
                        else ft.Icons.NOTIFICATIONS,
                    )
                ),
            ]
        ),
    ]
