"""The bark's colour: a patch tapped or drawn, in figures and plain words, beside earlier bark."""

import flet as ft
from attrs import evolve

from app.colour.bark import Bark
from app.journal.records import Photo
from app.screens.photos.photo_bark_told import beside_told, swatch, trend_told
from app.screens.photos.photo_desk import (
    arrows,
    desk_screen,
    light_notices,
    most_height,
    no_photo,
    use_desk,
)
from app.screens.photos.photo_pixels import bark_again, bark_of, drawn_bark_of, kept_bark
from app.screens.photos.photo_told import how_sure, lab_told
from app.widgets import fields, panels, words
from app.widgets.frame import Act
from app.widgets.marked_picture import MarkedPicture, Ring
from app.widgets.picture_points import Place, Points, inside, round_about

SIZES = (("0.02", "Small"), ("0.045", "Middle"), ("0.09", "Large"))
"""Radius of the patch as a part of the width."""

CANNOT = "This place is too dark or blown out to hold a colour: tap another, or use more light."
LEAST_DRAWN = 0.012
"""A way that reaches no further, as a part of the width, was a tap of a finger that slid."""


@ft.component
def BarkScreen() -> ft.View:
    """Tap the bark or draw a patch of it; its colour is kept at once."""
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

    def draw(way: Points) -> None:
        if desk.pixels is None:
            return
        middle, reach = round_about(way)
        if reach < LEAST_DRAWN:
            tap(middle)
            return
        try:
            found = drawn_bark_of(desk.pixels, desk.photo, way)
        except ValueError as wrong:
            set_trouble(str(wrong))
            return
        set_trouble("" if found else CANNOT)
        if found is not None:
            reading = kept_bark(found, middle, reach, way)
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
        rings=[Ring(kept.at, kept.radius)] if kept and not kept.outline else [],
        drawn=kept.outline if kept else (),
        on_tap=tap,
        on_drawn=draw,
    )
    body: list[ft.Control] = []
    if trouble:
        body.append(panels.notice(trouble, "attention"))
    if kept is None:
        body.append(words.body("Tap the bark where it looks as most of it does, or draw round it."))
    elif desk.pixels is not None:
        body.append(_colour(desk.photo, bark_again(desk.pixels, desk.photo, kept)))
    if kept is not None:
        body.append(beside_told(desk.bench, desk.batch, kept.lab))
        body += trend_told(desk.bench, desk.batch, asks=True)
    body += light_notices(desk.photo)
    size = "" if kept is not None and kept.outline else radius
    body.append(fields.choice("Patch", SIZES, size, resize))
    body.append(words.small("Or draw one: go round the bark with a finger."))
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


def _colour(photo: Photo, bark: Bark | None) -> ft.Control:
    if bark is None:
        return panels.notice(CANNOT, "attention")
    told = how_sure(photo, bark.confidence)
    name = words.number(bark.words[:1].upper() + bark.words[1:])
    name.text_align = ft.TextAlign.START
    said: list[ft.Control] = [
        ft.Row(
            [
                swatch(bark.lab, 64),
                ft.Column(
                    [
                        name,
                        words.small(lab_told(bark.lab)),
                    ],
                    spacing=2,
                    expand=True,
                ),
            ],
            spacing=12,
        ),
        words.small(
            f"{told[:1].upper()}{told[1:]} · "
            f"{100.0 - bark.used_percent:.0f} % of the patch left out as glare or gaps"
        ),
    ]
    if bark.says:
        said.append(words.body(bark.says))
    return panels.panel(said, title="The bark now")
