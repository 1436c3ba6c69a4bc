"""A photo on the screen, by its address: lists never carry the bytes."""

import flet as ft


def thumbnail(src: str | bytes | None, spoken: str, *, size: int = 72) -> ft.Control:
    """A small square picture, or its empty place."""
    if not src:
        return ft.Container(
            ft.Icon(ft.Icons.PHOTO_CAMERA_OUTLINED, color=ft.Colors.OUTLINE, size=28),
            width=size,
            height=size,
            bgcolor=ft.Colors.SURFACE_CONTAINER_HIGH,
            border_radius=8,
            alignment=ft.Alignment.CENTER,
        )
    return ft.Image(
        src=src,
        width=size,
        height=size,
        fit=ft.BoxFit.COVER,
        border_radius=8,
        semantics_label=spoken,
        error_content=ft.Icon(ft.Icons.BROKEN_IMAGE_OUTLINED, semantics_label="not readable"),
    )


def picture(src: str | bytes, spoken: str, *, height: int | None = None) -> ft.Control:
    """A photo as wide as the screen lets it be."""
    return ft.Image(
        src=src,
        height=height,
        fit=ft.BoxFit.CONTAIN,
        border_radius=10,
        semantics_label=spoken,
        gapless_playback=True,
        error_content=ft.Icon(ft.Icons.BROKEN_IMAGE_OUTLINED, semantics_label="not readable"),
    )


Drawn = tuple[str | bytes, float]
"""A photo's address and its width over its height."""

MOST_HEIGHT_PX = 460.0


def side_by_side(left: Drawn, right: Drawn, factor: float, room: float, spoken: str) -> ft.Control:
    """Two photos beside each other, the right one drawn `factor` times as wide."""
    widest = min(
        (room - 6.0) / (1.0 + factor),
        MOST_HEIGHT_PX * left[1],
        MOST_HEIGHT_PX * right[1] / factor,
    )
    shown: list[ft.Control] = [
        _drawn(src, wide, wide / ratio)
        for (src, ratio), wide in ((left, widest), (right, widest * factor))
    ]
    row = ft.Row(
        shown,
        spacing=6,
        alignment=ft.MainAxisAlignment.CENTER,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )
    return ft.Semantics(label=spoken, image=True, container=True, content=row)


def over_each_other(
    left: Drawn, right: Drawn, factor: float, room: float, part: float, spoken: str
) -> ft.Control:
    """Two photos in one place: the left one up to `part` of the width, the right one beyond.

    Their middles lie on each other.
    """
    high = max(1.0 / left[1], factor / right[1])
    unit = min(room / max(1.0, factor), MOST_HEIGHT_PX / high)
    width, height = unit * max(1.0, factor), unit * high
    edge = width * part

    def placed(photo: Drawn, wide: float, shift: float) -> ft.Image:
        tall = wide / photo[1]
        image = _drawn(photo[0], wide, tall)
        image.left, image.top = (width - wide) / 2.0 - shift, (height - tall) / 2.0
        return image

    def window(image: ft.Image, left_px: float, wide: float) -> ft.Control:
        return ft.Stack(
            [image],
            left=left_px,
            top=0,
            width=max(1.0, wide),
            height=height,
            clip_behavior=ft.ClipBehavior.HARD_EDGE,
        )

    whole = ft.Stack(
        [
            window(placed(left, unit, 0.0), 0.0, edge),
            window(placed(right, unit * factor, edge), edge, width - edge),
            ft.Container(left=edge - 2.0, top=0, width=4, height=height, bgcolor="#FFFFFF"),
        ],
        width=width,
        height=height,
    )
    return ft.Semantics(
        label=spoken,
        image=True,
        container=True,
        content=ft.Row([whole], alignment=ft.MainAxisAlignment.CENTER),
    )


def _drawn(src: str | bytes, width: float, height: float) -> ft.Image:
    return ft.Image(
        src=src,
        width=width,
        height=height,
        fit=ft.BoxFit.FILL,
        gapless_playback=True,
        exclude_from_semantics=True,
        error_content=ft.Icon(ft.Icons.BROKEN_IMAGE_OUTLINED, semantics_label="not readable"),
    )
