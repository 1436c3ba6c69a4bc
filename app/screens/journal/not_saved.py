"""That what stands in a form was kept as it is, but is no part of the record yet."""

from collections.abc import Callable
from typing import Literal

import flet as ft

from app.journal.wall import say_wall
from app.screens.bench import Bench, use_bench
from app.widgets import words
from app.widgets.frame import Act, quiet_button


def use_found(name: str) -> tuple[bool, Callable[[bool], None]]:
    """Whether a form's draft was there when the form was opened, and what says so or no longer.

    Said of what was found, not of each key.
    """
    bench = use_bench()
    found, set_found = ft.use_state(name if name in bench.drafts else "")
    return bool(name) and found == name, lambda is_there: set_found(name if is_there else "")


Until = Literal["save it", "start it", "start over"]
_NOT_YET: dict[Until, str] = {
    "save it": "not saved yet",
    "start it": "not started yet",
    "start over": "",
}


def not_saved(
    kept: bool, start_over: Callable[[], object], when: str = "", until: Until = "save it"
) -> list[ft.Control]:
    """The word of it, with the way out; `when` says when it was typed, such as "today 14:05"."""
    if not kept:
        return []
    told = ", ".join(one for one in (f"typed {when}" if when else "", _NOT_YET[until]) if one)
    # Not by `capitalize`, which makes the names of days and months small.
    begins = f"{told[:1].upper()}{told[1:]}. " if told else ""
    says = f"{begins}It is kept here until you {until}."
    return [
        ft.Row(
            [
                ft.Container(words.small(says), expand=True),
                quiet_button(Act("Start over", start_over)),
            ],
            vertical_alignment=ft.CrossAxisAlignment.CENTER,
        )
    ]


def when_typed(bench: Bench, typed: str) -> str:
    """When a draft was typed, as it is said; empty when it was not."""
    return say_wall(typed, bench.wall()) if typed else ""
