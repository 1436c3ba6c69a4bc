"""On the board: the slice photographed, bent, pulled, looked at and tasted."""

from collections.abc import Callable

import flet as ft
from attrs import evolve, frozen

from app import quantities
from app.journal.records import PhotoTaken, SliceOutcome
from app.journal.safety import cautions_for
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.mix_draft import read_number, small_length_unit
from app.screens.photo_intake import photo_act
from app.screens.told import BENDS, BESIDE_BOUGHT, PULLS
from app.widgets import fields, panels, words
from app.widgets.frame import Act, main_button, screen, side_button
from app.widgets.picture import picture

Change = Callable[..., None]

_SCORES = (
    ("salt", "Salt", "far too little", "far too much"),
    ("smoke", "Smoke", "far too little", "far too much"),
    ("pepper", "Pepper", "far too little", "far too much"),
    ("tenderness", "Tenderness", "tough", "tender"),
    ("moisture", "Moisture", "dry", "juicy"),
    ("rating", "Verdict", "never again", "the best"),
)


@frozen
class Typed:
    """What has been typed, kept as typed."""

    grey: str = ""
    pale: str = ""
    thick: str = ""
    cut: str = ""


def typed_back(outcome: SliceOutcome, bench: Bench) -> Typed:
    """The fields as they would have been typed for this outcome."""

    def percent(value: float | None) -> str:
        return "" if value is None else f"{value:g}"

    def length(value: float | None) -> str:
        if value is None:
            return ""
        unit = small_length_unit(bench.shown.kit)
        return f"{value / quantities.parse('1', 'length', unit):.3g}"

    return Typed(
        percent(outcome.grey_percent),
        percent(outcome.pale_percent),
        length(outcome.thickness_mm),
        length(outcome.cut_mm),
    )


def _percent(text: str, what: str) -> float | None:
    if not text.strip():
        return None
    value = read_number(text, what, "%")
    if not 0 <= value <= 100:
        raise ValueError(f"The {what} is a part of the thickness, from 0 to 100 %.")
    return value


def _length(text: str, unit: str, most_mm: float, what: str) -> float | None:
    if not text.strip():
        return None
    value = quantities.parse(text, "length", unit)
    if not 0 < value <= most_mm:
        raise ValueError(f"The {what} is more than 0 and at most {most_mm:g} mm.")
    return value


def read(typed: Typed, unit: str) -> tuple[dict[str, float | None], dict[str, str]]:
    """What was typed as numbers, and the errors by field."""
    readers: dict[str, Callable[[], float | None]] = {
        "grey": lambda: _percent(typed.grey, "grey part"),
        "pale": lambda: _percent(typed.pale, "pale part"),
        "thick": lambda: _length(typed.thick, unit, 300.0, "thickness of the piece"),
        "cut": lambda: _length(typed.cut, unit, 60.0, "thickness of a slice"),
    }
    values: dict[str, float | None] = {}
    errors: dict[str, str] = {}
    for name, reader in readers.items():
        try:
            values[name] = reader()
        except ValueError as error:
            errors[name] = str(error)
    if not errors and (values["grey"] or 0) + (values["pale"] or 0) > 100:
        errors["pale"] = "Grey and pale together are more than the whole thickness."
    return values, errors


@ft.component
def SliceScreen() -> ft.View:
    """Scores, what the cut face showed, and whether to do it again."""
    bench = use_bench()
    batch = use_batch()
    before = batch.outcome if batch else None
    outcome, set_outcome = ft.use_state(before or SliceOutcome(at=bench.now()))
    typed, set_typed = ft.use_state(typed_back(before, bench) if before else Typed())
    errors, set_errors = ft.use_state(dict[str, str]())
    if batch is None:
        return no_batch()
    unit = small_length_unit(bench.shown.kit)

    def change(**changes: object) -> None:
        set_outcome(lambda old: evolve(old, **changes))

    def type_in(**changes: str) -> None:
        set_typed(lambda old: evolve(old, **changes))

    def keep() -> bool:
        values, wrong = read(typed, unit)
        set_errors(wrong)
        if wrong:
            bench.show(said="Not saved yet: " + next(iter(wrong.values())), undo=None)
            return False
        kept = evolve(
            outcome,
            at=before.at if before else bench.now(),
            grey_percent=values["grey"],
            pale_percent=values["pale"],
            thickness_mm=values["thick"],
            cut_mm=values["cut"],
        )
        bench.save_batch(evolve(batch, outcome=kept), "Saved.")
        return True

    def save() -> None:
        if keep():
            bench.go(f"/journal/{batch.id}")

    def measure(photo_id: str) -> None:
        # What was scored so far is saved first: the line is drawn on another screen.
        if keep():
            bench.go(f"/journal/{batch.id}/photo/{photo_id}/line")

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
            *([side_button(measure_act(lambda: measure(photos[0])))] if photos else []),
            _in_the_hand(outcome, typed, errors, unit, change, type_in),
            _cured(typed, errors, unit, type_in),
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
            _bought(outcome, change),
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


def measure_act(on_press: Callable[[], object]) -> Act:
    """The way to the line across the slice."""
    return Act("Measure how far the cure reached", on_press, ft.Icons.STRAIGHTEN)


def _in_the_hand(
    outcome: SliceOutcome,
    typed: Typed,
    errors: dict[str, str],
    unit: str,
    change: Change,
    type_in: Change,
) -> ft.Control:
    return panels.panel(
        [
            fields.quantity_field(
                "How thick it is cut",
                typed.cut,
                lambda text: type_in(cut=text),
                unit=unit,
                error=errors.get("cut"),
            ),
            fields.choice(
                "Cut",
                (("across", "Across the grain"), ("along", "Along the grain")),
                None
                if outcome.across_grain is None
                else "across"
                if outcome.across_grain
                else "along",
                lambda key: change(across_grain=key == "across"),
            ),
            fields.choice(
                "A slice bent double",
                list(BENDS.items()),
                outcome.bend,
                lambda key: change(bend=key),
            ),
            fields.choice(
                "A strip pulled by its ends",
                list(PULLS.items()),
                outcome.pull,
                lambda key: change(pull=key),
            ),
        ],
        title="In the hand",
    )


def _cured(typed: Typed, errors: dict[str, str], unit: str, type_in: Change) -> ft.Control:
    return panels.panel(
        [
            words.small("Look at the thickest slice, at the middle of its cut face."),
            fields.quantity_field(
                "Grey: no cure came here",
                typed.grey,
                lambda text: type_in(grey=text),
                unit="%",
                error=errors.get("grey"),
                helper="Part of the thickness; 0 when it is pink all through.",
            ),
            fields.quantity_field(
                "Pale pink",
                typed.pale,
                lambda text: type_in(pale=text),
                unit="%",
                error=errors.get("pale"),
            ),
            fields.quantity_field(
                "The piece there, thickness",
                typed.thick,
                lambda text: type_in(thick=text),
                unit=unit,
                error=errors.get("thick"),
            ),
        ],
        title="How far the cure reached",
    )


def _bought(outcome: SliceOutcome, change: Change) -> ft.Control:
    return panels.panel(
        [
            fields.choice(
                "Ours is",
                list(BESIDE_BOUGHT.items()),
                outcome.beside_bought,
                lambda key: change(beside_bought=None if outcome.beside_bought == key else key),
            ),
            fields.text_field(
                "What was bought, and how it differs",
                outcome.bought_notes,
                lambda text: change(bought_notes=text),
            ),
        ],
        title="Beside a bought one, if you like",
    )
