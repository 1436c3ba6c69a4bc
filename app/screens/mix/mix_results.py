"""What a mix comes to: what to weigh and the nitrite first, the rest folded until wanted."""

from collections.abc import Callable, Mapping

import flet as ft

from app import quantities
from app.cure.ice import equal_volumes
from app.cure.mix import BrineFigures, ContainerFit, IcePlan, Ingredient, Mix
from app.cure.turning import turn_it
from app.cure.working import Working
from app.journal.records import Kit
from app.screens.bench import Bench
from app.screens.in_units import in_units, one_of_both
from app.screens.masses import mix_system
from app.widgets import panels, words
from app.widgets.scale import limits_scale

Opens = Callable[[str], Callable[[], object] | None]
Folded = Callable[[str, str, str, Callable[[], list[ft.Control]]], ft.Control]

TONES: dict[str, panels.Tone] = {"danger": "danger", "caution": "attention", "hint": "note"}


TRIMMED = (
    "The mix is for the meat that goes in. Once it is trimmed, weigh it again and put that weight "
    "in: the rest follows."
)


def in_kind(value: float, kind: str, kit: Kit) -> str:
    """A number in the cook's units."""
    return quantities.format(value, kind, kit.system)


def weighed(grams: float, system: str) -> tuple[str, str]:
    """A weight as it stands on the scale, and the same in the other units for the note.

    `system` is as `mix_system` tells it: the unit chosen for the weight comes first.
    """
    metric = quantities.format(grams, "mass", "metric")
    if system == "metric":
        return metric, ""
    pounds = quantities.format(grams, "mass", "both").split(" / ")[1]
    # A fine scale shows grams, in a US kitchen too.
    return (pounds, metric) if system == "us" and grams >= 100.0 else (metric, pounds)


def mix_workings(mix: Mix) -> Mapping[str, Working]:
    """How every number of the screen was worked out, by its key."""
    found = dict(mix.workings)
    if mix.ice is not None and mix.ice.boiled_g > 0.0:
        found["equal_measures"] = _equal_measures(mix.ice)
    return found


def results(bench: Bench, mix: Mix, folded: Folded) -> list[ft.Control]:
    """The parts of the screen below the weight."""
    kit = bench.shown.kit
    masses = mix_system(kit)
    known = mix_workings(mix)

    def opens(key: str) -> Callable[[], object] | None:
        return (lambda: bench.go(f"/mix/how/{key}")) if key in known else None

    weigh = [part for part in mix.ingredients if part.kind not in ("meat", "spice")]
    spices = [part for part in mix.ingredients if part.kind == "spice"]
    hints = [one for one in mix.warnings if one.severity == "hint"]
    shown: list[ft.Control] = [
        panels.panel(
            [_row(part, masses, opens, large=part.kind == "cure") for part in weigh],
            title="Weigh these",
        ),
        _comes_to(mix, opens),
        *(
            panels.notice(one_of_both(one.text, kit), TONES[one.severity])
            for one in mix.warnings
            if one not in hints
        ),
        folded(
            "counted", "How the nitrite is counted", _counted(mix), lambda: _nitrite(mix, opens)
        ),
        folded(
            "salted", "Salt in the meat", _salt_in_short(mix, kit), lambda: _salt(mix, kit, opens)
        ),
    ]
    ice, brine, fit = mix.ice, mix.brine, mix.fit
    if ice is not None and ice.boiled_g > 0.0:
        lands = f"lands at {in_kind(ice.landing_c, 'temperature', kit)}"
        shown.append(
            folded("chill", "Chill it at once", lands, lambda: _chill(ice, kit, masses, opens))
        )
    if brine is not None:
        strength = f"{brine.salt_percent:.1f} % salt, {brine.salometer:.0f} °SAL"
        shown.append(
            folded("brine", "Check the brine", strength, lambda: _brine(brine, kit, masses, opens))
        )
    if fit is not None:
        shown.append(
            folded(
                "fit", "In the container", _fit_in_short(fit), lambda: _fit(fit, kit, masses, opens)
            )
        )
    if spices or mix.rub:
        blends = ((mix.request.brine_spices, spices), (mix.request.rub, mix.rub))
        names = [blend.name for blend, there in blends if blend is not None and there]
        shown.append(
            folded(
                "spices",
                "Spices and rub",
                " · ".join(names),
                lambda: _spices(mix, masses, opens, spices),
            )
        )
    worth = (TRIMMED, *(one_of_both(one.text, kit) for one in hints))
    shown.append(
        folded(
            "hints",
            "Worth knowing",
            "one thing" if len(worth) == 1 else f"{len(worth)} things",
            lambda: [words.body(one) for one in worth],
        )
    )
    return shown


