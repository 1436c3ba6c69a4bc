"""A site's `_headers` file, in the form several static hosts read: for which paths what is sent."""

from fnmatch import fnmatchcase
from pathlib import Path

NAME = "_headers"


def read(file: Path) -> list[tuple[str, dict[str, str]]]:
    """Each path pattern with its headers, in the order they stand; empty where there is no file.

    Raises
    ------
    ValueError
        For a line that is neither a pattern, nor a header below one, nor a remark.
    """
    if not file.is_file():
        return []
    rules: list[tuple[str, dict[str, str]]] = []
    for number, line in enumerate(file.read_text("utf-8").splitlines(), 1):
        if not line.strip() or line.startswith("#"):
            continue
        if not line[0].isspace():
            rules.append((line.strip(), {}))
            continue
        name, colon, value = line.strip().partition(":")
        if not (rules and colon):
            raise ValueError(f"{NAME}, line {number}: a header below a path was expected: {line!r}")
        rules[-1][1][name] = value.strip()
    return rules


def for_path(rules: list[tuple[str, dict[str, str]]], path: str) -> dict[str, str]:
    """The headers of a path, which starts with a slash; where two rules differ the later holds."""
    found: dict[str, str] = {}
    for pattern, headers in rules:
        if fnmatchcase(path, pattern):
            found |= headers
    return found
