"""A recipe found elsewhere, as written: what it really does, and a safe mix of ours from it."""

from collections.abc import Callable, Mapping

import flet as ft
from attrs import evolve, frozen

from app import quantities
from app.cure.meat import CUTS
from app.cure.recipe_check import RecipeCheck, check_recipe
from app.cure.recipe_turned import safe_request
from app.cure.working import Working
from app.journal.records import Kit
from app.journal.safety import cautions_for, texts
from app.screens.bench import Bench, use_bench
from app.screens.in_units import one_of_both
from app.screens.mix.mix import answer
from app.screens.mix.mix_draft import MixDraft, draft_of
from app.screens.mix.mix_results import TONES
from app.screens.mix.recipe_draft import LINES, SECONDS, RecipeDraft, cures_for, read_recipe
from app.transport.diffusivity import Range
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen
from app.widgets.scale import limits_scale


@frozen
class Checked:
    """A check, or what stands in the way of one."""

    errors: Mapping[str, str]
    check: RecipeCheck | None = None
    trouble: str = ""


def checked(draft: RecipeDraft, kit: Kit) -> Checked:
    """Read a recipe and check it."""
    got = read_recipe(draft, kit)
    if got.recipe is None:
        return Checked(got.errors)
    try:
        return Checked(got.errors, check_recipe(got.recipe))
    except ValueError as wrong:
        return Checked(got.errors, trouble=str(wrong))


def safe_draft(draft: MixDraft, kit: Kit) -> MixDraft:
    """The mix of ours made of the recipe, for the meat in the mix when there is some.

    Raises ValueError with a sentence when it cannot be one.
    """
    recipe = read_recipe(draft.recipe, kit).recipe
    if recipe is None:
        raise ValueError("Give the recipe's meat first.")
    own = answer(draft, kit).draft.request if draft.weight.strip() else None
    ours = safe_request(recipe, own.meat_g if own else None)
    made = evolve(draft_of(ours, kit), recipe=draft.recipe, later=draft.later)
    trouble = answer(made, kit)
    if trouble.mix is None:
        raise ValueError(
            trouble.trouble or (trouble.over.reason if trouble.over else "It cannot be mixed.")
        )
    return made


def workings(bench: Bench) -> Mapping[str, Working]:
    """How the numbers of this screen were worked out."""
    check = checked(bench.shown.draft.recipe, bench.shown.kit).check
    return {} if check is None else check.workings


@ft.component
def RecipeScreen() -> ft.View:
    """The recipe line by line, and the verdict."""
    bench = use_bench()
    trouble, set_trouble = ft.use_state("")
    more, set_more = ft.use_state(False)
    twice, set_twice = ft.use_state(False)
    kit, draft = bench.shown.kit, bench.shown.draft.recipe
    got = checked(draft, kit)

    def change(**changes: object) -> None:
        whole = bench.shown.draft
        recipe = evolve(whole.recipe, **changes)  # type: ignore[arg-type]
        bench.show(draft=evolve(whole, recipe=recipe))
        set_trouble("")

    def clear() -> None:
        empty = evolve(bench.shown.draft, recipe=RecipeDraft())
        bench.replace_draft(empty, "The recipe is taken out.")
        set_trouble("")

    def make_it_safe() -> None:
        try:
            made = safe_draft(bench.shown.draft, bench.shown.kit)
        except ValueError as wrong:
            set_trouble(str(wrong))
            return
        bench.replace_draft(made, "The recipe is now a mix of ours.")
        bench.go("/mix")

    def line(name: str, label: str, example: str) -> ft.Control:
        return fields.quantity_field(
            label,
            str(getattr(draft, name)),
            lambda text: change(**{name: text}),
            error=got.errors.get(name),
            helper=f"Such as {example}",
            words_allowed=True,
        )

    metric = kit.system == "metric"
    body: list[ft.Control] = [
        words.body("Write each line as the recipe has it; leave out what it does not name."),
    ]
    for what, label, example in LINES:
        body.append(line(what, label, example))
        if what == "salt" and draft.salt.strip():
            body.append(_crystals(draft.crystals, lambda key: change(crystals=key)))
        if what == "cure" and draft.cure.strip():
            body.append(
                fields.choice(
                    "Which one",
                    [(one.name, one.name) for one in cures_for(kit)],
                    draft.cure_name,
                    lambda key: change(cure_name=key),
                )
            )
    body.append(
        panels.fold(
            "A second salt or sugar",
            " · ".join(one for one in (draft.salt_2, draft.sugar_2) if one) or "none",
            [
                line("salt_2", "And salt", "2 tbsp"),
                _crystals(draft.crystals_2, lambda key: change(crystals_2=key)),
                line("sugar_2", "And sugar", "100 g"),
            ],
            is_open=twice or any(name in got.errors for _, name in SECONDS),
            on_toggle=lambda: set_twice(not twice),
        )
    )
    body.append(line("days", "Days in the cure", "5-7 days, 1 week; empty if it does not say"))
    body.append(
        panels.fold(
            "The piece",
            _piece_in_short(draft, kit),
            _piece(draft, change, line, metric),
            is_open=more or any(key in got.errors for key in ("thickness", "pump", "fridge")),
            on_toggle=lambda: set_more(not more),
        )
    )
    if got.trouble or trouble:
        body.append(panels.notice(trouble or got.trouble, "danger"))
    if got.check is not None:
        body += _verdict(bench, got.check)
        if not bench.shown.draft.weight.strip():
            body.append(words.small("The mix of ours is for the recipe's weight of meat."))
    elif not draft.meat.strip():
        body.append(words.small("The verdict appears as soon as the meat is there."))
    body += panels.cautions(texts(cautions_for("recipe"), bench.kit.system))
    return screen(
        "Check a recipe",
        body,
        place="/mix",
        back="/mix",
        main=Act("Make it a safe mix", make_it_safe, ft.Icons.CHECK, enabled=got.check is not None),
        side=Act("Clear", clear, enabled=draft != RecipeDraft()),
    )