def _row(part: Ingredient, masses: str, opens: Opens, *, large: bool = False) -> ft.Control:
    value, beside = weighed(part.grams, masses)
    note = " · ".join(one for one in (beside, part.note) if one)
    return panels.figure(part.name, value, note=note, on_open=opens(part.working), large=large)


def _comes_to(mix: Mix, opens: Opens) -> ft.Control:
    nitrite = mix.nitrite
    return panels.panel(
        [
            panels.figure("Nitrite", f"{nitrite.ppm:.0f} ppm", on_open=opens("nitrite")),
            limits_scale(
                value=nitrite.ppm,
                least=round(nitrite.least_ppm),
                most=round(nitrite.most_ppm),
                unit="ppm",
                least_words="too weak below",
                most_words="most allowed",
            ),
        ],
        title="What it comes to",
    )


def _counted(mix: Mix) -> str:
    if len(mix.nitrite.figures) == 1:
        return f"{mix.nitrite.ppm:.0f} ppm"
    return ", ".join(
        f"{one.ppm:.0f} ppm {one.basis}" + (" (this one counts)" if one.binds else "")
        for one in mix.nitrite.figures
    )


def _nitrite(mix: Mix, opens: Opens) -> list[ft.Control]:
    nitrite = mix.nitrite
    rows = [
        panels.figure(
            one.name,
            f"{one.ppm:.0f} ppm",
            note="the higher one: this one counts"
            if one.binds and len(nitrite.figures) > 1
            else "",
            on_open=opens(f"nitrite_{one.basis}"),
        )
        for one in nitrite.figures
    ]
    return [
        *rows,
        words.small(nitrite.binding_reason),
        panels.line(),
        panels.figure(
            "Most allowed",
            f"{nitrite.most_ppm:.0f} ppm",
            note=nitrite.rule,
            on_open=opens("limit"),
        ),
        panels.figure(
            "Too weak below",
            f"{nitrite.least_ppm:.0f} ppm",
            note=nitrite.least_reason,
            on_open=opens("least"),
        ),
        panels.figure("Counted as the nitrite ion", f"{nitrite.ion_ppm:.0f} ppm"),
        panels.figure(
            "Home packs, finished meat",
            f"{nitrite.home_pack_ppm:.0f} ppm",
            note="the most by 21 CFR 172.170",
        ),
    ]


def _salt_in_short(mix: Mix, kit: Kit) -> str:
    salt = mix.salt
    if salt.when == "at rest":
        return f"{salt.at_rest_percent:.1f} % of the meat once it is even"
    when = in_units(salt.when, kit)
    return f"{salt.then_percent.low:.1f} to {salt.then_percent.high:.1f} % of the meat {when}"


def _salt(mix: Mix, kit: Kit, opens: Opens) -> list[ft.Control]:
    salt = mix.salt
    rows: list[ft.Control] = []
    if salt.when != "at rest":
        then, wet = salt.then_percent, salt.then_water_percent
        rows.append(
            panels.figure(
                f"On average {in_units(salt.when, kit)}",
                f"{then.low:.1f} – {then.likely:.1f} – {then.high:.1f} %",
                note=f"low, likely, high; {wet.low:.1f} to {wet.high:.1f} % of its water",
                on_open=opens("salt_then"),
            )
        )
    return [
        *rows,
        panels.figure(
            "Once the salt is even",
            f"{salt.at_rest_percent:.1f} %",
            note=f"of the meat; {salt.at_rest_water_percent:.1f} % of its water",
            on_open=opens("salt_in_meat"),
        ),
        panels.figure("As asked for", f"{salt.simple_percent:g} %", note=salt.basis),
    ]


def _chill(ice: IcePlan, kit: Kit, masses: str, opens: Opens) -> list[ft.Control]:
    loose = ice.ice_ml
    equal = equal_volumes(ice.boiled_g)
    return [
        panels.figure(
            "It lands at", in_kind(ice.landing_c, "temperature", kit), on_open=opens("landing")
        ),
        panels.figure(
            "Most that may be boiled",
            weighed(ice.most_boiled_g, masses)[0],
            note="with ice for all the rest",
            on_open=opens("boiled"),
        ),
        panels.figure(
            "Loose, the ice takes up",
            _span(loose.low, loose.high, "volume", kit),
            note="so weigh it: melted, loose ice fills only about half the room",
            on_open=opens("ice_volume"),
        ),
        panels.figure(
            "Equal measures of boiled water and ice",
            _span(round(equal.landing_c.low), round(equal.landing_c.high), "temperature", kit),
            note="where they really land: far too warm for meat",
            on_open=opens("equal_measures"),
        ),
    ]


