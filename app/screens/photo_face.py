"""The whole cut face: its outline found and put right, its shares, mended by touch."""

import asyncio
from collections.abc import Callable

import flet as ft
from attrs import evolve, frozen

from app.colour.cell_classes import BARK, BOARD, CURED, FAT, GREY, PALE
from app.colour.face import CutFace
from app.colour.mending import mended
from app.screens.photo_desk import (
    Desk,
    desk_screen,
    light_notices,
    most_height,
    no_photo,
    use_desk,
)
from app.screens.photo_pixels import face_of, kept_face
from app.screens.photo_told import sure
from app.widgets import fields, panels, words
from app.widgets.cell_layer import Rgba, cell_layer
from app.widgets.frame import Act, side_button
from app.widgets.marked_picture import MarkedPicture
from app.widgets.picture_points import Place, Points, swollen

KINDS = (
    ("cured", "Cured", CURED),
    ("pale", "Pale", PALE),
    ("grey", "Grey", GREY),
    ("fat", "Fat", FAT),
    ("bark", "Bark", BARK),
)
# Laid over the photo: hues that meat does not have, so that they are told from it.
_COLOURS: dict[int, Rgba] = {
    CURED: (214, 51, 108, 150),
    PALE: (255, 212, 59, 150),
    GREY: (77, 171, 247, 160),
    FAT: (255, 255, 255, 150),
    BARK: (32, 201, 151, 150),
}
_ALONE: Rgba = (0, 240, 255, 190)
_NUMBERS = {key: number for key, _, number in KINDS} | {"board": BOARD}

TOUCH_RADIUS = 0.02
"""How far a mending touch reaches, as a part of the width."""


@frozen(eq=False)
class Seen:
    """A measured face, and whether the cook has mended it."""

    photo_id: str
    face: CutFace
    by_hand: bool = False


@ft.component
def FaceScreen() -> ft.View:
    """Measure, look at the overlay, mend."""
    desk = use_desk()
    none_yet: Seen | None = None
    seen, set_seen = ft.use_state(none_yet)
    show, set_show = ft.use_state("all")
    brush, set_brush = ft.use_state("none")
    if desk is None:
        return no_photo("Whole face")
    pixels = desk.pixels
    seen = seen if seen is not None and seen.photo_id == desk.photo.id else None
    face = seen.face if seen else None

    async def measure(outline: Points = ()) -> None:
        if pixels is None:
            return
        desk.bench.show(busy="Looking at the whole face …", said="", undo=None)
        await asyncio.sleep(0.02)  # lets the word be drawn before the work begins
        try:
            found = face_of(pixels, desk.photo, outline)
        except ValueError as wrong:
            desk.bench.show(busy="", said=str(wrong), undo=None)
            return
        desk.bench.show(busy="")
        keep(Seen(desk.photo.id, found))

    def keep(new: Seen) -> None:
        set_seen(new)
        if pixels is not None and new.face.known:
            kept = kept_face(pixels, new.face, new.by_hand)
            desk.keep(evolve(desk.photo, face=kept))

    def touch(at: Place) -> None:
        if face is None or not face.known or pixels is None or brush == "none":
            return
        x, y = pixels.spot(at)
        try:
            put_right = mended(face, x, y, TOUCH_RADIUS * pixels.width, _NUMBERS[brush])
        except ValueError as wrong:
            desk.bench.show(said=str(wrong), undo=None)
            return
        keep(Seen(desk.photo.id, put_right, by_hand=True))

    outline: Points = ()
    if face is not None and pixels is not None:
        outline = tuple(pixels.place(point) for point in face.outline)
    picture = MarkedPicture(
        desk.src,
        f"The cut face of {desk.batch.name}" + (", its parts laid over it" if face else ""),
        desk.ratio,
        most_height(),
        points=outline,
        closed=True,
        layer=_layer(face, show),
        on_tap=touch,
        on_points=(lambda points: _again(measure, points)) if brush == "none" else None,
    )
    body: list[ft.Control] = []
    if face is None:
        body.append(
            words.body(
                "Lay the slice flat on a plain board, fill the picture with it, then measure."
            )
        )
        body += _kept(desk)
    elif not face.known:
        body.append(panels.notice(face.says, "attention"))
    else:
        assert seen is not None
        body += _shares(seen)
        body += _overlay(show, set_show, brush, set_brush)
    if outline:
        body.append(_outline(measure, outline))
    body += light_notices(desk.photo)
    return desk_screen(
        desk,
        "face",
        picture,
        body,
        main=Act(
            "Measure the face" if face is None else "Find the outline anew",
            measure,
            icon=ft.Icons.CENTER_FOCUS_STRONG,
            enabled=pixels is not None,
        ),
    )


def _again(measure: Callable[[Points], object], points: Points) -> None:
    ft.context.page.run_task(measure, points)  # type: ignore[arg-type]


def _layer(face: CutFace | None, show: str) -> bytes | None:
    if face is None or not face.classes or show == "none":
        return None
    colours = _COLOURS if show == "all" else {_NUMBERS[show]: _ALONE}
    return cell_layer(face.classes, face.columns, face.rows, colours)


def _shares(seen: Seen) -> list[ft.Control]:
    shares = seen.face.shares
    rows: list[ft.Control] = [
        panels.figure(name, f"{shares[key]:.0f} %", large=key == "grey") for key, name, _ in KINDS
    ]
    rows.append(panels.figure("How sure", sure(seen.face.confidence)))
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


def _kept(desk: Desk) -> list[ft.Control]:
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
            "A touch marks it as",
            [("none", "Nothing"), *names, ("board", "Not the slice")],
            brush,
            set_brush,
        ),
        words.small(
            "Drag the outline where it runs wrong. With a part chosen, touch what was taken for "
            "another."
        ),
    ]


def _outline(measure: Callable[[Points], object], outline: Points) -> ft.Control:
    return panels.row_of(
        [
            side_button(Act("Outline wider", lambda: measure(swollen(outline, 1.03)))),
            side_button(Act("Outline narrower", lambda: measure(swollen(outline, 0.97)))),
        ]
    )
