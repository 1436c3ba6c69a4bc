"""A photo that is marked with a finger: tapped, a line's ends dragged, an outline pulled.

Places are parts of the picture's width and height, so that they do not hang on how large the
picture happens to be drawn. Marks are white with a dark rim: they must be seen on any photo.
"""

from collections.abc import Callable, Sequence
from typing import Any

import flet as ft
import flet.canvas as cv
from attrs import frozen

from app.widgets.picture_points import Place, Points, inside, moved, nearest

USUAL_WIDTH_PX = 358.0
"""A phone's width without the margins, until the layout has told the true one."""

_DRAG_MS = 40
_PULL = 2.5  # neighbours of an outline's point that follow it
_END_PX = 13.0


@frozen
class Ring:
    """A round patch: its middle, its radius as a part of the width, a letter beside it."""

    at: Place
    radius: float
    letter: str = ""


@frozen
class Band:
    """A stretch of the line, drawn over it: from and to as parts of it, by colour and width."""

    begin: float
    end: float
    colour: str
    width: float


@ft.component
def MarkedPicture(
    src: str | bytes,
    spoken: str,
    ratio: float,
    most_height: float,
    points: Points = (),
    closed: bool = False,
    bands: Sequence[Band] = (),
    rings: Sequence[Ring] = (),
    layer: bytes | None = None,
    on_tap: Callable[[Place], object] | None = None,
    on_points: Callable[[Points], object] | None = None,
) -> ft.Control:
    """The picture with its marks.

    ratio : width over height of the photo
    points : two are a line with ends A and B, more an outline when `closed`
    layer : a picture laid over the photo, cell by cell
    on_points : told the points once a drag has ended
    """
    room, set_room = ft.use_state(USUAL_WIDTH_PX)
    dragged, set_dragged = ft.use_state(())
    held: ft.MutableRef[tuple[int, Points]] = ft.use_ref(lambda: (-1, ()))
    width = min(room, most_height * ratio)
    height = width / ratio
    shown = dragged if len(dragged) == len(points) else points

    def place(position: Any) -> Place:
        return inside(position.x / width, position.y / height)

    def begin(e: Any) -> None:
        held.current = (nearest(points, place(e.local_position), ratio), points)

    def drag(e: Any) -> None:
        index, now = held.current
        if index >= 0 and e.local_delta is not None:
            by = (e.local_delta.x / width, e.local_delta.y / height)
            held.current = (index, moved(now, index, by, _PULL if closed else 0.0))
            set_dragged(held.current[1])

    def let_go(_e: Any) -> None:
        index, now = held.current
        held.current = (-1, ())
        set_dragged(())
        if index >= 0 and on_points is not None:
            on_points(now)

    layers: list[ft.Control] = [
        ft.Image(
            src=src,
            width=width,
            height=height,
            fit=ft.BoxFit.FILL,
            gapless_playback=True,
            exclude_from_semantics=True,
            error_content=ft.Icon(ft.Icons.BROKEN_IMAGE_OUTLINED, semantics_label="not readable"),
        )
    ]
    if layer is not None:
        layers.append(
            ft.Image(
                src=layer,
                width=width,
                height=height,
                fit=ft.BoxFit.FILL,
                gapless_playback=True,
                filter_quality=ft.FilterQuality.NONE,
                exclude_from_semantics=True,
            )
        )
    shapes = _shapes(shown, closed, bands, rings, width, height)
    if shapes:
        layers.append(cv.Canvas(shapes=shapes, width=width, height=height))
    may_drag = bool(points) and on_points is not None
    touched = ft.GestureDetector(
        content=ft.Stack(layers, width=width, height=height),
        exclude_from_semantics=True,
        drag_interval=_DRAG_MS,
        on_tap_up=(lambda e: on_tap(place(e.local_position))) if on_tap else None,
        on_pan_start=begin if may_drag else None,
        on_pan_update=drag if may_drag else None,
        on_pan_end=let_go if may_drag else None,
    )
    return ft.Container(
        ft.Semantics(label=spoken, image=True, container=True, content=touched),
        alignment=ft.Alignment.CENTER,
        on_size_change=lambda e: set_room(e.width) if e.width > 1.0 else None,
    )


def _ink(colour: str, width: float) -> ft.Paint:
    return ft.Paint(
        color=colour,
        stroke_width=width,
        style=ft.PaintingStyle.STROKE,
        stroke_cap=ft.StrokeCap.ROUND,
    )


def _shapes(
    points: Points,
    closed: bool,
    bands: Sequence[Band],
    rings: Sequence[Ring],
    width: float,
    height: float,
) -> list[cv.Shape]:
    shapes: list[cv.Shape] = []
    drawn = [(x * width, y * height) for x, y in points]
    if closed and len(drawn) > 2:
        way: list[cv.Path.PathElement] = [cv.Path.MoveTo(*drawn[0])]
        way += [cv.Path.LineTo(*one) for one in drawn[1:]]
        way.append(cv.Path.Close())
        shapes += [cv.Path(way, _ink(ft.Colors.BLACK, 4.5)), cv.Path(way, _ink("#FFFFFF", 2.0))]
    elif len(drawn) == 2:
        (ax, ay), (bx, by) = drawn
        shapes += [
            cv.Line(ax, ay, bx, by, _ink(ft.Colors.BLACK, 5.0)),
            cv.Line(ax, ay, bx, by, _ink("#FFFFFF", 2.0)),
        ]
        for band in bands:
            place = [
                (ax + (bx - ax) * part, ay + (by - ay) * part) for part in (band.begin, band.end)
            ]
            flat = ft.Paint(
                color=band.colour, stroke_width=band.width, style=ft.PaintingStyle.STROKE
            )
            shapes.append(cv.Line(*place[0], *place[1], flat))
        for letter, (x, y) in zip("AB", drawn, strict=True):
            shapes += _end(x, y, letter, width, height)
    for ring in rings:
        x, y, radius = ring.at[0] * width, ring.at[1] * height, max(7.0, ring.radius * width)
        shapes += [
            cv.Circle(x, y, radius, _ink(ft.Colors.BLACK, 5.0)),
            cv.Circle(x, y, radius, _ink("#FFFFFF", 2.5)),
        ]
        if ring.letter:
            shapes.append(_letter(x, y - radius - 12.0, ring.letter))
    return shapes


def _end(x: float, y: float, letter: str, width: float, height: float) -> list[cv.Shape]:
    """A grip that leaves the place itself open to see, its letter towards the middle."""
    aside = x + 24.0 if x < width / 2.0 else x - 24.0
    return [
        cv.Circle(x, y, _END_PX, _ink(ft.Colors.BLACK, 6.0)),
        cv.Circle(x, y, _END_PX, _ink("#FFFFFF", 3.0)),
        _letter(aside, min(height - 10.0, max(10.0, y)), letter),
    ]


def _letter(x: float, y: float, letter: str) -> cv.Shape:
    return cv.Text(
        x,
        y,
        letter,
        style=ft.TextStyle(
            size=17,
            weight=ft.FontWeight.W_700,
            color="#FFFFFF",
            shadow=[ft.BoxShadow(blur_radius=4, color=ft.Colors.BLACK)],
        ),
        alignment=ft.Alignment.CENTER,
    )
