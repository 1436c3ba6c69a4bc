"""How much to buy: from how many eat, through trimming and cooking, to the weight on the label."""

from collections.abc import Mapping

import flet as ft
from attrs import evolve

from app import quantities
from app.cure.buying import SERVING_G, Buying, Losses, own_losses, raw_weight
from app.cure.meat import CUTS
from app.cure.working import Working
from app.journal.records import Kit
from app.journal.safety import cautions_for, texts
from app.journal.yields import weights
from app.screens.bench import Bench, use_bench
from app.screens.masses import mass_unit, mix_system, small_mass_unit, typed_mass, with_unit
from app.screens.mix.cure_in_hand import Pasts, pasts_of
from app.screens.mix.mix_draft import MixDraft, read_number
from app.screens.mix.mix_results import weighed
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen


def losses_of(pasts: Pasts, cut: str) -> Losses | None:
    """Trimming and cooking losses of the cook's own batches of a cut; None without any.

    Trimming is from green to trimmed, cooking from trimmed, or green when it was not trimmed,
    to rested, or smoked when it was not weighed rested.
    """
    trims: list[float] = []
    cooks: list[float] = []
    for batch, entries in pasts:
        if batch.cut.casefold() != CUTS[cut].name.casefold():
            continue
        on_scale = {row.of: row.grams for row in weights(batch, entries)}
        green, trimmed = on_scale.get("green"), on_scale.get("trimmed")
        if green and trimmed and trimmed <= green:
            trims.append(1.0 - trimmed / green)
        start, end = trimmed or green, on_scale.get("rested", on_scale.get("smoked"))
        if start and end and end <= start:
            cooks.append(1.0 - end / start)
    return own_losses(trims, cooks, cut) if trims or cooks else None


def to_buy(draft: MixDraft, kit: Kit, pasts: Pasts) -> tuple[Buying | None, dict[str, str]]:
    """What to buy for what was typed, and what was wrong with it."""
    errors: dict[str, str] = {}
    servings, serving_g = 0.0, SERVING_G
    unit = small_mass_unit(kit)
    try:
        if draft.later.servings.strip():
            servings = read_number(draft.later.servings, "number who eat", "servings")
            if not 0.0 < servings <= 1000.0:
                raise ValueError("From 1 to 1000 can be reckoned for.")
    except ValueError as wrong:
        errors["servings"] = str(wrong)
    try:
        if draft.later.serving.strip():
            serving_g = quantities.parse(draft.later.serving, "mass", unit)
            if not 10.0 <= serving_g <= 2000.0:
                raise ValueError("A serving is from 10 g to 2 kg (1/3 oz to 4 lb).")
    except ValueError as wrong:
        errors["serving"] = str(wrong)
    if errors or not servings:
        return None, errors
    return raw_weight(servings, serving_g, draft.cut, losses_of(pasts, draft.cut)), errors


def workings(bench: Bench) -> Mapping[str, Working]:
    """How the weight to buy was worked out."""
    found, _ = to_buy(
        bench.shown.draft, bench.shown.kit, pasts_of(bench.shown.batches, bench.entries)
    )
    return {} if found is None else {"raw": found.working}


@ft.component
def BuyingScreen() -> ft.View:
    """Servings in, raw weight out."""
    bench = use_bench()
    kit, draft = bench.shown.kit, bench.shown.draft
    found, errors = to_buy(draft, kit, pasts_of(bench.shown.batches, bench.entries))

    def change(**changes: str) -> None:
        whole = bench.shown.draft
        bench.show(draft=evolve(whole, later=evolve(whole.later, **changes)))

    def fill(grams: float) -> None:
        unit = mass_unit(kit)
        weight = _about(grams, unit)
        bench.replace_draft(
            evolve(bench.shown.draft, weight=weight),
            f"{with_unit(weight, unit)} is the weight of the mix.",
        )
        bench.go("/mix")

    unit = small_mass_unit(kit)
    masses = mix_system(kit)
    usual = weighed(SERVING_G, masses)[0]
    body: list[ft.Control] = [
        fields.quantity_field(
            "How many eat",
            draft.later.servings,
            lambda text: change(servings=text),
            error=errors.get("servings"),
            large=True,
        ),
        fields.quantity_field(
            "Sliced meat for one",
            draft.later.serving,
            lambda text: change(serving=text),
            unit=unit,
            error=errors.get("serving"),
            helper=f"Left empty: {usual}",
        ),
        fields.choice(
            "Cut",
            [(key, cut.name) for key, cut in CUTS.items()],
            draft.cut,
            lambda key: bench.show(draft=evolve(bench.shown.draft, cut=key)),
        ),
    ]
    if found is not None:
        body.append(_answer(bench, found, masses))
    else:
        body.append(words.small("The weight to buy appears as soon as the number is there."))
    body += panels.cautions(texts(cautions_for("buy"), bench.kit.system))
    # The cure is for what goes into it: mixed for the untrimmed piece it would be too strong.
    trimmed = found.trimmed_g if found else 0.0
    return screen(
        "How much to buy",
        body,
        place="/mix",
        back="/mix",
        main=Act(
            f"Mix for {weighed(trimmed, masses)[0]}, trimmed" if found else "Mix for it",
            lambda: fill(trimmed),
            ft.Icons.SCALE,
            enabled=found is not None,
        ),
    )


def _about(grams: float, unit: str) -> str:
    """A reckoned weight as it would be typed, to no more places than it is known."""
    if unit == "lb oz":
        return typed_mass(round(grams / quantities.G_PER_OZ) * quantities.G_PER_OZ, unit)
    three_figures = f"{quantities.to_unit(grams, 'mass', unit):.3g}"
    return f"{float(three_figures):g}"


def _answer(bench: Bench, found: Buying, masses: str) -> ft.Control:
    raw = found.raw_g
    low, likely, high = (weighed(one, masses)[0] for one in (raw.low, raw.likely, raw.high))
    return panels.panel(
        [
            panels.figure(
                "Raw, likely",
                likely,
                large=True,
                note=f"from {low} to {high}; nearer the high end when it must not run short",
                on_open=lambda: bench.go("/mix/buy/how/raw"),
            ),
            panels.figure("Trimmed", weighed(found.trimmed_g, masses)[0]),
            panels.figure("On the plate", weighed(found.cooked_g, masses)[0]),
            words.small(f"Losses: {found.working.source}."),
            words.small("Weigh it again once trimmed: the mix is for the meat that goes in."),
        ],
        title="To buy",
    )
