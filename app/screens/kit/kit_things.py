"""Adding one's own things to the kit: a curing salt, a container."""

import flet as ft
from attrs import evolve

from app import quantities
from app.cure.salts import CuringSalt, check_suitable
from app.journal.records import OwnContainer, OwnSalt
from app.screens.bench import new_id, use_bench
from app.screens.mix.mix_draft import read_number, small_length_unit
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen


@ft.component
def SaltScreen() -> ft.View:
    """A curing salt as its label states it; one not for this use is refused with the reason."""
    bench = use_bench()
    name, set_name = ft.use_state("")
    nitrite, set_nitrite = ft.use_state("")
    nitrate, set_nitrate = ft.use_state("")
    error, set_error = ft.use_state("")

    def save() -> None:
        try:
            if not name.strip():
                raise ValueError("Give the salt the name on its label.")
            salt = CuringSalt(
                name.strip(),
                read_number(nitrite, "nitrite", "%"),
                read_number(nitrate, "nitrate", "%") if nitrate.strip() else 0.0,
            )
            check_suitable(salt)
        except ValueError as wrong:
            set_error(str(wrong))
            return
        kit = bench.shown.kit
        own = OwnSalt(new_id(), salt.name, salt.nitrite_percent, salt.nitrate_percent)
        bench.save_kit(evolve(kit, salts=(*kit.salts, own)), f"{salt.name} is in your kit.")
        bench.go("/kit")

    return screen(
        "A curing salt",
        [
            words.body("As the label states it. Sodium nitrite, in percent of the whole."),
            fields.text_field("Name on the label", name, set_name),
            fields.quantity_field("Sodium nitrite", nitrite, set_nitrite, unit="%"),
            fields.quantity_field(
                "Nitrate", nitrate, set_nitrate, unit="%", helper="Empty if the label names none."
            ),
            *([panels.notice(error, "danger")] if error else []),
        ],
        place="/kit",
        back="/kit",
        main=Act("Save", save, icon=ft.Icons.CHECK),
    )


@ft.component
def ContainerScreen() -> ft.View:
    """A box or a pot by its inner sizes."""
    bench = use_bench()
    unit = small_length_unit(bench.shown.kit)
    name, set_name = ft.use_state("")
    shape, set_shape = ft.use_state("box")
    sizes, set_sizes = ft.use_state(dict[str, str]())
    error, set_error = ft.use_state("")
    wanted = (
        (("length", "Length inside"), ("width", "Width inside"), ("height", "Height inside"))
        if shape == "box"
        else (("width", "Width across, inside"), ("height", "Height inside"))
    )

    def save() -> None:
        try:
            if not name.strip():
                raise ValueError("Give the container a name, “blue box” for example.")
            read = {
                f"{side}_mm": quantities.parse(sizes.get(side, ""), "length", unit)
                for side, _ in wanted
            }
        except ValueError as wrong:
            set_error(str(wrong))
            return
        kit = bench.shown.kit
        own = OwnContainer(new_id(), name.strip(), shape, **read)  # type: ignore[arg-type]
        bench.save_kit(
            evolve(kit, containers=(*kit.containers, own)), f"{own.name} is in your kit."
        )
        bench.go("/kit")

    return screen(
        "A container",
        [
            fields.text_field("Name", name, set_name),
            fields.choice(
                "Shape", (("box", "Box"), ("round", "Round")), shape, set_shape, show_label=False
            ),
            *(
                fields.quantity_field(
                    label,
                    sizes.get(side, ""),
                    lambda text, side=side: set_sizes(  # type: ignore[misc]
                        lambda old: {**old, side: text}
                    ),
                    unit=unit,
                )
                for side, label in wanted
            ),
            *([panels.notice(error, "danger")] if error else []),
            words.small("Use a food-grade container, not bare metal: salt attacks it."),
        ],
        place="/kit",
        back="/kit",
        main=Act("Save", save, icon=ft.Icons.CHECK),
    )
