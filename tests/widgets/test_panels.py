"""Panels, notices, figures and what can be pressed: as they are read, and as they are heard."""

from collections.abc import Callable
from typing import Any, get_args

import flet as ft
import pytest

from app.cure.working import Working
from app.widgets import panels
from tests.screens.harness import Mounted

Stand = Callable[[Callable[[], Any]], Mounted]


def test_a_panel_has_a_heading(stand: Stand) -> None:
    there = stand(lambda: panels.panel([ft.Text("cold water")], title="Weigh these"))
    assert there.texts() == ["Weigh these", "cold water"]
    assert there.control("Weigh these", ft.Semantics).header


@pytest.mark.parametrize(
    ("tone", "said"),
    [
        ("note", "Keep it cold."),
        ("attention", "Attention: Keep it cold."),
        ("danger", "Stop: Keep it cold."),
        ("done", "Done: Keep it cold."),
    ],
)
def test_a_notice_says_its_kind_to_the_ear(stand: Stand, tone: panels.Tone, said: str) -> None:
    there = stand(lambda: panels.notice("Keep it cold.", tone))
    assert there.texts() == ["Keep it cold."]
    assert there.spoken() == [said]


def test_a_notice_shows_its_kind_by_more_than_colour(stand: Stand) -> None:
    marks = {
        stand(lambda tone=tone: panels.notice("Cold.", tone)).control("", ft.Icon).icon  # type: ignore[misc]
        for tone in get_args(panels.Tone)
    }
    assert len(marks) == 4


def test_a_figure_opens_how_it_was_worked_out(stand: Stand) -> None:
    opened: list[str] = []
    there = stand(
        lambda: [
            panels.figure("Salt", "75 g", note="2.5 %", on_open=lambda: opened.append("salt")),
            panels.figure("Sugar", "30 g"),
        ]
    )
    assert there.texts() == ["Salt", "75 g", "2.5 %", "Sugar", "30 g"]
    there.press("Salt")
    assert opened == ["salt"]
    with pytest.raises(AssertionError, match="Nothing says 'Sugar'"):
        there.press("Sugar")


def test_rows_that_open_something(stand: Stand) -> None:
    opened: list[str] = []
    there = stand(
        lambda: [
            panels.door("The soak", "hours and changes", lambda: opened.append("soak")),
            panels.pressable(ft.Text("Flat of May"), lambda: opened.append("flat")),
            panels.pressable_plain(
                ft.Text("▲▼"), lambda: opened.append("chart"), label="Temperatures, 14 readings"
            ),
            panels.step_button(ft.Icons.ADD, "One day more", lambda: opened.append("day")),
        ]
    )
    there.press("The soak")
    there.press("Flat of May")
    there.press("Temperatures")
    there.press("One day more")
    assert opened == ["soak", "flat", "chart", "day"]
    assert there.unnamed() == []
    assert there.small_targets() == []
    assert "▲▼" not in there.spoken()


def test_a_fold_says_what_it_holds_and_opens(stand: Stand) -> None:
    def salt() -> ft.Control:
        is_open, set_open = ft.use_state(False)
        return panels.fold(
            "Salt",
            "2.5 %",
            [ft.Text("of the meat")],
            is_open=is_open,
            on_toggle=lambda: set_open(not is_open),
        )

    there = stand(salt)
    assert there.spoken() == ["Salt", "2.5 %", "folded"]
    there.press("Salt")
    assert there.spoken() == ["Salt", "2.5 %", "open", "of the meat"]
    there.press("Salt")
    assert not there.has("of the meat")


def test_an_empty_place_says_what_to_do(stand: Stand) -> None:
    there = stand(lambda: panels.empty("No batch yet.", "Start one from a mix."))
    assert there.texts() == ["No batch yet.", "Start one from a mix."]


def test_a_working_shows_formula_numbers_source_and_limits(stand: Stand) -> None:
    working = Working(
        title="Salt",
        result="75 g",
        formula="salt = meat · share",
        inputs=(("Meat", "3000 g"), ("Share", "2.5 %")),
        source="Common practice, no source.",
        limits="Nothing is lost to the brine.",
    )
    assert stand(lambda: panels.working_view(working)).texts() == [
        "75 g", "salt = meat · share",
        "Numbers put in", "Meat", "3000 g", "Share", "2.5 %",
        "Source", "Common practice, no source.",
        "What it does not know", "Nothing is lost to the brine.",
    ]  # fmt: skip
