"""Records of every form that ever landed, brought to the one known today.

A record carries its `schema`, a number that grows when its form changes in a way that a field
with a default cannot bridge. For each such change one step stands in `STEPS`: it takes the
document of one number and gives that of the next. A record goes through as many as it needs,
whether it comes from the device or from an old backup, so each step is written once and never
changed again. Samples of every form are kept beside the tests.
"""

from collections.abc import Callable, Mapping
from typing import Any

Document = dict[str, Any]
MigrationStep = Callable[[Document], Document]
Steps = Mapping[tuple[str, int], MigrationStep]

STEPS: Steps = {}
"""By kind of record and the number it has before: ("Batch", 1) makes a batch of form 2."""


def brought_up(
    document: Mapping[str, Any], kind: str, current: int, steps: Steps = STEPS
) -> Document:
    """A record's document in its current form.

    Parameters
    ----------
    document : as it was kept
    kind : the record's class, such as "Batch"
    current : the form known today
    steps : what brings one form to the next

    Returns
    -------
    A new document; the one given is not changed

    Raises
    ------
    ValueError : the document names no form, a later one, or one that nothing leads on from

    Examples
    --------
    >>> def in_grams(note: Document) -> Document:
    ...     return {"grams": 1000.0 * note["kilos"]}
    >>> brought_up({"kilos": 3.0}, "Weighing", 2, {("Weighing", 1): in_grams})
    {'grams': 3000.0, 'schema': 2}
    """
    form = document.get("schema", 1)
    if type(form) is not int or form < 1:
        raise ValueError(f"a form numbered from 1 was expected; {form!r:.40} was given")
    if form > current:
        raise ValueError(f"form {form} is later than {current}, the latest known here")
    brought = dict(document)
    for number in range(form, current):
        step = steps.get((kind, number))
        if step is None:
            raise ValueError(f"nothing leads on from form {number}")
        brought = {**step(brought), "schema": number + 1}
    return brought
