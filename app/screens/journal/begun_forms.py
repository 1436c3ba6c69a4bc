"""What is typed into the forms of a batch's record, as typed, and which of it is kept.

A form's draft is named by its kind, its batch and, where a line is put right, that line:
"note <batch>", "correct-note <batch> <line>".
"""

from collections.abc import Mapping
from typing import Any

from attrs import evolve, frozen

from app.journal.records import Kit
from app.screens.journal.slice_draft import SliceDraft
from app.screens.mix.mix_draft import small_length_unit, with_unit


@frozen
class Draft:
    """What has been typed and chosen for a line, kept as typed.

    at : the wall-clock time the line is for; empty for just now
    typed : the wall-clock time of the last key
    """

    text: str = ""
    chosen: str = ""
    second: str = ""
    what: str = ""
    at: str = ""
    typed: str = ""


@frozen
class WrapDraft:
    """What was typed at the wrap; kept when a picture is looked at in between."""

    pit: str = ""
    core: str = ""
    typed: str = ""


@frozen
class ProbeDraft:
    """What was typed at the probe, and where it went in."""

    spot: str = "flat"
    text: str = ""
    typed: str = ""


_LINES = ("temperature", "weight", "note", "cost", "feel", "decision", "photo")
KEPT: Mapping[str, type] = {
    **dict.fromkeys(_LINES, Draft),
    "wrap": WrapDraft,
    "probe": ProbeDraft,
    "slice": SliceDraft,
}
"""The forms whose drafts outlive the program, by kind."""

_MEASURED: Mapping[str, Mapping[str, str]] = {
    "temperature": {"text": "temperature"},
    "weight": {"text": "mass"},
    "feel": {"text": "temperature"},
    "decision": {"text": "temperature", "second": "temperature"},
    "wrap": {"pit": "temperature", "core": "temperature"},
    "probe": {"text": "temperature"},
    "slice": {"thick": "length", "cut": "length"},
}
"""Fields that hold a number in the cook's own unit, by kind."""

READINGS = frozenset({"temperature", "weight", "feel", "decision"})
"""Lines that hold for the moment they were read, and not for when they are saved."""

_CORRECT = "correct-"


def name_of(kind: str, batch_id: str, entry_id: str = "") -> str:
    """The name of a form's draft; with a line's id, of the form that puts it right.

    >>> name_of("note", "b1"), name_of("note", "b1", "e7")
    ('note b1', 'correct-note b1 e7')
    """
    return f"{_CORRECT}{kind} {batch_id} {entry_id}" if entry_id else f"{kind} {batch_id}"


def kind_of(name: str) -> str:
    """The kind of form a draft's name tells.

    >>> kind_of("correct-note b1 e7"), kind_of("journal")
    ('note', 'journal')
    """
    return name.split(" ")[0].removeprefix(_CORRECT)


def typed_again(draft: Draft, name: str, value: str, wall: str) -> Draft:
    """A line's draft after a change of one field at `wall`.

    The time it was given when it was brought back goes with what is typed anew.
    """
    at = "" if draft.at == draft.typed else draft.at
    return evolve(draft, **{"at": at, "typed": wall, name: value})


def brought_back(draft: Draft, kind: str) -> Draft:
    """A draft opened again: a reading is for the time it was typed, unless another was chosen."""
    return evolve(draft, at=draft.at or draft.typed) if kind in READINGS else draft


def with_units(drafts: Mapping[str, Any], kit: Kit) -> dict[str, Any]:
    """The drafts with a unit behind each bare number, before the kit changes its units."""
    metric = kit.system == "metric"
    units = {
        "temperature": "°C" if metric else "°F",
        "mass": "kg" if metric else "lb",
        "length": small_length_unit(kit),
    }
    told = dict(drafts)
    for name, draft in drafts.items():
        if measured := _MEASURED.get(kind_of(name)):
            changes = {f: with_unit(getattr(draft, f), units[of]) for f, of in measured.items()}
            told[name] = evolve(draft, **changes)
    return told
