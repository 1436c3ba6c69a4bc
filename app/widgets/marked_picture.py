"""A photo that is marked with a finger: tapped, a line's ends dragged, an outline pulled.

Places are parts of the picture's width and height, so that they do not hang on how large the
picture happens to be drawn. Marks are white with a dark rim: they must be seen on any photo.
"""

from collections.abc import Callable, Sequence
from typing import Any

import flet as ft
import flet.canvas as cv
from attrs import evolve, frozen

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


@frozen
class Held:
    """A finger on the picture: where it came down, the point it holds, the way it went."""

    down: Place
    index: int
    before: Points
    way: Points
    points: Points = ()

    def at(self, now: Place, pull: float) -> "Held":
        """The finger come to another place."""
        by = (now[0] - self.down[0], now[1] - self.down[1])
        points = moved(self.before, self.index, by, pull) if self.index >= 0 else self.before
        way = self.way if now == self.way[-1] else (*self.way, now)
        return evolve(self, points=points, way=way)


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
    drawn: Points = (),
    on_tap: Callable[[Place], object] | None = None,
    on_points: Callable[[Points], object] | None = None,
    on_drawn: Callable[[Points], object] | None = None,
) -> ft.Control:
    """The picture with its marks.

    ratio : width over height of the photo
    points : two are a line with ends A and B, more an outline when `closed`
    layer : a picture laid over the photo, cell by cell
    drawn : a patch that was drawn by hand, closed
    on_points : told the points once a drag of one of them has ended
    on_drawn : told the way of a finger once it is lifted; drags then draw and move no point
    """
    room, set_room = ft.use_state(USUAL_WIDTH_PX)
    none_yet: Points = ()
    dragged, set_dragged = ft.use_state(none_yet)
    held: ft.MutableRef[Held | None] = ft.use_ref(lambda: None)
    width = min(room, most_height * ratio)
    height = width / ratio
    drawing = on_drawn is not None
    shown = dragged if dragged and not drawing else points

    def place(position: Any) -> Place:
        return inside(position.x / width, position.y / height)

    def touch(e: Any) -> None:
        # Where the finger came down: a drag is known as one only some way further on.
        at = place(e.local_position)
        index = -1 if drawing or not points else nearest(points, at, ratio)
        held.current = Held(at, index, points, (at,))

    def follow(e: Any) -> Held | None:
        now: Held | None = held.current
        if now is not None and e.local_position is not None:
            held.current = now = now.at(place(e.local_position), _PULL if closed else 0.0)
        return now

    def drag(e: Any) -> None:
        now = follow(e)
        if now is not None:
            set_dragged(now.way if drawing else now.points)

    def let_go(e: Any) -> None:
        now = follow(e)
        held.current = None
        set_dragged(none_yet)
        if now is None:
            return
        if on_drawn is not None:
            on_drawn(now.way)
        elif on_points is not None:
            on_points(now.points)

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
    if drawn:
        shapes += _way(drawn, True, width, height)
    if drawing and dragged:
        shapes += _way(dragged, False, width, height)
    if shapes:
        layers.append(cv.Canvas(shapes=shapes, width=width, height=height))
    may_drag = drawing or (bool(points) and on_points is not None)
    picture = ft.Stack(layers, width=width, height=height)
    # The client draws an error where a detector has nothing to detect.
    touched = (
        picture
        if on_tap is None and not may_drag
        else ft.GestureDetector(
            content=picture,
            exclude_from_semantics=True,
            drag_interval=_DRAG_MS,
            on_tap_up=(lambda e: on_tap(place(e.local_position))) if on_tap else None,
            on_pan_down=touch if may_drag else None,
            on_pan_update=drag if may_drag else None,
            on_pan_end=let_go if may_drag else None,
        )
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


def _flat(colour: str, width: float) -> ft.Paint:
    return ft.Paint(color=colour, stroke_width=width, style=ft.PaintingStyle.STROKE)


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
        shapes += _way(points, True, width, height)
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
            shapes += [
                cv.Line(*place[0], *place[1], _flat(ft.Colors.BLACK, band.width + 3.0)),
                cv.Line(*place[0], *place[1], _flat(band.colour, band.width)),
            ]
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


def _way(points: Points, closed: bool, width: float, height: float) -> list[cv.Shape]:
    """A way along points, white with a dark rim."""
    first, *others = [(x * width, y * height) for x, y in points]
    way: list[cv.Path.PathElement] = [cv.Path.MoveTo(*first)]
    way += [cv.Path.LineTo(*one) for one in others]
    if closed:
        way.append(cv.Path.Close())
    return [cv.Path(way, _ink(ft.Colors.BLACK, 4.5)), cv.Path(way, _ink("#FFFFFF", 2.0))]


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
