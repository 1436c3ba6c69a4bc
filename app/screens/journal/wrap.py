"""At the wrap: photograph the bark, see it beside earlier ones, record the decision."""

import flet as ft
from attrs import evolve, frozen

from app.journal.entries import by_time
from app.journal.happened import decision, wrapped_after_s
from app.journal.records import Batch, Decision, Entry, PhotoTaken, Spot, Temperature
from app.journal.safety import cautions_for, texts
from app.journal.turning_points import LOOK_AGAIN_MIN
from app.journal.wall import say_minutes, say_wall, wall_of
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.in_units import in_units
from app.screens.journal.begun_forms import WrapDraft, name_of
from app.screens.journal.entry_kinds import read_celsius
from app.screens.journal.form import use_form
from app.screens.journal.missing import no_batch
from app.screens.journal.told import CHOICES, degrees
from app.screens.photos.photo_bark_told import bark_told
from app.screens.photos.photo_intake import photo_act
from app.widgets import fields, panels, words
from app.widgets.frame import Act, main_button, screen
from app.widgets.picture import picture

SHOWN_EARLIER = 3


def bark_photos(bench: Bench, batch: Batch) -> list[str]:
    """The photos taken at the wrap of a batch, newest first."""
    return [
        entry.body.photo_id
        for entry in reversed(by_time(bench.entries(batch.id)))
        if isinstance(entry.body, PhotoTaken) and entry.stage in ("smoke", "wrap")
    ]


