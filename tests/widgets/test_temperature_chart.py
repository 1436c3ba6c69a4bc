"""The stages' numbers stand apart above the chart, however close the stages lie."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import flet as ft
import pytest

from app.widgets.temperature_chart import Mark, Series, TemperatureChart
from tests.screens.harness import Mounted
from tests.screens.seen import words_in

Stand = Callable[[Callable[[], Any]], Mounted]


@pytest.mark.parametrize("minutes", [(0, 0, 1, 2), tuple(range(0, 1200, 100)), (600,) * 30])
def test_each_number_has_a_place_of_its_own(stand: Stand, minutes: tuple[int, ...]) -> None:
    marks = [Mark(at, number) for number, at in enumerate(minutes, 1)]
    line = Series("Pit", ((0, 250.0), (600, 240.0)))
    screen = stand(lambda: TemperatureChart([line], marks, "°F", "A chart."))
    boxes = [
        (control, words_in(control))
        for control in screen.controls()
        if isinstance(control, ft.Container) and control.left is not None
    ]
    assert sorted(int(words[0]) for _, words in boxes) == [mark.number for mark in marks]
    for row in {box.top for box, _ in boxes}:
        in_row = sorted((box.left, box.width) for box, _ in boxes if box.top == row)
        assert all(a + wide <= b + 1e-6 for (a, wide), (b, _) in pairwise(in_row))
