"""Do it again: the same mix for a new weight, the same plan from a new date."""

import flet as ft

from app import quantities
from app.cure.mix import Mix, OverLimit, work_out
from app.journal.advice import Advice
from app.journal.fits import misfits
from app.journal.records import Batch
from app.journal.repeat import repeat
from app.journal.wall import say_wall
from app.screens.advised import advice_for, taking_up
from app.screens.bench import Bench, new_id, use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.mix_draft import small_length_unit
from app.screens.when import when_field
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
) -> tuple[Batch, Mix]:
    """The new batch and its mix; ValueError with a sentence when they cannot be."""
    meat_g = quantities.parse(weight, "mass", bench.mass_unit)
    thickness_mm = (
        quantities.parse(thickness, "length", small_length_unit(bench.shown.kit))
        if thickness.strip()
        else None
    )
    fresh = repeat(
        batch,
        meat_g,
        None if serve and when else when or None,
        bench.now(),
        new_id,
        zone=bench.zone,
        serve=when if serve and when else None,
        name=name,
        thickness_mm=thickness_mm,
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
    weight, set_weight = ft.use_state("")
    thickness, set_thickness = ft.use_state("")
    when, set_when = ft.use_state("")
    serve, set_serve = ft.use_state(False)
    name, set_name = ft.use_state(f"{batch.cut}, again" if batch else "")
    taken, set_taken = ft.use_state(frozenset[str]())
    if batch is None:
        return no_batch()
    advised = advice_for(bench, batch)
    kit = bench.shown.kit
    made: tuple[Batch, Mix] | None = None
    trouble = ""
    if weight.strip():
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
            )
        except ValueError as wrong:
            trouble = str(wrong)

    def start() -> None:
        if made is None:
            return
        bench.save_batch(made[0], "Batch started.")
        bench.go(f"/journal/{made[0].id}")

    body: list[ft.Control] = [
        words.small(f"After {batch.name}"),
        fields.quantity_field(
            "New weight",
            weight,
            set_weight,
            unit=bench.mass_unit,
            error=trouble or None,
            large=True,
            autofocus=True,
        ),
        fields.quantity_field(
            "Thickness at the thickest",
            thickness,
            set_thickness,
            unit=small_length_unit(kit),
            helper="Leave empty if it is as thick as the last one.",
        ),
        fields.choice(
            "Plan",
            (("start", "Forward from a start"), ("serve", "Back from the meal")),
            "serve" if serve else "start",
            lambda key: set_serve(key == "serve"),
        ),
        when_field(bench, "To be eaten" if serve else "Begin", when, set_when, empty="Now"),
        *taking_up(advised, taken, set_taken),
        fields.text_field("Name", name, set_name),
    ]
    if made is not None:
        fresh, mix = made
        body.append(
            panels.panel(
                [
                    panels.figure(part.name, quantities.format(part.grams, "mass", kit.system))
                    for part in mix.ingredients
                    if part.kind not in ("meat", "spice")
                ],
                title="Weigh these",
            )
        )
        body += [
            panels.notice(one.sentence, "attention")
            for one in misfits(fresh, bench.wall(), bench.zone)
        ]
        body.append(
            panels.panel(
                [
                    panels.figure(step.title, say_wall(step.due, bench.wall()))
                    for step in fresh.plan
                ],
                title="The plan",
            )
        )
    return screen(
        "Do it again",
        body,
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Start", start, icon=ft.Icons.PLAY_ARROW, enabled=made is not None),
    )
