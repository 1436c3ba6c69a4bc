"""That what stands in a form was kept as it is, but is no part of the record yet."""

from collections.abc import Callable

import flet as ft

from app.journal.wall import say_wall
from app.screens.bench import Bench, use_bench
from app.screens.journal.begun_forms import Draft, ProbeDraft, WrapDraft
from app.widgets import words
from app.widgets.frame import Act, quiet_button


def use_found(name: str) -> tuple[bool, Callable[[bool], None]]:
    """Whether a form's draft was there when the form was opened, and what says so or no longer.

    Said of what was found, not of each key.
    """
    bench = use_bench()
    found, set_found = ft.use_state(name if name in bench.drafts else "")
    return bool(name) and found == name, lambda is_there: set_found(name if is_there else "")


def not_saved(kept: bool, start_over: Callable[[], object], when: str = "") -> list[ft.Control]:
    """The word of it, with the way out; `when` says when it was typed, such as "today 14:05"."""
    if not kept:
        return []
    says = f"Typed {when}, not saved yet." if when else "Not saved yet."
    return [
        ft.Row(
            [
                ft.Container(
                    words.small(f"{says} It is kept here until you save it."), expand=True
                ),
                quiet_button(Act("Start over", start_over)),
            ],
            vertical_alignment=ft.CrossAxisAlignment.CENTER,
        )
    ]


def when_typed(bench: Bench, draft: Draft | WrapDraft | ProbeDraft) -> str:
    """When a draft was typed, as it is said; empty when it was not."""
    return say_wall(draft.typed, bench.wall()) if draft.typed else ""
