"""Do it again: the same mix for a new weight, the same plan from a new date."""

from collections.abc import Callable

import flet as ft
from attrs import evolve

from app import quantities
from app.cure.mix import Mix, OverLimit, work_out
from app.journal.advice import Advice
from app.journal.advised import Past
from app.journal.records import Batch, Kit
from app.journal.repeat import repeat
from app.screens.bench import Bench, new_id, use_batch, use_bench
from app.screens.journal.advised import advice_for, taking_up
from app.screens.journal.begun_forms import RepeatDraft, name_of
from app.screens.journal.form import use_form
from app.screens.journal.missing import no_batch
from app.screens.masses import LIKE, grams, read_mass
from app.screens.mix.cure_in_hand import pasts_of
from app.screens.mix.mix_draft import small_length_unit
from app.screens.plan.plan_preview import CHOOSE_MEAL, preview
from app.screens.plan.when import when_field
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen


def repeated(
    bench: Bench,
    batch: Batch,
    weight: str,
    thickness: str,
    when: str,
    serve: bool,
    name: str,
    taken: tuple[Advice, ...] = (),
    thawed: bool | None = None,
) -> tuple[Batch, Mix]:
    """The new batch and its mix; ValueError with a sentence when they cannot be."""
    if serve and not when:
        raise ValueError(CHOOSE_MEAL)
    meat_g = read_mass(weight, bench.mass_unit)
    thickness_mm = (
        quantities.parse(thickness, "length", small_length_unit(bench.shown.kit))
        if thickness.strip()
        else None
    )
    fresh = repeat(
        batch,
        meat_g,
        None if serve else when or None,
        bench.now(),
        new_id,
        zone=bench.zone,
        serve=when if serve else None,
        name=name,
        thickness_mm=thickness_mm,
        thawed=thawed,
        pasts=[Past(*one) for one in pasts_of(bench.shown.batches, bench.entries)],
        taken=taken,
    )
    try:
        return fresh, work_out(fresh.mix)
    except OverLimit as over:
        raise ValueError(over.reason) from over


@ft.component
def RepeatScreen() -> ft.View:
    """New weight, thickness and date; what to weigh is shown while typing."""
    bench = use_bench()
    batch = use_batch()
    form = use_form(name_of("repeat", batch.id) if batch else "", lambda _: RepeatDraft())
    if batch is None:
        return no_batch()
    typed = form.typed
    weight, thickness, when, serve = typed.weight, typed.thickness, typed.when, typed.serve
    name = f"{batch.cut}, again" if typed.name is None else typed.name
    taken, thawed = frozenset(typed.taken), typed.thawed
    if thawed is None:
        thawed = any(step.stage == "thaw" and not step.skipped for step in batch.plan)

    def change(**changes: object) -> None:
        form.change(lambda last: evolve(last, **changes))  # type: ignore[arg-type]

    advised = advice_for(bench, batch)
    kit = bench.shown.kit
    made: tuple[Batch, Mix] | None = None
    trouble = ""
    length = small_length_unit(kit)
    weight_wrong = _unread(weight, lambda text: read_mass(text, bench.mass_unit))
    thickness_wrong = _unread(thickness, lambda text: quantities.parse(text, "length", length))
    if weight.strip() and not weight_wrong and not thickness_wrong:
        try:
            made = repeated(
                bench,
                batch,
                weight,
                thickness,
                when,
                serve,
                name,
                tuple(a for a in advised if a.id in taken),
                thawed,
            )
        except ValueError as wrong:
            trouble = str(wrong)

    def start() -> None:
        if made is None:
            return
        bench.save_batch(made[0], "Batch started.")
        form.drop()
        bench.go(f"/journal/{made[0].id}")

    body: list[ft.Control] = [
        panels.stack(
            [
                words.small(f"After {batch.name}"),
                *form.kept(bench, form.start_over, "start it"),
            ]
        ),
        fields.quantity_field(
            "New weight",
            weight,
            lambda text: change(weight=text),
            unit=bench.mass_unit,
            words_allowed=bench.mass_unit == "lb oz",
            helper=LIKE if bench.mass_unit == "lb oz" else None,
            error=weight_wrong or None,
            large=True,
            autofocus=True,
        ),
        fields.quantity_field(
            "Thickness at the thickest",
            thickness,
            lambda text: change(thickness=text),
            unit=length,
            error=thickness_wrong or None,
            helper=_as_thick(batch, kit),
        ),
        fields.choice(
            "The meat is",
            (("fresh", "Fresh"), ("frozen", "Frozen")),
            "frozen" if thawed else "fresh",
            lambda key: change(thawed=key == "frozen"),
        ),
        fields.choice(
            "Plan",
            (("start", "Forward from a start"), ("serve", "Back from the meal")),
            "serve" if serve else "start",
            lambda key: change(serve=key == "serve"),
        ),
        when_field(
            bench,
            "To be eaten" if serve else "Begin",
            when,
            lambda at: change(when=at),
            empty="Choose" if serve else "Now",
        ),
        *taking_up(advised, taken, lambda ids: change(taken=tuple(sorted(ids)))),
        fields.text_field("Name", name, lambda text: change(name=text)),
    ]
    if trouble:
        body.append(panels.notice(trouble, "attention"))
    if made is not None:
        fresh, mix = made
        body.append(
            panels.panel(
                [
                    panels.figure(part.name, grams(part.grams, kit))
                    for part in mix.ingredients
                    if part.kind not in ("meat", "spice")
                ],
                title="Weigh these",
            )
        )
        body += preview(bench, fresh, lambda at: change(when=at))
    return screen(
        "Do it again",
        body,
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Start", start, icon=ft.Icons.PLAY_ARROW, enabled=made is not None),
    )


def _unread(text: str, read: Callable[[str], float]) -> str:
    """What is wrong with a quantity as typed; empty when nothing is, or nothing is typed."""
    if not text.strip():
        return ""
    try:
        read(text)
    except ValueError as wrong:
        return str(wrong)
    return ""


def _as_thick(batch: Batch, kit: Kit) -> str:
    if batch.thickness_mm is None:
        return "The days in the cure hang on it."
    last = quantities.format(batch.thickness_mm, "length", kit.system)
    return f"The days in the cure hang on it. Left empty: {last}, as thick as the last one."
