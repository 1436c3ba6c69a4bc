"""Kit: units, rules, salts, containers, what is stored, and keeping a copy."""

import flet as ft
from attrs import evolve

from app import quantities
from app.cure.rules import RULE_SETS
from app.cure.salts import CURING_SALTS
from app.journal.records import Kit, OwnContainer
from app.journal.safety import DISCLAIMER, cautions_for, texts
from app.quantities import System
from app.screens.bench import Bench, use_bench
from app.screens.kit.about import About
from app.screens.kit.copies import copied_summary, copies
from app.screens.kit.example import example_act
from app.screens.kit.stored import Stored, stored_summary
from app.screens.masses import NAMES as MASS_NAMES
from app.screens.masses import in_system, mass_unit, mass_units, weighing_in
from app.screens.mix.mix_draft import read_number
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen, side_button
from app.widgets.theme import dress


@ft.component
def KitScreen() -> ft.View:
    """Everything the cook sets once."""
    bench = use_bench()
    opened, set_opened = ft.use_state("")

    def folded(name: str, title: str, summary: str, inside: list[ft.Control]) -> ft.Control:
        return panels.fold(
            title,
            summary,
            inside,
            is_open=opened == name,
            on_toggle=lambda: set_opened("" if opened == name else name),
        )

    kit = bench.shown.kit
    return screen(
        "Kit",
        [
            folded("units", "Units", units_summary(kit), _units(bench)),
            folded("theme", "Look", _THEMES[kit.theme], _look(bench)),
            folded("rules", "Nitrite rules", RULE_SETS[kit.rules].name, [Rules()]),
            folded(
                "salts",
                "Curing salts",
                f"{len(CURING_SALTS) + len(kit.salts)} to choose from",
                _salts(bench),
            ),
            folded(
                "containers",
                "Containers",
                f"{len(kit.containers)} of your own" if kit.containers else "none yet",
                _containers(bench),
            ),
            folded(
                "blends",
                "Blends",
                f"{len(kit.blends)} of your own" if kit.blends else "ours, and room for yours",
                [
                    side_button(
                        Act("Look at the blends", lambda: bench.go("/mix/blends"), ft.Icons.SPA)
                    )
                ],
            ),
            folded("thermometer", "Thermometer", _offset_says(bench), [Thermometer()]),
            folded("stored", "What is stored", stored_summary(bench), [Stored()]),
            folded("copy", "Copy and restore", copied_summary(bench), copies(bench)),
            folded("example", "Example batches", "two invented ones", _example(bench)),
            folded(
                "cautions",
                "Cautions",
                "read once, keep in mind",
                [
                    *panels.cautions(texts(cautions_for("kit"), bench.kit.system)),
                    words.body(DISCLAIMER),
                ],
            ),
            folded("about", "About", "version, fonts, what leaves the phone", [About()]),
        ],
        place="/kit",
    )


_OTHERS = {"us": "inches, °F", "metric": "millimetres, °C"}
_THEMES = {"auto": "as the phone", "light": "light", "dark": "dark", "outdoor": "for full sun"}


def units_summary(kit: Kit) -> str:
    """The units in short.

    >>> units_summary(Kit()), units_summary(Kit(weighs_in="kg"))
    ('pounds, inches, °F', 'kilograms, inches, °F')
    >>> units_summary(Kit("both"))
    'both shown, weights typed in pounds'
    """
    weights = MASS_NAMES[mass_unit(kit)]
    if kit.system == "both":
        return f"both shown, weights typed in {weights}"
    return f"{weights}, {_OTHERS[kit.system]}"


def _units(bench: Bench) -> list[ft.Control]:
    kit = bench.shown.kit
    return [
        fields.choice(
            "Units",
            (("us", "US"), ("metric", "Metric"), ("both", "Both")),
            kit.system,
            lambda key: bench.save_kit(in_system(bench.shown.kit, key)),  # type: ignore[arg-type]
            show_label=False,
        ),
        fields.choice(
            "Weights in",
            [(one, one) for one in mass_units(kit)],
            mass_unit(kit),
            lambda key: bench.save_kit(weighing_in(bench.shown.kit, key)),
        ),
        words.small("Any unit can be typed in any field; this sets what a bare number means."),
    ]


def _look(bench: Bench) -> list[ft.Control]:
    def choose(key: str) -> None:
        bench.save_kit(evolve(bench.shown.kit, theme=key))  # type: ignore[arg-type]
        dress(ft.context.page, key)  # type: ignore[arg-type]
        ft.context.page.update()

    return [
        fields.choice(
            "Look",
            (
                ("auto", "As the phone"),
                ("light", "Light"),
                ("dark", "Dark"),
                ("outdoor", "Full sun"),
            ),
            bench.shown.kit.theme,
            choose,
            show_label=False,
        )
    ]


