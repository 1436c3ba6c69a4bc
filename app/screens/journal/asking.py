"""A question before a step is marked that is hard to take back on the plate."""

from collections.abc import Callable

import flet as ft
from attrs import evolve

from app.heat.lethality import CONSUMER_C
from app.journal.chain import in_order
from app.journal.entries import by_time
from app.journal.logged import CORE
from app.journal.records import Batch, Spot, Step
from app.journal.timeline import temperatures_in
from app.screens.bench import Bench
from app.screens.journal.slice_draft import draft_name
from app.screens.journal.told import SPOTS, degrees
from app.screens.plan.short_cure_notes import told, too_short_after

_EARLY = 0.9
"""Part of the planned days, and of those worked out, after which taking the meat out is
no longer asked about."""

_FRESH_S = 3600.0
"""A place read longer ago is hotter by now; our own choice."""

SHOWN_OPEN = 3
"""So many open steps are named when a batch is to be finished."""


def doubt(bench: Bench, batch: Batch, step: Step) -> str:
    """What speaks against marking this step done now, as a question; empty when nothing does."""
    if step.stage == "end":
        return _too_early(bench, batch)
    if step.stage in ("rest", "slice"):
        return _no_safe_reading(bench, batch)
    return ""


def _too_early(bench: Bench, batch: Batch) -> str:
    cure = next((one for one in batch.plan if one.stage == "cure" and not one.skipped), None)
    if cure is None:
        return ""
    planned = cure.minutes / 1440.0
    if cure.done is None:
        return f"The meat was never marked as in the cure; {planned:.0f} days are planned."
    days = max(0.0, bench.now().utc_s - cure.done.utc_s) / 86400.0
    short = too_short_after(bench, batch, days)
    if days >= _EARLY * max(planned, short.needed if short else 0.0):
        return ""
    means = f"{told(bench, short)} " if short else ""
    return f"{means}{days:.0f} of {planned:.0f} days in the cure. Take it out all the same?"


def _no_safe_reading(bench: Bench, batch: Batch) -> str:
    read = [
        celsius
        for entry in bench.entries(batch.id)
        for spot, celsius in temperatures_in(entry)
        if spot in CORE
    ]
    if any(celsius >= CONSUMER_C for celsius in read):
        return ""
    safe = degrees(CONSUMER_C, bench.shown.kit)
    return f"No reading of the core at {safe} or more is in the record. Go on all the same?"


def doubt_of_pulling(bench: Bench, batch: Batch, core_c: float | None) -> str:
    """What speaks against taking it off the fire: a place that is not hot enough yet."""
    now_s = bench.now().utc_s
    last: dict[Spot, float] = {}
    for entry in by_time(bench.entries(batch.id)):
        if 0.0 <= now_s - entry.at.utc_s <= _FRESH_S:
            last |= {spot: c for spot, c in temperatures_in(entry) if spot in CORE}
    if core_c is not None:
        last["middle"] = core_c
    cold = min(last, key=lambda spot: last[spot], default=None)
    if cold is None or last[cold] >= CONSUMER_C:
        hot = core_c is not None and core_c >= CONSUMER_C
        return "" if hot else _no_safe_reading(bench, batch)
    kit = bench.shown.kit
    return (
        f"{SPOTS[cold]}: {degrees(last[cold], kit)}, below {degrees(CONSUMER_C, kit)}. Soft or "
        "not, it is not safe there yet. Take it off all the same?"
    )


def mark_done_asking(bench: Bench, batch_id: str, step: Step) -> None:
    """Mark a step done, after a question when something speaks against it."""
    batch = bench.batch(batch_id)
    question = doubt(bench, batch, step) if batch is not None else ""
    if not question:
        bench.mark_done(batch_id, step.id)
    else:
        ask(step.title, question, lambda: bench.mark_done(batch_id, step.id))


def left_open(bench: Bench, batch: Batch) -> str:
    """What is still open when a batch is to be finished, as a question; empty when nothing is."""
    waiting = [step.title for step in in_order(batch.plan) if not (step.done or step.skipped)]
    said = []
    if waiting:
        shown = ", ".join(f"“{title}”" for title in waiting[:SHOWN_OPEN])
        more = f" and {len(waiting) - SHOWN_OPEN} more" if len(waiting) > SHOWN_OPEN else ""
        one = len(waiting) == 1
        said.append(
            f"{'One step is' if one else f'{len(waiting)} steps are'} still open: {shown}{more}. "
            "They stay as they are and are not called due any more."
        )
    if draft_name(batch.id) in bench.drafts:
        said.append("What you scored at the slice is not saved yet; it is kept.")
    elif batch.outcome is None:
        said.append("The slice is not scored yet, so nothing is learned from this batch.")
    return " ".join(said)


def finish_asking(bench: Bench, batch: Batch) -> None:
    """Call a batch finished, after a question when steps are open; or open it again."""
    if batch.finished:
        bench.save_batch(evolve(batch, finished=False), "Open again.")
        return
    question = left_open(bench, batch)

    def finish() -> None:
        bench.save_batch(evolve(batch, finished=True), "Finished.")

    if question:
        ask("Finish this batch?", f"{question} Finish it all the same?", finish)
    else:
        finish()


def ask(title: str, question: str, go_on: Callable[[], object]) -> None:
    """Put a question before an act; not to act is the button that stands out."""
    page = ft.context.page

    def going_on() -> None:
        page.pop_dialog()
        go_on()

    page.show_dialog(
        ft.AlertDialog(
            title=title,
            content=ft.Text(question, size=17),
            scrollable=True,
            actions=[
                ft.TextButton(content="Go on all the same", on_click=going_on),
                ft.FilledButton(content="Not yet", on_click=lambda: page.pop_dialog()),
            ],
        )
    )
