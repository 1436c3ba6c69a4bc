"""Fields say what they are for and what is wrong; choices say which one is chosen."""

from collections.abc import Callable
from typing import Any

import flet as ft
import pytest

from app.widgets import fields
from tests.screens.harness import Mounted

Stand = Callable[[Callable[[], Any]], Mounted]
CUTS = [("flat", "Flat"), ("point", "Point"), ("whole", "Whole brisket")]


def test_a_quantity_names_its_unit_and_keeps_what_is_typed(stand: Stand) -> None:
    def weight() -> ft.Control:
        typed, set_typed = ft.use_state("")
        error = None if not typed or typed.isdigit() else f"{typed!r} is not a number."
        return fields.quantity_field("Weight", typed, set_typed, unit="kg", error=error)

    there = stand(weight)
    assert there.texts() == ["Weight (kg)"]
    there.type("Weight", "3 pounds")
    assert there.texts() == ["Weight (kg)", "3 pounds", "'3 pounds' is not a number."]
    there.type("Weight", "3")
    assert there.texts() == ["Weight (kg)", "3"]


def test_a_remark_gives_way_to_what_is_wrong(stand: Stand) -> None:
    def field(error: str | None) -> Callable[[], ft.Control]:
        return lambda: fields.quantity_field(
            "Weight", "x", lambda _: None, helper="Like 7 lb 6 oz", error=error
        )

    assert stand(field(None)).has("Like 7 lb 6 oz")
    wrong = stand(field("Not a weight."))
    assert wrong.has("Not a weight.")
    assert not wrong.has("Like 7 lb 6 oz")


@pytest.mark.parametrize(
    ("words_allowed", "keyboard"),
    [(False, ft.KeyboardType.NUMBER), (True, ft.KeyboardType.TEXT)],
)
def test_numbers_bring_up_the_keyboard_of_numbers(
    stand: Stand, words_allowed: bool, keyboard: ft.KeyboardType
) -> None:
    there = stand(
        lambda: fields.quantity_field("Weight", "", lambda _: None, words_allowed=words_allowed)
    )
    assert there.field("Weight").keyboard_type == keyboard


def test_done_on_the_keyboard_is_passed_on(stand: Stand) -> None:
    done: list[str] = []
    there = stand(
        lambda: fields.quantity_field(
            "Weight", "3", lambda _: None, on_submit=lambda: done.append("done")
        )
    )
    there.submit("Weight")
    assert done == ["done"]


def test_words_can_be_written(stand: Stand) -> None:
    def note() -> ft.Control:
        typed, set_typed = ft.use_state("")
        return fields.text_field(
            "Note", typed, set_typed, lines=3, error="Too short." if typed == "ab" else None
        )

    there = stand(note)
    there.type("Note", "ab")
    assert there.texts() == ["Note", "ab", "Too short."]


def cut() -> ft.Control:
    chosen, set_chosen = ft.use_state("flat")
    return fields.choice("Cut", CUTS, chosen, set_chosen)


def ticked(there: Mounted) -> list[str]:
    """The words on the buttons that carry a tick."""
    return [
        control.content.value
        for control in there.controls()
        if isinstance(control, ft.TextButton)
        and isinstance(control.icon, ft.Icon)
        and control.icon.icon == ft.Icons.CHECK
    ]


def test_the_chosen_one_is_ticked_and_said(stand: Stand) -> None:
    there = stand(cut)
    assert there.texts() == ["Cut", "Flat", "Point", "Whole brisket"]
    assert ticked(there) == ["Flat"]
    there.press("Point")
    assert ticked(there) == ["Point"]
    assert there.spoken() == ["Cut", "Cut: Flat", "Cut: Point, chosen", "Cut: Whole brisket"]


def test_a_choice_may_stand_without_its_name_but_is_read_out_with_it(stand: Stand) -> None:
    there = stand(lambda: fields.choice("Cut", CUTS, None, lambda _: None, show_label=False))
    assert there.texts() == ["Flat", "Point", "Whole brisket"]
    assert there.spoken()[0] == "Cut: Flat"
    assert ticked(there) == []


def test_a_score_names_its_ends_and_which_is_given(stand: Stand) -> None:
    def salt() -> ft.Control:
        given, set_given = ft.use_state(None)
        return fields.score("Salt", given, set_given, low="bland", high="far too salty")

    there = stand(salt)
    assert there.has("1 bland · 5 far too salty")
    assert ticked(there) == []
    there.press("Salt: 4")
    assert ticked(there) == ["4"]
    assert "Salt: 4, chosen" in there.spoken()


def test_every_field_has_a_name_and_can_be_touched(stand: Stand) -> None:
    there = stand(
        lambda: [
            fields.quantity_field("Weight", "", lambda _: None),
            fields.text_field("Note", "", lambda _: None),
            fields.choice("Cut", CUTS, "flat", lambda _: None),
            fields.score("Salt", 3, lambda _: None, low="bland", high="salty"),
        ]
    )
    assert there.unnamed() == []
    assert there.small_targets() == []
