"""At the probe: how it went in, where, and what it read. One tap on the feel saves."""

import flet as ft
from attrs import evolve

from app.journal.entries import by_time, felt
from app.journal.records import Batch, Entry, Feel, Kit
from app.journal.safety import cautions_for, texts
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.journal.asking import ask, doubt_of_pulling
from app.screens.journal.begun_forms import ProbeDraft, name_of
from app.screens.journal.entry_kinds import read_celsius
from app.screens.journal.form import use_form
from app.screens.journal.missing import no_batch
from app.screens.journal.temperatures import heat_of
from app.screens.journal.told import FEELS, SPOTS, degrees, in_units
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen, side_button

_SPOTS = [(key, SPOTS[key]) for key in ("flat", "point", "middle", "edge")]


@ft.component
def ProbeScreen() -> ft.View:
    """Record the feel at several places; the last readings stand below."""
    bench = use_bench()
    batch = use_batch()
    name = name_of("probe", batch.id) if batch is not None else ""
    form = use_form(name, lambda last: ProbeDraft(spot=last.spot) if last else ProbeDraft())
    spot, text = form.typed.spot, form.typed.text
    error, set_error = ft.use_state("")
    if batch is None:
        return no_batch()

    def change(**changes: str) -> None:
        form.change(lambda last: evolve(last, **changes))

    def empty() -> None:
        set_error("")
        form.empty()

    def start_over() -> None:
        set_error("")
        form.start_over()

    def record(step: str) -> None:
        try:
            celsius = read_celsius(bench, text) if text.strip() else None
            bench.add_entry(batch, felt(step, spot, celsius), stage="tender")
        except ValueError as wrong:
            set_error(in_units(str(wrong), bench.shown.kit))
            return
        empty()

    def decide(choice: str) -> None:
        try:
            core_c = read_celsius(bench, text) if text.strip() else None
        except ValueError as wrong:
            set_error(in_units(str(wrong), bench.shown.kit))
            return

        def go_on() -> None:
            try:
                bench.decide(batch, choice, None, core_c)
            except ValueError as wrong:
                set_error(in_units(str(wrong), bench.shown.kit))
                return
            form.drop()
            bench.go(f"/journal/{batch.id}")

        doubt = doubt_of_pulling(bench, batch, core_c) if choice == "pulled" else ""
        if doubt:
            ask("Take it off the fire?", doubt, go_on)
        else:
            go_on()

    return screen(
        "Probe",
        [
            panels.stack([words.small(batch.name), *form.kept(bench, start_over)]),
            *panels.cautions(texts(cautions_for("tender"), bench.kit.system)),
            fields.choice("Where", _SPOTS, spot, lambda key: change(spot=key)),
            fields.quantity_field(
                "It reads",
                text,
                lambda typed: change(text=typed),
                unit=bench.temperature_unit,
                error=error or None,
                helper="Tenderness is told by the feel; safety by the number.",
            ),
            words.heading("How it goes in"),
            words.small("A press saves it; then try the next place."),
            *(
                side_button(Act(said, lambda step=step: record(step)))  # type: ignore[misc]
                for step, said in FEELS.items()
            ),
            *_last(bench, batch),
            *_told(bench, batch),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Pulled: done", lambda: decide("pulled"), icon=ft.Icons.OUTDOOR_GRILL),
        side=Act("Keep going", lambda: decide("keep_going")),
    )


def last_felt(entries: tuple[Entry, ...]) -> dict[str, Entry]:
    """The last check at each place, the newest first."""
    last: dict[str, Entry] = {}
    for entry in reversed(by_time(entries)):
        if isinstance(entry.body, Feel):
            last.setdefault(entry.body.spot, entry)
    return last


def _last(bench: Bench, batch: Batch) -> list[ft.Control]:
    last = last_felt(bench.entries(batch.id))
    if not last:
        return []
    rows: list[ft.Control] = [
        panels.figure(
            SPOTS[where],
            FEELS[entry.body.step].split(":")[0],
            note=_note(bench, entry, bench.shown.kit),
        )
        for where, entry in last.items()
        if isinstance(entry.body, Feel)
    ]
    return [panels.panel(rows, title="Last felt")]


def _note(bench: Bench, entry: Entry, kit: Kit) -> str:
    when = say_wall(wall_of(entry.at), bench.wall())
    celsius = entry.body.celsius if isinstance(entry.body, Feel) else None
    return when if celsius is None else f"{degrees(celsius, kit)} · {when}"


def _told(bench: Bench, batch: Batch) -> list[ft.Control]:
    """Feel first; what the log says beside it."""
    told = heat_of(bench, batch)
    rows: list[ft.Control] = [words.body(told.by_feel, bold=True)]
    if told.finish is not None:
        rows.append(words.body(in_units(told.finish.says, bench.shown.kit)))
    if told.log is not None:
        rows.append(words.body(in_units(told.consumer.says, bench.shown.kit)))
        core = degrees(told.log.readings[-1][1], bench.shown.kit)
        rows.append(words.small(f"Core last logged: {core}."))
    return [panels.panel(rows, title="What the log says")]
