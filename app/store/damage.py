"""What is said of a log that was not whole when it was opened."""

from collections import Counter
from collections.abc import Callable, Mapping

from app.store.lines import from_json
from app.store.placing import BEGUN
from app.store.records_log import LogRead


def told(log: LogRead, drawer: Callable[[str], Mapping[str, bytes]]) -> list[str]:
    """One sentence for each thing lost or left out, empty when the log was whole."""
    said = [
        f"A part of the journal was damaged and could not be read ({stretch.length} bytes): "
        f"{_about(stretch.about, drawer)}. Everything before and after it is there."
        for stretch in log.damaged
    ]
    if log.doubled:
        said.append(
            f"{log.doubled} record{'s' if log.doubled > 1 else ''} had been written twice by the "
            "device; the second writing was left out. Nothing is lost."
        )
    if log.missing:
        said.append(
            f"{log.missing} change{'s' if log.missing > 1 else ''} went missing on the device. "
            "Everything else in the journal is there."
        )
    if log.torn and not any(stretch.at == log.good_length for stretch in log.damaged):
        said.append(
            "The last change before the program stopped had not been written to its end and was "
            "dropped. Everything saved before it is there."
        )
    return said


def _about(about: tuple[tuple[str, str], ...], drawer: Callable[[str], Mapping[str, bytes]]) -> str:
    if not about:
        return "what it was about cannot be told"
    things = Counter(_thing(table, key, drawer) for table, key in about)
    return "it seems to have been " + ", ".join(
        one if count == 1 else _many(one, count) for one, count in things.items()
    )


_WHAT = {"entry": "an entry", "photo": "a photo's data"}
_MANY = {"an entry": "entries", "a photo's data": "photos' data", "a change": "changes"}


def _many(thing: str, count: int) -> str:
    for one, several in _MANY.items():
        if thing.startswith(f"{one} of"):
            return f"{count} {several}{thing.removeprefix(one)}"
    return thing


def _thing(table: str, key: str, drawer: Callable[[str], Mapping[str, bytes]]) -> str:
    if table == "desk":
        if key.startswith(BEGUN):
            return "a form being filled in"
        return "a mix being typed" if key == "draft" else "a change to your kit"
    what = _WHAT.get(key.split("/")[0], "a change")
    line = drawer(table).get("batch")
    if line is None:
        return f"{what} of a batch that is not there"
    try:
        name = str(from_json(line).get("name", ""))
    except ValueError:
        name = ""
    return f"{what} of “{name}”" if name else f"{what} of a batch"
