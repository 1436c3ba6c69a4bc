"""Fields for quantities and choices between a few things.

A field keeps what was typed, whatever it is; the screen parses it and hands back an
error sentence to show under it.
"""

from collections.abc import Callable, Sequence

import flet as ft

from app.widgets.theme import TARGET


def _edge() -> dict[ft.ControlState, ft.InputBorder]:
    def line(colour: str, width: float) -> ft.OutlineInputBorder:
        return ft.OutlineInputBorder(side=ft.BorderSide(width, colour), border_radius=10)

    return {
        ft.ControlState.DEFAULT: line(ft.Colors.OUTLINE, 1),
        ft.ControlState.FOCUSED: line(ft.Colors.PRIMARY, 2),
        ft.ControlState.ERROR: line(ft.Colors.ERROR, 2),
    }


# Flet's own size for the words under a field is too small for wet hands and old eyes.
_UNDER = ft.TextStyle(size=14)


def _typed(e: ft.Event[ft.TextField]) -> str:
    # What came with the event, not what the control holds: a drawing in between may have put an
    # older text there, and a quick finger would lose a key.
    return e.data if isinstance(e.data, str) else e.control.value or ""


def quantity_field(
    label: str,
    value: str,
    on_change: Callable[[str], object],
    *,
    error: str | None = None,
    helper: str | None = None,
    unit: str | None = None,
    large: bool = False,
    words_allowed: bool = False,
    autofocus: bool = False,
    on_submit: Callable[[], object] | None = None,
) -> ft.TextField:
    """A field for a number with its unit. `unit` is what a bare number means, and is shown."""
    return ft.TextField(
        label=f"{label} ({unit})" if unit else label,
        value=value,
        error=error,
        error_max_lines=4,
        error_style=_UNDER,
        helper_style=_UNDER,
        helper=helper,
        helper_max_lines=3,
        text_size=32 if large else 20,
        color=ft.Colors.ON_SURFACE,
        text_style=ft.TextStyle(weight=ft.FontWeight.W_700) if large else None,
        keyboard_type=ft.KeyboardType.TEXT if words_allowed else ft.KeyboardType.NUMBER,
        autocorrect=False,
        enable_suggestions=False,
        autofocus=autofocus,
        filled=True,
        fill_color=ft.Colors.SURFACE_CONTAINER_LOWEST,
        border=_edge(),
        content_padding=ft.Padding(left=14, top=16, right=14, bottom=16),
        on_change=lambda e: on_change(_typed(e)),
        on_submit=(lambda _: on_submit()) if on_submit else None,
    )


def text_field(
    label: str,
    value: str,
    on_change: Callable[[str], object],
    *,
    error: str | None = None,
    lines: int = 1,
    hint: str | None = None,
) -> ft.TextField:
    """A field for words."""
    return ft.TextField(
        label=label,
        value=value,
        error=error,
        error_max_lines=3,
        error_style=_UNDER,
        hint_text=hint,
        text_size=17,
        color=ft.Colors.ON_SURFACE,
        multiline=lines > 1,
        min_lines=lines if lines > 1 else None,
        max_lines=max(lines, 6) if lines > 1 else 1,
        filled=True,
        fill_color=ft.Colors.SURFACE_CONTAINER_LOWEST,
        border=_edge(),
        capitalization=ft.TextCapitalization.SENTENCES,
        on_change=lambda e: on_change(_typed(e)),
    )


def choice(
    label: str,
    options: Sequence[tuple[str, str]],
    chosen: str | None,
    on_choose: Callable[[str], object],
    *,
    show_label: bool = True,
) -> ft.Control:
    """One of a few: each its own button, the chosen one filled and ticked.

    Options are pairs of key and words. A screen reader hears "<label>: <words>, selected".
    """
    buttons: list[ft.Control] = [
        _option(label, words, key == chosen, lambda key=key: on_choose(key))  # type: ignore[misc]
        for key, words in options
    ]
    inside: list[ft.Control] = []
    if show_label:
        inside.append(
            ft.Text(label, size=15, color=ft.Colors.ON_SURFACE_VARIANT, weight=ft.FontWeight.W_600)
        )
    inside.append(ft.Row(buttons, wrap=True, spacing=8, run_spacing=8))
    return ft.Column(inside, spacing=6)


def choices(
    label: str,
    options: Sequence[tuple[str, str]],
    chosen: Sequence[str],
    on_toggle: Callable[[str], object],
) -> ft.Control:
    """Any number of a few: each its own button, the chosen ones filled and ticked."""
    return ft.Column(
        [
            ft.Text(label, size=15, color=ft.Colors.ON_SURFACE_VARIANT, weight=ft.FontWeight.W_600),
            ft.Row(
                [
                    _option(label, words, key in chosen, lambda key=key: on_toggle(key))  # type: ignore[misc]
                    for key, words in options
                ],
                wrap=True,
                spacing=8,
                run_spacing=8,
            ),
        ],
        spacing=6,
    )


def _option(label: str, words: str, selected: bool, on_press: Callable[[], object]) -> ft.Control:
    ink = ft.Colors.ON_PRIMARY_CONTAINER if selected else ft.Colors.ON_SURFACE
    return ft.TextButton(
        content=ft.Text(
            words,
            size=16,
            color=ink,
            weight=ft.FontWeight.W_700 if selected else ft.FontWeight.W_500,
            semantics_label=f"{label}: {words}" + (", chosen" if selected else ""),
        ),
        icon=ft.Icon(ft.Icons.CHECK, color=ink, size=18) if selected else None,
        style=ft.ButtonStyle(
            visual_density=ft.VisualDensity.STANDARD,
            bgcolor=ft.Colors.PRIMARY_CONTAINER if selected else ft.Colors.SURFACE_CONTAINER_LOWEST,
            side=ft.BorderSide(
                2 if selected else 1, ft.Colors.PRIMARY if selected else ft.Colors.OUTLINE
            ),
            shape=ft.RoundedRectangleBorder(radius=10),
            # Room, not a height: large text grows the button instead of being cut.
            padding=ft.Padding(left=14, right=14, top=(TARGET - 24) / 2, bottom=(TARGET - 24) / 2),
        ),
        on_click=lambda _: on_press(),
    )


def score(
    label: str,
    chosen: int | None,
    on_choose: Callable[[int], object],
    *,
    low: str,
    high: str,
) -> ft.Control:
    """A score from 1 to 5 with the ends named."""
    return ft.Column(
        [
            ft.Row(
                [
                    ft.Text(label, size=16, weight=ft.FontWeight.W_600, color=ft.Colors.ON_SURFACE),
                    ft.Text(f"1 {low} · 5 {high}", size=14, color=ft.Colors.ON_SURFACE_VARIANT),
                ],
                alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
                wrap=True,
            ),
            ft.Row(
                [
                    ft.Container(
                        _option(
                            label,
                            str(mark),
                            mark == chosen,
                            lambda mark=mark: on_choose(mark),  # type: ignore[misc]
                        ),
                        expand=True,
                    )
                    for mark in range(1, 6)
                ],
                spacing=6,
            ),
        ],
        spacing=6,
    )
