"""The kinds of lines a record has: the fields of each, how they are read and filled in."""

from collections.abc import Callable

import flet as ft
from attrs import frozen

from app import quantities
from app.journal.entries import decided, felt, measured, noted, paid, pictured, weighed
from app.journal.records import (
    Cost,
    Decision,
    EntryBody,
    Feel,
    Note,
    PhotoTaken,
    Temperature,
    Weight,
)
from app.screens.bench import Bench
from app.screens.journal.begun_forms import Draft
from app.screens.journal.told import CHOICES, FEELS, SPOTS, WEIGHED
from app.screens.masses import LIKE, read_mass, typed_mass, with_unit
from app.widgets import fields

Change = Callable[[str, str], None]
Controls = Callable[[Bench, Draft, str | None, Change], list[ft.Control]]


@frozen
class Kind:
    """One kind of line: its title, its fields, how they are read, how one is put right."""

    title: str
    start: Draft
    controls: Controls
    read: Callable[[Bench, Draft], EntryBody]


def read_celsius(bench: Bench, text: str) -> float:
    """A thermometer's reading, with what it reads too high taken off."""
    read = quantities.parse(text, "temperature", bench.temperature_unit)
    return read - bench.shown.kit.thermometer_offset_c


def _read_if_any(bench: Bench, text: str) -> float | None:
    return read_celsius(bench, text) if text.strip() else None


def _typed_back(bench: Bench, celsius: float | None) -> str:
    """A kept temperature as it would have been typed, the thermometer's fault put back on."""
    if celsius is None:
        return ""
    read = celsius + bench.shown.kit.thermometer_offset_c
    return f"{read:.1f} °C" if bench.metric else f"{read * 1.8 + 32:.1f} °F"


def _number(
    label: str, unit: str | None, draft: Draft, error: str | None, change: Change
) -> ft.Control:
    return fields.quantity_field(
        label,
        draft.text,
        lambda text: change("text", text),
        unit=unit,
        error=error,
        large=True,
        words_allowed=unit == "lb oz",
        helper=LIKE if unit == "lb oz" else None,
        autofocus=True,
    )


def _choice(
    label: str, options: dict[str, str], name: str, draft: Draft, change: Change
) -> ft.Control:
    return fields.choice(
        label, list(options.items()), getattr(draft, name), lambda key: change(name, key)
    )


def _temperature_controls(
    bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        _number("It reads", bench.temperature_unit, draft, error, change),
        _choice("Where", SPOTS, "chosen", draft, change),
    ]


def _weight_controls(
    bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        _number("It weighs", bench.mass_unit, draft, error, change),
        _choice("What lay on the scale", WEIGHED, "chosen", draft, change),
    ]


def _note_controls(
    _bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        fields.text_field(
            "Note", draft.text, lambda text: change("text", text), error=error, lines=4
        )
    ]


def _cost_controls(
    _bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        _number("Paid", None, draft, error, change),
        fields.text_field(
            "Currency", draft.second, lambda text: change("second", text), hint="$, €, CAD …"
        ),
        fields.text_field("For what", draft.what, lambda text: change("what", text)),
    ]


def _feel_controls(
    bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        _choice("How it went in", FEELS, "chosen", draft, change),
        _choice("Where", SPOTS, "second", draft, change),
        fields.quantity_field(
            "It read",
            draft.text,
            lambda text: change("text", text),
            unit=bench.temperature_unit,
            error=error,
        ),
    ]


def _decision_controls(
    bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        _choice("Decided", CHOICES, "chosen", draft, change),
        fields.quantity_field(
            "Pit", draft.text, lambda text: change("text", text), unit=bench.temperature_unit
        ),
        fields.quantity_field(
            "Core",
            draft.second,
            lambda text: change("second", text),
            unit=bench.temperature_unit,
            error=error,
        ),
    ]


def _photo_controls(
    _bench: Bench, draft: Draft, error: str | None, change: Change
) -> list[ft.Control]:
    return [
        fields.text_field(
            "Words under the photo", draft.text, lambda text: change("text", text), error=error
        )
    ]


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


KINDS: dict[str, Kind] = {
    "temperature": Kind(
        "Temperature",
        Draft(chosen="flat"),
        _temperature_controls,
        lambda bench, draft: measured(read_celsius(bench, draft.text), draft.chosen),
    ),
    "weight": Kind(
        "Weight",
        Draft(chosen="trimmed"),
        _weight_controls,
        lambda bench, draft: weighed(read_mass(draft.text, bench.mass_unit), draft.chosen),
    ),
    "note": Kind("Note", Draft(), _note_controls, lambda _, draft: noted(draft.text)),
    "cost": Kind(
        "Cost",
        Draft(),
        _cost_controls,
        lambda _, draft: paid(read_amount(draft.text), draft.second, draft.what),
    ),
    "feel": Kind(
        "Probe",
        Draft(chosen="firm", second="flat"),
        _feel_controls,
        lambda bench, draft: felt(draft.chosen, draft.second, _read_if_any(bench, draft.text)),
    ),
    "decision": Kind(
        "Decision",
        Draft(chosen="wrapped"),
        _decision_controls,
        lambda bench, draft: decided(
            draft.chosen, _read_if_any(bench, draft.text), _read_if_any(bench, draft.second)
        ),
    ),
    "photo": Kind(
        "Photo", Draft(), _photo_controls, lambda _, draft: pictured(draft.what, draft.text)
    ),
}


def typed_back(bench: Bench, body: EntryBody) -> tuple[str, Draft]:
    """A kept line as its kind and the fields that would make it again."""
    match body:
        case Temperature():
            return "temperature", Draft(_typed_back(bench, body.celsius), body.spot)
        case Weight():
            unit = bench.mass_unit
            return "weight", Draft(with_unit(typed_mass(body.grams, unit), unit), body.of)
        case Note():
            return "note", Draft(body.text)
        case Cost():
            return "cost", Draft(f"{body.amount:.2f}", "", body.currency, body.what)
        case Feel():
            return "feel", Draft(_typed_back(bench, body.celsius), body.step, body.spot)
        case Decision():
            pit, core = _typed_back(bench, body.pit_c), _typed_back(bench, body.core_c)
            return "decision", Draft(pit, body.choice, core)
        case PhotoTaken():
            return "photo", Draft(body.caption, what=body.photo_id)
