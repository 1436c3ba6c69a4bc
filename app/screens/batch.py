"""A batch's page: what to do next, and its record from the first step to the plate."""

from collections.abc import Callable

import flet as ft
from attrs import evolve

from app.journal.due import due_list
from app.journal.fits import misfits
from app.journal.records import Batch, Entry, PhotoTaken
from app.journal.safety import cautions_for
from app.journal.timeline import Row, timeline
from app.journal.wall import say_wall
from app.journal.yields import money, weights, yield_percent
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.journal import batch_line
from app.screens.missing import no_batch
from app.screens.photo_intake import photo_act
from app.screens.told import WEIGHED, entry_told, grams, outcome_told
from app.widgets import panels, words
from app.widgets.frame import Act, quiet_button, screen, side_button
from app.widgets.picture import picture


@ft.component
def BatchScreen() -> ft.View:
    """One batch."""
    bench = use_bench()
    batch = use_batch()
    if batch is None:
        return no_batch()
    entries = bench.entries(batch.id)
    waits = due_list([batch], bench.wall(), bench.zone)
    body: list[ft.Control] = [words.small(batch_line(bench, batch))]
    if batch.demonstration:
        body.append(panels.notice("An invented example, not a batch of yours.", "note"))
    body += [
        panels.notice(one.sentence, "attention") for one in misfits(batch, bench.wall(), bench.zone)
    ]
    main = None
    if waits:
        step = waits[0].step
        body.append(
            panels.panel(
                [
                    panels.figure(step.title, waits[0].words),
                    *(panels.notice(one.text, "attention") for one in cautions_for(step.stage)),
                    ft.Row(
                        [
                            quiet_button(Act("Leave out", lambda: bench.skip(batch.id, step.id))),
                            quiet_button(
                                Act("Plan", lambda: bench.go(f"/journal/{batch.id}/plan"))
                            ),
                        ],
                        alignment=ft.MainAxisAlignment.END,
                        wrap=True,
                    ),
                ],
                title="Next",
            )
        )
        main = Act(
            f"Done: {step.title}",
            lambda: bench.mark_done(batch.id, step.id),
            icon=ft.Icons.CHECK,
        )
    body.append(_add(bench, batch))
    if batch.outcome is not None:
        body.append(_outcome(bench, batch))
    body += _yield(bench, batch, entries)
    body.append(words.heading("Record"))
    body += [_row(bench, batch, row) for row in timeline(batch, entries, bench.zone)]
    body.append(_more(bench, batch))
    if main is None:
        main = Act("Do it again", lambda: bench.go(f"/journal/{batch.id}/repeat"), ft.Icons.REPLAY)
    return screen(batch.name, body, place="/journal", back="/journal", main=main)


def _add(bench: Bench, batch: Batch) -> ft.Control:
    def opens(route: str) -> Callable[[], object]:
        return lambda: bench.go(f"/journal/{batch.id}/{route}")

    acts = [
        photo_act(bench, batch),
        Act("Temperature", opens("add/temperature"), ft.Icons.DEVICE_THERMOSTAT),
        Act("Probe", opens("probe"), ft.Icons.TOUCH_APP),
        Act("Wrap", opens("wrap"), ft.Icons.INVENTORY_2_OUTLINED),
        Act("Weight", opens("add/weight"), ft.Icons.SCALE),
        Act("Note", opens("add/note"), ft.Icons.EDIT_NOTE),
        Act("Cost", opens("add/cost"), ft.Icons.PAYMENTS_OUTLINED),
        Act("Slice", opens("slice"), ft.Icons.RESTAURANT),
    ]
    return panels.panel([panels.row_of([side_button(act) for act in acts])], title="Add")


def _outcome(bench: Bench, batch: Batch) -> ft.Control:
    assert batch.outcome is not None
    return panels.panel(
        [
            *(panels.figure(name, value) for name, value in outcome_told(batch.outcome)),
            quiet_button(Act("Change", lambda: bench.go(f"/journal/{batch.id}/slice"))),
        ],
        title="On the board",
    )


