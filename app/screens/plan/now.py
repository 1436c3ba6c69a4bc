"""Now: what is due, what is running, and a photo or a reading two taps away."""

import flet as ft

from app.journal.due import Due, due_list, under_way
from app.journal.entries import clock_set_back
from app.journal.in_calendar import say_standing
from app.journal.records import Batch
from app.screens.bench import Bench, use_bench
from app.screens.journal.asking import mark_done_asking
from app.screens.journal.mind_this import mind_this
from app.screens.kit.example import load_example
from app.screens.photos.photo_intake import photo_act
from app.screens.plan.calendar_file import calendar_standing
from app.screens.plan.misfit_notes import misfit_notes
from app.screens.plan.reminders import awake_act
from app.screens.plan.short_cure_notes import short_cure_notes
from app.screens.plan.step_place import OPENS, place_of
from app.widgets import panels, words
from app.widgets.frame import Act, main_button, quiet_button, screen, side_button

_WHEN = {"overdue": "Overdue", "due": "Due", "next": "Next"}
SHOWN_DUE = 4


@ft.component
def NowScreen() -> ft.View:
    """The first screen."""
    bench = use_bench()
    every, set_every = ft.use_state(False)
    running = [batch for batch in bench.shown.batches if not batch.finished]
    if not running:
        return screen(
            "Now",
            [
                panels.empty(
                    "Nothing is curing.",
                    "Read the weight off the label and work out the mix: that is the first step.",
                ),
                *bench_notices(bench),
            ],
            place="/",
            main=Act("Mix a cure", lambda: bench.go("/mix"), icon=ft.Icons.SCALE),
            side=Act("See an example", lambda: load_example(bench))
            if not bench.shown.batches
            else None,
        )
    wall, zone = bench.wall(), bench.zone
    waits = due_list(running, wall, zone)
    pressing = [one for one in waits if one.when in ("overdue", "due")]
    soon = [one for one in waits if one.when == "next"]
    body: list[ft.Control] = [*bench_notices(bench), *_clock(bench, running)]
    named = len(running) > 1
    to_mind = [note for batch in running for note in _to_mind(bench, batch, named)]
    if pressing:
        shown = pressing if every else pressing[:SHOWN_DUE]
        # What is due first comes first; then what does not fit, before all that hangs on it.
        first, *others = (_due_card(bench, one) for one in shown)
        body += [first, *to_mind, *others]
        if len(shown) < len(pressing):
            body.append(
                quiet_button(Act(f"All {len(pressing)} that are due", lambda: set_every(True)))
            )
    else:
        body += [panels.notice("Nothing is due now.", "note" if to_mind else "done"), *to_mind]
    if soon:
        body.append(
            panels.panel(
                [
                    panels.figure(
                        one.step.title,
                        one.words,
                        note=one.batch_name,
                        on_open=lambda one=one: bench.go(f"/journal/{one.batch_id}"),  # type: ignore[misc]
                    )
                    for one in soon
                ],
                title="Next",
            )
        )
    at_work = under_way(running, wall, zone)
    for batch in running:
        stages = [f"{one.step.title}: {one.words}" for one in at_work if one.batch_id == batch.id]
        body.append(_batch_card(bench, batch, stages))
    if bench.shown.awake or any(one.step.stage in ("smoke", "finish") for one in at_work):
        body.append(side_button(awake_act(bench)))
    body.append(
        panels.door(
            "Reminders",
            reminders_told(bench),
            lambda: bench.go("/reminders"),
            ft.Icons.NOTIFICATIONS_OUTLINED,
        )
    )
    return screen("Now", body, place="/")


def reminders_told(bench: Bench) -> str:
    """Which reminders are on, in a few words."""
    stands = calendar_standing(bench)
    calendar = "calendar file saved" if bench.kit.calendar else "no calendar file yet"
    if bench.kit.calendar and not stands.right:
        calendar = f"calendar: {say_standing(stands)}"
    return f"{calendar} · notices {'on' if bench.kit.notices else 'off'}"


def bench_notices(bench: Bench) -> list[ft.Control]:
    """What the store and the device want said, where it is seen first."""
    return [panels.notice(text, "attention") for text in bench.warnings()]


def _clock(bench: Bench, running: list[Batch]) -> list[ft.Control]:
    now = bench.now()
    for batch in running:
        said = clock_set_back(bench.entries(batch.id), now)
        if said:
            return [panels.notice(said, "attention")]
    return []


def _to_mind(bench: Bench, batch: Batch, named: bool) -> list[ft.Control]:
    """What does not fit in the plan, and what the record calls for."""
    notes = [
        *short_cure_notes(bench, batch, in_short=True),
        *misfit_notes(bench, batch),
        *mind_this(bench, batch, bench.entries(batch.id)),
    ]
    return [words.small(batch.name), *notes] if notes and named else notes


def _due_card(bench: Bench, due: Due) -> ft.Control:
    late = due.when == "overdue"
    ink = ft.Colors.ON_ERROR_CONTAINER if late else ft.Colors.ON_SECONDARY_CONTAINER
    says, _part = OPENS.get(due.step.stage, ("Open", ""))
    route = place_of(due.batch_id, due.step.stage)
    return ft.Container(
        ft.Column(
            [
                ft.MergeSemantics(
                    ft.Column(
                        [
                            ft.Text(
                                f"{_WHEN[due.when]} · {due.words}",
                                size=15,
                                weight=ft.FontWeight.W_700,
                                color=ink,
                            ),
                            ft.Text(due.step.title, size=22, weight=ft.FontWeight.W_700, color=ink),
                            ft.Text(due.batch_name, size=15, color=ink),
                        ],
                        spacing=4,
                    )
                ),
                ft.Row(
                    [
                        side_button(Act(says, lambda: bench.go(route)), expand=True),
                        main_button(
                            Act(
                                "Done",
                                lambda: mark_done_asking(bench, due.batch_id, due.step),
                                icon=ft.Icons.CHECK,
                            )
                        ),
                    ],
                    spacing=10,
                ),
            ],
            spacing=8,
        ),
        bgcolor=ft.Colors.ERROR_CONTAINER if late else ft.Colors.SECONDARY_CONTAINER,
        border_radius=12,
        padding=14,
    )


def _batch_card(bench: Bench, batch: Batch, at_work: list[str]) -> ft.Control:
    return panels.panel(
        [
            panels.door(
                batch.name,
                " · ".join([*(["example, not your own"] if batch.demonstration else []), *at_work])
                or "under way",
                lambda: bench.go(f"/journal/{batch.id}"),
            ),
            panels.row_of(
                [
                    side_button(photo_act(bench, batch)),
                    side_button(
                        Act(
                            "Temperature",
                            lambda: bench.go(f"/journal/{batch.id}/add/temperature"),
                            icon=ft.Icons.DEVICE_THERMOSTAT,
                        )
                    ),
                    side_button(
                        Act(
                            "Probe",
                            lambda: bench.go(f"/journal/{batch.id}/probe"),
                            icon=ft.Icons.TOUCH_APP,
                        )
                    ),
                ]
            ),
        ]
    )
