"""Records to plain documents and back, strictly: a wrong kind of value is refused, not bent."""

from collections.abc import Callable, Mapping
from math import isfinite
from typing import Any, TypeVar

from attrs import fields, has, resolve_types
from cattrs import Converter
from cattrs.errors import BaseValidationError, StructureHandlerNotFoundError
from cattrs.strategies import configure_tagged_union

from app.journal.records import EntryBody, Kit
from app.store.migrations import STEPS, Steps, brought_up

T = TypeVar("T")


class NewerRecord(ValueError):
    """A record written by a later version of this program."""


class NotARecord(ValueError):
    """A document that does not say what a record of its kind says."""


def _only(kind: type, *also: type) -> Callable[[Any, Any], Any]:
    def take(value: Any, _: Any) -> Any:
        # A truth value counts as a number in Python, but not here.
        if type(value) is not kind and type(value) not in also:
            raise TypeError(f"{kind.__name__} was expected; {value!r:.60} was given")
        return value

    return take


def _number(value: Any, _: Any) -> float:
    if type(value) not in (float, int) or not isfinite(value):
        raise TypeError(f"a finite number was expected; {value!r:.60} was given")
    return float(value)


def _converter(tells_where: bool) -> Converter:
    resolve_types(Kit)  # it names classes that stand below it
    converter = Converter(detailed_validation=tells_where)
    converter.register_structure_hook(str, _only(str))
    converter.register_structure_hook(int, _only(int))
    converter.register_structure_hook(bool, _only(bool))
    converter.register_structure_hook(float, _number)
    configure_tagged_union(EntryBody, converter, tag_name="kind")
    return converter


_CONVERTER = _converter(tells_where=True)
_SWIFT = _converter(tells_where=False)
"""As strict, in half the time; a journal of a thousand batches is read with it at each start."""


def document_of(record: Any) -> dict[str, Any]:
    """A record as plain named values."""
    document = _CONVERTER.unstructure(record)
    assert isinstance(document, dict)
    return document


def record_of(document: Mapping[str, Any], kind: type[T], steps: Steps = STEPS) -> T:
    """The record a document tells, brought up from whichever earlier form it has.

    Raises
    ------
    NewerRecord
        When its schema is later than the one known here.
    NotARecord
        When a part is missing or of the wrong kind.
    """
    known = getattr(fields(kind), "schema", None) if has(kind) else None
    schema = document.get("schema", 1)
    if known is not None and type(schema) is int and schema > known.default:
        raise NewerRecord(
            f"A {kind.__name__.lower()} was written by a later version of this program "
            f"(form {schema}; this version knows {known.default}). It is kept as it is; "
            "update the program to see it."
        )
    try:
        if known is not None:
            document = brought_up(document, kind.__name__, known.default, steps)
        try:
            return _SWIFT.structure(document, kind)
        except Exception:  # whatever it was is found again, with the place it stands at
            return _CONVERTER.structure(document, kind)
    except (
        BaseValidationError,
        StructureHandlerNotFoundError,
        ValueError,
        TypeError,
        KeyError,
        AttributeError,
        OverflowError,
    ) as why:
        raise NotARecord(f"This is not a {kind.__name__.lower()}: {_first(why)}.") from None


def _first(why: BaseException) -> str:
    """The innermost reason, in one line."""
    while isinstance(why, BaseExceptionGroup) and why.exceptions:
        why = why.exceptions[0]
    if isinstance(why, KeyError):
        return f"{why} is missing"
    return str(why) or type(why).__name__
