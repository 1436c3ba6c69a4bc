"""Documents as the lines they are kept as, read only when something in them is asked for."""

import json
from collections.abc import Iterator, Mapping, MutableMapping
from typing import Any


def to_json(document: Mapping[str, Any]) -> bytes:
    """A document on one line. ValueError for what JSON has no word for, such as infinity."""
    line = json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    try:
        return line.encode()
    except UnicodeEncodeError as why:
        before = line[max(0, why.start - 9) : why.start]
        raise ValueError(
            f"Whole characters were expected; half of one stands after {before!r}."
        ) from None


def _refuse(word: str) -> float:
    raise ValueError(f"A finite number was expected; {word} was given.")


# Made once: making one for each line would cost as much as reading a short one.
_DECODER = json.JSONDecoder(parse_constant=_refuse)


def from_json(line: bytes) -> dict[str, Any]:
    """The document on a line; ValueError when it is none."""
    try:
        document = _DECODER.decode(line.decode())
    except RecursionError:
        raise ValueError("A document of ordinary depth was expected.") from None
    if not isinstance(document, dict):
        raise ValueError("A document with named parts was expected.")
    return document


class Kept(MutableMapping[str, Any]):
    """One document as its line. As long as nobody has looked into it, it has not changed."""

    __slots__ = ("_document", "_line")

    def __init__(self, line: bytes) -> None:
        self._line = line
        self._document: dict[str, Any] | None = None

    def _read(self) -> dict[str, Any]:
        if self._document is None:
            self._document = from_json(self._line)
        return self._document

    @property
    def line(self) -> bytes:
        return self._line if self._document is None else to_json(self._document)

    def __getitem__(self, name: str) -> Any:
        return self._read()[name]

    def __setitem__(self, name: str, value: Any) -> None:
        self._read()[name] = value

    def __delitem__(self, name: str) -> None:
        del self._read()[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._read())

    def __len__(self) -> int:
        return len(self._read())


def line_of(document: Mapping[str, Any]) -> bytes:
    """The line a document is kept as."""
    return document.line if isinstance(document, Kept) else to_json(document)


class Drawer(Mapping[str, Kept]):
    """The documents of one table."""

    def __init__(self, lines: dict[str, bytes]) -> None:
        self.lines = lines

    def __getitem__(self, key: str) -> Kept:
        return Kept(self.lines[key])

    def __iter__(self) -> Iterator[str]:
        return iter(self.lines)

    def __len__(self) -> int:
        return len(self.lines)


class Tables(MutableMapping[str, Mapping[str, Any]]):
    """All tables, and beside them those that were put in or taken out since they were read."""

    def __init__(self, kept: Mapping[str, Drawer]) -> None:
        self._kept = kept
        self.changed: dict[str, Mapping[str, Any]] = {}

    def is_over(self, kept: Mapping[str, Drawer]) -> bool:
        """Whether these are those very tables."""
        return self._kept is kept

    def __getitem__(self, name: str) -> Mapping[str, Any]:
        table = self.changed.get(name)
        if table is None:
            return self._kept[name]
        if not table:
            raise KeyError(name)
        return table

    def __setitem__(self, name: str, table: Mapping[str, Any]) -> None:
        self.changed[name] = table

    def __delitem__(self, name: str) -> None:
        self[name]  # raises when there is none
        self.changed[name] = {}

    def __iter__(self) -> Iterator[str]:
        yield from (name for name in self._kept if self.changed.get(name) != {})
        yield from (
            name for name, table in self.changed.items() if table and name not in self._kept
        )

    def __len__(self) -> int:
        return sum(1 for _ in self)
