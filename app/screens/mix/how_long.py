"""How long: days until the cure has reached the middle, as a range, beside the old rules."""

from collections.abc import Callable, Mapping

import flet as ft
from attrs import evolve, frozen

from app import quantities
from app.cure.working import Working
from app.journal.safety import cautions_for, texts
from app.screens.bench import Bench, use_bench
from app.screens.in_units import in_units
from app.screens.mix.cure_in_hand import CureInHand, ReadCure, cure_in_hand, pasts_of, read_later
from app.screens.mix.mix_draft import small_length_unit
from app.transport.days import (
    FIRST_PINK_PPM,
    FULL_COLOUR_PPM,
    DaysNeeded,
    days_to_even,
    grey_core,
    warmth_says,
)
from app.transport.diffusivity import Range, temperature_factor
from app.transport.needle import HOLES_MM, days_between_holes
from app.transport.picture import grey_after
from app.transport.practice import RuleOfThumb, disagreement, rules_of_thumb
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen

EVEN_ENOUGH = ("80", "90", "95")
"""Salt in the middle over its final salt that may be called even [%]; our own choice."""

SAFE_C = 4.4


@frozen
class HowLong:
    """What is known of the days of a cure.

    colour, pink : days until the middle has its colour; None for injected meat, whose middle is
    reached by the needle
    even : days until the salt is even; for injected meat, until the cure is even between the holes
    grey : the part left grey if it is pulled on its day [% of the thickness]
    """

    cure: CureInHand
    colour: DaysNeeded | None
    pink: DaysNeeded | None
    even: DaysNeeded | None
    grey: Range
    grey_says: str
    rules: tuple[RuleOfThumb, ...]
    workings: Mapping[str, Working]


def look_ahead(cure: CureInHand, even_percent: float = 90.0, holes_mm: float = HOLES_MM) -> HowLong:
    """Work out the days of a cure, and those until it is even to a degree."""
    model, fridge, nitrite = cure.model, cure.fridge_c, cure.own.diffusivity
    workings: dict[str, Working] = {"own": cure.own.working}
    colour = pink = even = None
    if model.start is None:
        colour = model.days_to_colour(FULL_COLOUR_PPM, fridge, nitrite)
        pink = model.days_to_colour(FIRST_PINK_PPM, fridge, nitrite)
        even = days_to_even(model.piece, even_percent / 100.0, model.bath_ratio, fridge)
        workings |= {"colour": colour.working, "pink": pink.working, "even": even.working}
    elif model.ingoing_ppm > 0.0:
        even = days_between_holes(holes_mm, even_percent / 100.0, fridge, nitrite)
        workings["even"] = even.working
    grey, says = _grey(cure, workings)
    needed = colour.days if colour and colour.days else pink.days if pink else None
    rules = rules_of_thumb(model.piece, needed)
    return HowLong(cure, colour, pink, even, grey, says, rules, workings)


def _grey(cure: CureInHand, workings: dict[str, Working]) -> tuple[Range, str]:
    model = cure.model
    if model.ingoing_ppm <= 0.0:
        return Range(100.0, 100.0, 100.0), "There is no nitrite in it: it stays grey."
    if model.start is None:
        core = grey_core(
            model.piece,
            cure.pulled,
            model.ingoing_ppm,
            model.bath_ratio,
            cure.fridge_c,
            cure.own.diffusivity,
        )
        workings["grey"] = core.working
        return core.grey_percent, core.says
    grey = grey_after(cure.after(cure.pulled), model.meat_water)
    if grey.high < 0.5:
        return grey, f"Pulled on day {cure.pulled:g}: no grey core expected; the needle carried it."
    return grey, (
        f"Pulled on day {cure.pulled:g}: {grey.low:.0f} to {grey.high:.0f} % of the thickness grey."
    )


def cure_of(bench: Bench) -> ReadCure:
    """The cure of the mix as it stands, with what the cook's own batches tell."""
    pasts = pasts_of(bench.shown.batches, bench.entries)
    return cure_in_hand(bench.shown.draft, bench.shown.kit, pasts)


def workings(bench: Bench) -> Mapping[str, Working]:
    """How the numbers of this screen were worked out."""
    cure = cure_of(bench).cure
    later = bench.shown.draft.later
    take, _ = read_later(later, bench.shown.kit)
    if cure is None:
        return {}
    return look_ahead(cure, float(later.even), take("holes", HOLES_MM)).workings


