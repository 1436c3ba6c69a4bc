"""Add one line to a batch's record: a temperature, a weight, a note or a cost."""

from collections.abc import Callable

import flet as ft
from attrs import evolve, frozen

from app import quantities
from app.journal.entries import measured, noted, paid, weighed
from app.journal.records import EntryBody
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.told import SPOTS, WEIGHED
from app.widgets import fields, words
from app.widgets.frame import Act, screen


@frozen
class Draft:
    """What has been typed and chosen so far, kept as typed."""

    text: str = ""
    chosen: str = ""
    ago: str = ""
    what: str = ""


Change = Callable[[str, str], None]


@frozen
class Kind:
    """One kind of entry: its title, its fields, and how what was typed is read."""

    title: str
    start: Draft
    controls: Callable[[Bench, Draft, str | None, Change], list[ft.Control]]
    read: Callable[[Bench, Draft], EntryBody]


def _temperature_controls(
    bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        fields.quantity_field(
            "It reads",
            draft.text,
            lambda text: change("text", text),
            unit=bench.temperature_unit,
            error=error,
            large=True,
            autofocus=True,
        ),
        fields.choice(
            "Where", list(SPOTS.items()), draft.chosen, lambda key: change("chosen", key)
        ),
    ]


def _read_temperature(bench: Bench, draft: Draft) -> EntryBody:
    celsius = quantities.parse(draft.text, "temperature", bench.temperature_unit)
    return measured(celsius - bench.shown.kit.thermometer_offset_c, draft.chosen)


def _weight_controls(
    bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        fields.quantity_field(
            "It weighs",
            draft.text,
            lambda text: change("text", text),
            unit=bench.mass_unit,
            error=error,
            large=True,
            autofocus=True,
        ),
        fields.choice(
            "What lay on the scale",
            list(WEIGHED.items()),
            draft.chosen,
            lambda k: change("chosen", k),
        ),
    ]


def _read_weight(bench: Bench, draft: Draft) -> EntryBody:
    return weighed(quantities.parse(draft.text, "mass", bench.mass_unit), draft.chosen)


def _note_controls(
    _bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        fields.text_field(
            "Note", draft.text, lambda text: change("text", text), error=error, lines=4
        )
    ]


def _read_note(_bench: Bench, draft: Draft) -> EntryBody:
    return noted(draft.text)


def _cost_controls(
    _bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        fields.quantity_field(
            "Paid", draft.text, lambda text: change("text", text), error=error, large=True
        ),
        fields.text_field("For what", draft.what, lambda text: change("what", text)),
    ]


def _read_cost(_bench: Bench, draft: Draft) -> EntryBody:
    return paid(read_amount(draft.text), what=draft.what)


def read_amount(text: str) -> float:
    """Money as typed, with a point or a comma before the cents."""
    plain = text.strip().replace(" ", "")
    if plain.count(",") == 1 and "." not in plain:
        plain = plain.replace(",", ".")
    try:
        return float(plain)
    except ValueError:
        raise ValueError(
            f"“{text}” is not an amount of money. Write it like 42.50; what you typed is kept."
        ) from None


KINDS = {
    "temperature": Kind(
        "Temperature", Draft(chosen="flat"), _temperature_controls, _read_temperature
    ),
    "weight": Kind("Weight", Draft(chosen="trimmed"), _weight_controls, _read_weight),
    "note": Kind("Note", Draft(), _note_controls, _read_note),
    "cost": Kind("Cost", Draft(), _cost_controls, _read_cost),
}


@ft.component
def EntryScreen() -> ft.View:
    """The form for the kind of entry named in the route."""
    bench = use_bench()
    batch = use_batch()
    kind = KINDS.get(ft.use_route_params().get("kind", ""), KINDS["note"])
    draft, set_draft = ft.use_state(kind.start)
    error, set_error = ft.use_state("")
    if batch is None:
        return no_batch()

    def change(name: str, value: str) -> None:
        set_error("")
        set_draft(lambda old: evolve(old, **{name: value}))

    def save() -> None:
        try:
            body = kind.read(bench, draft)
            ago_s = quantities.parse(draft.ago, "duration", "min") if draft.ago.strip() else 0.0
            bench.add_entry(batch, body, ago_s=ago_s)
        except ValueError as wrong:
            set_error(str(wrong))
            return
        bench.go(f"/journal/{batch.id}")

    return screen(
        kind.title,
        [
            words.small(batch.name),
            *kind.controls(bench, draft, error or None, change),
            fields.quantity_field(
                "How long ago",
                draft.ago,
                lambda text: change("ago", text),
                unit="min",
                helper="Leave empty for just now. “1 h 20 min” is read too.",
                words_allowed=True,
            ),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Save", save, icon=ft.Icons.CHECK),
    )
