"""Mix: from the weight on the label to what to weigh, while it is being typed."""

from collections.abc import Mapping

import flet as ft
from attrs import evolve, frozen

from app import quantities
from app.cure.mix import Mix, OverLimit, UnsuitableCure, work_out
from app.cure.rules import RULE_SETS
from app.cure.targets import METHOD_NAMES
from app.journal.records import Kit
from app.journal.safety import cautions_for, texts
from app.screens.bench import Bench, use_bench
from app.screens.masses import LIKE, mass_unit, mass_units, mix_system
from app.screens.mix.mix_choices import FIELDS_IN, Change, Inside, choices
from app.screens.mix.mix_draft import MixDraft, Read, read
from app.screens.mix.mix_results import results
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen
from app.widgets.scale import limits_scale


@frozen
class Answer:
    """What can be shown for a draft: a mix, or why there is none."""

    draft: Read
    mix: Mix | None = None
    over: OverLimit | None = None
    trouble: str = ""


def answer(draft: MixDraft, kit: Kit) -> Answer:
    """Read the draft and work it out, or say what stands in the way."""
    got = read(draft, kit)
    if got.request is None:
        return Answer(got)
    try:
        return Answer(got, work_out(got.request))
    except OverLimit as over:
        return Answer(got, over=over)
    except UnsuitableCure as unsuitable:
        return Answer(got, trouble=unsuitable.reason)
    except ValueError as wrong:
        return Answer(got, trouble=str(wrong))


@ft.component
def MixScreen() -> ft.View:
    """The mix."""
    bench = use_bench()
    opened, set_opened = ft.use_state("")
    kit, draft = bench.shown.kit, bench.shown.draft
    got = answer(draft, kit)
    mix = got.mix

    def change(**changes: object) -> None:
        bench.show(draft=evolve(bench.shown.draft, **changes))  # type: ignore[arg-type]

    def folded(name: str, title: str, summary: str, inside: Inside) -> ft.Control:
        wrong = any(key in got.draft.errors for key in FIELDS_IN.get(name, ()))
        is_open = opened == name or wrong
        return panels.fold(
            title,
            summary,
            # What is folded away is not drawn: each key pressed in the weight draws it all again.
            inside() if is_open else [],
            is_open=is_open,
            on_toggle=lambda: set_opened("" if opened == name else name),
        )

    shown: list[ft.Control] = []
    if got.over is not None:
        shown.append(_over_the_limit(got.over, change))
    if got.trouble:
        shown.append(panels.notice(got.trouble, "danger"))
    if mix is not None:
        shown += results(bench, mix, folded)
        shown += _what_it_does(bench)
    elif not draft.weight:
        shown.append(
            panels.empty(
                "Start with the weight on the label.",
                "The rest has a usual value already: "
                f"{METHOD_NAMES['equilibrium'].lower()}, 2.5 % salt, "
                f"{RULE_SETS[kit.rules].usual_ppm:.0f} ppm nitrite. Change what you like below.",
            )
        )
        shown += _from_elsewhere(bench)
    # What comes and goes stands in one place of the list, and the strength above it: a field that
    # moves while it is typed in loses the finger.
    strength, others = choices(bench, draft, _errors(got), change, folded)
    body: list[ft.Control] = [
        _weight(bench, draft, got, change),
        strength,
        panels.stack(shown),
        *others,
        panels.stack(_from_elsewhere(bench) if draft.weight else []),
        *panels.cautions(texts(cautions_for("mix"), bench.kit.system)),
    ]
    ready = mix is not None
    return screen(
        "Mix",
        body,
        place="/mix",
        main=Act(
            "Shopping list", lambda: bench.go("/mix/list"), icon=ft.Icons.LIST_ALT, enabled=ready
        ),
        side=Act("Start batch", lambda: bench.go("/mix/start"), enabled=ready),
    )


def _errors(got: Answer) -> Mapping[str, str]:
    """What is wrong in a field, also when it can be read: said where it was typed."""
    errors = dict(got.draft.errors)
    if got.over is not None:
        errors["nitrite"] = f"Above the most allowed, {got.over.limit_ppm:.0f} ppm: see below."
    elif got.mix is not None and got.mix.nitrite.ppm < got.mix.nitrite.least_ppm - 0.5:
        errors["nitrite"] = (
            f"Too weak below {got.mix.nitrite.least_ppm:.0f} ppm: "
            "it may not cure, nor keep as cured meat does."
        )
    return errors


def _what_it_does(bench: Bench) -> list[ft.Control]:
    return [
        words.heading("In the meat"),
        panels.door(
            "How long",
            "days until the middle is reached, beside the old rules",
            lambda: bench.go("/mix/days"),
            ft.Icons.HOURGLASS_BOTTOM,
        ),
        panels.door(
            "The slice, day by day",
            "cured, pale, grey and salt across the meat",
            lambda: bench.go("/mix/face"),
            ft.Icons.SHOW_CHART,
        ),
        panels.door(
            "Soak the salt out",
            "hours and changes of water for the saltiness you want",
            lambda: bench.go("/mix/soak"),
            ft.Icons.WATER_DROP_OUTLINED,
        ),
    ]


def _from_elsewhere(bench: Bench) -> list[ft.Control]:
    return [
        panels.door(
            "How much to buy",
            "from how many eat to the weight on the label",
            lambda: bench.go("/mix/buy"),
            ft.Icons.SHOPPING_BASKET_OUTLINED,
        ),
        panels.door(
            "Check a recipe found elsewhere",
            "as it is written, cups and days and all",
            lambda: bench.go("/mix/recipe"),
            ft.Icons.FACT_CHECK_OUTLINED,
        ),
    ]


def _weight_read(got: Answer, masses: str) -> str | None:
    """The weight as it was read, both ways, so that a slip is seen before anything is weighed.

    The chosen unit comes first.
    """
    if got.mix is None:
        return None
    order = ("us", "metric") if masses == "us" else ("metric", "us")
    both = (quantities.format(got.mix.request.meat_g, "mass", one) for one in order)
    return " · ".join(both)


def _weight(bench: Bench, draft: MixDraft, got: Answer, change: Change) -> ft.Control:
    kit = bench.shown.kit
    unit = mass_unit(kit)
    return ft.Column(
        [
            fields.quantity_field(
                "Weight on the label",
                draft.weight,
                lambda text: change(weight=text),
                unit=unit,
                error=got.draft.errors.get("weight"),
                large=True,
                words_allowed=unit == "lb oz",
                helper=_weight_read(got, mix_system(kit)) or (LIKE if unit == "lb oz" else None),
            ),
            fields.choice(
                "Unit",
                [(one, one) for one in mass_units(kit)],
                unit,
                bench.weigh_in,
                show_label=False,
            ),
        ],
        spacing=8,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _over_the_limit(over: OverLimit, change: Change) -> ft.Control:
    safe = over.largest_safe
    return panels.panel(
        [
            panels.notice(over.reason, "danger"),
            limits_scale(
                value=over.asked_ppm,
                least=min(120.0, over.limit_ppm),
                most=over.limit_ppm,
                unit="ppm",
                least_words="too weak below",
                most_words="most allowed",
            ),
            quiet_button(
                Act(
                    f"Use the most allowed, {over.limit_ppm:.0f} ppm",
                    lambda: change(nitrite=f"{safe.nitrite_ppm or over.limit_ppm:.4g}"),
                    icon=ft.Icons.CHECK,
                )
            ),
        ],
        title="Too much nitrite",
    )