def no_mix(title: str, trouble: str) -> ft.View:
    """What stands on a screen about the cure when there is no mix to speak of."""
    return screen(
        title,
        [
            panels.empty(
                trouble or "There is no mix yet.",
                "Give the weight of the meat in the mix; this follows from it.",
            )
        ],
        place="/mix",
        back="/mix",
        main=Act("To the mix", lambda: ft.context.page.navigate("/mix")),
    )


@ft.component
def DaysScreen() -> ft.View:
    """Days as low, likely and high."""
    bench = use_bench()
    got = cure_of(bench)
    if got.cure is None:
        return no_mix("How long", got.trouble)
    draft = bench.shown.draft
    dry = draft.method == "dry"
    take, wrong = read_later(draft.later, bench.shown.kit)
    told = look_ahead(got.cure, float(draft.later.even), take("holes", HOLES_MM))

    def change(**changes: str) -> None:
        draft = bench.shown.draft
        bench.show(draft=evolve(draft, later=evolve(draft.later, **changes)))

    def opens(key: str) -> None:
        bench.go(f"/mix/days/how/{key}")

    return screen(
        "How long",
        [
            *(
                _middle(told, opens, draft.later.even, lambda key: change(even=key))
                if got.cure.model.start is None
                else _needle(bench, told, opens, change, wrong.get("holes"))
            ),
            fields.quantity_field(
                "Fridge",
                draft.later.fridge,
                lambda text: change(fridge=text),
                unit=bench.temperature_unit,
                error=got.errors.get("fridge"),
                helper="Left empty: "
                + quantities.format(4.0, "temperature", bench.shown.kit.system),
            ),
            *_warmth(bench, told),
            fields.quantity_field(
                "Taken out after",
                draft.later.pulled,
                lambda text: change(pulled=text),
                unit="days",
                error=got.errors.get("pulled"),
                helper=f"Left empty: {got.cure.usual_days:g} days",
            ),
            _pulled(told, opens),
            panels.door(
                "See the slice, day by day",
                "cured, pale, grey and salt across the meat",
                lambda: bench.go("/mix/face"),
                ft.Icons.SHOW_CHART,
            ),
            _old_rules(told),
            panels.panel(
                [
                    words.body(in_units(got.cure.own.says, bench.kit)),
                    words.small(
                        "Each slice you measure in the journal narrows the range for your meat "
                        "and your fridge."
                    ),
                    panels.figure(
                        "Your own slices",
                        str(got.cure.own.diffusivity.slices),
                        on_open=lambda: opens("own"),
                    ),
                ],
                title="What it rests on",
            ),
            *panels.cautions(texts(cautions_for("cure", dry=dry), bench.kit.system)),
        ],
        place="/mix",
        back="/mix",
    )


def _middle(
    told: HowLong, opens: Callable[[str], None], even: str, set_even: Callable[[str], object]
) -> list[ft.Control]:
    assert told.colour is not None
    assert told.pink is not None
    assert told.even is not None
    rows: list[ft.Control] = []
    for needed, name, key in (
        (told.colour, "Full colour in the middle", "colour"),
        (told.pink, "First pink in the middle", "pink"),
        (told.even, f"Salt even to {even} %", "even"),
    ):
        if rows:
            rows.append(panels.line())
        if needed.days is None:
            rows.append(panels.figure(name, "never", note=needed.says, on_open=_to(opens, key)))
        else:
            rows.append(three_days(name, needed.days, _to(opens, key)))
    rows.append(
        fields.choice("Even to", [(one, f"{one} %") for one in EVEN_ENOUGH], even, set_even)
    )
    thick = quantities.format(told.cure.model.piece.thickness_mm, "length", "both")
    faces = "one face open" if told.cure.model.piece.faces == 1 else "both faces open"
    rows.append(words.small(f"For a piece {thick} at its thickest, {faces}."))
    return [panels.panel(rows, title="Days until the middle is reached")]


def _needle(
    bench: Bench,
    told: HowLong,
    opens: Callable[[str], None],
    change: Callable[..., None],
    wrong: str | None,
) -> list[ft.Control]:
    """Injected meat: its middle is reached at once, and the cure evens out between the holes."""
    kit, later = bench.shown.kit, bench.shown.draft.later
    rows: list[ft.Control] = [
        words.body(
            "The needle carries this cure to the middle at once. What takes days is to even out "
            "between the holes (4 days is common practice, no source)."
        )
    ]
    if told.even is not None and told.even.days is not None:
        name = f"Even to {later.even} % between the holes"
        rows.append(three_days(name, told.even.days, _to(opens, "even")))
        rows.append(
            fields.choice(
                "Even to",
                [(one, f"{one} %") for one in EVEN_ENOUGH],
                later.even,
                lambda key: change(even=key),
            )
        )
    return [
        panels.panel(rows, title="Days after the needle"),
        fields.quantity_field(
            "From hole to hole",
            later.holes,
            lambda text: change(holes=text),
            unit=small_length_unit(kit),
            error=wrong,
            helper="Left empty: " + quantities.format(HOLES_MM, "length", kit.system),
        ),
    ]


