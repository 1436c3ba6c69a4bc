"""One line of a batch's record: written, for now or a time past, or put right."""

from collections.abc import Callable

import flet as ft
from attrs import evolve

from app.journal.entries import stage_now
from app.journal.records import Batch, Cost, Moment, Stage
from app.journal.wall import wall_of
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.in_units import in_units
from app.screens.journal.begun_forms import (
    Draft,
    brought_back,
    name_of,
    typed_again,
)
from app.screens.journal.entry_kinds import KINDS, Kind, typed_back
from app.screens.journal.form import use_form
from app.screens.journal.missing import no_batch
from app.screens.plan.when import moment_at, when_field
from app.widgets import panels, words
from app.widgets.frame import Act, screen, side_button

AGO_MIN = (10, 20, 30, 60)
"""Times past that are one tap away [min]."""


def _ago_words(minutes: int) -> str:
    return f"{minutes} min ago" if minutes < 60 else f"{minutes // 60} h ago"


@ft.component
def EntryScreen() -> ft.View:
    """Write a line of the kind named in the route; a press on a time saves it for then."""
    bench = use_bench()
    batch = use_batch()
    asked = ft.use_route_params().get("kind", "")
    known = asked if asked in KINDS else "note"
    kind = KINDS[known]
    name = name_of(known, batch.id) if batch is not None else ""
    form = use_form(
        name, lambda _: _begun(bench, kind, batch), lambda kept: brought_back(kept, known)
    )
    draft = form.typed
    error, set_error = ft.use_state("")
    if batch is None:
        return no_batch()

    def change(field: str, value: str) -> None:
        set_error("")
        form.change(lambda last: typed_again(last, field, value, bench.wall()))

    def start_over() -> None:
        set_error("")
        form.start_over()

    def save(ago_min: float | None = None) -> None:
        try:
            ago_s = 60.0 * (ago_min or 0.0)
            if draft.at and ago_min is None:
                ago_s = bench.now().utc_s - _moment(bench, draft.at).utc_s
            bench.add_entry(batch, kind.read(bench, draft), ago_s=ago_s)
        except ValueError as wrong:
            set_error(in_units(str(wrong), bench.shown.kit))
            return
        form.drop()
        bench.go(f"/journal/{batch.id}")

    def ago(minutes: int) -> Callable[[], None]:
        return lambda: save(minutes)

    return screen(
        kind.title,
        [
            panels.stack([words.small(batch.name), *form.kept(bench, start_over)]),
            *kind.controls(bench, draft, error or None, change),
            panels.panel(
                [
                    words.small("Each of these saves it at once, with that time."),
                    panels.row_of([side_button(Act(_ago_words(m), ago(m))) for m in AGO_MIN]),
                    when_field(
                        bench,
                        "Or at another time",
                        draft.at,
                        lambda at: change("at", at),
                        empty="Choose",
                    ),
                ],
                title="Not just now?",
            ),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Save" if draft.at else "Save, just now", save, icon=ft.Icons.CHECK),
    )


_COLD: frozenset[Stage] = frozenset({"thaw", "chill", "cure", "turn", "end", "soak", "dry"})


def _begun(bench: Bench, kind: Kind, batch: Batch | None) -> Draft:
    """The empty form: with the currency paid in last, and before the smoke with the fridge."""
    if kind is KINDS["temperature"] and batch is not None and stage_now(batch) in _COLD:
        return evolve(kind.start, chosen="fridge")
    if kind is not KINDS["cost"]:
        return kind.start
    paid = [
        entry
        for one in bench.shown.batches
        for entry in bench.entries(one.id)
        if isinstance(entry.body, Cost)
    ]
    last = max(paid, key=lambda entry: entry.changed.utc_s, default=None)
    known = last.body.currency if last and isinstance(last.body, Cost) else ""
    return evolve(kind.start, second=known)


def _moment(bench: Bench, wall: str) -> Moment:
    return moment_at(wall, bench.zone, bench.now().offset_min)


@ft.component
def CorrectScreen() -> ft.View:
    """Put right the line named in the route: what it says, and when it was."""
    bench = use_bench()
    batch = use_batch()
    entry_id = ft.use_route_params().get("entry", "")
    lines = bench.entries(batch.id) if batch is not None else ()
    entry = next((one for one in lines if one.id == entry_id), None)
    known, filled = typed_back(bench, entry.body) if entry is not None else ("note", Draft())
    if entry is not None:
        filled = evolve(filled, at=wall_of(entry.at))
    kind = KINDS[known]
    name = name_of(known, batch.id, entry.id) if batch is not None and entry is not None else ""
    form = use_form(name, lambda _: filled)
    draft = form.typed
    error, set_error = ft.use_state("")
    if batch is None:
        return no_batch()
    if entry is None:
        return screen(
            "Put right",
            [panels.empty("This line is not in the record any more.", "Undo may bring it back.")],
            place="/journal",
            back=f"/journal/{batch.id}",
        )

    def change(field: str, value: str) -> None:
        set_error("")
        form.change(lambda last: evolve(last, **{field: value}))

    def start_over() -> None:
        set_error("")
        form.start_over()

    def save() -> None:
        try:
            same = draft.at == wall_of(entry.at)
            at = entry.at if same else moment_at(draft.at, bench.zone, entry.at.offset_min)
            bench.correct_entry(batch, entry, kind.read(bench, draft), at)
        except ValueError as wrong:
            set_error(in_units(str(wrong), bench.shown.kit))
            return
        form.drop()
        bench.go(f"/journal/{batch.id}")

    def remove() -> None:
        form.drop()
        bench.remove_entry(entry)
        bench.go(f"/journal/{batch.id}")

    return screen(
        f"Put right: {kind.title.lower()}",
        [
            panels.stack([words.small(batch.name), *form.kept(bench, start_over)]),
            *kind.controls(bench, draft, error or None, change),
            when_field(
                bench, "When", draft.at, lambda at: change("at", at), empty="", clearable=False
            ),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Save", save, icon=ft.Icons.CHECK),
        side=Act("Remove", remove, icon=ft.Icons.DELETE_OUTLINE),
    )
