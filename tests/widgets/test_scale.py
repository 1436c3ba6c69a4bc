"""The scale says in words where the value stands, and its mark stands there."""

from collections.abc import Callable
from typing import Any

import flet as ft
import pytest

from app.widgets.scale import limits_scale
from tests.screens.harness import Mounted

Stand = Callable[[Callable[[], Any]], Mounted]


def scale(stand: Stand, value: float) -> Mounted:
    return stand(
        lambda: limits_scale(
            value=value,
            least=120,
            most=200,
            unit="ppm",
            least_words="too weak below",
            most_words="most allowed",
        )
    )


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (150, "150 ppm, between 120, below which it is too weak, and the most allowed, 200 ppm"),
        (120, "120 ppm, between 120, below which it is too weak, and the most allowed, 200 ppm"),
        (200, "200 ppm, between 120, below which it is too weak, and the most allowed, 200 ppm"),
        (90, "90 ppm, too weak, below 120 ppm"),
        (260, "260 ppm, above the most allowed, 200 ppm"),
    ],
)
def test_one_sentence_is_read_out_in_place_of_the_picture(
    stand: Stand, value: float, said: str
) -> None:
    assert scale(stand, value).spoken() == [said]


def test_the_ends_are_named_to_the_eye(stand: Stand) -> None:
    assert scale(stand, 150).texts() == ["too weak below 120", "most allowed 200 ppm"]


@pytest.mark.parametrize(
    ("value", "colour"),
    [
        (90, ft.Colors.SECONDARY),
        (150, ft.Colors.TERTIARY),
        (200, ft.Colors.TERTIARY),
        (260, ft.Colors.ERROR),
    ],
)
def test_the_mark_has_the_colour_of_the_part_it_stands_in(
    stand: Stand, value: float, colour: str
) -> None:
    assert scale(stand, value).control("", ft.Icon).color == colour


@pytest.mark.parametrize("value", [0, 10, 90, 150, 199, 260, 5000])
def test_the_mark_stands_where_the_value_is_on_the_line(stand: Stand, value: float) -> None:
    there = scale(stand, value)
    rows = [control for control in there.controls() if isinstance(control, ft.Row)]
    before, _, after = rows[0].controls
    parts = [part.expand for part in rows[1].controls]
    # The line ends at a quarter past the most allowed, or just past a value beyond that.
    end = max(200 * 1.25, value * 1.05)
    assert before.expand / (before.expand + after.expand) == pytest.approx(value / end, abs=0.001)
    assert parts[0] / sum(parts) == pytest.approx(120 / end, abs=0.001)
    assert sum(parts[:2]) / sum(parts) == pytest.approx(200 / end, abs=0.001)
