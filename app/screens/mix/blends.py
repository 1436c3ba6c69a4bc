"""The cook's own blends for the cure and for the rub, kept in the kit."""

import flet as ft
from attrs import evolve

from app.cure.blends import Blend, BlendPart, Per, brine_spices_of_ours, rub_of_ours
from app.screens.bench import use_bench
from app.screens.mix.mix_draft import read_number
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen, side_button

PER_WORDS: dict[Per, str] = {
    "kg_of_meat_and_brine": "for a kilogram of meat and brine",
    "100_cm2": "on 100 cm² of surface, a hand's palm",
}
"""What the grams of a blend are for. A palm is about 100 cm²: common practice, no source."""

MOST_GRAMS = 200.0


def read_blend(name: str, per: Per, rows: list[tuple[str, str]], taken: set[str]) -> Blend:
    """A blend as typed; ValueError with a sentence when it is none."""
    title = name.strip()
    if not title:
        raise ValueError("Give the blend a name.")
    if title.casefold() in taken:
        raise ValueError(f"There is a blend called {title} already. Give this one another name.")
    parts: list[BlendPart] = []
    for spice, amount in rows:
        if not spice.strip() and not amount.strip():
            continue
        if not spice.strip():
            raise ValueError(f"Say what the {amount.strip()} g are of.")
        if not amount.strip():
            raise ValueError(f"Say how many grams of {spice.strip()}.")
        grams = read_number(amount, spice.strip(), "g")
        if not 0.0 < grams <= MOST_GRAMS:
            raise ValueError(
                f"{spice.strip()} must be more than 0 and at most {MOST_GRAMS:g} g; "
                f"it is {grams:g}."
            )
        parts.append(BlendPart(spice.strip(), grams))
    if not parts:
        raise ValueError("A blend needs one spice at least.")
    return Blend(title, per, tuple(parts))


@ft.component
def BlendsScreen() -> ft.View:
    """All blends; own ones can be removed."""
    bench = use_bench()
    kit = bench.shown.kit
    body: list[ft.Control] = []
    for blend in (brine_spices_of_ours(), rub_of_ours(), *kit.blends):
        own = blend in kit.blends
        rows: list[ft.Control] = [
            words.small(PER_WORDS[blend.per][:1].upper() + PER_WORDS[blend.per][1:]),
            *(panels.figure(part.name, f"{part.grams:g} g") for part in blend.parts),
        ]
        if own:
            rows.append(
                quiet_button(
                    Act(
                        f"Remove {blend.name}",
                        lambda blend=blend: bench.save_kit(  # type: ignore[misc]
                            evolve(kit, blends=tuple(b for b in kit.blends if b != blend)),
                            f"{blend.name} removed.",
                        ),
                        ft.Icons.DELETE_OUTLINE,
                    )
                )
            )
        body.append(panels.panel(rows, title=blend.name))
    body.append(
        words.small("Spices flavour; salt and cure stay in the mix, so leave them out of a blend.")
    )
    return screen(
        "Blends",
        body,
        place="/mix",
        back="/mix",
        main=Act("New blend", lambda: bench.go("/mix/blends/new"), ft.Icons.ADD),
    )


@ft.component
def BlendScreen() -> ft.View:
    """A new blend, spice by spice."""
    bench = use_bench()
    name, set_name = ft.use_state("")
    per, set_per = ft.use_state("kg_of_meat_and_brine")
    rows, set_rows = ft.use_state([("", ""), ("", ""), ("", "")])
    error, set_error = ft.use_state("")

    def put(at: int, spice: str | None = None, grams: str | None = None) -> None:
        def changed(old: list[tuple[str, str]]) -> list[tuple[str, str]]:
            was = old[at]
            new = (was[0] if spice is None else spice, was[1] if grams is None else grams)
            return [*old[:at], new, *old[at + 1 :]]

        set_rows(changed)

    def save() -> None:
        kit = bench.shown.kit
        ours = (brine_spices_of_ours(), rub_of_ours())
        taken = {one.name.casefold() for one in (*ours, *kit.blends)}
        try:
            blend = read_blend(name, per, rows, taken)  # type: ignore[arg-type]
        except ValueError as wrong:
            set_error(str(wrong))
            return
        bench.save_kit(evolve(kit, blends=(*kit.blends, blend)), f"{blend.name} is in your kit.")
        draft = bench.shown.draft
        used = evolve(draft, rub=blend) if blend.per == "100_cm2" else evolve(draft, spices=blend)
        bench.show(draft=used)
        bench.go("/mix/blends")

    return screen(
        "A blend",
        [
            fields.text_field("Name", name, set_name),
            fields.choice(
                "It goes",
                (("kg_of_meat_and_brine", "In the cure"), ("100_cm2", "On the surface: a rub")),
                per,
                set_per,
            ),
            words.small("Grams " + PER_WORDS[per]),  # type: ignore[index]
            *(
                ft.Row(
                    [
                        ft.Container(
                            fields.text_field(
                                f"Spice {i + 1}",
                                spice,
                                lambda text, i=i: put(i, spice=text),  # type: ignore[misc]
                            ),
                            expand=3,
                        ),
                        ft.Container(
                            fields.quantity_field(
                                f"Grams {i + 1}",
                                grams,
                                lambda text, i=i: put(i, grams=text),  # type: ignore[misc]
                            ),
                            expand=2,
                        ),
                    ],
                    spacing=8,
                )
                for i, (spice, grams) in enumerate(rows)
            ),
            side_button(
                Act("Another spice", lambda: set_rows(lambda old: [*old, ("", "")]), ft.Icons.ADD)
            ),
            *([panels.notice(error, "danger")] if error else []),
        ],
        place="/mix",
        back="/mix/blends",
        main=Act("Save", save, icon=ft.Icons.CHECK),
    )
