"""Faults that nobody caught: what the cook is told, and what is kept for whoever looks for them."""

import logging
import re
import traceback

from app.device.parts import NOT_OPEN_HERE, STORAGE_FULL

_SAID = {"StorageFull": STORAGE_FULL, "NotOpenHere": NOT_OPEN_HERE}
_PLACE = re.compile(r'\s*File "(?:.*?[/\\])?((?:[^/\\"]+[/\\])?[^/\\"]+)", line (\d+), in (\S+)')
_ENDING = re.compile(r"([A-Za-z_][\w.]*)(?::.*)?")
MOST_PLACES = 8


def _kind(trace: str) -> str:
    """The exception's class: the first line at the margin behind the last place named.

    What stands before the places, and in further lines, may be words of its message.
    """
    lines = trace.splitlines()
    places = [number for number, line in enumerate(lines) if _PLACE.match(line)]
    for line in lines[places[-1] + 1 :] if places else ():
        if line and not line[0].isspace() and (found := _ENDING.fullmatch(line)):
            return found[1].rsplit(".", 1)[-1]
    return "fault"


def said_of(trace: str) -> str:
    """The sentence for a fault that is the device's and not the program's; empty otherwise.

    Examples
    --------
    >>> place = '  File "/py/app/device/slots.py", line 9, in append'
    >>> said_of(f"{place}\\napp.device.parts.StorageFull: ...")[:37]
    'There is no room left on this device,'
    >>> said_of(f"{place}\\nKeyError: 'b0'")
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


class WithoutWords(logging.Formatter):
    """Log lines that hold no word of the cook's: what was logged, and where a fault was."""

    def format(self, record: logging.LogRecord) -> str:
        says = str(record.msg)
        if record.exc_info:
            says = without_words("".join(traceback.format_exception(*record.exc_info)))
        return f"{record.levelname} {record.name}: {says}"


def log_without_words() -> None:
    """Let the program's log, which a browser's console shows, say nothing personal."""
    plain = logging.StreamHandler()
    plain.setFormatter(WithoutWords())
    logging.basicConfig(handlers=[plain], level=logging.WARNING, force=True)
