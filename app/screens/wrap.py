"""At the wrap: photograph the bark, see it beside earlier ones, record the decision."""

import flet as ft

from app import quantities
from app.journal.entries import decided
from app.journal.records import Batch, Decision, PhotoTaken
from app.journal.safety import cautions_for
from app.journal.wall import say_minutes
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.photo_intake import photo_act
from app.screens.told import CHOICES, degrees
from app.widgets import fields, panels, words
from app.widgets.frame import Act, main_button, screen
from app.widgets.picture import picture


def bark_photos(bench: Bench, batch: Batch) -> list[str]:
    """The photos taken at the wrap of a batch, newest first."""
    return [
        entry.body.photo_id
        for entry in reversed(bench.entries(batch.id))
        if isinstance(entry.body, PhotoTaken) and entry.stage in ("smoke", "wrap")
    ]


@ft.component
def WrapScreen() -> ft.View:
    """The one screen of the wrap decision."""
    bench = use_bench()
    batch = use_batch()
    pit, set_pit = ft.use_state("")
    core, set_core = ft.use_state("")
    error, set_error = ft.use_state("")
    if batch is None:
        return no_batch()
    unit = bench.temperature_unit

    def read(text: str) -> float | None:
        return quantities.parse(text, "temperature", unit) if text.strip() else None

    def record(choice: str) -> None:
        try:
            body = decided(choice, read(pit), read(core))
            bench.add_entry(batch, body, stage="wrap")
        except ValueError as wrong:
            set_error(str(wrong))
            return
        bench.go(f"/journal/{batch.id}")

    begun = next((s.done for s in batch.plan if s.stage == "smoke" and s.done), None)
    hours = ""
    if begun is not None:
        gone = (bench.now().utc_s - begun.utc_s) / 60.0
        hours = f"{say_minutes(max(0.0, gone))} in the smoke"
    photos = bark_photos(bench, batch)
    body: list[ft.Control] = [
        words.small(" · ".join(part for part in (batch.name, hours) if part)),
        main_button(photo_act(bench, batch, stage="wrap", words="Photograph the bark")),
    ]
    if photos:
        body.append(picture(bench.photo_src(photos[0]), "The bark now", height=240))
    body.append(_earlier(bench, batch))
    body += [
        fields.quantity_field("Pit", pit, set_pit, unit=unit),
        fields.quantity_field("Core", core, set_core, unit=unit),
        *([panels.notice(error, "attention")] if error else []),
        *(panels.notice(one.text, "attention") for one in cautions_for("wrap")),
    ]
    return screen(
        "Wrap?",
        body,
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Wrapped", lambda: record("wrapped"), icon=ft.Icons.CHECK),
        side=Act("Not yet", lambda: record("not_yet")),
    )


def _earlier(bench: Bench, batch: Batch) -> ft.Control:
    """The bark of earlier batches at their wrap, the best rated first."""
    kit = bench.shown.kit
    cards: list[ft.Control] = []
    others = [one for one in bench.shown.batches if one.id != batch.id]
    others.sort(key=lambda one: -((one.outcome.rating or 0) if one.outcome else 0))
    for other in others:
        wrapped = next(
            (
                e.body
                for e in bench.entries(other.id)
                if isinstance(e.body, Decision) and e.body.choice == "wrapped"
            ),
            None,
        )
        photos = bark_photos(bench, other)
        if wrapped is None and not photos:
            continue
        rated = f" · {other.outcome.rating} of 5" if other.outcome and other.outcome.rating else ""
        read = []
        if wrapped is not None and wrapped.core_c is not None:
            read.append(f"core {degrees(wrapped.core_c, kit)}")
        if wrapped is not None and wrapped.pit_c is not None:
            read.append(f"pit {degrees(wrapped.pit_c, kit)}")
        cards.append(
            ft.Column(
                [
                    *(
                        [picture(bench.photo_src(photos[0]), f"Bark of {other.name}", height=150)]
                        if photos
                        else []
                    ),
                    words.body(other.name + rated, bold=True),
                    words.small(
                        " · ".join([CHOICES["wrapped"] if wrapped else "not decided", *read])
                    ),
                ],
                spacing=4,
            )
        )
        if len(cards) == 3:
            break
    if not cards:
        return words.small("The bark of earlier batches will stand here beside this one.")
    return panels.panel(cards, title="At their wrap")
