"""Reminders: which are on, and what this phone can and cannot do."""

import flet as ft

from app.journal.due import due_list
from app.journal.marks import with_reminder
from app.journal.reminders import LEAD_MIN, calendar_text
from app.screens.attention import ask_for_notices, keep_awake, stop_notices
from app.screens.bench import Bench, use_bench
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen, side_button

LEADS = ((0, "At the time"), (15, "15 min before"), (60, "1 h before"), (720, "12 h before"))

CANNOT = (
    "No web page can wake a phone that has closed it. So notices come only while the program is "
    "open, in front or behind; an iPhone shows them only when the program was added to the home "
    "screen."
)


@ft.component
def RemindersScreen() -> ft.View:
    """Three ways to be reminded, each with its state, and the steps that ring."""
    bench = use_bench()
    lead, set_lead = ft.use_state(str(LEAD_MIN))
    running = [b for b in bench.shown.batches if not b.finished]
    own = [batch for batch in running if not batch.demonstration]
    waits = due_list(running, bench.wall(), bench.zone)
    return screen(
        "Reminders",
        [
            panels.panel(
                [
                    words.body(
                        "One file with the plans of all running batches, for the calendar of the "
                        "phone. It rings whether this program is open or not, and a later file "
                        "puts the same steps right instead of doubling them."
                    ),
                    fields.choice(
                        "Rings",
                        [(str(minutes), said) for minutes, said in LEADS],
                        lead,
                        set_lead,
                    ),
                    words.small(
                        "After a step was moved, save the file again and open it: the calendar "
                        "does not know of the change before."
                    ),
                ],
                title="Calendar: sure",
            ),
            panels.panel(_notices(bench), title="Notices: while it is open"),
            panels.panel(
                [
                    words.body(
                        "Installed on the home screen, the icon shows how many steps are due, "
                        "where the phone can do that. It is counted while the program is open."
                    ),
                    panels.figure("Due now", str(bench.counted)),
                ],
                title="Number on the icon",
            ),
            panels.panel(
                [
                    words.body("While meat is in the smoke, the phone need not fall asleep."),
                    side_button(awake_act(bench)),
                ],
                title="Screen",
            ),
            *(
                [
                    panels.panel(
                        [_step(bench, one.batch_id, one.step.id) for one in waits],
                        title="Steps to come",
                    )
                ]
                if waits
                else [words.small("No step is waiting.")]
            ),
        ],
        place="/",
        back="/",
        main=Act(
            "Save the calendar file",
            lambda: bench.hand_out(
                calendar_text(own, bench.now(), lead_min=int(lead)).encode(),
                "brinewright.ics",
                "text/calendar",
            ),
            icon=ft.Icons.EVENT_AVAILABLE,
            enabled=bool(own),
        ),
    )


def awake_act(bench: Bench) -> Act:
    """Keep the screen on, or let it sleep."""
    on = bench.shown.awake

    async def turn() -> None:
        await keep_awake(bench, not on)

    return Act(
        "Let the screen sleep" if on else "Keep the screen on",
        turn,
        icon=ft.Icons.BEDTIME_OUTLINED if on else ft.Icons.LIGHT_MODE_OUTLINED,
    )


def _notices(bench: Bench) -> list[ft.Control]:
    async def ask() -> None:
        await ask_for_notices(bench)

    if bench.shown.kit.notices:
        return [
            panels.notice("On: a notice comes when a step falls due.", "done"),
            words.small(CANNOT),
            side_button(Act("No notices", lambda: stop_notices(bench))),
        ]
    return [
        words.body("Off. The phone is asked for leave only when you press this."),
        words.small(CANNOT),
        side_button(Act("Show notices", ask, icon=ft.Icons.NOTIFICATIONS_OUTLINED)),
    ]


def _step(bench: Bench, batch_id: str, step_id: str) -> ft.Control:
    batch = bench.batch(batch_id)
    step = next((s for s in batch.plan if s.id == step_id), None) if batch else None
    if batch is None or step is None:
        return ft.Container()
    turn = "off" if step.reminder else "on"
    return ft.Row(
        [
            ft.Column(
                [
                    words.body(step.title),
                    words.small(f"{batch.name} · {'rings' if step.reminder else 'silent'}"),
                ],
                spacing=0,
                expand=True,
            ),
            quiet_button(
                Act(
                    f"Turn {turn}",
                    lambda: bench.save_batch(
                        with_reminder(batch, step_id, not step.reminder), "Saved."
                    ),
                )
            ),
        ]
    )