def _crystals(chosen: str, on_choose: Callable[[str], object]) -> ft.Control:
    return fields.choice(
        "Its crystals",
        (("unknown", "Not said"), ("fine", "Fine"), ("coarse", "Coarse, kosher")),
        chosen,
        on_choose,
    )


def _piece_in_short(draft: RecipeDraft, kit: Kit) -> str:
    cut = CUTS[draft.cut]
    thick = draft.thickness or quantities.format(cut.thickness_mm, "length", kit.system)
    return f"{cut.name}, {thick} thick"


def _piece(
    draft: RecipeDraft,
    change: Callable[..., None],
    line: Callable[[str, str, str], ft.Control],
    metric: bool,
) -> list[ft.Control]:
    return [
        fields.choice(
            "Cut",
            [(key, cut.name) for key, cut in CUTS.items()],
            draft.cut,
            lambda key: change(cut=key),
        ),
        line("thickness", "Thickness at the thickest", "60 mm" if metric else "2 1/2 in"),
        fields.choice(
            "Fat cap",
            (("off", "Trimmed off"), ("on", "Left on")),
            "on" if draft.fat_cap_on else "off",
            lambda key: change(fat_cap_on=key == "on"),
        ),
        line("pump", "Pumped in, of the meat", "10 %, empty if not injected"),
        line("fridge", "Kept at", "4 °C" if metric else "38 °F"),
    ]


def _verdict(bench: Bench, check: RecipeCheck) -> list[ft.Control]:
    kit = bench.shown.kit

    def opens(key: str) -> Callable[[], object] | None:
        found = key in check.workings
        return (lambda: bench.go(f"/mix/recipe/how/{key}")) if found else None

    worst = check.says[0].severity if check.says else "hint"
    tone: panels.Tone = "done" if worst == "hint" else TONES[worst]
    nitrite = check.nitrite_ppm
    rows: list[ft.Control] = [
        panels.figure(
            "Nitrite", spread(nitrite, "ppm"), note=_counted(check), on_open=opens("nitrite")
        ),
        limits_scale(
            value=round(nitrite.high),
            least=round(check.least_ppm),
            most=round(check.limit_ppm),
            unit="ppm",
            least_words="too weak below",
            most_words="most allowed",
        ),
    ]
    if check.strength_percent is not None and check.salometer is not None:
        rows.append(
            panels.figure(
                "Salt in its brine",
                spread(check.strength_percent, "%", 1),
                note=f"salometer {spread(check.salometer, '°SAL')}",
                on_open=opens("strength"),
            )
        )
    rows.append(
        panels.figure(
            "Salt in the meat then",
            spread(check.salt_percent, "%", 1),
            note="low, likely, high",
            on_open=opens("salt_then"),
        )
    )
    rows.append(panels.figure("The middle", _MIDDLE[check.middle], note=_grey(check)))
    if check.landing_c is not None:
        system = "metric" if kit.system == "both" else kit.system
        low, high = (
            quantities.format(one, "temperature", system)
            for one in (check.landing_c.low, check.landing_c.high)
        )
        rows.append(
            panels.figure("Its ice brings it to", f"{low} to {high}", on_open=opens("landing"))
        )
    return [
        words.heading("Verdict"),
        ft.Semantics(live_region=True, content=panels.notice(check.headline, tone)),
        *(
            panels.notice(one_of_both(one.text, kit), TONES[one.severity])
            for one in check.says
            if one.severity != "hint"
        ),
        panels.panel(
            [
                *rows,
                *(
                    words.body(one_of_both(one.text, kit))
                    for one in check.says
                    if one.severity == "hint"
                ),
            ],
            title="As it is written",
        ),
    ]


_MIDDLE = {
    "reached": "reached",
    "perhaps": "likely reached",
    "not reached": "not reached",
    "by the needle": "reached by the needle",
    "no cure": "stays grey",
}


def spread(told: Range, unit: str, places: int = 0) -> str:
    """Low, likely and high, or one number where they are the same."""
    low, likely, high = (f"{one:.{places}f}" for one in (told.low, told.likely, told.high))
    if low == high:
        return f"{likely} {unit}"
    return f"{low} – {likely} – {high} {unit}"


def _counted(check: RecipeCheck) -> str:
    binding = next(one for one in check.figures if one.binds)
    said = {
        "equilibrium": "meat and pickle as one",
        "pick-up": "by the weight taken up",
        "pumped": "by the pickle pumped in",
        "dry": "on the green weight",
    }
    return f"low, likely, high; counted {said[binding.basis]}"


def _grey(check: RecipeCheck) -> str:
    if check.grey_percent is None or check.grey_percent.high < 0.5:
        return ""
    return f"grey part of the thickness {spread(check.grey_percent, '%')}"