@ft.component
def WrapScreen() -> ft.View:
    """The one screen of the wrap decision."""
    bench = use_bench()
    batch = use_batch()
    name = name_of("wrap", batch.id) if batch is not None else ""
    form = use_form(name, lambda _: WrapDraft())
    typed = form.typed
    errors, set_errors = ft.use_state(dict[str, str]())
    if batch is None:
        return no_batch()

    def change(**changes: str) -> None:
        form.change(lambda last: evolve(last, **changes))

    def start_over() -> None:
        set_errors({})
        form.start_over()

    def record(choice: str) -> None:
        read: dict[str, float | None] = {"pit": None, "core": None}
        wrong: dict[str, str] = {}
        for name, text in (("pit", typed.pit), ("core", typed.core)):
            try:
                read[name] = read_celsius(bench, text) if text.strip() else None
            except ValueError as error:
                wrong[name] = in_units(str(error), bench.shown.kit)
        if not wrong:
            try:
                bench.decide(batch, choice, read["pit"], read["core"])
            except ValueError as error:
                wrong["core"] = in_units(str(error), bench.shown.kit)
        set_errors(wrong)
        if not wrong:
            form.drop()
            bench.go(f"/journal/{batch.id}")

    return screen(
        "Wrap?",
        [
            panels.stack(
                [
                    words.small(
                        " · ".join(part for part in (batch.name, _hours(bench, batch)) if part)
                    ),
                    *form.kept(bench, start_over),
                ]
            ),
            main_button(photo_act(bench, batch, stage="wrap", words="Photograph the bark")),
            *_beside(bench, batch),
            *bark_told(bench, batch, bark_photos(bench, batch)),
            _reading(
                bench,
                batch,
                "Pit",
                typed.pit,
                lambda text: change(pit=text),
                errors.get("pit"),
                ("pit",),
            ),
            _reading(
                bench,
                batch,
                "Core",
                typed.core,
                lambda text: change(core=text),
                errors.get("core"),
                ("flat", "middle", "point"),
            ),
            words.small(
                f"“Not yet” looks again in {LOOK_AGAIN_MIN:.0f} minutes, or when the plan has it, "
                "if that is later. Wrap when the colour is where you like it and a fingernail "
                "does not scratch the bark off."
            ),
            *panels.cautions(texts(cautions_for("wrap"), bench.kit.system)),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Wrapped", lambda: record("wrapped"), icon=ft.Icons.CHECK),
        side=Act("Not yet", lambda: record("not_yet")),
    )


def _hours(bench: Bench, batch: Batch) -> str:
    begun = next((s.done for s in batch.plan if s.stage == "smoke" and s.done), None)
    if begun is None:
        return ""
    pulled = next((s.done for s in batch.plan if s.stage in ("tender", "rest") and s.done), None)
    gone = ((pulled or bench.now()).utc_s - begun.utc_s) / 60.0
    return f"{say_minutes(max(0.0, gone))} in the smoke"


def _read_at(entry: Entry, spots: tuple[Spot, ...]) -> float | None:
    """What a line says of these places [°C]: a temperature, or what was read at a decision."""
    if isinstance(entry.body, Temperature):
        return entry.body.celsius if entry.body.spot in spots else None
    if isinstance(entry.body, Decision):
        return entry.body.pit_c if "pit" in spots else entry.body.core_c
    return None


def _reading(
    bench: Bench,
    batch: Batch,
    label: str,
    typed: str,
    on_change: object,
    error: str | None,
    spots: tuple[Spot, ...],
) -> ft.Control:
    """A field for a reading, with the last one logged beside it."""
    logged = [
        (entry.at, celsius)
        for entry in by_time(bench.entries(batch.id))
        if (celsius := _read_at(entry, spots)) is not None
    ]
    helper = None
    if logged:
        at, celsius = logged[-1]
        told = degrees(celsius, bench.shown.kit)
        helper = f"Last logged {told}, {say_wall(wall_of(at), bench.wall())}."
    return fields.quantity_field(
        label,
        typed,
        on_change,  # type: ignore[arg-type]
        unit=bench.temperature_unit,
        error=error,
        helper=helper,
    )


@frozen
class Earlier:
    """The wrap of an earlier batch: its picture and what is known of the moment."""

    batch: Batch
    photo_id: str | None
    words: str


def earlier_wraps(bench: Bench, batch: Batch) -> list[Earlier]:
    """The wraps of other batches: those of the same cut first, the best rated before others."""
    kit = bench.shown.kit
    found: list[Earlier] = []
    for other in bench.shown.batches:
        entries = bench.entries(other.id) if other.id != batch.id else ()
        wrapped = decision(entries, "wrapped")
        photos = bark_photos(bench, other) if other.id != batch.id else []
        if wrapped is None and not photos:
            continue
        said = [CHOICES["wrapped"] if wrapped else "not decided"]
        after = wrapped_after_s(other, entries)
        if after is not None:
            said.append(f"after {say_minutes(after / 60.0)}")
        if wrapped is not None and isinstance(wrapped.body, Decision):
            if wrapped.body.core_c is not None:
                said.append(f"core {degrees(wrapped.body.core_c, kit)}")
            if wrapped.body.pit_c is not None:
                said.append(f"pit {degrees(wrapped.body.pit_c, kit)}")
        if other.outcome is not None and other.outcome.rating is not None:
            said.append(f"{other.outcome.rating} of 5")
        found.append(Earlier(other, photos[0] if photos else None, " · ".join(said)))
    return sorted(
        found,
        key=lambda one: (
            one.photo_id is None,
            one.batch.cut.casefold() != batch.cut.casefold(),
            -((one.batch.outcome.rating or 0) if one.batch.outcome else 0),
        ),
    )


def _beside(bench: Bench, batch: Batch) -> list[ft.Control]:
    """The bark now and the best earlier one side by side; others below."""
    now = bark_photos(bench, batch)
    earlier = earlier_wraps(bench, batch)[:SHOWN_EARLIER]
    cards: list[ft.Control] = []
    if now:
        cards.append(_card(bench, "Now", now[0], "The bark now", batch.name))
    cards += [
        _card(bench, one.batch.name, one.photo_id, f"Bark of {one.batch.name}", one.words)
        for one in earlier
    ]
    if not earlier:
        cards.append(words.small("The bark of earlier batches will stand here beside this one."))
        return cards
    rows: list[ft.Control] = [
        ft.Row(
            cards[first : first + 2],
            spacing=10,
            vertical_alignment=ft.CrossAxisAlignment.START,
        )
        for first in range(0, len(cards), 2)
    ]
    return [panels.panel(rows, title="Beside earlier ones, at their wrap")]


def _card(bench: Bench, title: str, photo_id: str | None, spoken: str, says: str) -> ft.Control:
    return ft.Column(
        [
            picture(bench.photo_src(photo_id), spoken, height=130)
            if photo_id
            else words.small("no picture"),
            words.body(title, bold=True),
            words.small(says),
        ],
        spacing=4,
        expand=True,
    )
