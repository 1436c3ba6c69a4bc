"""One line that shows where a value stands between too weak and the most allowed."""

import flet as ft


def _segment(weight: float, colour: str, *, first: bool = False, last: bool = False) -> ft.Control:
    return ft.Container(
        expand=max(1, round(weight * 10)),
        height=14,
        bgcolor=colour,
        border_radius=ft.BorderRadius(
            top_left=7 if first else 0,
            bottom_left=7 if first else 0,
            top_right=7 if last else 0,
            bottom_right=7 if last else 0,
        ),
    )


def _at(value: float, end: float, mark: ft.Control) -> ft.Control:
    """Place `mark` so that its middle stands at `value` on a line from 0 to `end`."""
    value = min(max(value, 0.0), end)
    return ft.Row(
        [
            ft.Container(expand=max(1, round(value * 100))),
            mark,
            ft.Container(expand=max(1, round((end - value) * 100))),
        ],
        spacing=0,
        vertical_alignment=ft.CrossAxisAlignment.END,
    )


def limits_scale(
    *, value: float, least: float, most: float, unit: str, least_words: str, most_words: str
) -> ft.Control:
    """A scale from nothing past the most allowed, with the value's own mark above it.

    Shape says what colour says: the mark points down at the line, and the parts are named.
    """
    end = max(most * 1.25, value * 1.05)
    over = value > most
    under = value < least
    where = (
        f"above the most allowed, {most:g} {unit}"
        if over
        else f"too weak, below {least:g} {unit}"
        if under
        else f"between {least:g}, below which it is too weak, and the most allowed, {most:g} {unit}"
    )
    ink = ft.Colors.ERROR if over else ft.Colors.SECONDARY if under else ft.Colors.TERTIARY
    picture = ft.Column(
        [
            _at(
                value,
                end,
                ft.Icon(ft.Icons.ARROW_DROP_DOWN, color=ink, size=30),
            ),
            ft.Row(
                [
                    _segment(least, ft.Colors.SECONDARY_CONTAINER, first=True),
                    _segment(most - least, ft.Colors.TERTIARY_CONTAINER),
                    _segment(end - most, ft.Colors.ERROR_CONTAINER, last=True),
                ],
                spacing=2,
            ),
            ft.Row(
                [
                    ft.Text(
                        f"{least_words} {least:g}", size=14, color=ft.Colors.ON_SURFACE_VARIANT
                    ),
                    ft.Text(
                        f"{most_words} {most:g} {unit}",
                        size=14,
                        color=ft.Colors.ON_SURFACE_VARIANT,
                    ),
                ],
                alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
                wrap=True,
            ),
        ],
        spacing=2,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
    return ft.Semantics(
        label=f"{value:.0f} {unit}, {where}",
        exclude_semantics=True,
        container=True,
        content=picture,
    )
