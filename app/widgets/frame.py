"""The frame every screen stands in: a title, the room below it, one thing to do at the thumb."""

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from inspect import isawaitable
from typing import Any

import flet as ft

from app.widgets.theme import GAP, TARGET, TEXT_FONT

PLACES = (
    ("/", "Now", ft.Icons.LOCAL_FIRE_DEPARTMENT_OUTLINED, ft.Icons.LOCAL_FIRE_DEPARTMENT),
    ("/mix", "Mix", ft.Icons.SCALE_OUTLINED, ft.Icons.SCALE),
    ("/journal", "Journal", ft.Icons.MENU_BOOK_OUTLINED, ft.Icons.MENU_BOOK),
    ("/kit", "Kit", ft.Icons.HANDYMAN_OUTLINED, ft.Icons.HANDYMAN),
)


STRIP: ft.ContextProvider[Callable[[], ft.Control | None]] = ft.create_context(lambda: None)
"""What passes over every screen (a word about what was done, an offer to take it back)."""


@dataclass(frozen=True)
class Act:
    """Something to do: the words on the button and what a press does."""

    words: str
    on_press: Callable[[], object] | None = None
    icon: ft.IconData | None = None
    action: ft.ClientAction | None = None
    enabled: bool = True


def _go(index: int) -> None:
    ft.context.page.navigate(PLACES[index][0])


def _places_bar(place: str) -> ft.NavigationBar:
    return ft.NavigationBar(
        selected_index=next(i for i, entry in enumerate(PLACES) if entry[0] == place),
        destinations=[
            ft.NavigationBarDestination(icon=icon, selected_icon=chosen, label=name)
            for _, name, icon, chosen in PLACES
        ],
        bgcolor=ft.Colors.SURFACE_CONTAINER,
        indicator_color=ft.Colors.PRIMARY_CONTAINER,
        on_change=lambda e: _go(int(e.control.selected_index)),
    )


def _shape() -> ft.RoundedRectangleBorder:
    return ft.RoundedRectangleBorder(radius=10)


def _letters(size: int, weight: ft.FontWeight | None = None) -> ft.TextStyle:
    # A button's own text style does not inherit the font of the theme.
    return ft.TextStyle(size=size, weight=weight, font_family=TEXT_FONT)


def _room() -> dict[str, Any]:
    # Not a height but room round the words (20 px a line): large text makes the button grow
    # instead of being cut.
    above = (TARGET - 20) / 2
    return {
        "padding": ft.Padding(left=14, top=above, right=14, bottom=above),
        "visual_density": ft.VisualDensity.STANDARD,
    }


def _pressed(act: Act) -> Callable[[], Awaitable[None]] | None:
    if act.on_press is None:
        return None
    press = act.on_press

    async def pressed() -> None:
        done = press()
        if isawaitable(done):
            await done

    return pressed


def main_button(act: Act, *, expand: bool = True) -> ft.FilledButton:
    """The one thing to do on a screen."""
    return ft.FilledButton(
        content=act.words,
        icon=act.icon,
        action=act.action,
        expand=expand or None,
        disabled=not act.enabled,
        style=ft.ButtonStyle(
            shape=_shape(), text_style=_letters(17, ft.FontWeight.W_600), **_room()
        ),
        on_click=_pressed(act),
    )


def side_button(act: Act, *, expand: bool = False) -> ft.OutlinedButton:
    """A second thing that may be done, quieter than the first."""
    return ft.OutlinedButton(
        content=act.words,
        icon=act.icon,
        action=act.action,
        expand=expand or None,
        disabled=not act.enabled,
        style=ft.ButtonStyle(
            shape=_shape(),
            side=ft.BorderSide(1.2, ft.Colors.OUTLINE),
            text_style=_letters(16),
            **_room(),
        ),
        on_click=_pressed(act),
    )


