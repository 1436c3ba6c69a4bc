"""What was scored and typed at the slice and is not saved yet, and how it is read."""

from collections.abc import Callable

from attrs import Attribute, evolve, fields_dict, frozen

from app import quantities
from app.journal.records import Batch, Kit, Moment, SliceOutcome
from app.screens.mix.mix_draft import read_number, small_length_unit

MOST_PIECE_MM = 300.0
"""No piece for this is thicker; our own choice."""

MOST_SLICE_MM = 60.0
"""No slice is cut thicker; our own choice."""

_TYPED = {"grey": "grey_percent", "pale": "pale_percent", "thick": "thickness_mm", "cut": "cut_mm"}
"""The fields that are typed, and what of the outcome they are read into."""


@frozen
class SliceDraft:
    """The scores as chosen, the figures as typed, and the saved outcome they were begun from."""

    outcome: SliceOutcome
    grey: str = ""
    pale: str = ""
    thick: str = ""
    cut: str = ""
    before: SliceOutcome | None = None


def draft_name(batch_id: str) -> str:
    """The name under which a batch's draft is kept."""
    return f"slice {batch_id}"


def begun(batch: Batch | None, kit: Kit, now: Moment) -> SliceDraft:
    """The fields as they would have been typed for what is saved of a batch."""
    before = batch.outcome if batch is not None else None
    if before is None:
        return SliceDraft(SliceOutcome(at=now))
    typed = {field: _typed(before, name, kit) for field, name in _TYPED.items()}
    return SliceDraft(before, before=before, **typed)


def resumed(draft: SliceDraft, batch: Batch | None, kit: Kit, now: Moment) -> SliceDraft:
    """A kept draft with what was saved of the slice elsewhere since, as a line measured."""
    saved = batch.outcome if batch is not None else None
    if saved is None or saved == draft.before:
        return draft
    fresh, was = begun(batch, kit, now), draft.before or SliceOutcome(at=saved.at)
    names: dict[str, Attribute[object]] = fields_dict(SliceOutcome)
    new = {n: getattr(saved, n) for n in names if getattr(saved, n) != getattr(was, n)}
    typed = {field: getattr(fresh, field) for field, name in _TYPED.items() if name in new}
    return evolve(draft, outcome=evolve(draft.outcome, **new), before=saved, **typed)


def _typed(outcome: SliceOutcome, name: str, kit: Kit) -> str:
    value: float | None = getattr(outcome, name)
    if value is None:
        return ""
    if name.endswith("_percent"):
        return f"{value:g}"
    return f"{value / quantities.parse('1', 'length', small_length_unit(kit)):.3g}"


def _percent(text: str, what: str) -> float | None:
    if not text.strip():
        return None
    value = read_number(text, what, "%")
    if not 0 <= value <= 100:
        raise ValueError(f"The {what} is a part of the thickness, from 0 to 100 %.")
    return value


def _length(text: str, kit: Kit, most_mm: float, what: str) -> float | None:
    if not text.strip():
        return None
    value = quantities.parse(text, "length", small_length_unit(kit))
    if not 0 < value <= most_mm:
        most = quantities.format(most_mm, "length", kit.system)
        raise ValueError(f"The {what} is more than 0 and at most {most}.")
    return value


def read(draft: SliceDraft, kit: Kit) -> tuple[dict[str, float | None], dict[str, str]]:
    """What was typed as numbers of the outcome, and the errors by field."""
    readers: dict[str, Callable[[], float | None]] = {
        "grey": lambda: _percent(draft.grey, "grey part"),
        "pale": lambda: _percent(draft.pale, "pale part"),
        "thick": lambda: _length(draft.thick, kit, MOST_PIECE_MM, "thickness of the piece"),
        "cut": lambda: _length(draft.cut, kit, MOST_SLICE_MM, "thickness of a slice"),
    }
    values: dict[str, float | None] = {}
    errors: dict[str, str] = {}
    for name, reader in readers.items():
        try:
            values[_TYPED[name]] = reader()
        except ValueError as error:
            errors[name] = str(error)
    if not errors and (values["grey_percent"] or 0) + (values["pale_percent"] or 0) > 100:
        errors["pale"] = "Grey and pale together are more than the whole thickness."
    return values, errors
