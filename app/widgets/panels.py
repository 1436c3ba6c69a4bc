"""Panels of paper, rows of figures, cautions, and the sheet that opens a working."""

from collections.abc import Callable, Sequence
from typing import Literal

import flet as ft

from app.cure.working import Working
from app.widgets import words
from app.widgets.theme import GAP, TARGET

Tone = Literal["note", "attention", "danger", "done"]

_TONES = {
    "note": (ft.Colors.SURFACE_CONTAINER_HIGH, ft.Colors.ON_SURFACE, ft.Icons.INFO_OUTLINE),
    "attention": (
        ft.Colors.SECONDARY_CONTAINER,
        ft.Colors.ON_SECONDARY_CONTAINER,
        ft.Icons.WARNING_AMBER,
    ),
    "danger": (ft.Colors.ERROR_CONTAINER, ft.Colors.ON_ERROR_CONTAINER, ft.Icons.BLOCK),
    "done": (
        ft.Colors.TERTIARY_CONTAINER,
        ft.Colors.ON_TERTIARY_CONTAINER,
        ft.Icons.CHECK_CIRCLE_OUTLINE,
    ),
}
_SPOKEN = {"note": "", "attention": "Attention: ", "danger": "Stop: ", "done": "Done: "}


def panel(controls: Sequence[ft.Control], *, title: str | None = None) -> ft.Control:
    """A raised sheet of paper holding what belongs together."""
    inside: list[ft.Control] = [words.heading(title)] if title else []
    return ft.Container(
        ft.Column(
            inside + list(controls),
            spacing=10,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        ),
        bgcolor=ft.Colors.SURFACE_CONTAINER_LOW,
        border=ft.Border.all(1, ft.Colors.OUTLINE_VARIANT),
        border_radius=12,
        padding=14,
    )


def stack(controls: Sequence[ft.Control]) -> ft.Control:
    """Things below each other that may come and go without moving what stands after them."""
    return ft.Column(
        list(controls), spacing=GAP, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
    )


def notice(text: str, tone: Tone = "note") -> ft.Control:
    """A sentence that must be seen: its mark and its words say what kind, not colour alone."""
    ground, ink, icon = _TONES[tone]
    return ft.Container(
        ft.Row(
            [
                ft.Icon(icon, color=ink, size=22),
                ft.Text(
                    text,
                    color=ink,
                    size=15,
                    expand=True,
                    semantics_label=_SPOKEN[tone] + text,
                ),
            ],
            vertical_alignment=ft.CrossAxisAlignment.START,
            spacing=10,
        ),
        bgcolor=ground,
        border_radius=10,
        padding=12,
    )


def cautions(texts: Sequence[str]) -> list[ft.Control]:
    """The usual cautions of a decision, in one sheet so that each is read and none is a shout."""
    if not texts:
        return []
    if len(texts) == 1:
        return [notice(texts[0], "attention")]
    ground, ink, icon = _TONES["attention"]
    rows: list[ft.Control] = [
        ft.Row(
            [
                ft.Icon(icon, color=ink, size=22),
                ft.Text("Take care", color=ink, size=16, weight=ft.FontWeight.W_700),
            ],
            spacing=10,
        ),
        *(
            ft.Text(one, color=ink, size=15, semantics_label=_SPOKEN["attention"] + one)
            for one in texts
        ),
    ]
    return [
        ft.Container(
            ft.Column(rows, spacing=10, horizontal_alignment=ft.CrossAxisAlignment.STRETCH),
            bgcolor=ground,
            border_radius=10,
            padding=12,
        )
    ]


def figure(
    name: str,
    value: str,
    *,
    note: str = "",
    on_open: Callable[[], object] | None = None,
    large: bool = False,
) -> ft.Control:
    """A named result in one line; a press opens how it was worked out."""
    # Name and value share a line where they fit; a long value, or large text, takes the next.
    told: list[ft.Control] = [
        ft.Row(
            [words.body(name), *([words.number(value, large=large)] if value else [])],
            wrap=True,
            alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
            vertical_alignment=ft.CrossAxisAlignment.CENTER,
            spacing=8,
            run_spacing=0,
        )
    ]
    if note:
        told.append(words.small(note))
    row = ft.Row(
        [
            ft.Column(
                told,
                spacing=2,
                expand=True,
                horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
            ),
            ft.Icon(ft.Icons.CHEVRON_RIGHT, size=20, color=ft.Colors.ON_SURFACE_VARIANT)
            if on_open is not None
            else ft.Container(width=0),
        ],
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
        spacing=8,
    )
    box = ft.Container(
        row,
        padding=ft.Padding(left=2, top=4, right=0, bottom=4),
        ink=on_open is not None,
        border_radius=8,
        on_click=(lambda _: on_open()) if on_open is not None else None,
    )
    if on_open is not None:
        return ft.MergeSemantics(box)
    return box


def door(
    title: str, summary: str, on_press: Callable[[], object], icon: ft.IconData | None = None
) -> ft.Control:
    """A row that leads to another screen and says what is there."""
    return pressable(
        ft.Row(
            [
                *([ft.Icon(icon, size=24, color=ft.Colors.PRIMARY)] if icon else []),
                ft.Column(
                    [words.body(title, bold=True), words.small(summary)], spacing=1, expand=True
                ),
                ft.Icon(ft.Icons.CHEVRON_RIGHT, size=20, color=ft.Colors.ON_SURFACE_VARIANT),
            ],
            spacing=12,
        ),
        on_press,
    )


