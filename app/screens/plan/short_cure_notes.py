"""Too few days in the cure, said where they are decided, with what that means and what mends it."""

from collections.abc import Iterator

import flet as ft

from app.journal.advised import Past
from app.journal.fits import misfits
from app.journal.plan import set_minutes
from app.journal.records import Batch
from app.journal.safety import texts
from app.journal.short_cure import NOT_REACHED, ShortCure, short_cure, short_of
from app.screens.bench import Bench
from app.screens.plan.misfit_notes import inject
from app.widgets import panels
from app.widgets.frame import Act, side_button


def too_short(bench: Bench, batch: Batch) -> ShortCure | None:
    """How the days in the cure fall short, by the cook's own slices too; None when they do not."""
    return short_cure(batch, bench.wall(), _pasts(bench), bench.zone)


def too_short_after(bench: Bench, batch: Batch, days: float) -> ShortCure | None:
    """How so many days fall short, were it taken out then; None when they are enough."""
    return short_of(batch, days, _pasts(bench))


def _pasts(bench: Bench) -> Iterator[Past]:
    # Read only where the plan gives cause, so that a long journal costs nothing.
    return (Past(o, bench.entries(o.id)) for o in bench.shown.batches if not o.demonstration)


def told(bench: Bench, short: ShortCure) -> str:
    """How many days are short, and what that means, in the cook's own units."""
    return f"{short.sentence} {texts([NOT_REACHED], bench.kit.system)[0]}"


def short_cure_told(bench: Bench, batch: Batch) -> list[ft.Control]:
    """The caution alone; empty when the days are enough."""
    short = too_short(bench, batch)
    return [] if short is None else [_notice(told(bench, short), short)]


def short_days_told(bench: Bench, batch: Batch) -> list[ft.Control]:
    """How many days are short, where the caution itself stands on the same screen."""
    short = too_short(bench, batch)
    return [] if short is None else [_notice(short.sentence, short)]


def short_cure_notes(
    bench: Bench, batch: Batch, *, plan: bool = True, in_short: bool = False
) -> list[ft.Control]:
    """The caution with a press for each thing that mends it.

    plan : offer to open the plan
    in_short : while the days can still be mended, only how many are short
    """
    short = too_short(bench, batch)
    if short is None:
        return []
    acts = remedies(bench, batch, short)
    if plan and not short.over:
        acts.append(Act("Plan", lambda: bench.go(f"/journal/{batch.id}/plan")))
    says = short.sentence if in_short and not short.over else told(bench, short)
    row = panels.row_of([side_button(act) for act in acts])
    return [panels.stack([_notice(says, short), row])]


def _notice(says: str, short: ShortCure) -> ft.Control:
    """As loud as it is likely."""
    return panels.notice(says, "danger" if short.likely else "attention")


def remedies(bench: Bench, batch: Batch, short: ShortCure) -> list[Act]:
    """What may still be done: the days worked out, or the needle. A strong brine is not left
    longer by a press, since it would salt the meat through.
    """
    if short.over:
        return []
    acts: list[Act] = []
    cure = next(step for step in batch.plan if step.id == short.step_id)
    minutes = short.needed * 1440.0
    if cure.minutes < minutes and batch.mix.method != "cover":
        acts.append(
            Act(
                f"{short.needed:g} days in the cure",
                lambda: bench.save_batch(
                    set_minutes(batch, cure.id, minutes, bench.zone), "Plan changed."
                ),
            )
        )
    # Where the plan itself does not fit, the needle is offered beside that.
    if short.may_inject and not any(m.needle for m in misfits(batch, bench.wall(), bench.zone)):
        acts.append(Act("Inject", lambda: inject(bench, batch)))
    return acts
