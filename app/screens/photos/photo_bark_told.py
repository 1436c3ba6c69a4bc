"""Measured bark in words and swatches: beside earlier batches, and over one smoke."""

from collections.abc import Sequence

import flet as ft

from app.colour.bark import in_words
from app.colour.lab import Triple, to_srgb
from app.journal.photo_readings import (
    BesideBark,
    Witness,
    bark_trend,
    beside_earlier,
    in_record,
    smoke_bark,
)
from app.journal.records import Batch
from app.journal.wall import say_minutes
from app.screens.bench import Bench
from app.screens.photos.photo_desk import photo_of
from app.widgets import panels, words
from app.widgets.frame import Act, side_button

SHOWN = 4
MOST_STEPS = 8
"""So many photos of a smoke are shown, the last ones."""


def swatch(lab: Triple, size: int = 52) -> ft.Control:
    """A colour as it would look in daylight."""
    rgb = [min(255, max(0, round(part))) for part in to_srgb(*lab)]
    return ft.Container(
        width=size,
        height=size,
        border_radius=8,
        bgcolor="#{:02X}{:02X}{:02X}".format(*rgb),
        border=ft.Border.all(1, ft.Colors.OUTLINE),
    )


def earlier_bark(bench: Bench, batch: Batch, lab: Triple) -> list[BesideBark]:
    """The bark of other batches at their wrap beside this colour."""
    others = []
    for one in bench.shown.batches:
        if one.id != batch.id:
            entries = bench.entries(one.id)
            others.append(Witness(one, entries, in_record(bench.photos(one.id), entries)))
    return beside_earlier(lab, batch, others)


def bark_told(bench: Bench, batch: Batch, photo_ids: Sequence[str]) -> list[ft.Control]:
    """At the wrap decision: the newest photo's bark beside earlier ones, and the way to it."""
    if not photo_ids:
        return []
    photo = photo_of(bench, batch, photo_ids[0])
    if photo is None:
        return []
    said: list[ft.Control] = []
    if photo.bark is not None:
        found = earlier_bark(bench, batch, photo.bark.lab)
        said = [
            words.body(f"Bark now: {in_words(photo.bark.lab)}.", bold=True),
            *(words.body(one.compared.sentence) for one in found[:2]),
        ]
    measure = Act(
        "Measure its colour" if photo.bark is None else "Measure it again",
        lambda: bench.go(f"/journal/{batch.id}/photo/{photo.id}/bark"),
        ft.Icons.PALETTE_OUTLINED,
    )
    return [*said, *trend_told(bench, batch), side_button(measure)]


def beside_told(bench: Bench, batch: Batch, lab: Triple) -> ft.Control:
    found = earlier_bark(bench, batch, lab)
    if not found:
        return words.small(
            "Measure the bark of other batches at their wrap, and this one is set beside them."
        )
    rows: list[ft.Control] = []
    for one in found[:SHOWN]:
        rows.append(
            ft.MergeSemantics(
                ft.Row(
                    [
                        swatch(one.lab),
                        ft.Column(
                            [
                                words.body(one.compared.sentence, bold=one.best),
                                words.small(
                                    f"difference {one.compared.difference:.1f} (CIEDE2000; "
                                    "2 is about what the eye sees across two photos)"
                                ),
                            ],
                            spacing=2,
                            expand=True,
                        ),
                    ],
                    spacing=12,
                )
            )
        )
    return panels.panel(rows, title="Beside earlier batches at their wrap")


def trend_told(bench: Bench, batch: Batch, *, asks: bool = False) -> list[ft.Control]:
    """The measured bark of this smoke in its order, and where it is going.

    asks : whether to say what is missing where there is none yet
    """
    photos = in_record(bench.photos(batch.id), bench.entries(batch.id))
    read = smoke_bark(batch, photos)
    told = bark_trend(batch, photos)
    if told is None:
        says = "Two measured photos half an hour apart show how the bark is going."
        return [words.small(says)] if asks else []
    steps: list[ft.Control] = [
        ft.MergeSemantics(
            ft.Column(
                [
                    swatch(photo.bark.lab),
                    words.small(say_minutes(max(0.0, 60.0 * hours))),
                    words.small(f"L* {photo.bark.lab[0]:.0f}"),
                ],
                spacing=2,
                horizontal_alignment=ft.CrossAxisAlignment.CENTER,
            )
        )
        for hours, photo in read[-MOST_STEPS:]
        if photo.bark is not None
    ]
    rows: list[ft.Control] = [
        words.body(told.sentence, bold=True),
        ft.Row(steps, wrap=True, spacing=12, run_spacing=8),
    ]
    return [panels.panel(rows, title="Over this smoke")]
