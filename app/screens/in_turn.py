"""Events of the client, each handled over what the one before it has drawn.

A handler knows what its screen knew when it was drawn. Flet hands out waiting events one right
after the other, with nothing drawn between: of a name typed on a busy phone, a press on "Start"
would know only the beginning.
"""

import asyncio
from collections.abc import Callable
from typing import Any

from flet.messaging.session import Session

_TELL_ALL = frozenset({"change", "pan_update", "scale_update"})
"""Events that tell a whole value: the next of the same control makes up for the one before."""
_MOST_TURNS = 50
"""A screen that never comes to rest must not stop the hand."""


class InTurn:
    """Hands a session's events on, each once the screen has been drawn after the last.

    Keys typed into one field are not waited for one by one: each brings the whole text. After
    every other event `pressed` is called.
    """

    def __init__(self, session: Session, pressed: Callable[[], None]) -> None:
        self._session = session
        self._pressed = pressed
        self._hand_on = session.dispatch_event
        self._last: tuple[int, str] | None = None
        self._waiting = 0

    async def dispatch_event(self, control_id: int, event_name: str, event_data: Any) -> None:
        """Stands in for the session's own."""
        event = (control_id, event_name)
        if self._waiting or event != self._last or event_name not in _TELL_ALL:
            self._waiting += 1
            try:
                await self._drawn()
            finally:
                self._waiting -= 1
        self._last = event
        await self._hand_on(control_id, event_name, event_data)
        if event_name not in _TELL_ALL:
            self._pressed()

    async def _drawn(self) -> None:
        for _ in range(_MOST_TURNS):
            if not self._session._Session__pending_updates:  # type: ignore[attr-defined]
                return
            await asyncio.sleep(0)


def handle_in_turn(session: Session, pressed: Callable[[], None]) -> None:
    """Have every event of this session handled over what the last has drawn."""
    session.dispatch_event = InTurn(session, pressed).dispatch_event  # type: ignore[method-assign]
