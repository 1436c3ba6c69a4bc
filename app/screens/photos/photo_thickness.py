"""The thickness of the piece along the line, in the cook's unit."""

from collections.abc import Callable

import flet as ft

from app import quantities
from app.screens.mix.mix_draft import small_length_unit
from app.screens.photos.photo_desk import Desk
from app.widgets import fields

MOST_MM = 300.0


def read_thickness(typed: str, unit: str) -> tuple[float | None, str]:
    """A thickness in mm, None when none was typed; or what is wrong with it."""
    if not typed.strip():
        return None, ""
    try:
        mm = quantities.parse(typed, "length", unit)
    except ValueError as wrong:
        return None, str(wrong)
    if not 0.0 < mm <= MOST_MM:
        most = f"{MOST_MM:g} mm" if unit == "mm" else f"{MOST_MM / quantities.MM_PER_IN:.1f} in"
        return None, f"The thickness is more than 0 and at most {most}."
    return mm, ""


def thickness_typed(desk: Desk) -> str:
    """The thickness as it would have been typed: the line's, the slice's or the batch's own."""
    outcome, line = desk.batch.outcome, desk.photo.line
    mm = (
        (line.thickness_mm if line else None)
        or (outcome.thickness_mm if outcome else None)
        or desk.batch.thickness_mm
    )
    if mm is None:
        return ""
    unit = small_length_unit(desk.bench.shown.kit)
    return f"{mm / quantities.parse('1', 'length', unit):.3g}"


def thickness_field(
    typed: str,
    on_change: Callable[[str], object],
    on_done: Callable[[], None],
    unit: str,
    error: str,
) -> ft.Control:
    """The field for the thickness; told as it is typed, and once when it is done."""
    field = fields.quantity_field(
        "The piece there, thickness",
        typed,
        on_change,
        unit=unit,
        error=error or None,
        helper="From edge to edge of the line; gives the parts as lengths.",
        on_submit=on_done,
    )
    field.on_blur = lambda _: on_done()
    return field