def _yield(bench: Bench, batch: Batch, entries: tuple[Entry, ...]) -> list[ft.Control]:
    kit = bench.shown.kit
    rows: list[ft.Control] = [
        panels.figure(
            WEIGHED[one.of],
            grams(one.grams, kit),
            note="" if one.change_percent is None else f"{one.change_percent:+.0f} %",
        )
        for one in weights(batch, entries)
    ]
    came_to = yield_percent(batch, entries)
    if came_to is not None:
        rows.append(panels.figure("Yield", f"{came_to:.0f} %"))
    for sum_ in money(batch, entries):
        each = "" if sum_.per_serving is None else f"{sum_.per_serving:,.2f} a serving"
        rows.append(panels.figure("Cost", f"{sum_.total:,.2f} {sum_.currency}".strip(), note=each))
    return [panels.panel(rows, title="Weight and cost")] if rows else []


def _row(bench: Bench, batch: Batch, row: Row) -> ft.Control:
    when = say_wall(row.wall, bench.wall())
    if row.entry is not None:
        return _entry_row(bench, row.entry, when)
    if row.kind == "tasted":
        return _line(ft.Icons.RESTAURANT, "Sliced and tasted", when, "")
    assert row.step is not None
    icon = {
        "step_done": ft.Icons.CHECK_CIRCLE,
        "step_due": ft.Icons.RADIO_BUTTON_UNCHECKED,
        "step_left_out": ft.Icons.REMOVE_CIRCLE_OUTLINE,
    }[row.kind]
    step = row.step
    acts: list[Act] = []
    if row.kind == "step_done":
        acts.append(Act("Not done", lambda: bench.undo_done(batch.id, step.id)))
    elif row.kind == "step_left_out":
        acts.append(Act("Bring back", lambda: bench.unskip(batch.id, step.id)))
    return _line(icon, step.title, when, row.words, acts)


def _entry_row(bench: Bench, entry: Entry, when: str) -> ft.Control:
    name, says = entry_told(entry, bench.shown.kit)
    acts = [Act("Remove", lambda: bench.remove_entry(entry))]
    if isinstance(entry.body, PhotoTaken):
        photo_id = entry.body.photo_id
        return ft.Column(
            [
                _line(ft.Icons.PHOTO_CAMERA, name, when, says, acts),
                ft.Container(
                    picture(bench.photo_src(photo_id), f"Photo, {when}", height=220),
                    on_click=lambda _: bench.go(f"/journal/{entry.batch_id}/photo/{photo_id}"),
                    border_radius=10,
                    clip_behavior=ft.ClipBehavior.ANTI_ALIAS,
                ),
            ],
            spacing=4,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        )
    return _line(ft.Icons.CIRCLE, name, when, says, acts)


def _line(
    icon: ft.IconData, title: str, when: str, says: str, acts: list[Act] | None = None
) -> ft.Control:
    return ft.Row(
        [
            ft.Icon(icon, size=20, color=ft.Colors.ON_SURFACE_VARIANT),
            ft.Column(
                [
                    words.body(title, bold=True),
                    *([words.body(says)] if says else []),
                    words.small(when),
                ],
                spacing=1,
                expand=True,
            ),
            *(quiet_button(act) for act in acts or []),
        ],
        spacing=10,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )


def _more(bench: Bench, batch: Batch) -> ft.Control:
    return panels.panel(
        [
            panels.row_of(
                [
                    side_button(
                        Act(
                            "Repeat for a new weight",
                            lambda: bench.go(f"/journal/{batch.id}/repeat"),
                            ft.Icons.REPLAY,
                        )
                    ),
                    side_button(
                        Act(
                            "The mix",
                            lambda: bench.go(f"/journal/{batch.id}/mix"),
                            ft.Icons.SCALE,
                        )
                    ),
                    side_button(
                        Act("Plan", lambda: bench.go(f"/journal/{batch.id}/plan"), ft.Icons.EVENT)
                    ),
                    side_button(
                        Act(
                            "Finish" if not batch.finished else "Reopen",
                            lambda: bench.save_batch(
                                evolve(batch, finished=not batch.finished), "Saved."
                            ),
                            ft.Icons.FLAG_OUTLINED,
                        )
                    ),
                    side_button(
                        Act(
                            "Remove batch",
                            lambda: bench.remove_batch(batch),
                            ft.Icons.DELETE_OUTLINE,
                        )
                    ),
                ]
            )
        ],
        title="More",
    )
