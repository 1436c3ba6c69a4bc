"""On the board: the slice photographed, bent, looked at and tasted."""

from collections.abc import Callable

import flet as ft
from attrs import evolve

from app import quantities
from app.journal.records import PhotoTaken, SliceOutcome
from app.journal.safety import cautions_for
from app.screens.bench import use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.mix_draft import read_number, small_length_unit
from app.screens.photo_intake import photo_act
from app.screens.told import BENDS
from app.widgets import fields, panels, words
from app.widgets.frame import Act, main_button, screen
from app.widgets.picture import picture

_SCORES = (
    ("salt", "Salt", "far too little", "far too much"),
    ("smoke", "Smoke", "far too little", "far too much"),
    ("pepper", "Pepper", "far too little", "far too much"),
    ("tenderness", "Tenderness", "tough", "tender"),
    ("moisture", "Moisture", "dry", "juicy"),
    ("rating", "Verdict", "never again", "the best"),
)


def _percent(text: str, what: str) -> float | None:
    if not text.strip():
        return None
    value = read_number(text, what, "%")
    if not 0 <= value <= 100:
        raise ValueError(f"The {what} is a part of the thickness, from 0 to 100 %.")
    return value


@ft.component
def SliceScreen() -> ft.View:
    """Scores, what the cut face showed, and whether to do it again."""
    bench = use_bench()
    batch = use_batch()
    before = batch.outcome if batch else None
    outcome, set_outcome = ft.use_state(before or SliceOutcome(at=bench.now()))

    def start(value: float | None) -> str:
        return "" if value is None else f"{value:g}"

    grey, set_grey = ft.use_state(start(before.grey_percent if before else None))
    pale, set_pale = ft.use_state(start(before.pale_percent if before else None))
    thick, set_thick = ft.use_state("")
    errors, set_errors = ft.use_state(dict[str, str]())
    if batch is None:
        return no_batch()
    unit = small_length_unit(bench.shown.kit)

    def change(**changes: object) -> None:
        set_outcome(lambda old: evolve(old, **changes))

    def save() -> None:
        wrong: dict[str, str] = {}
        read: dict[str, float | None] = {}

        def take(name: str, reader: Callable[[], float | None]) -> None:
            try:
                read[name] = reader()
            except ValueError as error:
                wrong[name] = str(error)

        take("grey", lambda: _percent(grey, "grey part"))
        take("pale", lambda: _percent(pale, "pale part"))
        take(
            "thick",
            lambda: (
                quantities.parse(thick, "length", unit) if thick.strip() else outcome.thickness_mm
            ),
        )
        if not wrong and (read["grey"] or 0) + (read["pale"] or 0) > 100:
            wrong["pale"] = "Grey and pale together are more than the whole thickness."
        set_errors(wrong)
        if wrong:
            return
        bench.save_batch(
            evolve(
                batch,
                outcome=evolve(
                    outcome,
                    at=bench.now(),
                    grey_percent=read["grey"],
                    pale_percent=read["pale"],
                    thickness_mm=read["thick"],
                ),
            ),
            "Saved.",
        )
        bench.go(f"/journal/{batch.id}")

    photos = [
        entry.body.photo_id
        for entry in reversed(bench.entries(batch.id))
        if isinstance(entry.body, PhotoTaken) and entry.stage == "slice"
    ]
    return screen(
        "Slice and taste",
        [
            words.small(batch.name),
            main_button(photo_act(bench, batch, stage="slice", words="Photograph the slice")),
            *([picture(bench.photo_src(photos[0]), "The slice", height=240)] if photos else []),
            fields.choice(
                "A slice bent double",
                list(BENDS.items()),
                outcome.bend,
                lambda key: change(bend=key),
            ),
            panels.panel(
                [
                    words.small("Look at the thickest slice, at the middle of its cut face."),
                    fields.quantity_field(
                        "Grey: the cure never came here",
                        grey,
                        set_grey,
                        unit="% of the thickness",
                        error=errors.get("grey"),
                    ),
                    fields.quantity_field(
                        "Pale pink",
                        pale,
                        set_pale,
                        unit="% of the thickness",
                        error=errors.get("pale"),
                    ),
                    fields.quantity_field(
                        "Thickness of the piece there",
                        thick,
                        set_thick,
                        unit=unit,
                        error=errors.get("thick"),
                    ),
                ],
                title="How far the cure reached",
            ),
            *(
                fields.score(
                    label,
                    getattr(outcome, name),
                    lambda mark, name=name: change(**{name: mark}),  # type: ignore[misc]
                    low=low,
                    high=high,
                )
                for name, label, low, high in _SCORES
            ),
            fields.choice(
                "Do it again?",
                (("yes", "Yes"), ("no", "Not like this")),
                None if outcome.again is None else "yes" if outcome.again else "no",
                lambda key: change(again=key == "yes"),
            ),
            fields.text_field("Notes", outcome.notes, lambda text: change(notes=text), lines=3),
            *(panels.notice(one.text, "attention") for one in cautions_for("slice", "store")),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Save", save, icon=ft.Icons.CHECK),
    )