def _span(low: float, high: float, kind: str, kit: Kit) -> str:
    system = "metric" if kit.system == "both" else kit.system
    least, most = (quantities.format(one, kind, system) for one in (low, high))
    unit = most.rpartition(" ")[2]
    return f"{least.removesuffix(' ' + unit)} to {most}"


def _equal_measures(ice: IcePlan) -> Working:
    real = equal_volumes(ice.boiled_g)
    lands, water = real.landing_c, real.water_g
    return Working(
        "Equal measures of boiled water and loose ice",
        "ice = measure × 0.50 to 0.60 kg/L; T = (4.18 × boiled × 100 − 334 × ice) ÷ (4.18 × all)",
        (
            ("boiled", f"{ice.boiled_g / 1000.0:.2f} L"),
            ("the same measure of ice, loose", f"{ice.boiled_g / 1000.0:.2f} L"),
            ("water it is said to make", f"{real.stated_water_g / 1000.0:.2f} kg"),
            ("water it makes", f"{water.low / 1000.0:.2f} to {water.high / 1000.0:.2f} kg"),
        ),
        f"{lands.low:.0f} to {lands.high:.0f} °C",
        "The rule is common practice, no source; bulk of ice: FAO, Ice in fisheries, ch. 12; "
        "household cubes from memory; heat balance: 334 kJ/kg to melt, 4.18 kJ/kg for each °C",
        "The brine also comes out stronger than meant, for there is less water in it. Weigh the "
        "ice instead.",
    )


def _brine(brine: BrineFigures, kit: Kit, masses: str, opens: Opens) -> list[ft.Control]:
    rows = [
        panels.figure(
            "Salt in the brine", f"{brine.salt_percent:.1f} %", on_open=opens("strength")
        ),
        panels.figure("Salometer", f"{brine.salometer:.0f} °SAL", on_open=opens("salometer")),
        panels.figure(
            "Specific gravity",
            f"{brine.specific_gravity:.3f}",
            note=f"at 60 °F (15.6 °C); {brine.baume:.1f} °Bé",
            on_open=opens("gravity"),
        ),
        panels.figure(
            "Brine in all", in_kind(brine.volume_ml, "volume", kit), on_open=opens("volume")
        ),
        panels.figure(
            "It freezes at",
            in_kind(brine.freezing_c, "temperature", kit),
            on_open=opens("freezing"),
        ),
    ]
    if brine.pumped_g > 0.0:
        rows.insert(
            0,
            panels.figure(
                "Pump in",
                weighed(brine.pumped_g, masses)[0],
                note=f"the other {weighed(brine.cover_g, masses)[0]} cover the meat",
                on_open=opens("pumped"),
            ),
        )
    return rows


def _fit_in_short(fit: ContainerFit) -> str:
    return ", ".join(
        (
            "fits" if fit.fits else "does not fit",
            "covers the meat" if fit.covers else "does not cover the meat",
            "floats: hold it down" if fit.floats else "sinks",
        )
    )


def _fit(fit: ContainerFit, kit: Kit, masses: str, opens: Opens) -> list[ft.Control]:
    rows: list[ft.Control] = [
        panels.figure(
            "Meat and brine need",
            in_kind(fit.need_ml, "volume", kit),
            note="" if fit.room_ml is None else f"it holds {in_kind(fit.room_ml, 'volume', kit)}",
            on_open=opens("water"),
        )
    ]
    if fit.level_mm is not None:
        of = "" if fit.height_mm is None else f"of {in_kind(fit.height_mm, 'length', kit)} inside"
        rows.append(
            panels.figure(
                "The brine stands at",
                in_kind(fit.level_mm, "length", kit),
                note=of,
                on_open=opens("level"),
            )
        )
    rows.append(
        panels.figure(
            "In this brine the meat", "floats" if fit.floats else "sinks", on_open=opens("float")
        )
    )
    if fit.floats:
        rows.append(
            panels.figure(
                "A plate to hold it down",
                weighed(max(round(fit.hold_down_g / 10.0) * 10.0, 10.0), masses)[0],
                note="or more; glazed and unchipped",
                on_open=opens("hold_down"),
            )
        )
    if fit.level_mm is None:
        rows.append(words.small(f"In a bag: press the air out, and {turn_it()}."))
    return rows


def _spices(mix: Mix, masses: str, opens: Opens, spices: list[Ingredient]) -> list[ft.Control]:
    shown: list[ft.Control] = []
    for blend, parts, where in (
        (
            mix.request.brine_spices,
            spices,
            "on the meat in the bag" if mix.brine is None else "in the brine",
        ),
        (mix.request.rub, list(mix.rub), "on the surface, before the smoke"),
    ):
        if blend is None or not parts:
            continue
        shown.append(words.heading(blend.name))
        shown.append(words.small(where))
        shown += [_row(part, masses, opens) for part in parts]
    return shown
