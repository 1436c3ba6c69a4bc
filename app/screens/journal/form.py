"""A form of a batch: kept as it is typed, said to be kept, and begun anew."""

from collections.abc import Callable
from typing import Generic, TypeVar

import flet as ft
from attrs import asdict, evolve, frozen

from app.screens.bench import Bench, use_bench
from app.screens.drafts import use_draft
from app.screens.journal.begun_forms import (
    Draft,
    PacketDraft,
    ProbeDraft,
    RepeatDraft,
    StartDraft,
    WrapDraft,
)
from app.screens.journal.not_saved import Until, not_saved, use_found, when_typed

Kept = TypeVar("Kept", Draft, WrapDraft, ProbeDraft, StartDraft, RepeatDraft, PacketDraft)


@frozen
class Form(Generic[Kept]):
    """What is typed into a form, and the acts on it.

    change : by what makes the next of the last; one that is bare again is no draft
    empty : begin anew, without a word
    start_over : begin anew because the cook asked for it; the word said offers it back
    drop : it is saved, or its line is gone
    found : it was there when the form was opened
    """

    typed: Kept
    change: Callable[[Callable[[Kept], Kept]], None]
    empty: Callable[[], None]
    start_over: Callable[[], None]
    drop: Callable[[], None]
    found: bool

    def kept(
        self, bench: Bench, start_over: Callable[[], object], until: Until = "save it"
    ) -> list[ft.Control]:
        """That it was found as it was typed, with the way to begin anew."""
        return not_saved(self.found, start_over, when_typed(bench, self.typed.typed), until)


def use_form(
    name: str, bare: Callable[[Kept | None], Kept], resume: Callable[[Kept], Kept] | None = None
) -> Form[Kept]:
    """A form by its name; without a name it does not outlive the screen.

    bare : what an empty form holds; what of the last one stays in it, if there is one
    resume : what fits a kept one to now
    """
    bench = use_bench()
    typed, keep, drop = use_draft(name, lambda: bare(None), resume)
    found, say_found = use_found(name)

    def last() -> Kept:
        kept: Kept = bench.drafts.get(name) or typed
        return kept

    def change(make: Callable[[Kept], Kept]) -> None:
        now = evolve(make(last()), typed=bench.wall())
        keep(**asdict(now, recurse=False))
        if evolve(now, typed="") == bare(now):
            drop()

    def empty() -> None:
        say_found(False)
        keep(**asdict(bare(last()), recurse=False))
        drop()

    def start_over() -> None:
        was = last()

        def put_back() -> None:
            keep(**asdict(was, recurse=False))
            say_found(True)

        empty()
        bench.say_emptied(name, put_back)

    return Form(typed, change, empty, start_over, drop, found)
