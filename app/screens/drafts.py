"""What was typed or scored and is not saved yet: kept when its screen is left, until it is."""

from collections.abc import Callable
from typing import Any, TypeVar

import flet as ft
from attrs import evolve

from app.screens.bench import use_bench

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
        return kept if resume is None else resume(kept)

    state: tuple[Any, Callable[[Any], None]] = ft.use_state(start)
    shown, draw = state

    def change(**changes: Any) -> None:
        # By the kept one, not the one last drawn: two changes may come between two drawings.
        last = drafts.get(name)
        now = evolve(shown if last is None else last, **changes)
        drafts[name] = now
        draw(now)

    def drop() -> None:
        drafts.pop(name, None)

    return shown, change, drop
