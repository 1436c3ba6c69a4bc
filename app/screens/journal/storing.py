"""What is left over: how long it keeps, and the words for its label."""

import re
from collections.abc import Mapping
from datetime import date

import flet as ft
from attrs import evolve

from app.cure.working import Working
from app.heat.storing import Place, What, label_text, store_by
from app.journal.records import Batch
from app.journal.safety import cautions_for, texts
from app.journal.wall import read_wall
from app.journal.yields import weights
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.journal.begun_forms import (
    PacketDraft,
    name_of,
    packed_anew,
    packed_then,
)
from app.screens.journal.form import use_form
from app.screens.journal.missing import no_batch
from app.screens.masses import grams, read_mass
from app.screens.plan.when import day_field
from app.screens.sharing import shares
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen

_PAIR = re.compile(r"([\d.]+) °C \((\d+) °F\)")
WHAT: dict[What, str] = {
    "cooked": "Cooked",
    "raw_pouch": "Raw, in its pouch",
    "raw_drained": "Raw, drained and wrapped",
}
PLACES: dict[Place, str] = {"fridge": "Fridge", "freezer": "Freezer"}


def workings(bench: Bench, _batch: Batch) -> Mapping[str, Working]:
    """The workings of all the ways of keeping it, from today."""
    found = {}
    today = read_wall(bench.wall()).date()
    for what in WHAT:
        for place in PLACES:
            try:
                found[f"{what}-{place}"] = store_by(what, place, today).working
            except ValueError:
                # Not every way of keeping it has a time.
                continue
    return found


def _started_cooked(batch: Batch) -> What:
    cooked = any(step.stage in ("finish", "rest", "tender") and step.done for step in batch.plan)
    return "cooked" if cooked or batch.outcome is not None else "raw_pouch"


@ft.component
def StoringScreen() -> ft.View:
    """Dates and label for one packet."""
    bench = use_bench()
    batch = use_batch()
    form = use_form(
        name_of("packet", batch.id) if batch else "", lambda _: PacketDraft(), packed_then
    )
    if batch is None:
        return no_batch()
    packet = form.typed
    what, place = packet.what or _started_cooked(batch), packet.place
    day, weight = packet.day, packet.weight

    def change(**changes: str) -> None:
        form.change(lambda last: evolve(last, **changes))

    start = read_wall(day).date() if day else read_wall(bench.wall()).date()
    error, text = "", ""
    try:
        packet_g = read_mass(weight, bench.mass_unit) if weight.strip() else None
    except ValueError as wrong:
        packet_g, error = None, str(wrong)
    rows: list[ft.Control] = []
    try:
        kept = store_by(what, place, start)  # type: ignore[arg-type]
        named, *lines = label_text(batch.name, what, place, start).splitlines()  # type: ignore[arg-type]
        weighs = [] if packet_g is None else [grams(packet_g, bench.kit)]
        if bench.kit.system == "us":
            lines = [_PAIR.sub(r"\2 °F (\1 °C)", line) for line in lines]
        text = "\n".join([", ".join([named, *weighs]), *lines])
        rows = [
            panels.figure(
                "Best eaten by",
                _day(kept.best_by),
                on_open=lambda: bench.go(f"/journal/{batch.id}/store/how/{what}-{place}"),
            ),
            panels.figure("Do not keep past", _day(kept.last)),
            *(
                [words.body("In the freezer it is the eating quality that ends.")]
                if place == "freezer"
                else []
            ),
        ]
    except ValueError as wrong:
        rows = [panels.notice(str(wrong), "attention")]
    whole = next((row.grams for row in reversed(weights(batch, bench.entries(batch.id)))), None)
    hint = "" if whole is None else f"In all {grams(whole, bench.kit)}."
    return screen(
        "Keep what is left",
        [
            panels.stack(
                [
                    words.small(batch.name),
                    *form.kept(bench, form.start_over, "start over"),
                ]
            ),
            fields.choice("It is", list(WHAT.items()), what, lambda key: change(what=key)),
            fields.choice(
                "Kept in the", list(PLACES.items()), place, lambda key: change(place=key)
            ),
            day_field(bench, "Packed", day, lambda to: change(day=to), empty="today"),
            fields.quantity_field(
                "This packet weighs",
                weight,
                lambda text: form.change(lambda p: packed_anew(p, text, bench.wall())),
                unit=bench.mass_unit,
                words_allowed=bench.mass_unit == "lb oz",
                error=error or None,
                helper=f"For the label; may stay empty. {hint}".strip(),
            ),
            panels.panel(rows, title="How long"),
            *([panels.panel([words.body(text)], title="Label")] if text else []),
            *panels.cautions(texts(cautions_for("store"), bench.kit.system)),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act(
            "Share the label",
            shares(bench, text, batch.name),
            icon=ft.Icons.SHARE,
            enabled=bool(text),
        ),
        side=Act(
            "Copy",
            lambda: bench.show(said="Copied.", undo=None),
            icon=ft.Icons.CONTENT_COPY,
            action=ft.CopyToClipboard(text),
            enabled=bool(text),
        ),
    )


def _day(day: date) -> str:
    return f"{day:%d %B %Y}".lstrip("0")