@ft.component
def Rules() -> ft.Control:
    """Which rules the nitrite is held to."""
    bench = use_bench()
    kit = bench.shown.kit
    text, set_text = ft.use_state("" if kit.own_limit_ppm is None else f"{kit.own_limit_ppm:g}")
    error, set_error = ft.use_state("")

    def choose(key: str) -> None:
        own = kit.own_limit_ppm if kit.own_limit_ppm is not None else 150.0
        bench.save_kit(evolve(kit, rules=key, own_limit_ppm=own if key == "own" else None))
        set_text(f"{own:g}" if key == "own" else "")

    def set_own(typed: str) -> None:
        set_text(typed)
        try:
            limit = read_number(typed, "limit", "ppm")
            if not 0 < limit <= 200:
                raise ValueError("Your own limit must be above 0 and at most 200 ppm.")
        except ValueError as wrong:
            set_error(str(wrong))
            return
        set_error("")
        bench.save_kit(evolve(bench.shown.kit, own_limit_ppm=limit))

    rule = RULE_SETS[kit.rules]
    inside: list[ft.Control] = [
        fields.choice(
            "Rules",
            [(key, one.name) for key, one in RULE_SETS.items()],
            kit.rules,
            choose,
            show_label=False,
        ),
        words.small(rule.source),
    ]
    if kit.rules == "own":
        inside.append(
            fields.quantity_field("Own limit", text, set_own, unit="ppm", error=error or None)
        )
    return ft.Column(inside, spacing=10, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


def _salts(bench: Bench) -> list[ft.Control]:
    kit = bench.shown.kit
    rows: list[ft.Control] = [
        panels.figure(one.name, f"{one.nitrite_percent:g} %") for one in CURING_SALTS
    ]
    for own in kit.salts:
        rows.append(
            ft.Row(
                [
                    ft.Container(
                        panels.figure(own.name, f"{own.nitrite_percent:g} %"), expand=True
                    ),
                    quiet_button(
                        Act(
                            "Remove",
                            lambda own=own: bench.save_kit(  # type: ignore[misc]
                                evolve(kit, salts=tuple(s for s in kit.salts if s.id != own.id)),
                                f"{own.name} removed.",
                            ),
                        )
                    ),
                ]
            )
        )
    rows.append(side_button(Act("Add a salt", lambda: bench.go("/kit/salt"), ft.Icons.ADD)))
    return rows


def _containers(bench: Bench) -> list[ft.Control]:
    kit = bench.shown.kit
    rows: list[ft.Control] = [
        ft.Row(
            [
                ft.Container(panels.figure(own.name, _inside(own, kit.system)), expand=True),
                quiet_button(
                    Act(
                        "Remove",
                        lambda own=own: bench.save_kit(  # type: ignore[misc]
                            evolve(
                                kit,
                                containers=tuple(c for c in kit.containers if c.id != own.id),
                            ),
                            f"{own.name} removed.",
                        ),
                    )
                ),
            ]
        )
        for own in kit.containers
    ]
    if not rows:
        rows.append(
            words.body(
                "Measure a box or a pot inside: the water that covers the meat follows from it."
            )
        )
    rows.append(
        side_button(Act("Add a container", lambda: bench.go("/kit/container"), ft.Icons.ADD))
    )
    return rows


def _inside(own: OwnContainer, system: System) -> str:
    """A container's inner sizes in the cook's units, a round one by its width and height."""
    sides = (own.length_mm, own.width_mm, own.height_mm)
    return " × ".join(quantities.format(side, "length", system) for side in sides if side)


def _offset_says(bench: Bench) -> str:
    offset = bench.shown.kit.thermometer_offset_c
    if not offset:
        return "not checked, or reads true"
    by = degrees_apart(abs(offset), bench.shown.kit.system)
    return f"reads {by} too {'high' if offset > 0 else 'low'}; put right"


def degrees_apart(apart_c: float, system: str) -> str:
    """A difference of two temperatures [°C] in the cook's units.

    Examples
    --------
    >>> degrees_apart(1.0, "us"), degrees_apart(1.0, "metric"), degrees_apart(1.0, "both")
    ('1.8 °F', '1.0 °C', '1.0 °C / 1.8 °F')
    """
    metric, us = f"{apart_c:.1f} °C", f"{1.8 * apart_c:.1f} °F"
    return {"us": us, "metric": metric}.get(system, f"{metric} / {us}")


@ft.component
def Thermometer() -> ft.Control:
    """The ice-water check: what the thermometer reads where it should read 0 °C."""
    bench = use_bench()
    text, set_text = ft.use_state("")
    error, set_error = ft.use_state("")
    freezing = quantities.format(0.0, "temperature", bench.shown.kit.system)

    def keep() -> None:
        try:
            offset = bench.offset_of(text)
        except ValueError as wrong:
            set_error(str(wrong))
            return
        set_error("")
        bench.save_kit(evolve(bench.shown.kit, thermometer_offset_c=offset), "Kept.")

    return ft.Column(
        [
            words.body(
                "Fill a glass with ice, add water to the brim, stir a minute, and hold the tip "
                f"in the middle. It should read {freezing}."
            ),
            fields.quantity_field(
                "It reads", text, set_text, unit=bench.temperature_unit, error=error or None
            ),
            side_button(Act("Keep", keep, enabled=bool(text.strip()))),
        ],
        spacing=10,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _example(bench: Bench) -> list[ft.Control]:
    return [
        words.body("Two invented batches, one good and one with a grey core, to look round in."),
        side_button(example_act(bench)),
    ]
