"""The whole cut face: its outline found and put right, its shares, mended by touch."""

import asyncio
from collections.abc import Callable, Sequence

import flet as ft
from attrs import evolve

from app.journal.records import Photo
from app.screens.photos.photo_desk import (
    Desk,
    desk_screen,
    light_notices,
    most_height,
    no_photo,
    use_desk,
)
from app.screens.photos.photo_face_kept import (
    COLOURS,
    KINDS,
    NUMBERS,
    SeenFace,
    carried_over,
    face_again,
    kept_face,
    overlay,
    touched,
)
from app.screens.photos.photo_pixels import face_of
from app.screens.photos.photo_told import how_sure, white_doubted
from app.widgets import fields, panels, words
from app.widgets.band_looks import keyed
from app.widgets.frame import Act, side_button
from app.widgets.marked_picture import MarkedPicture
from app.widgets.picture_points import Place, Points, swollen

TOUCH_RADIUS = 0.025
"""How far a mending touch reaches, as a part of the width."""


@ft.component
def FaceScreen() -> ft.View:
    """Measure, look at the overlay, mend."""
    desk = use_desk()
    trouble, set_trouble = ft.use_state(("", ""))  # photo, why its face cannot be told
    show, set_show = ft.use_state("all")
    brush, set_brush = ft.use_state("none")
    kept = desk.photo.face if desk else None
    seen = ft.use_memo(lambda: face_again(kept), [kept])
    layer = ft.use_memo(lambda: overlay(kept, show), [kept, show])
    if desk is None:
        return no_photo("Whole face")
    pixels, photo = desk.pixels, desk.photo

    async def measure(outline: Points = ()) -> None:
        if pixels is None:
            return
        desk.bench.show(busy="Looking at the whole face …", said="", undo=None)
        await asyncio.sleep(0.02)  # lets the word be drawn before the work begins
        try:
            found = face_of(pixels, photo, outline)
        except ValueError as wrong:
            desk.bench.show(busy="", said=str(wrong), undo=None)
            return
        desk.bench.show(busy="")
        set_trouble((photo.id, "" if found.known else found.says))
        if found.known:
            face = kept_face(carried_over(found, seen), pixels.place)
            desk.keep(evolve(photo, face=face), "Face measured.")

    def paint(way: Sequence[Place]) -> None:
        if pixels is None or seen is None or kept is None:
            return
        spots = [pixels.spot(at) for at in way]
        try:
            put_right = touched(seen, spots, TOUCH_RADIUS * pixels.width, NUMBERS[brush])
        except ValueError as wrong:
            desk.bench.show(said=str(wrong), undo=None)
            return
        face = evolve(kept_face(put_right, pixels.place), outline=kept.outline)
        desk.keep(evolve(photo, face=face), f"Marked as {_WORDS[brush]}.")

    outline: Points = kept.outline if kept is not None and seen is not None else ()
    marking = seen is not None and brush != "none"
    picture = MarkedPicture(
        desk.src,
        f"The cut face of {desk.batch.name}" + (", its parts laid over it" if layer else ""),
        desk.ratio,
        most_height(),
        points=outline,
        closed=True,
        layer=layer,
        on_tap=(lambda at: paint((at,))) if marking else None,
        on_drawn=paint if marking else None,
        on_points=None if marking else lambda points: _again(measure, points),
    )
    body: list[ft.Control] = []
    if trouble[0] == photo.id and trouble[1]:
        body.append(panels.notice(trouble[1], "attention"))
    if seen is None:
        body.append(
            words.body(
                "Lay the slice flat on a plain board, fill the picture with it, then measure."
            )
        )
        body += _last(desk)
    else:
        if white_doubted(photo):
            body += light_notices(photo)
        body += _shares(photo, seen)
        body += _overlay(show, set_show, brush, set_brush)
        body.append(_outline(measure, outline))
    if seen is None or not white_doubted(photo):
        body += light_notices(photo)
    return desk_screen(
        desk,
        "face",
        picture,
        body,
        main=Act(
            "Measure the face" if seen is None else "Find the outline anew",
            lambda: _again(measure),
            icon=ft.Icons.CENTER_FOCUS_STRONG,
            enabled=pixels is not None,
        ),
    )


_WORDS = {key: name.lower() for key, name, _ in KINDS} | {"board": "not the slice"}


def _again(measure: Callable[[Points], object], points: Points = ()) -> None:
    ft.context.page.run_task(measure, points)  # type: ignore[arg-type]


def _shares(photo: Photo, seen: SeenFace) -> list[ft.Control]:
    shares = seen.face.shares
    rows: list[ft.Control] = [
        _share(name, number, f"{shares[key]:.0f} %", large=key == "grey")
        for key, name, number in KINDS
    ]
    rows.append(panels.figure("How sure", how_sure(photo, seen.face.confidence)))
    if seen.face.says:
        rows.append(words.body(seen.face.says))
    if seen.by_hand:
        rows.append(words.small("Put right by hand in places."))
    rows.append(
        words.small(
            "Shares of the face inside the outline. It sees colour, not nitrite; this slice "
            "alone, not the next one."
        )
    )
    return [panels.panel(rows, title="Of the face")]


def _share(name: str, number: int, value: str, *, large: bool) -> ft.Control:
    """A share with the colour its part has on the photo."""
    red, green, blue, _ = COLOURS[number]
    colour = f"#{red:02X}{green:02X}{blue:02X}"
    return keyed(colour, 24.0, panels.figure(name, value, large=large))


def _last(desk: Desk) -> list[ft.Control]:
    """What an earlier version kept: the shares, without the cells."""
    kept = desk.photo.face
    if kept is None:
        return []
    shares = (kept.cured_percent, kept.pale_percent, kept.grey_percent)
    told = "cured {:.0f} %, pale {:.0f} %, grey {:.0f} %".format(*shares)
    return [panels.panel([words.body(f"Last measured: {told}.")])]


def _overlay(
    show: str,
    set_show: Callable[[str], object],
    brush: str,
    set_brush: Callable[[str], object],
) -> list[ft.Control]:
    names = [(key, name) for key, name, _ in KINDS]
    return [
        fields.choice(
            "Lay over the photo",
            [("all", "All parts"), *names, ("none", "Nothing")],
            show,
            set_show,
        ),
        fields.choice(
            "A finger marks",
            [("none", "Nothing"), *names, ("board", "Not the slice")],
            brush,
            set_brush,
        ),
        words.small(
            "Drag the outline where it runs wrong. With a part chosen, touch or rub over what was "
            "taken for another."
        ),
    ]


def _outline(measure: Callable[[Points], object], outline: Points) -> ft.Control:
    return panels.row_of(
        [
            side_button(Act("Outline wider", lambda: _again(measure, swollen(outline, 1.03)))),
            side_button(Act("Outline narrower", lambda: _again(measure, swollen(outline, 0.97)))),
        ]
    )
