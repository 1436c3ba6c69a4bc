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
