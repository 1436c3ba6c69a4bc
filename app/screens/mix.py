"""Mix: from the weight on the label to what to weigh, while it is being typed."""

from collections.abc import Callable

import flet as ft
from attrs import evolve, frozen

from app import quantities
from app.cure.meat import CUTS
from app.cure.mix import Method, Mix, MixRequest, OverLimit, UnsuitableCure, work_out
from app.cure.rules import RULE_SETS
from app.cure.targets import BASIS, METHOD_NAMES, settled
from app.journal.records import Kit
from app.journal.safety import cautions_for
from app.screens.bench import Bench, use_bench
from app.screens.mix_draft import (
    MixDraft,
    Read,
    mass_unit,
    read,
    salts_of,
    small_length_unit,
    water_unit,
)
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen
from app.widgets.scale import limits_scale

_TONES: dict[str, panels.Tone] = {"danger": "danger", "caution": "attention", "hint": "note"}


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

    def toggle(name: str) -> None:
        set_opened("" if opened == name else name)

    body: list[ft.Control] = [_weight(kit, draft, got, change)]
    if got.over is not None:
        body.append(_over_the_limit(got.over, change))
    if got.trouble:
        body.append(panels.notice(got.trouble, "danger"))
    if mix is not None:
        body += _results(bench, mix)
    elif not draft.weight:
        body.append(
            panels.empty(
                "Start with the weight on the label.",
                "The rest has a usual value already: "
                f"{METHOD_NAMES['equilibrium'].lower()}, 2.5 % salt, "
                f"{RULE_SETS[kit.rules].usual_ppm:.0f} ppm nitrite. Change what you like below.",
            )
        )
    body += _choices(kit, draft, got, change, opened, toggle)
    body += [panels.notice(one.text, "attention") for one in cautions_for("mix")]
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


Change = Callable[..., None]


