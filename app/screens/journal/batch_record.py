"""The record on a batch's page: planned against actual, every line openable."""

import flet as ft

from app.journal.chain import RUNNING
from app.journal.records import Batch, Entry, PhotoTaken
from app.journal.timeline import Row, timeline
from app.journal.wall import say_wall
from app.screens.bench import Bench
from app.screens.journal.told import entry_told
from app.screens.photos.photo_told import in_short, marks_told
from app.widgets import panels, words
from app.widgets.frame import Act, quiet_button
from app.widgets.picture import picture

_STEP_ICONS = {
    "step_done": ft.Icons.CHECK_CIRCLE,
    "step_due": ft.Icons.RADIO_BUTTON_UNCHECKED,
    "step_left_out": ft.Icons.REMOVE_CIRCLE_OUTLINE,
}
_KINDS = {
    "Weight": ft.Icons.SCALE,
    "Temperature": ft.Icons.DEVICE_THERMOSTAT,
    "Feel": ft.Icons.TOUCH_APP,
    "Decision": ft.Icons.CALL_SPLIT,
    "Note": ft.Icons.EDIT_NOTE,
    "PhotoTaken": ft.Icons.PHOTO_CAMERA,
    "Cost": ft.Icons.PAYMENTS_OUTLINED,
}


def record(bench: Bench, batch: Batch, entries: tuple[Entry, ...]) -> list[ft.Control]:
    """Every line in the order of time."""
    rows = timeline(batch, entries, bench.zone)
    return [words.heading("Record"), *(_row(bench, batch, row) for row in rows)]


def _row(bench: Bench, batch: Batch, row: Row) -> ft.Control:
    when = say_wall(row.wall, bench.wall())
    if row.entry is not None:
        return _entry_row(bench, row.entry, when)
    if row.kind == "tasted":
        return _line(ft.Icons.RESTAURANT, "Sliced and tasted", when, "")
    assert row.step is not None
    step = row.step
    acts: list[Act] = []
    if row.kind == "step_done":
        acts.append(Act("Not done", lambda: bench.undo_done(batch.id, step.id)))
    elif row.kind == "step_left_out":
        acts.append(Act("Bring back", lambda: bench.unskip(batch.id, step.id)))
    done = "begun" if step.stage in RUNNING else "done"
    said = {"step_done": done, "step_due": "planned", "step_left_out": ""}[row.kind]
    says = ", ".join(part for part in (said, row.words) if part)
    return _line(_STEP_ICONS[row.kind], step.title, when, says, acts)


def _entry_row(bench: Bench, entry: Entry, when: str) -> ft.Control:
    name, says = entry_told(entry, bench.shown.kit)
    change = Act("Change", lambda: bench.go(f"/journal/{entry.batch_id}/entry/{entry.id}"))
    icon = _KINDS.get(type(entry.body).__name__, ft.Icons.CIRCLE)
    line = _line(icon, name, when, says, [change])
    if not isinstance(entry.body, PhotoTaken):
        return line
    photo_id = entry.body.photo_id
    spoken = f"Photo, {says or when}"
    return ft.Column(
        [
            line,
            panels.pressable(
                picture(bench.thumb_src(photo_id), spoken, height=220),
                lambda: bench.go(f"/journal/{entry.batch_id}/photo/{photo_id}"),
                label=f"Open: {spoken}",
            ),
            *_measured(bench, entry.batch_id, photo_id),
        ],
        spacing=4,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _measured(bench: Bench, batch_id: str, photo_id: str) -> list[ft.Control]:
    """What was measured in a photo, and what its light lets lean."""
    photo = next((one for one in bench.photos(batch_id) if one.id == photo_id), None)
    told = [] if photo is None else [*in_short(photo), *marks_told(photo)]
    return [words.small(" · ".join(told))] if told else []


def _line(
    icon: ft.IconData, title: str, when: str, says: str, acts: list[Act] | None = None
) -> ft.Control:
    return ft.Row(
        [
            ft.Icon(icon, size=20, color=ft.Colors.ON_SURFACE_VARIANT),
            ft.MergeSemantics(
                ft.Column(
                    [
                        words.body(title, bold=True),
                        *([words.body(says)] if says else []),
                        words.small(when),
                    ],
                    spacing=1,
                ),
                expand=True,
            ),
            *(quiet_button(act) for act in acts or []),
        ],
        spacing=10,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )
