"""Loose widgets on an otherwise empty screen."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from tests.screens import harness
from tests.screens.harness import Mounted

Stand = Callable[[Callable[[], Any]], Mounted]


@pytest.fixture
def stand() -> Iterator[Stand]:
    """`harness.stand`, taken down at the end of the test."""
    mounted: list[Mounted] = []

    def keep(build: Callable[[], Any]) -> Mounted:
        mounted.append(harness.stand(build))
        return mounted[-1]

    yield keep
    for one in mounted:
        one.close()
