"""How cured, pale and grey look wherever a photo is measured: on its line, on the bar, on its face.

Hues that meat does not have, so that they are told from it, each rimmed in black: they must be
seen on any photo, on light paper and on dark. Thickness says what colour says: the more cured,
the thicker.
"""

from collections.abc import Mapping

import flet as ft
from attrs import frozen

RIM = "#000000"
INK = "#000000"
"""Words on any of these colours; at least 4.5 to 1 by WCAG 2.2."""


@frozen
class BandLook:
    """One part: what it is called, its colour, its width on the photo and on the bar [px]."""

    name: str
    colour: str
    on_photo: float
    on_bar: float

    @property
    def rgb(self) -> tuple[int, int, int]:
        """Red, green and blue [0-255]."""
        red, green, blue = bytes.fromhex(self.colour[1:])
        return red, green, blue


CURE_LOOKS: Mapping[str, BandLook] = {
    "cured": BandLook("Cured", "#D6336C", 10.0, 52.0),
    "pale": BandLook("Pale", "#FFD43B", 6.0, 42.0),
    "grey": BandLook("Grey", "#4DABF7", 3.0, 32.0),
}


def keyed(colour: str, height: float, beside: ft.Control) -> ft.Control:
    """What is said of a part, with the part's colour and thickness before it."""
    return ft.Row(
        [
            ft.Container(
                ft.Container(width=24, height=height, bgcolor=colour, border=ft.Border.all(1, RIM)),
                width=24,
                height=24,
                alignment=ft.Alignment.CENTER,
            ),
            ft.Container(beside, expand=True),
        ],
        spacing=10,
    )
