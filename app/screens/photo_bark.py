"""The bark's colour: a patch tapped, in figures and plain words, beside earlier bark."""

from collections.abc import Sequence

import flet as ft
from attrs import evolve

from app.colour.bark import Bark, in_words
from app.colour.lab import Triple, to_srgb
from app.journal.photo_readings import BesideBark, Witness, bark_trend, beside_earlier, in_record
from app.journal.records import Batch
from app.screens.bench import Bench
from app.screens.photo_desk import (
    Desk,
    arrows,
    desk_screen,
    light_notices,
    most_height,
    no_photo,
    photo_of,
    use_desk,
)
from app.screens.photo_pixels import bark_of, kept_bark
from app.screens.photo_told import lab_told, sure
from app.widgets import fields, panels, words
from app.widgets.frame import Act, side_button
from app.widgets.marked_picture import MarkedPicture, Ring
from app.widgets.picture_points import Place, inside

SIZES = (("0.02", "Small"), ("0.045", "Middle"), ("0.09", "Large"))
"""Radius of the patch as a part of the width."""

CANNOT = "This place is too dark or blown out to hold a colour: tap another, or use more light."
SHOWN = 4


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
    return [*said, side_button(measure)]


@ft.component
def BarkScreen() -> ft.View:
    """Tap the bark; its colour is kept at once."""
    desk = use_desk()
    radius, set_radius = ft.use_state(SIZES[1][0])
    trouble, set_trouble = ft.use_state("")
    if desk is None:
        return no_photo("Bark")
    kept = desk.photo.bark

    def tap(place: Place, size: str = radius) -> None:
        if desk.pixels is None:
            return
        found = bark_of(desk.pixels, desk.photo, place, float(size))
        set_trouble("" if found else CANNOT)
        if found is not None:
            reading = kept_bark(found, place, float(size))
            desk.keep(evolve(desk.photo, bark=reading), "Bark kept.")

    def resize(size: str) -> None:
        set_radius(size)
        if kept is not None:
            tap(kept.at, size)

    def move(by: Place) -> None:
        x, y = kept.at if kept else (0.5, 0.5)
        tap(inside(x + by[0], y + by[1]))

    picture = MarkedPicture(
        desk.src,
        f"Photo of {desk.batch.name}. "
        + ("A patch of bark is marked." if kept else "No bark is marked."),
        desk.ratio,
        most_height(),
        rings=[Ring(kept.at, kept.radius)] if kept else [],
        on_tap=tap,
    )
    body: list[ft.Control] = []
    if trouble:
        body.append(panels.notice(trouble, "attention"))
    if kept is None:
        body.append(words.body("Tap the bark where it looks as most of it does."))
    elif desk.pixels is not None:
        body.append(_colour(desk, bark_of(desk.pixels, desk.photo, kept.at, kept.radius)))
    if kept is not None:
        body.append(_earlier(desk, kept.lab))
        body += _trend(desk)
    body += light_notices(desk.photo)
    body.append(fields.choice("Patch", SIZES, radius, resize))
    body.append(arrows(move, "Patch"))
    return desk_screen(
        desk,
        "bark",
        picture,
        body,
        main=Act(
            "To the wrap decision",
            lambda: desk.bench.go(f"/journal/{desk.batch.id}/wrap"),
            icon=ft.Icons.CALL_SPLIT,
        ),
    )


def _colour(desk: Desk, bark: Bark | None) -> ft.Control:
    if bark is None:
        return panels.notice(CANNOT, "attention")
    said: list[ft.Control] = [
        ft.Row(
            [
                swatch(bark.lab, 64),
                ft.Column(
                    [
                        words.number(bark.words[:1].upper() + bark.words[1:]),
                        words.small(lab_told(bark.lab)),
                    ],
                    spacing=2,
                    expand=True,
                ),
            ],
            spacing=12,
        ),
        words.small(
            f"{sure(bark.confidence)[:1].upper()}{sure(bark.confidence)[1:]} · "
            f"{100.0 - bark.used_percent:.0f} % of the patch left out as glare or gaps"
        ),
    ]
    if bark.says:
        said.append(words.body(bark.says))
    return panels.panel(said, title="The bark now")


def _earlier(desk: Desk, lab: Triple) -> ft.Control:
    found = earlier_bark(desk.bench, desk.batch, lab)
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


def _trend(desk: Desk) -> list[ft.Control]:
    entries = desk.bench.entries(desk.batch.id)
    told = bark_trend(desk.batch, in_record(desk.bench.photos(desk.batch.id), entries))
    if told is None:
        return [words.small("Two measured photos half an hour apart show how the bark is going.")]
    return [panels.panel([words.body(told.sentence)], title="Over this smoke")]
