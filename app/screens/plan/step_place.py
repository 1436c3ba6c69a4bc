"""Where a step is done: on a screen of its own, or on its batch's page."""

from collections.abc import Mapping

from app.journal.records import Stage

OPENS: Mapping[Stage, tuple[str, str]] = {
    "wrap": ("Look", "wrap"),
    "tender": ("Probe", "probe"),
    "slice": ("Slice", "slice"),
}
"""Steps that have a screen of their own: what its button says, and its part of the address."""


def place_of(batch_id: str, stage: Stage) -> str:
    """The address of the screen a step is done on.

    >>> place_of("b1", "wrap"), place_of("b1", "turn")
    ('/journal/b1/wrap', '/journal/b1')
    """
    _says, part = OPENS.get(stage, ("", ""))
    return f"/journal/{batch_id}/{part}".rstrip("/")
