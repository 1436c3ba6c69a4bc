"""Faults that nobody caught: what the cook is told, and what is kept for whoever looks for them."""

import re

from app.device.parts import NOT_OPEN_HERE, STORAGE_FULL

_SAID = {"StorageFull": STORAGE_FULL, "NotOpenHere": NOT_OPEN_HERE}
_PLACE = re.compile(r'\s*File "(?:.*?[/\\])?((?:[^/\\"]+[/\\])?[^/\\"]+)", line (\d+), in (\S+)')
_ENDING = re.compile(r"([A-Za-z_][\w.]*)(?::.*)?")
MOST_PLACES = 8


def _kind(trace: str) -> str:
    """The exception's class: the first word of the last line that stands at the margin."""
    for line in reversed(trace.splitlines()):
        if line and not line[0].isspace() and (found := _ENDING.fullmatch(line)):
            return found[1].rsplit(".", 1)[-1]
    return "fault"


def said_of(trace: str) -> str:
    """The sentence for a fault that is the device's and not the program's; empty otherwise.

    Examples
    --------
    >>> said_of("Traceback ...\\napp.device.parts.StorageFull: ...")[:39]
    'There is no room left on this device. W'
    >>> said_of("Traceback ...\\nKeyError: 'b0'")
    ''
    """
    return _SAID.get(_kind(trace), "")


def without_words(trace: str) -> str:
    """Where a fault was and of which kind, without what anyone has typed.

    The text of an exception often holds what was being read, which is the cook's own.

    Examples
    --------
    >>> without_words('File "/py/app/cure/mix.py", line 3, in work_out\\nValueError: my 7 lb')
    'ValueError: cure/mix.py 3 work_out'
    """
    places = [f"{file} {line} {name}" for file, line, name in _PLACE.findall(trace)]
    return f"{_kind(trace)}: {' < '.join(reversed(places[-MOST_PLACES:])) or 'place not told'}"