def quiet_button(act: Act) -> ft.TextButton:
    """A word that can be pressed, for what is wanted seldom."""
    return ft.TextButton(
        content=act.words,
        icon=act.icon,
        action=act.action,
        height=48,
        disabled=not act.enabled,
        style=ft.ButtonStyle(text_style=_letters(15), shape=_shape()),
        on_click=_pressed(act),
    )


def _heading(title: str, back: str | None) -> ft.Control:
    words = ft.Semantics(
        header=True,
        heading_level=1,
        content=ft.Text(
            title, size=26, weight=ft.FontWeight.W_700, color=ft.Colors.ON_SURFACE, max_lines=3
        ),
    )
    row: list[ft.Control] = []
    if back is not None:
        row.append(
            ft.IconButton(
                icon=ft.Icon(ft.Icons.ARROW_BACK, semantics_label="Back"),
                width=48,
                height=48,
                on_click=lambda _: ft.context.page.navigate(back),
            )
        )
    row.append(ft.Container(words, expand=True))
    return ft.Container(
        ft.Row(row, vertical_alignment=ft.CrossAxisAlignment.CENTER, spacing=4),
        padding=ft.Padding(left=16 if back is None else 6, top=10, right=16, bottom=6),
    )


def _end(body: Sequence[ft.Control]) -> ft.Control:
    """The room under the last thing; where all else is text, a place the keyboard can come to.

    A list without anything to press could not be moved by keys at all.
    """
    room = ft.Container(height=GAP)
    if any(_can_be_reached(control) for control in body):
        return room
    return ft.Semantics(label="End", focusable=True, container=True, content=room)


def _can_be_reached(control: ft.BaseControl) -> bool:
    # A component is not drawn yet; those of ours all hold something to press.
    if isinstance(control, (ft.TextField, ft.Component)):
        return True
    if getattr(control, "on_click", None) or getattr(control, "action", None):
        return True
    inside = [getattr(control, "content", None), *(getattr(control, "controls", None) or ())]
    return any(_can_be_reached(one) for one in inside if isinstance(one, ft.BaseControl))


def screen(
    title: str,
    body: Sequence[ft.Control],
    *,
    place: str,
    back: str | None = None,
    main: Act | None = None,
    side: Act | None = None,
    above: ft.Control | None = None,
    can_pop: bool = True,
) -> ft.View:
    """Set a screen in its frame.

    `place` is the one of the four places it belongs to; `back` the route of the screen
    it was opened from; `main` and `side` stand at the bottom, within reach of the thumb;
    `above` stands still while the rest scrolls, so that a finger can draw on it.
    """
    acts: list[ft.Control] = []
    if side:
        acts.append(side_button(side, expand=True))
    if main:
        acts.append(main_button(main))
    inside: list[ft.Control] = [
        ft.Container(control, padding=ft.Padding(left=16, right=16, top=2, bottom=0))
        for control in body
    ]
    stand: list[ft.Control] = [
        _heading(title, back),
        *([ft.Container(above, padding=ft.Padding(left=16, right=16))] if above else []),
        ft.Column(
            [ft.Container(height=4), *inside, _end(body)],
            scroll=ft.ScrollMode.AUTO,
            expand=True,
            spacing=GAP,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        ),
    ]
    strip = ft.use_context(STRIP)()
    if strip is not None:
        stand.append(strip)
    if acts:
        stand.append(
            ft.Container(
                ft.Row(acts, spacing=10),
                padding=ft.Padding(left=16, right=16, top=10, bottom=10),
                bgcolor=ft.Colors.SURFACE,
                border=ft.Border(top=ft.BorderSide(1, ft.Colors.OUTLINE_VARIANT)),
            )
        )
    return ft.View(
        controls=[
            ft.SafeArea(
                ft.Column(stand, spacing=0, horizontal_alignment=ft.CrossAxisAlignment.STRETCH),
                expand=True,
                avoid_intrusions_bottom=False,
            )
        ],
        padding=0,
        spacing=0,
        bgcolor=ft.Colors.SURFACE,
        navigation_bar=_places_bar(place),
        can_pop=can_pop,
    )