def _to(opens: Callable[[str], None], key: str) -> Callable[[], object]:
    return lambda: opens(key)


def three_days(name: str, days: Range, on_open: Callable[[], object]) -> ft.Control:
    """Low, likely and high side by side: days are never told as one number."""
    ends = ((days.low, "quickest"), (days.likely, "days, likely"), (days.high, "slowest"))
    says = f"{name}: {in_days(days.low)} days at the quickest, likely {in_days(days.likely)}, "
    says += f"{in_days(days.high)} days at the slowest"
    return panels.pressable_plain(
        ft.Column(
            [
                words.body(name),
                ft.Row(
                    [
                        ft.Column(
                            [
                                words.number(in_days(value), large=value == days.likely),
                                words.small(end),
                            ],
                            spacing=0,
                            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
                            expand=True,
                        )
                        for value, end in ends
                    ],
                    vertical_alignment=ft.CrossAxisAlignment.END,
                ),
            ],
            spacing=4,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        ),
        on_open,
        label=says,
    )


def in_days(days: float) -> str:
    """Days as one would say them: halves when few, whole when many."""
    if days >= 99.5:
        return "over 99"
    return f"{days:.1f}".removesuffix(".0") if days < 9.95 else f"{days:.0f}"


def _warmth(bench: Bench, told: HowLong) -> list[ft.Control]:
    cure, kit = told.cure, bench.shown.kit
    shown: list[ft.Control] = []
    needed = told.colour.days if told.colour else None
    if abs(cure.fridge_c - 4.0) > 0.05 and needed is not None:
        at_4_c = needed.likely * temperature_factor(cure.fridge_c)
        tone: panels.Tone = "danger" if cure.fridge_c > SAFE_C else "note"
        says = in_units(warmth_says(cure.fridge_c, at_4_c), kit)
        shown.append(panels.notice(says, tone))
    elif cure.fridge_c > SAFE_C:
        shown.append(
            panels.notice(
                f"Warmer than {quantities.format(SAFE_C, 'temperature', kit.system)} a cure is not "
                "safe to leave.",
                "danger",
            )
        )
    brine = cure.mix.brine
    if brine is None:
        return shown
    freezes = quantities.format(brine.freezing_c, "temperature", kit.system)
    if cure.fridge_c <= brine.freezing_c:
        shown.append(
            panels.notice(f"This brine freezes at {freezes}: nothing moves in ice.", "danger")
        )
    else:
        shown.append(
            words.small(
                f"Warm costs safety, cold costs time. This brine freezes at {freezes}, the meat "
                f"a little below {quantities.format(0.0, 'temperature', kit.system)}."
            )
        )
    return shown


def _pulled(told: HowLong, opens: Callable[[str], None]) -> ft.Control:
    grey = told.grey
    return panels.panel(
        [
            words.body(told.grey_says),
            panels.figure(
                "Grey, of the thickness",
                f"{grey.low:.0f} – {grey.likely:.0f} – {grey.high:.0f} %",
                note="quick, likely and slow meat",
                on_open=_to(opens, "grey") if "grey" in told.workings else None,
            ),
        ],
        title=f"Taken out after {in_days(told.cure.pulled)} days",
    )


def _old_rules(told: HowLong) -> ft.Control:
    rows: list[ft.Control] = [words.body(disagreement(told.rules))]
    for rule in told.rules:
        rows.append(panels.line())
        span = f"{in_days(rule.least_days)} days"
        if rule.most_days > rule.least_days:
            span = f"{in_days(rule.least_days)} to {in_days(rule.most_days)} days"
        beside = f"{rule.beside_model} " if told.colour is not None else ""
        rows.append(panels.figure(rule.words, span, note=f"{beside}{_first_upper(rule.source)}."))
    return panels.panel(rows, title="Old rules of thumb")


def _first_upper(text: str) -> str:
    return text[:1].upper() + text[1:]
