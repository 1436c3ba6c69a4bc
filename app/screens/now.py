"""Now: what is due, what is running, and a photo or a probe check two taps away."""

import flet as ft

from app.journal.due import Due, due_list, under_way
from app.journal.fits import misfits
from app.journal.records import Batch
from app.screens.bench import Bench, use_bench
from app.screens.photo_intake import photo_act
from app.widgets import panels, words
from app.widgets.frame import Act, main_button, quiet_button, screen, side_button

_WHEN = {"overdue": "Overdue", "due": "Due", "next": "Next"}


@ft.component
def NowScreen() -> ft.View:
    """The first screen."""
    bench = use_bench()
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
            side=Act("See an example", bench.load_demonstration)
            if not bench.shown.batches
            else None,
        )
    wall, zone = bench.wall(), bench.zone
    waits = due_list(running, wall, zone)
    pressing = [one for one in waits if one.when in ("overdue", "due")]
    soon = [one for one in waits if one.when == "next"]
    body: list[ft.Control] = [*bench_notices(bench)]
    if pressing:
        body += [_due_card(bench, one) for one in pressing]
    else:
        body.append(panels.notice("Nothing is due now.", "done"))
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
    stages = {one.batch_id: one for one in under_way(running, wall, zone)}
    for batch in running:
        at_work = stages.get(batch.id)
        body.append(
            _batch_card(bench, batch, f"{at_work.step.title}: {at_work.words}" if at_work else "")
        )
    return screen("Now", body, place="/")


def bench_notices(bench: Bench) -> list[ft.Control]:
    """What the store and the device want said, where it is seen first."""
    return [panels.notice(text, "attention") for text in bench.warnings()]


def _due_card(bench: Bench, due: Due) -> ft.Control:
    late = due.when == "overdue"
    ink = ft.Colors.ON_ERROR_CONTAINER if late else ft.Colors.ON_SECONDARY_CONTAINER
    return ft.Container(
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
                ft.Row(
                    [
                        side_button(
                            Act("Open", lambda: bench.go(f"/journal/{due.batch_id}")), expand=True
                        ),
                        main_button(
                            Act(
                                "Done",
                                lambda: bench.mark_done(due.batch_id, due.step.id),
                                icon=ft.Icons.CHECK,
                            )
                        ),
                    ],
                    spacing=10,
                ),
            ],
            spacing=6,
        ),
        bgcolor=ft.Colors.ERROR_CONTAINER if late else ft.Colors.SECONDARY_CONTAINER,
        border_radius=12,
        padding=14,
    )


def _batch_card(bench: Bench, batch: Batch, at_work: str) -> ft.Control:
    trouble = misfits(batch, bench.wall(), bench.zone)
    return panels.panel(
        [
            ft.Row(
                [
                    ft.Container(words.heading(batch.name), expand=True),
                    quiet_button(Act("Open", lambda: bench.go(f"/journal/{batch.id}"))),
                ]
            ),
            *([words.body("Example, not your own", quiet=True)] if batch.demonstration else []),
            *([words.body(at_work, quiet=True)] if at_work else []),
            *(panels.notice(one.sentence, "attention") for one in trouble),
            ft.Row(
                [
                    side_button(photo_act(bench, batch), expand=True),
                    side_button(
                        Act(
                            "Probe",
                            lambda: bench.go(f"/journal/{batch.id}/probe"),
                            icon=ft.Icons.THERMOSTAT,
                        ),
                        expand=True,
                    ),
                ],
                spacing=10,
            ),
        ]
    )