def _weight(kit: Kit, draft: MixDraft, got: Answer, change: Change) -> ft.Control:
    unit = mass_unit(kit, draft)
    units = ("kg", "g", "lb", "lb oz") if kit.system == "metric" else ("lb", "lb oz", "kg", "g")
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
                helper="Like 7 lb 6 oz" if unit == "lb oz" else None,
            ),
            fields.choice(
                "Unit",
                [(one, one) for one in units],
                unit,
                lambda key: change(weight_unit=key),
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
                least_words="least",
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


def _results(bench: Bench, mix: Mix) -> list[ft.Control]:
    system = bench.shown.kit.system

    def opens(key: str) -> Callable[[], object] | None:
        return (lambda: bench.go(f"/mix/how/{key}")) if key in mix.workings else None

    weigh = [
        panels.figure(
            part.name,
            quantities.format(part.grams, "mass", system),
            note=part.note,
            on_open=opens(part.working),
            large=part.kind == "cure",
        )
        for part in mix.ingredients
        if part.kind not in ("meat", "spice")
    ]
    spices = [part for part in mix.ingredients if part.kind == "spice"]
    nitrite, salt = mix.nitrite, mix.salt
    shown: list[ft.Control] = [
        panels.panel(weigh, title="Weigh these"),
        panels.panel(
            [
                panels.figure("Nitrite", f"{nitrite.ppm:.0f} ppm", on_open=opens("nitrite")),
                limits_scale(
                    value=nitrite.ppm,
                    least=round(nitrite.least_ppm),
                    most=round(nitrite.most_ppm),
                    unit="ppm",
                    least_words="least sensible",
                    most_words="most allowed",
                ),
                words.small(nitrite.binding_reason),
                panels.line(),
                panels.figure(
                    "Salt in the meat",
                    f"{salt.at_rest_percent:.1f} %",
                    note=f"{salt.at_rest_water_percent:.1f} % of its water · {salt.when}",
                    on_open=opens("salt_in_meat"),
                ),
            ],
            title="What it comes to",
        ),
    ]
    shown += [panels.notice(one.text, _TONES[one.severity]) for one in mix.warnings]
    if mix.ice is not None and mix.ice.ice_g > 0:
        ice = mix.ice
        shown.append(
            panels.panel(
                [
                    panels.figure(
                        "Boil",
                        quantities.format(ice.boiled_g, "mass", system),
                        note="of the water, with the salt and spices",
                        on_open=opens("boiled"),
                    ),
                    panels.figure("Cold water", quantities.format(ice.cold_g, "mass", system)),
                    panels.figure(
                        "Ice, weighed",
                        quantities.format(ice.ice_g, "mass", system),
                        on_open=opens("ice"),
                    ),
                    panels.figure(
                        "It lands at", quantities.format(ice.landing_c, "temperature", system)
                    ),
                    words.small(
                        "Weigh the ice: loose, it takes up "
                        f"{quantities.format(ice.ice_ml.low, 'volume', system)} to "
                        f"{quantities.format(ice.ice_ml.high, 'volume', system)}."
                    ),
                ],
                title="Chill it at once",
            )
        )
    if mix.brine is not None:
        shown.append(
            panels.panel(
                [
                    panels.figure(
                        "Salt in the brine",
                        f"{mix.brine.salt_percent:.1f} %",
                        note=f"{mix.brine.salometer:.0f} °SAL · "
                        f"SG {mix.brine.specific_gravity:.3f} at 60 °F",
                        on_open=opens("strength"),
                    ),
                    panels.figure(
                        "Brine in all",
                        quantities.format(mix.brine.volume_ml, "volume", system),
                        on_open=opens("volume"),
                    ),
                    panels.figure(
                        "It freezes at",
                        quantities.format(mix.brine.freezing_c, "temperature", system),
                        on_open=opens("freezing"),
                    ),
                ],
                title="The brine",
            )
        )
    if spices or mix.rub:
        shown.append(
            panels.panel(
                [
                    panels.figure(part.name, quantities.format(part.grams, "mass", system))
                    for part in (*spices, *mix.rub)
                ],
                title="Spices and rub",
            )
        )
    return shown


def _choices(
    kit: Kit,
    draft: MixDraft,
    got: Answer,
    change: Change,
    opened: str,
    toggle: Callable[[str], None],
) -> list[ft.Control]:
    errors = got.draft.errors
    plain = _usual(kit, draft)
    usual = {
        "salt": f"{plain.salt_percent:g}",
        "sugar": f"{plain.sugar_percent:g}",
        "nitrite": f"{plain.nitrite_ppm:.0f}",
    }
    basis = BASIS[draft.method]  # type: ignore[index]

    def folded(name: str, title: str, summary: str, inside: list[ft.Control]) -> ft.Control:
        return panels.fold(
            title,
            summary,
            inside,
            is_open=opened == name or any(key in errors for key in _IN[name]),
            on_toggle=lambda: toggle(name),
        )

    def amount(name: str, label: str, unit: str, helper: str = "") -> ft.Control:
        return fields.quantity_field(
            label,
            str(getattr(draft, name)),
            lambda text: change(**{name: text}),
            unit=unit,
            error=errors.get(name),
            helper=helper or None,
        )

    strength = [
        amount("salt", "Salt", "%", f"Usual {usual['salt']} %, {basis}"),
        amount("sugar", "Sugar", "%", f"Usual {usual['sugar']} %"),
        amount("nitrite", "Nitrite", "ppm", f"Usual {usual['nitrite']} ppm"),
        amount("ascorbate", "Ascorbate", "ppm", "Optional; it helps the colour. Most 550 ppm"),
    ]
    method = [
        fields.choice(
            "Method",
            list(METHOD_NAMES.items()),
            draft.method,
            lambda key: change(method=key),
            show_label=False,
        ),
        words.small(_METHOD_WORDS[draft.method]),
    ]
    if draft.method == "injection":
        method.append(amount("pump", "Pump", "%", "Of the meat's weight; usual 10 %"))
    if draft.method == "cover":
        method.append(amount("days", "In the brine", "days", "Usual 7 days"))
    meat = [
        fields.choice(
            "Cut",
            [(key, cut.name) for key, cut in CUTS.items()],
            draft.cut,
            lambda key: change(cut=key),
        ),
        amount(
            "thickness",
            "Thickness at the thickest",
            small_length_unit(kit),
            "Usual for this cut "
            + quantities.format(CUTS[draft.cut].thickness_mm, "length", kit.system),
        ),
        fields.choice(
            "Fat cap",
            (("off", "Trimmed off"), ("on", "Left on")),
            "on" if draft.fat_cap_on else "off",
            lambda key: change(fat_cap_on=key == "on"),
        ),
    ]
    held = [
        fields.choice(
            "Container",
            [("bag", "Bag"), *((one.id, one.name) for one in kit.containers)],
            draft.container,
            lambda key: change(container=key),
        ),
        words.small("Add your own boxes and pots in Kit; the water to cover is then worked out."),
    ]
    if draft.method != "dry":
        held.append(
            amount("water", "Water", water_unit(kit), "Leave empty: enough to cover the meat")
        )
        held.append(amount("boiled", "Boiled part of the water", "%", "Usual 20 %"))
    cure = [
        fields.choice(
            "Curing salt",
            [(one.name, f"{one.name} · {one.nitrite_percent:g} %") for one in salts_of(kit)],
            draft.cure,
            lambda key: change(cure=key),
            show_label=False,
        ),
        words.small(f"Rules: {RULE_SETS[kit.rules].name}. Change them in Kit."),
    ]
    return [
        words.heading("Make it yours"),
        folded("meat", "Meat", CUTS[draft.cut].name, meat),
        folded("method", "Method", METHOD_NAMES[draft.method], method),  # type: ignore[index]
        folded(
            "strength",
            "Salt, sugar, nitrite",
            f"{draft.salt or usual['salt']} % · {draft.sugar or usual['sugar']} % · "
            f"{draft.nitrite or usual['nitrite']} ppm",
            strength,
        ),
        folded(
            "held",
            "Water and container",
            draft.water or "enough to cover",
            held,
        ),
        folded("cure", "Curing salt", draft.cure, cure),
    ]


def _usual(kit: Kit, draft: MixDraft) -> MixRequest:
    """What is used for a field left empty."""
    method: Method = draft.method if draft.method in METHOD_NAMES else "equilibrium"
    return settled(
        MixRequest(meat_g=1000.0, method=method, rules=kit.rules, own_limit_ppm=kit.own_limit_ppm)
    )


_IN = {
    "meat": ("thickness",),
    "method": ("pump", "days"),
    "strength": ("salt", "sugar", "nitrite", "ascorbate"),
    "held": ("water", "boiled"),
    "cure": (),
}
_METHOD_WORDS = {
    "equilibrium": "Meat and brine are weighed together and come to rest at the salt you want. "
    "A day more does no harm.",
    "cover": "A strong brine for a fixed time. Quick, but the outside can come out salty before "
    "the middle is reached: the days matter.",
    "injection": "Part of the brine is pumped into the meat, the rest covers it. For thick pieces "
    "and short times.",
    "dry": "Salt and cure are rubbed on and the meat is closed in a bag, where it makes its own "
    "brine.",
}
