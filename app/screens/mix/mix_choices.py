"""What a cook may choose in a mix, folded away behind the usual values."""

from collections.abc import Callable, Mapping

import flet as ft
from attrs import evolve

from app import quantities
from app.cure.blends import Blend, brine_spices_of_ours, rub_of_ours
from app.cure.meat import CUTS
from app.cure.mix import Method, MixRequest
from app.cure.rules import RULE_SETS
from app.cure.targets import BASIS, METHOD_NAMES, settled
from app.cure.turning import turn_it
from app.journal.records import Kit
from app.screens.bench import Bench
from app.screens.mix.mix_draft import MixDraft, salts_of, small_length_unit, water_unit, with_method
from app.widgets import fields, words
from app.widgets.frame import Act, side_button

Change = Callable[..., None]
Inside = Callable[[], list[ft.Control]]
Folded = Callable[[str, str, str, Inside], ft.Control]

FIELDS_IN: Mapping[str, tuple[str, ...]] = {
    "meat": ("thickness",),
    "method": ("pump", "days"),
    "strength": ("salt", "sugar", "nitrite", "ascorbate", "pickup"),
    "held": ("water", "boiled"),
    "blends": ("shrink",),
}
"""Which fields lie in which fold, so that one with something wrong in it stands open."""

_METHOD_WORDS = {
    "equilibrium": "Meat and brine are weighed together and come to rest at the salt you want. "
    "A day more does no harm.",
    "cover": "A strong brine for a fixed time. Quick, but the outside can come out salty before "
    "the middle is reached: the days matter.",
    "injection": "Part of the brine is pumped into the meat, the rest covers it. For thick pieces "
    "and short times.",
    "dry": "Salt and cure are rubbed on and the meat is closed in a bag, where it makes its own "
    f"brine: {turn_it()}.",
}


def choices(
    bench: Bench, draft: MixDraft, errors: Mapping[str, str], change: Change, folded: Folded
) -> tuple[ft.Control, list[ft.Control]]:
    """What may be chosen, each with what is used when nothing is: the strength, and the rest."""
    kit = bench.shown.kit
    plain = _usual(kit, draft)
    usual = {
        "salt": f"{plain.salt_percent:g}",
        "sugar": f"{plain.sugar_percent:g}",
        "nitrite": f"{plain.nitrite_ppm:.0f}",
    }

    def amount(name: str, label: str, unit: str, helper: str = "") -> ft.Control:
        return fields.quantity_field(
            label,
            str(getattr(draft, name)),
            lambda text: change(**{name: text}),
            unit=unit,
            error=errors.get(name),
            helper=helper or None,
        )

    def strength() -> list[ft.Control]:
        basis = BASIS[plain.method]
        rows = [
            amount("salt", "Salt", "%", f"Usual {usual['salt']} %, {basis}"),
            amount("sugar", "Sugar", "%", f"Usual {usual['sugar']} %"),
            amount("nitrite", "Nitrite", "ppm", f"Usual {usual['nitrite']} ppm"),
            amount(
                "ascorbate", "Ascorbate", "ppm", "Optional; it helps the colour. At most 550 ppm"
            ),
        ]
        if plain.method in ("equilibrium", "cover"):
            other = "Usual 10 %; for the second way of counting nitrite"
            rows.append(amount("pickup", "Weight the meat takes up", "%", other))
        return rows

    def method() -> list[ft.Control]:
        rows = [
            fields.choice(
                "Method",
                list(METHOD_NAMES.items()),
                draft.method,
                lambda key: _take_method(bench, key),
                show_label=False,
            ),
            words.small(_METHOD_WORDS[plain.method]),
        ]
        if plain.method == "injection":
            rows.append(amount("pump", "Pump", "%", "Of the meat's weight; usual 10 %"))
        usual_days = (
            "Usual 7 days"
            if plain.method == "cover"
            else "Left empty: reckoned for this piece, see How long"
        )
        return [*rows, amount("days", "In the cure", "days", usual_days)]

    strong = folded(
        "strength",
        "Salt, sugar, nitrite",
        f"{draft.salt or usual['salt']} % · {draft.sugar or usual['sugar']} % · "
        f"{draft.nitrite or usual['nitrite']} ppm",
        strength,
    )
    return strong, [
        words.heading("Make it yours"),
        folded("meat", "Meat", CUTS[draft.cut].name, lambda: _meat(kit, draft, change, amount)),
        folded("method", "Method", METHOD_NAMES[plain.method], method),
        folded(
            "held",
            "Water and container",
            _held_in_short(kit, draft),
            lambda: _held(bench, draft, change, amount),
        ),
        folded("cure", "Curing salt", draft.cure, lambda: _cure(kit, draft, change)),
        folded(
            "blends",
            "Blends",
            " · ".join(one.name if one else "none" for one in (draft.spices, draft.rub)),
            lambda: _blends(bench, draft, change, amount),
        ),
    ]


