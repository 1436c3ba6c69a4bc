"""The program, or a piece of it, mounted for a test and taken down after it."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from tests.screens import harness
from tests.screens.harness import Mounted, Screens


@pytest.fixture
def screens() -> Iterator[Screens]:
    """The whole program over a device in memory."""
    mounted = Screens()
    yield mounted
    mounted.close()


@pytest.fixture
def mount() -> Iterator[Callable[..., Mounted]]:
    """`harness.mount`, taken down at the end of the test."""
    mounted: list[Mounted] = []

    def keep(*args: Any, **kw: Any) -> Mounted:
        mounted.append(harness.mount(*args, **kw))
        return mounted[-1]

    yield keep
    for one in mounted:
        one.close()
