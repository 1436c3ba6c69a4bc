"""Words can be read in every theme, and in full sun."""

from collections.abc import Callable, Iterator
from typing import Any

import flet as ft
import pytest

from app.widgets.theme import DARK, LIGHT, OUTDOOR, ThemeName, dress
from tests.screens.harness import Mounted

Stand = Callable[[Callable[[], Any]], Mounted]

THEMES = {"light": LIGHT, "dark": DARK, "outdoor": OUTDOOR}

# WCAG 2.2 (W3C 2023), success criterion 1.4.3 for words, and 1.4.6 (enhanced) for the outdoor
# theme, which is read in full sun; 1.4.11 for marks and edges that say something.
LEAST_FOR_WORDS = {"light": 4.5, "dark": 4.5, "outdoor": 7.0}
LEAST_FOR_MARKS = 3.0

PAPERS = (
    "surface", "surface_container_lowest", "surface_container_low", "surface_container",
    "surface_container_high", "surface_container_highest",
)  # fmt: skip
FILLS = ("primary", "secondary", "tertiary", "error")
# Running words, words of buttons, and the sentence under a field that cannot be read.
INKS = ("on_surface", "on_surface_variant", "primary", "error")
# Marks of the scale and lines of the charts, edges of fields and buttons.
MARKS = ("secondary", "tertiary", "outline")


def luminance(colour: str) -> float:
    """Relative luminance of "#RRGGBB".

    WCAG 2.2, definition of "relative luminance": the sRGB curve of IEC 61966-2-1, then
    0.2126 R + 0.7152 G + 0.0722 B.
    """

    def linear(channel: float) -> float:
        return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, definition of "contrast ratio": (L1 + 0.05) / (L2 + 0.05), the lighter first."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def worded() -> Iterator[tuple[str, str]]:
    """Every pair of a colour of words and the ground it may stand on."""
    yield from ((ink, paper) for ink in INKS for paper in PAPERS)
    for fill in FILLS:
        yield f"on_{fill}", fill
        yield f"on_{fill}_container", f"{fill}_container"
    yield "on_inverse_surface", "inverse_surface"
    yield "inverse_primary", "inverse_surface"


def too_weak(name: str, pairs: list[tuple[str, str]], least: float) -> list[str]:
    scheme = THEMES[name]
    return [
        f"{ink} on {ground}: {ratio:.2f}"
        for ink, ground in pairs
        if (ratio := contrast(getattr(scheme, ink), getattr(scheme, ground))) < least
    ]


def test_the_measure_itself() -> None:
    # WCAG 2.2: contrast runs from 1:1 to 21:1; #767676 is the lightest grey that passes on white
    # (W3C, Understanding SC 1.4.3).
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#777777", "#FFFFFF") < 4.5 <= contrast("#767676", "#FFFFFF")


@pytest.mark.parametrize("name", THEMES)
def test_words_stand_out_from_what_they_stand_on(name: str) -> None:
    assert too_weak(name, list(worded()), LEAST_FOR_WORDS[name]) == []


@pytest.mark.parametrize("name", THEMES)
def test_marks_and_edges_can_be_made_out(name: str) -> None:
    pairs = [(mark, paper) for mark in MARKS for paper in PAPERS]
    assert too_weak(name, pairs, LEAST_FOR_MARKS) == []


@pytest.mark.parametrize(
    ("name", "scheme", "mode"),
    [
        ("auto", LIGHT, ft.ThemeMode.SYSTEM),
        ("light", LIGHT, ft.ThemeMode.LIGHT),
        ("dark", LIGHT, ft.ThemeMode.DARK),
        ("outdoor", OUTDOOR, ft.ThemeMode.LIGHT),
    ],
)
def test_the_chosen_look_is_put_on_the_page(
    stand: Stand, name: ThemeName, scheme: ft.ColorScheme, mode: ft.ThemeMode
) -> None:
    page = stand(lambda: ft.Text("Brine")).page
    dress(page, name)
    assert page.theme.color_scheme == scheme
    assert page.dark_theme.color_scheme == DARK
    assert page.theme_mode == mode
