"""The one screen of a window that does not have the journal."""

from collections.abc import Awaitable, Callable

import flet as ft

from app.widgets import words
from app.widgets.theme import TARGET


def held_view(
    says: str, use_it_here: Callable[[], Awaitable[None]] | None, press: str = "Use it here"
) -> ft.View:
    """Say where the journal is, and offer to go on here."""

    async def pressed(_: ft.Event[ft.Button]) -> None:
        if use_it_here is not None:
            await use_it_here()

    inside: list[ft.Control] = [
        ft.Text("Brinewright", size=26, weight=ft.FontWeight.W_700, color=ft.Colors.ON_SURFACE),
        words.body(says),
    ]
    if use_it_here is not None:
        inside.append(ft.FilledButton(content=press, height=TARGET, on_click=pressed))
    return ft.View(
        controls=[
            ft.SafeArea(
                ft.Container(ft.Column(inside, spacing=16), padding=24),
            )
        ],
        bgcolor=ft.Colors.SURFACE,
    )
