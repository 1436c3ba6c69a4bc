"""What was typed or scored and is not saved yet: kept when its screen is left, until it is.

Those of a record's forms outlive the program too; see `journal/kept_forms.py`.
"""

from collections.abc import Callable
from typing import Any, TypeVar

import flet as ft
from attrs import evolve

from app.screens.bench import use_bench
from app.screens.journal.kept_forms import keep_form

Kept = TypeVar("Kept")


def use_draft(
    name: str, begin: Callable[[], Kept], resume: Callable[[Kept], Kept] | None = None
) -> tuple[Kept, Callable[..., None], Callable[[], None]]:
    """A draft by its name, begun anew when there is none.

    `resume` fits a kept draft to what was saved since; without a name nothing outlives the
    screen. Gives back the draft, what changes fields of it, and what drops it once it is saved.
    """
    bench = use_bench()
    held: Any = ft.use_ref(lambda: dict[str, Any]())
    drafts: dict[str, Any] = bench.drafts if name else held.current

    def start() -> Kept:
        kept: Any = drafts.get(name)
        if kept is None:
            return begin()
        if resume is not None:
            drafts[name] = kept = resume(kept)
        return kept  # type: ignore[no-any-return]

    state: tuple[Any, Callable[[Any], None]] = ft.use_state(lambda: (name, start()))
    (of, drawn), draw = state
    # Another address of the same screen is another draft.
    shown: Any = drawn if of == name else start()

    def change(**changes: Any) -> None:
        # By the kept one, not the one last drawn: two changes may come between two drawings.
        last = drafts.get(name)
        now = evolve(shown if last is None else last, **changes)
        drafts[name] = now
        draw((name, now))

    def drop() -> None:
        drafts.pop(name, None)
        # At once: what was saved must not come back as a draft.
        if name:
            keep_form(bench.shelf, name, None)

    return shown, change, drop
