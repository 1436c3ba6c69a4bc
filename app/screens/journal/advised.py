"""Advice as it is shown: what to change, why, and how sure; taken up or kept out in a repeat."""

from collections.abc import Callable, Mapping, Sequence

import flet as ft

from app.cure.working import Working
from app.journal.advice import Advice, advice
from app.journal.records import Batch
from app.screens.bench import Bench, use_bench
from app.screens.journal.told import about, in_units
from app.widgets import panels, words
from app.widgets.frame import Act, quiet_button, side_button

SURE = {
    "a guess": "A guess: it rests on one batch, or on few that disagree",
    "fairly sure": "Fairly sure",
    "sure": "Sure: several of your batches agree",
}


ONE_OF = "Each of these mends the same fault: take one of them."


def advice_for(bench: Bench, batch: Batch) -> tuple[Advice, ...]:
    """What to change next time, learned from all the cook's batches."""
    if batch.outcome is None:
        return ()
    batches = bench.shown.batches
    return advice(batch, batches, {one.id: bench.entries(one.id) for one in batches})


def workings(bench: Bench, batch: Batch) -> Mapping[str, Working]:
    """The workings of the advice, by its ids."""
    return {one.id: one.working for one in advice_for(bench, batch) if one.working is not None}


def by_fault(found: Sequence[Advice]) -> list[list[Advice]]:
    """Pieces of advice that mend the same fault, together; of these one is taken."""
    groups: dict[str, list[Advice]] = {}
    for one in found:
        groups.setdefault(_fault(one), []).append(one)
    return list(groups.values())


def _fault(one: Advice) -> str:
    return one.instead_of or one.id


def advice_panel(bench: Bench, batch: Batch) -> list[ft.Control]:
    """The advice for a batch; nothing when there is nothing sound to say."""
    found = advice_for(bench, batch)
    if not found:
        return []
    rows: list[ft.Control] = []
    for group in by_fault(found):
        rows += [words.small(ONE_OF)] if len(group) > 1 else []
        for one in group:
            rows += [*_told(bench, batch, one), panels.line()]
    return [panels.panel(rows[:-1], title="Next time")]


def _told(bench: Bench, batch: Batch, one: Advice) -> list[ft.Control]:
    told: list[ft.Control] = [
        words.body(in_units(one.sentence, bench.shown.kit), bold=True),
        words.body(in_units(one.reason, bench.shown.kit)),
        words.small(SURE[one.sure] + "."),
    ]
    if one.working is not None:
        told.append(
            quiet_button(
                Act(
                    f"How worked out: {about(one.id)}",
                    lambda: bench.go(f"/journal/{batch.id}/advice/how/{one.id}"),
                )
            )
        )
    return told


def taking_up(
    found: Sequence[Advice], taken: frozenset[str], on_change: Callable[[frozenset[str]], object]
) -> list[ft.Control]:
    """The advice with a button each to take it up; of those for one fault only one."""
    kit = use_bench().shown.kit
    if not found:
        return []
    rows: list[ft.Control] = []
    for group in by_fault(found):
        rows += [words.small(ONE_OF)] if len(group) > 1 else []
        for one in group:
            chosen, only = one.id in taken, len(group) == 1
            rows += [
                words.body(in_units(one.sentence, kit), bold=True),
                words.small(f"{in_units(one.reason, kit)} {SURE[one.sure]}."),
                side_button(
                    Act(
                        f"Taken up: {about(one.id)}" if chosen else f"Take up: {about(one.id)}",
                        lambda one=one: on_change(toggled(found, taken, one)),  # type: ignore[misc]
                        icon=_mark(chosen, only),
                    )
                ),
                panels.line(),
            ]
    return [panels.panel(rows[:-1], title="From the last slice")]


def _mark(chosen: bool, only: bool) -> ft.IconData:
    """A box where it stands alone, a ring where it is one of several."""
    if only:
        return ft.Icons.CHECK_BOX if chosen else ft.Icons.CHECK_BOX_OUTLINE_BLANK
    return ft.Icons.RADIO_BUTTON_CHECKED if chosen else ft.Icons.RADIO_BUTTON_UNCHECKED


def toggled(found: Sequence[Advice], taken: frozenset[str], one: Advice) -> frozenset[str]:
    """The advice taken after a press on one: of those for the same fault only that one."""
    if one.id in taken:
        return taken - {one.id}
    rivals = {other.id for other in found if _fault(other) == _fault(one)}
    return (taken - rivals) | {one.id}
