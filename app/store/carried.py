"""What a later version wrote into a record and this one does not know is carried along.

A field with a default needs no new form, so an older program still opens the record. When it
then saves the record, as in a window that was left open over an update, it must not drop what
it never saw.
"""

from collections.abc import Mapping
from typing import Any


def carried(old: Mapping[str, Any], known: Mapping[str, Any], new: Mapping[str, Any]) -> Any:
    """The new document, with what the old one has beyond what is known of it.

    Parameters
    ----------
    old : the document as it was kept
    known : what this version makes of the old one when it writes it back
    new : the document that takes its place

    Returns
    -------
    A document; parts inside parts are carried while they are still of the same kind

    Examples
    --------
    >>> carried({"a": 1, "later": 2}, {"a": 1}, {"a": 5})
    {'a': 5, 'later': 2}
    """
    if old.get("kind") != new.get("kind"):
        return dict(new)
    merged = dict(new)
    for name, value in old.items():
        if name not in known:
            merged.setdefault(name, value)
        elif all(isinstance(one, Mapping) for one in (value, known[name], new.get(name))):
            merged[name] = carried(value, known[name], new[name])
    return merged
