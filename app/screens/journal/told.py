"""How records are told in words: one place, so that every screen says them alike."""

from app import quantities
from app.journal.records import (
    Cost,
    Decision,
    Entry,
    Feel,
    Kit,
    Note,
    PhotoTaken,
    SliceOutcome,
    Temperature,
    Weight,
)
from app.screens.in_units import in_units
from app.screens.masses import grams

__all__ = [
    "BENDS",
    "BESIDE_BOUGHT",
    "CHOICES",
    "FEELS",
    "PULLS",
    "SPOTS",
    "TITLES",
    "WEIGHED",
    "WRITTEN",
    "about",
    "amount",
    "degrees",
    "entry_told",
    "in_units",
    "line_told",
    "outcome_told",
]

SPOTS: dict[str, str] = {
    "flat": "Flat",
    "point": "Point",
    "middle": "Middle",
    "edge": "Edge",
    "pit": "Pit",
    "fridge": "Fridge",
    "brine": "Brine",
    "other": "Elsewhere",
}
WEIGHED: dict[str, str] = {
    "green": "As bought",
    "trimmed": "Trimmed",
    "cured": "Cured",
    "soaked": "Soaked",
    "smoked": "Smoked",
    "rested": "Rested",
    "trimmings": "Trimmings",
}
FEELS: dict[str, str] = {
    "hard": "Hard: pushes back",
    "firm": "Firm: goes in with a push",
    "nearly": "Nearly: a little grip",
    "soft": "Soft: slides in like warm butter",
}
CHOICES: dict[str, str] = {
    "wrapped": "Wrapped",
    "not_yet": "Not yet: left bare",
    "pulled": "Pulled: done",
    "keep_going": "Kept going",
}
BENDS: dict[str, str] = {
    "cracks": "Cracks",
    "bends": "Bends",
    "falls_apart": "Falls apart",
}
PULLS: dict[str, str] = {
    "holds": "Holds: needs a knife",
    "parts": "Parts with a tug",
    "crumbles": "Crumbles",
}
BESIDE_BOUGHT: dict[str, str] = {
    "worse": "Less good",
    "alike": "As good",
    "better": "Better",
}
TITLES: dict[str, str] = {
    "days": "Days in the cure",
    "thinner": "A thinner piece",
    "inject": "Inject",
    "cap": "Fat cap",
    "stitch": "Where to inject",
    "salt": "Salt",
    "soak": "Soak",
    "taste": "Tasting the salt",
    "finish": "Finish",
    "wrap": "Wrap",
}
"""What a piece of advice is about, by its id."""


def about(advice_id: str) -> str:
    """What a piece of advice is about; one of a later version by its own id."""
    return TITLES.get(advice_id, advice_id).lower()


def degrees(celsius: float, kit: Kit) -> str:
    """A temperature in the cook's units."""
    return quantities.format(celsius, "temperature", kit.system)


def entry_told(entry: Entry, kit: Kit) -> tuple[str, str]:
    """An entry as its name and what it says."""
    body = entry.body
    if isinstance(body, Weight):
        return f"Weight, {WEIGHED[body.of].lower()}", grams(body.grams, kit)
    if isinstance(body, Temperature):
        return f"Temperature, {SPOTS[body.spot].lower()}", degrees(body.celsius, kit)
    if isinstance(body, Feel):
        at = "" if body.celsius is None else f" at {degrees(body.celsius, kit)}"
        return f"Probe, {SPOTS[body.spot].lower()}", FEELS[body.step].split(":")[0] + at
    if isinstance(body, Decision):
        read = []
        if body.pit_c is not None:
            read.append(f"pit {degrees(body.pit_c, kit)}")
        if body.core_c is not None:
            read.append(f"core {degrees(body.core_c, kit)}")
        return "Decision", " · ".join([CHOICES[body.choice], *read])
    if isinstance(body, Note):
        return "Note", body.text
    if isinstance(body, PhotoTaken):
        return "Photo", body.caption
    assert isinstance(body, Cost)
    return "Cost" + (f", {body.what}" if body.what else ""), amount(body.amount, body.currency)


NAMED = 60
"""So many letters of what a line says are told when it is named; our own choice."""


def line_told(entry: Entry, kit: Kit) -> str:
    """An entry as a short sentence, to name it after it was saved or removed."""
    name, says = entry_told(entry, kit)
    if len(says) > NAMED:
        return f"{name}: {says[:NAMED].rstrip()}…"
    return (f"{name}: {says}" if says else name).rstrip(".") + "."


def amount(value: float, currency: str) -> str:
    """Money with its currency, a sign before it, a word after it."""
    if len(currency) == 1:
        return f"{currency}{value:,.2f}"
    return f"{value:,.2f} {currency}".strip()


WRITTEN = ("The bought one", "Notes")
"""The lines of an outcome that are sentences of the cook's own."""


_OF_LEAN = "% of the thickness, lean only"


def outcome_told(outcome: SliceOutcome, kit: Kit) -> list[tuple[str, str]]:
    """The slice and the tasting, line by line; what was not scored is left out."""
    lines: list[tuple[str, str]] = []
    if outcome.rating is not None:
        lines.append(("Verdict", f"{outcome.rating} of 5"))
    if outcome.cut_mm is not None:
        lines.append(("Slice cut", quantities.format(outcome.cut_mm, "length", kit.system)))
    if outcome.across_grain is not None:
        lines.append(("Cut", "across the grain" if outcome.across_grain else "along the grain"))
    if outcome.bend is not None:
        lines.append(("Slice bent double", BENDS[outcome.bend]))
    if outcome.pull is not None:
        lines.append(("Strip pulled", PULLS[outcome.pull].split(":")[0]))
    if outcome.grey_percent is not None:
        lines.append(("Grey, not cured", f"{outcome.grey_percent:.0f} {_OF_LEAN}"))
    if outcome.pale_percent is not None:
        lines.append(("Pale", f"{outcome.pale_percent:.0f} {_OF_LEAN}"))
    for name in ("salt", "smoke", "pepper", "tenderness", "moisture"):
        score = getattr(outcome, name)
        bought = getattr(outcome.bought, name) if outcome.bought else None
        told = [f"{score} of 5"] if score is not None else []
        told += [f"the bought one {bought}"] if bought is not None else []
        if told:
            lines.append((name.capitalize(), " · ".join(told)))
    if outcome.beside_bought is not None:
        lines.append(
            ("Beside a bought one", f"ours is {BESIDE_BOUGHT[outcome.beside_bought].lower()}")
        )
    if outcome.bought_notes:
        lines.append(("The bought one", outcome.bought_notes))
    if outcome.again is not None:
        lines.append(("Do it again", "yes" if outcome.again else "not like this"))
    if outcome.notes:
        lines.append(("Notes", outcome.notes))
    return lines
