"""Reminders: which are on, what this phone can and cannot do, and one of each to try."""

import flet as ft
from attrs import evolve

from app.device.parts import Abilities
from app.journal.due import due_list
from app.journal.in_calendar import Standing, say_standing
from app.journal.marks import with_reminder
from app.journal.records import Batch
from app.screens.bench import Bench, use_bench
from app.screens.plan.attention import (
    ask_for_notices,
    keep_awake,
    stop_notices,
    try_calendar,
    try_notice,
    try_number,
)
from app.screens.plan.calendar_file import calendar_standing, hand_out_all
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen, side_button

LEADS = ((0, "At the time"), (15, "15 min before"), (60, "1 h before"), (720, "12 h before"))

CANNOT = (
    "No web page can wake a phone that has closed it, so a notice comes only while this program "
    "is open, in front or behind."
)


@ft.component
def RemindersScreen() -> ft.View:
    """Three ways to be reminded, each with its state, and the steps that ring."""
    bench = use_bench()
    can, set_can = ft.use_state(Abilities())

    async def look() -> None:
        set_can(await bench.device.abilities())

    # Leave for notices may have been given or taken back since, here or in the settings.
    ft.use_effect(look, [bench.shown.turn, bench.shown.wall])
    running = [b for b in bench.shown.batches if not b.finished]
    own = [batch for batch in running if not batch.demonstration]
    waits = due_list(running, bench.wall(), bench.zone)
    stands = calendar_standing(bench)
    return screen(
        "Reminders",
        [
            panels.panel(_calendar(bench, stands), title="Calendar: sure"),
            panels.panel(_notices(bench, can), title="Notices: while it is open"),
            panels.panel(_number(bench, can), title="Number on the icon"),
            panels.panel(_screen(bench, can), title="Screen"),
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
            lambda: hand_out_all(bench),
            icon=ft.Icons.EVENT_AVAILABLE,
            enabled=bool(own) or not stands.right,
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


def _calendar(bench: Bench, stands: Standing) -> list[ft.Control]:
    kit = bench.kit
    if kit.calendar and stands.right:
        state = panels.notice(
            f"On: the calendar has been given the {stands.there} steps to come.", "done"
        )
    elif kit.calendar:
        state = panels.notice(
            f"Not up to date: {say_standing(stands)}. Save the file again and open it.",
            "attention",
        )
    else:
        state = words.body("Off: no calendar file was saved here yet.", bold=True)
    return [
        state,
        words.body(
            "One file puts the plans of all running batches into the phone's own calendar, with "
            "alarms. They ring whether this program is open or not. A later file moves the same "
            "steps instead of doubling them, and takes out those no longer planned."
        ),
        fields.choice(
            "Rings",
            [(str(minutes), said) for minutes, said in LEADS],
            str(kit.calendar_lead_min),
            lambda key: bench.save_kit(evolve(kit, calendar_lead_min=int(key))),
        ),
        words.small(
            "Whether the calendar took the file in, and rings, this program cannot see. If it "
            "keeps a step that is marked as cancelled, delete that one by hand."
        ),
        side_button(
            Act(
                "Try one: an alarm in 5 minutes",
                lambda: try_calendar(bench),
                icon=ft.Icons.EVENT_OUTLINED,
            )
        ),
    ]


def _notices(bench: Bench, can: Abilities) -> list[ft.Control]:
    async def ask() -> None:
        await ask_for_notices(bench)

    if can.notices == "none":
        return [
            words.body("Off: this browser shows no notices.", bold=True),
            words.small(
                "On an iPhone or iPad they come once the program was added to the home screen. "
                "The calendar works without."
                if can.apple
                else "The calendar works without."
            ),
        ]
    if can.notices == "denied":
        return [
            words.body("Off: notices are blocked for this page.", bold=True),
            words.small(
                "Allow them in the browser's settings for this page, then come back. The program "
                "cannot ask again by itself."
            ),
        ]
    if not bench.kit.notices or can.notices == "ask":
        return [
            words.body("Off. The phone is asked for leave only when you press this.", bold=True),
            words.small(CANNOT),
            side_button(Act("Show notices", ask, icon=ft.Icons.NOTIFICATIONS_OUTLINED)),
        ]
    return [
        panels.notice("On: a notice comes when a step falls due.", "done"),
        words.small(CANNOT),
        words.small(
            "A tap on it opens the step."
            if can.worker
            else "The program is not kept on this phone yet; once it is, a tap opens the step."
        ),
        panels.row_of(
            [
                side_button(Act("Try one now", lambda: try_notice(bench))),
                side_button(Act("No notices", lambda: stop_notices(bench))),
            ]
        ),
    ]


def _number(bench: Bench, can: Abilities) -> list[ft.Control]:
    due = panels.figure("Due now", str(bench.counted))
    if not can.badge:
        return [
            words.body("Off: this browser puts no number on an icon.", bold=True),
            due,
        ]
    if not can.installed:
        return [
            words.body(
                "Not yet: it is shown on the icon once the program stands on the home screen.",
                bold=True,
            ),
            due,
        ]

    return [
        panels.notice("On: the icon shows how many steps are due.", "done"),
        words.small(
            "It is counted while the program is open."
            + (" An iPhone shows it only when notices are allowed too." if can.apple else "")
        ),
        due,
        side_button(Act("Try: show 9 for ten seconds", lambda: try_number(bench))),
    ]


def _screen(bench: Bench, can: Abilities) -> list[ft.Control]:
    if not can.awake and not bench.shown.awake:
        return [words.body("This browser does not let the screen be kept on.", bold=True)]
    return [
        panels.notice("On: the screen does not fall asleep while the program is in front.", "done")
        if bench.shown.awake
        else words.body("Off. While meat is in the smoke, the screen need not fall asleep."),
        side_button(awake_act(bench)),
    ]


def _step(bench: Bench, batch_id: str, step_id: str) -> ft.Control:
    batch: Batch | None = bench.batch(batch_id)
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
            panels.step_button(
                ft.Icons.NOTIFICATIONS_ACTIVE if step.reminder else ft.Icons.NOTIFICATIONS_OFF,
                f"Turn {turn}: {step.title}, {batch.name}",
                lambda: bench.save_batch(
                    with_reminder(batch, step_id, not step.reminder),
                    f"Reminder {turn}: {step.title}.",
                ),
            ),
        ]
    )
