"""Beside a bought one, for who wants it: tasted by the same scores, at the same table."""

from collections.abc import Callable

import flet as ft
from attrs import evolve

from app.journal.records import Bought, SliceOutcome
from app.screens.journal.told import BESIDE_BOUGHT
from app.widgets import fields, panels

_SCORES = (
    ("salt", "Its salt", "far too little", "far too much"),
    ("smoke", "Its smoke", "far too little", "far too much"),
    ("pepper", "Its pepper", "far too little", "far too much"),
    ("tenderness", "Its tenderness", "tough", "tender"),
    ("moisture", "Its moisture", "dry", "juicy"),
)


@ft.component
def Beside(outcome: SliceOutcome, change: Callable[..., None]) -> ft.Control:
    """Folded away until something is said of a bought one."""
    is_open, set_open = ft.use_state(has_bought(outcome))
    bought = outcome.bought or Bought()

    def of_it(**changes: object) -> None:
        now = evolve(bought, **changes)  # type: ignore[arg-type]
        change(bought=None if now == Bought() else now)

    def verdict(key: str) -> None:
        change(beside_bought=None if outcome.beside_bought == key else key)

    return panels.fold(
        "Beside a bought one, if you like",
        _summary(outcome),
        [
            fields.text_field(
                "What was bought, and how it differs",
                outcome.bought_notes,
                lambda text: change(bought_notes=text),
            ),
            *(
                fields.score(
                    label,
                    getattr(bought, name),
                    lambda mark, name=name: of_it(  # type: ignore[misc]
                        **{name: None if getattr(bought, name) == mark else mark}
                    ),
                    low=low,
                    high=high,
                )
                for name, label, low, high in _SCORES
            ),
            fields.choice(
                "Beside it, ours is", list(BESIDE_BOUGHT.items()), outcome.beside_bought, verdict
            ),
        ],
        is_open=is_open,
        on_toggle=lambda: set_open(not is_open),
    )


def bought_part(outcome: SliceOutcome, change: Callable[..., None]) -> ft.Control:
    """The part of the slice screen about a bought one."""
    return Beside(outcome, change)


def has_bought(outcome: SliceOutcome) -> bool:
    """Whether anything was said of a bought one."""
    return bool(outcome.bought or outcome.bought_notes or outcome.beside_bought)


def _summary(outcome: SliceOutcome) -> str:
    if outcome.beside_bought is not None:
        return f"ours is {BESIDE_BOUGHT[outcome.beside_bought].lower()}"
    return outcome.bought_notes or "tasted side by side, by the same scores"
