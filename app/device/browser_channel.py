"""The worker's end of the bridge to the page; the messages are told in assets/bridge.js."""

import asyncio
from collections.abc import Callable
from contextlib import suppress
from typing import Any


def to_page(parts: dict[str, Any]) -> Any:
    """Named values as a plain object of JavaScript, bytes as one array of bytes."""
    import js
    from pyodide.ffi import to_js

    return to_js(parts, dict_converter=js.Object.fromEntries)


def name_of(error: BaseException) -> str:
    """The name a JavaScript error goes by, such as "QuotaExceededError"."""
    named = getattr(error, "name", "")
    return str(named) if named else str(error).split(":", 1)[0]


class PageChannel:
    """Tells the page things, asks it things, and passes on what it tells by itself."""

    def __init__(self) -> None:
        import js
        from pyodide.ffi import create_proxy

        self._channel = js.BroadcastChannel.new(f"brinewright-{js.brinewright.pageId}")
        self._asked: dict[int, asyncio.Future[Any]] = {}
        self._number = 0
        self._callbacks: dict[str, Callable[[Any], object]] = {}
        self._heard = create_proxy(self._hear)
        self._channel.addEventListener("message", self._heard)

    def _hear(self, event: Any) -> None:
        data = event.data
        kind = str(data.kind)
        if kind == "answer":
            waiting = self._asked.pop(int(data.ask), None)
            if waiting is not None and not waiting.done():
                waiting.set_result(data)
        elif (callback := self._callbacks.get(kind)) is not None:
            callback(data)

    def on(self, kind: str, callback: Callable[[Any], object]) -> None:
        """Call back with each message of a kind."""
        self._callbacks[kind] = callback

    def tell(self, kind: str, **parts: Any) -> None:
        """Send a message that needs no answer."""
        self._channel.postMessage(to_page({"kind": kind, **parts}))

    async def ask(self, kind: str, wait_s: float = 3.0, **parts: Any) -> Any:
        """The page's answer, None when it gave none in time."""
        self._number += 1
        number = self._number
        answer: asyncio.Future[Any] = asyncio.get_running_loop().create_future()
        self._asked[number] = answer
        self.tell(kind, ask=number, **parts)
        with suppress(TimeoutError, asyncio.TimeoutError):
            return await asyncio.wait_for(answer, wait_s)
        self._asked.pop(number, None)
        return None
