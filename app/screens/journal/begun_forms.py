"""What is typed into the forms of a batch, as typed, and which of it is kept.

A form's draft is named by its kind, its batch and, where a line is put right, that line:
"note <batch>", "correct-note <batch> <line>". The form that starts one has no batch yet.
"""

from collections.abc import Callable, Mapping
from typing import Any

from attrs import evolve, frozen

from app.journal.records import Kit
from app.screens.journal.slice_draft import SliceDraft
from app.screens.masses import mass_unit, with_unit
from app.screens.mix.mix_draft import LaterDraft, small_length_unit, warmth_unit, water_unit


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


@frozen
class StartDraft:
    """What was typed and chosen for a batch to be started; no name takes the one offered."""

    name: str | None = None
    serve: bool = False
    when: str = ""
    smoked: bool = True
    thawed: bool = False
    typed: str = ""


@frozen
class RepeatDraft:
    """The same for a batch done again; no name and no word of frozen take the last one's.

    taken : ids of the advice taken up
    """

    weight: str = ""
    thickness: str = ""
    when: str = ""
    serve: bool = False
    name: str | None = None
    taken: tuple[str, ...] = ()
    thawed: bool | None = None
    typed: str = ""


@frozen
class PacketDraft:
    """A packet of what is left: what it is, empty for what the record says; empty day, today."""

    what: str = ""
    place: str = "fridge"
    day: str = ""
    weight: str = ""
    typed: str = ""


_LINES = ("temperature", "weight", "note", "cost", "feel", "decision", "photo")
KEPT: Mapping[str, type] = {
    **dict.fromkeys(_LINES, Draft),
    "wrap": WrapDraft,
    "probe": ProbeDraft,
    "slice": SliceDraft,
    "start": StartDraft,
    "repeat": RepeatDraft,
    "packet": PacketDraft,
    "soak": LaterDraft,
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
    "repeat": {"weight": "mass", "thickness": "length"},
    "packet": {"weight": "mass"},
    "soak": {"pot": "water"},
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


def packed_then(packet: PacketDraft) -> PacketDraft:
    """A packet's draft opened again: packed on the day it was typed, unless another was chosen.

    >>> packed_then(PacketDraft(weight="2", typed="2027-03-06T18:00")).day
    '2027-03-06'
    """
    return evolve(packet, day=packet.day or packet.typed[:10])


def packed_anew(packet: PacketDraft, weight: str, wall: str) -> PacketDraft:
    """A packet weighed at `wall`; the day given when it was brought back goes with it."""
    earlier = packet.day == packet.typed[:10] != wall[:10]
    return evolve(packet, weight=weight, day="" if earlier else packet.day)


_UNITS: Mapping[str, Callable[[Kit], str]] = {
    "temperature": warmth_unit,
    "mass": mass_unit,
    "length": small_length_unit,
    "water": water_unit,
}


def with_units(drafts: Mapping[str, Any], kit: Kit, new: Kit) -> dict[str, Any]:
    """The drafts with a unit behind each bare number that would mean another thing in a new kit.

    What needs none is left out.
    """
    units = {of: unit(kit) for of, unit in _UNITS.items() if unit(kit) != unit(new)}
    told = {}
    for name, draft in drafts.items():
        measured = _MEASURED.get(kind_of(name), {})
        changes = {
            f: with_unit(getattr(draft, f), units[of]) for f, of in measured.items() if of in units
        }
        changed = evolve(draft, **changes) if changes else draft
        if changed != draft:
            told[name] = changed
    return told
