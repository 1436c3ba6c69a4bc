"""The words a cook wrote in a batch's record, read off its lines for the search.

A thousand batches hold fifty thousand lines, most of them numbers. Making records of all of them
takes seconds; only the lines with words in them are read here, and no records made.
"""

import re
from collections.abc import Mapping
from typing import Any

from app.store.lines import from_json
from app.store.placing import ENTRY

FIELDS = ("text", "caption", "what")
"""Where an entry's body keeps words: of a note, a photo, a cost."""

_HAS_WORDS = re.compile(rb'"(?:%s)":"[^"]' % "|".join(FIELDS).encode())


def written(lines: Mapping[str, bytes]) -> str:
    """All words of a batch's record, a line for each; unreadable lines are left out.

    Examples
    --------
    >>> written({"entry/1": b'{"body":{"text":"Oak smoke","kind":"note"}}', "batch": b"{}"})
    'Oak smoke'
    """
    found: list[str] = []
    for key, line in lines.items():
        if key.startswith(ENTRY) and _HAS_WORDS.search(line):
            found += _words(line)
    return "\n".join(found)


def _words(line: bytes) -> list[str]:
    try:
        body: Any = from_json(line).get("body")
    except ValueError:
        return []
    if not isinstance(body, dict):
        return []
    return [body[name] for name in FIELDS if isinstance(body.get(name), str)]
