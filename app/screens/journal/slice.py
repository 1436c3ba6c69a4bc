"""On the board: the slice photographed, bent, pulled, looked at and tasted."""

from collections.abc import Callable, Mapping

import flet as ft
from attrs import asdict, evolve

from app.journal.records import PhotoTaken, SliceOutcome
from app.journal.safety import cautions_for, texts
from app.screens.bench import use_batch, use_bench
from app.screens.drafts import use_draft
from app.screens.journal.missing import no_batch
from app.screens.journal.not_saved import not_saved
from app.screens.journal.slice_bought import bought_part
from app.screens.journal.slice_draft import SliceDraft, begun, draft_name, read, resumed
from app.screens.journal.told import BENDS, PULLS
from app.screens.mix.mix_draft import small_length_unit
from app.screens.photos.photo_intake import photo_act
from app.widgets import fields, panels, words
from app.widgets.frame import Act, main_button, screen, side_button
from app.widgets.picture import picture

Change = Callable[..., None]

SCORES = (
    ("salt", "Salt", "far too little", "far too much"),
    ("smoke", "Smoke", "far too little", "far too much"),
    ("pepper", "Pepper", "far too little", "far too much"),
    ("tenderness", "Tenderness", "tough", "tender"),
    ("moisture", "Moisture", "dry", "juicy"),
    ("rating", "Verdict", "never again", "the best"),
)


@ft.component
def SliceScreen() -> ft.View:
    """Scores, what the cut face showed, and whether to do it again."""
    bench = use_bench()
    batch = use_batch()
    kit = bench.shown.kit
    draft, change_draft, drop = use_draft(
        draft_name(batch.id if batch else ""),
        lambda: begun(batch, kit, bench.now()),
        lambda kept: resumed(kept, batch, kit, bench.now()),
    )
    if batch is None:
        return no_batch()
    values, errors = read(draft, kit)
    before = batch.outcome

    def change(**changes: object) -> None:
        kept: SliceDraft = bench.drafts.get(draft_name(batch.id)) or draft
        change_draft(outcome=evolve(kept.outcome, **changes))  # type: ignore[arg-type]

    def choose(name: str, value: object) -> None:
        """Choose, or take the choice back with a second press."""
        kept: SliceDraft = bench.drafts.get(draft_name(batch.id)) or draft
        change(**{name: None if getattr(kept.outcome, name) == value else value})

    def remove() -> None:
        drop()
        bench.save_batch(evolve(batch, outcome=None), "The scores are taken out.")
        bench.go(f"/journal/{batch.id}")

    def start_over() -> None:
        name = draft_name(batch.id)
        was: SliceDraft = bench.drafts.get(name) or draft

        def fill(with_this: SliceDraft) -> None:
            change_draft(**asdict(with_this, recurse=False))

        fill(begun(batch, kit, bench.now()))
        drop()
        bench.say_emptied(name, lambda: fill(was))

    def keep() -> bool:
        if errors:
            bench.show(said="Not saved yet: " + next(iter(errors.values())))
            return False
        at = before.at if before else bench.now()
        bench.save_batch(
            evolve(batch, outcome=evolve(draft.outcome, at=at, **values)),  # type: ignore[arg-type]
            "Saved. The slice.",
        )
        drop()
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
            panels.stack(
                [
                    words.small(batch.name),
                    *not_saved(draft_name(batch.id) in bench.drafts, start_over),
                    main_button(
                        photo_act(bench, batch, stage="slice", words="Photograph the slice")
                    ),
                    *(
                        [picture(bench.photo_src(photos[0]), "The slice", height=240)]
                        if photos
                        else []
                    ),
                    *([side_button(measure_act(lambda: measure(photos[0])))] if photos else []),
                ]
            ),
            _in_the_hand(draft, errors, small_length_unit(kit), choose, change_draft),
            _cured(draft, errors, small_length_unit(kit), change_draft),
            *(
                fields.score(
                    label,
                    getattr(draft.outcome, name),
                    lambda mark, name=name: choose(name, mark),  # type: ignore[misc]
                    low=low,
                    high=high,
                )
                for name, label, low, high in SCORES
            ),
            bought_part(draft.outcome, change),
            fields.choice(
                "Do it again?",
                (("yes", "Yes"), ("no", "Not like this")),
                None if draft.outcome.again is None else "yes" if draft.outcome.again else "no",
                lambda key: choose("again", key == "yes"),
            ),
            fields.text_field(
                "Notes", draft.outcome.notes, lambda text: change(notes=text), lines=3
            ),
            *panels.cautions(texts(cautions_for("slice", "store"), bench.kit.system)),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Save", save, icon=ft.Icons.CHECK),
        side=Act("Remove", remove, icon=ft.Icons.DELETE_OUTLINE) if before else None,
    )


def measure_act(on_press: Callable[[], object]) -> Act:
    """The way to the line across the slice."""
    return Act("Measure how far the cure reached", on_press, ft.Icons.STRAIGHTEN)


def _in_the_hand(
    draft: SliceDraft, errors: Mapping[str, str], unit: str, choose: Change, type_in: Change
) -> ft.Control:
    outcome: SliceOutcome = draft.outcome
    return panels.panel(
        [
            fields.quantity_field(
                "How thick it is cut",
                draft.cut,
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
                lambda key: choose("across_grain", key == "across"),
            ),
            fields.choice(
                "A slice bent double",
                list(BENDS.items()),
                outcome.bend,
                lambda key: choose("bend", key),
            ),
            fields.choice(
                "A strip pulled by its ends",
                list(PULLS.items()),
                outcome.pull,
                lambda key: choose("pull", key),
            ),
        ],
        title="In the hand",
    )


def _cured(draft: SliceDraft, errors: Mapping[str, str], unit: str, type_in: Change) -> ft.Control:
    return panels.panel(
        [
            words.small("Look at the thickest slice, at the middle of its cut face."),
            fields.quantity_field(
                "Grey: no cure came here",
                draft.grey,
                lambda text: type_in(grey=text),
                unit="%",
                error=errors.get("grey"),
                helper="Part of the thickness without bark and fat; 0 when pink all through.",
            ),
            fields.quantity_field(
                "Pale pink",
                draft.pale,
                lambda text: type_in(pale=text),
                unit="%",
                error=errors.get("pale"),
            ),
            fields.quantity_field(
                "The piece there, thickness",
                draft.thick,
                lambda text: type_in(thick=text),
                unit=unit,
                error=errors.get("thick"),
            ),
        ],
        title="How far the cure reached",
    )