def line() -> ft.Control:
    """A thin rule between rows."""
    return ft.Divider(height=1, thickness=1, color=ft.Colors.OUTLINE_VARIANT)


def pressable(
    content: ft.Control, on_press: Callable[[], object], *, label: str | None = None
) -> ft.Control:
    """A row or card that opens something."""
    box = ft.Container(
        content,
        ink=True,
        border_radius=12,
        padding=12,
        bgcolor=ft.Colors.SURFACE_CONTAINER_LOW,
        border=ft.Border.all(1, ft.Colors.OUTLINE_VARIANT),
        on_click=lambda _: on_press(),
    )
    return ft.MergeSemantics(ft.Semantics(label=label, content=box, button=True) if label else box)


def step_button(icon: ft.IconData, spoken: str, on_press: Callable[[], object]) -> ft.Control:
    """A step up or down beside a number."""
    return ft.IconButton(
        icon=ft.Icon(icon, semantics_label=spoken),
        width=TARGET,
        height=TARGET,
        on_click=lambda _: on_press(),
        style=ft.ButtonStyle(side=ft.BorderSide(1.2, ft.Colors.OUTLINE)),
    )


def pressable_plain(
    content: ft.Control, on_press: Callable[[], object], *, label: str
) -> ft.Control:
    """A part of a panel that opens something; read out as `label`."""
    return ft.MergeSemantics(
        ft.Semantics(
            label=label,
            button=True,
            content=ft.Container(
                ft.Row(
                    [
                        ft.Semantics(
                            exclude_semantics=True,
                            content=ft.Container(content, expand=True),
                            expand=True,
                        ),
                        ft.Icon(ft.Icons.CHEVRON_RIGHT, color=ft.Colors.ON_SURFACE_VARIANT),
                    ],
                    spacing=8,
                ),
                ink=True,
                border_radius=8,
                padding=ft.Padding(left=2, top=4, right=0, bottom=4),
                on_click=lambda _: on_press(),
            ),
        )
    )


def empty(what: str, todo: str) -> ft.Control:
    """An empty place that says what belongs in it and what to do."""
    return ft.Container(
        ft.Column(
            [words.body(what, bold=True), words.body(todo, quiet=True)],
            spacing=6,
        ),
        padding=ft.Padding(left=6, top=24, right=6, bottom=24),
    )


def working_view(working: Working) -> list[ft.Control]:
    """How a number was worked out: formula, the numbers put in, source, what it leaves open."""
    return [
        panel(
            [
                ft.Container(
                    words.number(working.result, large=True), alignment=ft.Alignment.CENTER_RIGHT
                ),
                ft.Text(
                    working.formula,
                    size=16,
                    weight=ft.FontWeight.W_600,
                    color=ft.Colors.ON_SURFACE,
                    selectable=True,
                ),
            ],
        ),
        panel([figure(name, value) for name, value in working.inputs], title="Numbers put in"),
        panel([words.body(working.source)], title="Source"),
        *(
            [panel([words.body(working.limits)], title="What it does not know")]
            if working.limits
            else []
        ),
    ]


def row_of(controls: Sequence[ft.Control]) -> ft.Control:
    """Things that stand beside each other and wrap when the text is large."""
    return ft.Row(list(controls), wrap=True, spacing=8, run_spacing=8)


def fold(
    title: str,
    summary: str,
    controls: Sequence[ft.Control],
    *,
    is_open: bool,
    on_toggle: Callable[[], object],
) -> ft.Control:
    """A part that is folded away behind a line saying what it holds now."""
    head = ft.TextButton(
        content=ft.Row(
            [
                ft.Column(
                    [
                        ft.Text(
                            title,
                            size=16,
                            weight=ft.FontWeight.W_600,
                            color=ft.Colors.ON_SURFACE,
                        ),
                        words.small(summary),
                    ],
                    spacing=1,
                    expand=True,
                ),
                ft.Icon(
                    ft.Icons.EXPAND_LESS if is_open else ft.Icons.EXPAND_MORE,
                    color=ft.Colors.ON_SURFACE_VARIANT,
                    semantics_label="open" if is_open else "folded",
                ),
            ],
            spacing=8,
        ),
        style=ft.ButtonStyle(
            padding=ft.Padding(left=14, top=10, right=14, bottom=10),
            shape=ft.RoundedRectangleBorder(radius=12),
        ),
        on_click=lambda _: on_toggle(),
    )
    inside: list[ft.Control] = [head]
    if is_open:
        inside.append(
            ft.Container(
                ft.Column(
                    list(controls),
                    spacing=12,
                    horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
                ),
                padding=ft.Padding(left=14, top=2, right=14, bottom=14),
            )
        )
    return ft.Container(
        ft.Column(inside, spacing=0, horizontal_alignment=ft.CrossAxisAlignment.STRETCH),
        bgcolor=ft.Colors.SURFACE_CONTAINER_LOW,
        border=ft.Border.all(1, ft.Colors.OUTLINE_VARIANT),
        border_radius=12,
    )
