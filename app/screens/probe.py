"""At the probe: how it went in, where, and what it read. One tap on the feel saves."""

import flet as ft

from app import quantities
from app.journal.entries import felt
from app.journal.records import Feel
from app.journal.safety import cautions_for
from app.screens.bench import use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.told import FEELS, SPOTS, degrees
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen, side_button

_SPOTS = [(key, SPOTS[key]) for key in ("flat", "point", "middle", "edge")]


@ft.component
def ProbeScreen() -> ft.View:
    """Record the feel; the last readings stand above."""
    bench = use_bench()
    batch = use_batch()
    spot, set_spot = ft.use_state("flat")
    text, set_text = ft.use_state("")
    error, set_error = ft.use_state("")
    if batch is None:
        return no_batch()
    kit = bench.shown.kit
    last: dict[str, Feel] = {}
    for entry in bench.entries(batch.id):
        if isinstance(entry.body, Feel):
            last[entry.body.spot] = entry.body

    def record(step: str) -> None:
        try:
            celsius = (
                quantities.parse(text, "temperature", bench.temperature_unit)
                - kit.thermometer_offset_c
                if text.strip()
                else None
            )
            bench.add_entry(batch, felt(step, spot, celsius))
        except ValueError as wrong:
            set_error(str(wrong))
            return
        set_text("")
        set_error("")

    def pulled() -> None:
        bench.decide(batch, "pulled")
        bench.go(f"/journal/{batch.id}")

    body: list[ft.Control] = [
        words.small(batch.name),
        fields.choice("Where", _SPOTS, spot, set_spot),
        fields.quantity_field(
            "It reads",
            text,
            set_text,
            unit=bench.temperature_unit,
            error=error or None,
            helper="If you read it; the feel counts, not the number.",
        ),
        words.heading("How it goes in"),
        *(
            side_button(Act(said, lambda step=step: record(step)))  # type: ignore[misc]
            for step, said in FEELS.items()
        ),
    ]
    if last:
        body.append(
            panels.panel(
                [
                    panels.figure(
                        SPOTS[where],
                        FEELS[feel.step].split(":")[0],
                        note="" if feel.celsius is None else degrees(feel.celsius, kit),
                    )
                    for where, feel in last.items()
                ],
                title="Last felt",
            )
        )
    body += [panels.notice(one.text, "attention") for one in cautions_for("tender")]
    return screen(
        "Probe",
        body,
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act(
            "Pulled: it is done",
            pulled,
            icon=ft.Icons.OUTDOOR_GRILL,
        ),
    )