Amount = Callable[..., ft.Control]


def _meat(kit: Kit, draft: MixDraft, change: Change, amount: Amount) -> list[ft.Control]:
    return [
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


def _held_in_short(kit: Kit, draft: MixDraft) -> str:
    box = next((one.name for one in kit.containers if one.id == draft.container), "bag")
    if draft.method == "dry":
        return box
    return f"{draft.water or 'enough to cover'} · {box}"


def _held(bench: Bench, draft: MixDraft, change: Change, amount: Amount) -> list[ft.Control]:
    kit = bench.shown.kit
    held = [
        fields.choice(
            "Container",
            [("bag", "Bag"), *((one.id, one.name) for one in kit.containers)],
            draft.container,
            lambda key: change(container=key),
        ),
        words.small("Measure your own box or pot once; the water to cover is then worked out."),
        side_button(Act("Add a container", lambda: bench.go("/kit/container"), ft.Icons.ADD)),
    ]
    if draft.method != "dry":
        held.append(
            amount("water", "Water", water_unit(kit), "Left empty: enough to cover the meat")
        )
        held.append(amount("boiled", "Boiled part of the water", "%", "Usual 20 %"))
    return held


def _cure(kit: Kit, draft: MixDraft, change: Change) -> list[ft.Control]:
    return [
        fields.choice(
            "Curing salt",
            [(one.name, f"{one.name} · {one.nitrite_percent:g} %") for one in salts_of(kit)],
            draft.cure,
            lambda key: change(cure=key),
            show_label=False,
        ),
        words.small(f"Rules: {RULE_SETS[kit.rules].name}. Change them in Kit."),
    ]


def _blends(bench: Bench, draft: MixDraft, change: Change, amount: Amount) -> list[ft.Control]:
    own = bench.shown.kit.blends

    def of(name: str, ours: Blend, label: str, chosen: Blend | None) -> ft.Control:
        known = {one.name: one for one in (ours, *own) if one.per == ours.per}
        if chosen is not None:
            # A mix made before may carry a blend that is no longer in the kit.
            known.setdefault(chosen.name, chosen)
        return fields.choice(
            label,
            [*((one, one) for one in known), ("", "None")],
            chosen.name if chosen else "",
            lambda key: change(**{name: known.get(key)}),
        )

    return [
        of("spices", brine_spices_of_ours(), "For the cure", draft.spices),
        of("rub", rub_of_ours(), "Rub", draft.rub),
        amount("shrink", "Weight lost before the rub", "%", "The surface shrinks with it; usual 0"),
        side_button(Act("Blends of your own", lambda: bench.go("/mix/blends"), ft.Icons.EDIT)),
    ]


def _usual(kit: Kit, draft: MixDraft) -> MixRequest:
    """What is used for a field left empty."""
    method: Method = draft.method if draft.method in METHOD_NAMES else "equilibrium"
    return settled(
        MixRequest(meat_g=1000.0, method=method, rules=kit.rules, own_limit_ppm=kit.own_limit_ppm)
    )


def _take_method(bench: Bench, method: str) -> None:
    """Choose a method, and say so where what was asked of the other one no longer holds."""
    was = bench.shown.draft
    now = with_method(was, method)
    if now == evolve(was, method=method):
        bench.show(draft=now)
        return
    bench.replace_draft(now, "What was asked of the other method is left out: the usual is taken.")
