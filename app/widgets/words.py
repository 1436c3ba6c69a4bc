"""Text in the few sizes the program uses, so that large-text settings scale one thing."""

import flet as ft


def body(text: str, *, quiet: bool = False, bold: bool = False) -> ft.Text:
    """Running text."""
    return ft.Text(
        text,
        size=16,
        color=ft.Colors.ON_SURFACE_VARIANT if quiet else ft.Colors.ON_SURFACE,
        weight=ft.FontWeight.W_600 if bold else None,
    )


def small(text: str) -> ft.Text:
    """A remark under something larger."""
    return ft.Text(text, size=14, color=ft.Colors.ON_SURFACE_VARIANT)


def heading(text: str) -> ft.Control:
    """The head of a part of a screen."""
    return ft.Semantics(
        header=True,
        heading_level=2,
        content=ft.Text(text, size=18, weight=ft.FontWeight.W_700, color=ft.Colors.ON_SURFACE),
    )


def number(text: str, *, large: bool = False) -> ft.Text:
    """A result: big, and set flush right by whoever places it."""
    return ft.Text(
        text,
        size=30 if large else 22,
        weight=ft.FontWeight.W_700,
        color=ft.Colors.ON_SURFACE,
        text_align=ft.TextAlign.RIGHT,
    )
