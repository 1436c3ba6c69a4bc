"""A press right after typing, on a phone too busy to draw between the two."""

from collections.abc import Iterator
from typing import Any

import pytest

from app.journal.records import Decision
from tests.screens.harness import Screens


def keys(field: Any, text: str) -> Iterator[tuple[Any, str, Any]]:
    """The events of a text typed key by key."""
    return ((field, "change", text[:end]) for end in range(1, len(text) + 1))


def test_a_press_knows_what_was_typed_just_before_it(screens: Screens) -> None:
    screens.to_start()
    press = (screens.button("Start"), "click", None)
    screens.at_once(*keys(screens.field("Name"), "Sunday flat, café"), press)
    assert [one.name for one in screens.bench.shown.batches] == ["Sunday flat, café"]


def test_two_presses_at_once_start_one_batch(screens: Screens) -> None:
    screens.to_start()
    press = (screens.button("Start"), "click", None)
    screens.at_once(press, press)
    assert len(screens.bench.shown.batches) == 1


def test_what_is_typed_in_two_fields_at_once_is_all_there(screens: Screens) -> None:
    batch = screens.start_batch()
    screens.go(f"/journal/{batch.id}/wrap")
    pit, core = screens.field("Pit"), screens.field("Core")
    press = (screens.button("Wrapped"), "click", None)
    screens.at_once(*keys(pit, "250"), *keys(core, "162"), press)
    (line,) = screens.bench.entries(batch.id)
    assert isinstance(line.body, Decision)
    assert (line.body.pit_c, line.body.core_c) == pytest.approx((121.1, 72.2), abs=0.1)
