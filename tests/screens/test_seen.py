"""What keeps someone from using a screen is found: things without a name, things too low."""

from collections.abc import Callable
from typing import Any

import flet as ft

from tests.screens.harness import Mounted


def press() -> None:
    """Does nothing; it is enough that it could be called."""


def shown(mount: Callable[..., Mounted], controls: list[Any]) -> Mounted:
    @ft.component
    def Shown() -> ft.View:
        return ft.View(route="/shown", controls=controls)

    return mount(Shown)


def test_what_has_no_name_is_listed(mount: Callable[..., Mounted]) -> None:
    there = shown(
        mount,
        [
            ft.IconButton(icon=ft.Icons.ADD, tooltip="Add", on_click=press),
            ft.TextField(hint_text="Salt"),
            ft.Container(ft.Icon(ft.Icons.ADD), on_click=press),
            ft.Dropdown(label="Cut", options=[ft.DropdownOption(key="flat")]),
            ft.Switch(),
            ft.Slider(label="{value}"),
            ft.Semantics(
                label="A picture", exclude_semantics=True, content=ft.TextButton(content="Open")
            ),
        ],
    )
    kinds = [one.split()[1] for one in there.unnamed()]
    assert kinds == [
        "IconButton", "TextField", "Container", "Dropdown", "Switch", "Slider", "TextButton",
    ]  # fmt: skip
    assert all(one.startswith("/shown: ") for one in there.unnamed())


def test_what_has_a_name_is_not_listed(mount: Callable[..., Mounted]) -> None:
    there = shown(
        mount,
        [
            ft.IconButton(icon=ft.Icon(ft.Icons.ADD, semantics_label="Add"), on_click=press),
            ft.MergeSemantics(
                ft.Row([ft.Text("Covered"), ft.Switch()]),
            ),
            ft.TextField(label="Salt"),
            ft.Container(ft.Image(src="a.png", semantics_label="Bark"), on_click=press),
            ft.Semantics(
                label="Cut", container=True, content=ft.Dropdown(options=[ft.DropdownOption("a")])
            ),
            ft.Semantics(label="Fire", content=ft.Slider()),
        ],
    )
    assert there.unnamed() == []


def test_what_is_too_low_to_touch_is_listed(mount: Callable[..., Mounted]) -> None:
    there = shown(
        mount,
        [
            ft.TextButton(content="low", height=40),
            ft.Container(ft.TextButton(content="squeezed"), height=44),
            ft.TextButton(content="high", height=48),
            ft.TextButton(content="as high as its words"),
        ],
    )
    assert there.small_targets() == [
        "/shown: TextButton 'low': 40 px high",
        "/shown: TextButton 'squeezed': 44 px high",
    ]
