"""The other end of a program that is mounted without a browser: a client and an event loop.

Whatever reaches into the inside of asyncio, and into how Flet sends, stands here.
"""

import asyncio
import logging
import traceback
from collections.abc import Callable
from typing import Any

import flet as ft
import msgpack
from flet.messaging.connection import Connection
from flet.messaging.protocol import (
    Message,
    MessageAction,
    configure_encode_object_for_msgpack,
)
from flet.messaging.session import Session
from flet.pubsub.pubsub_hub import PubSubHub

TURNS = 1000
"""So many turns of the loop, or drawings, without rest mean a screen that feeds itself."""


class StillLoop(asyncio.SelectorEventLoop):
    """An event loop whose clock goes on only when told, and whose threads run at once.

    The browser's Python has no threads either: there a thread's work runs in place.
    """

    now_s = 0.0

    def __init__(self) -> None:
        super().__init__()
        self.begun: list[asyncio.Task[Any]] = []
        self.set_task_factory(self._begin)

    def _begin(self, loop: Any, coro: Any, **kw: Any) -> "asyncio.Task[Any]":
        task: asyncio.Task[Any] = asyncio.Task(coro, loop=loop, **kw)
        self.begun.append(task)
        return task

    def time(self) -> float:
        return self.now_s

    def turn(self) -> bool:
        """One turn of the loop; False when nothing is left that can run now."""
        self.call_soon(self.stop)
        self.run_forever()
        due = any(not h.cancelled() and h.when() <= self.now_s for h in self._scheduled)
        return due or bool(self._ready)

    def run_in_executor(self, executor: Any, func: Callable[..., Any], *args: Any) -> Any:
        done = self.create_future()
        try:
            done.set_result(func(*args))
        except Exception as wrong:
            done.set_exception(wrong)
        return done

    def died_of(self) -> list[str]:
        """Traces of exceptions that ended a task and that nobody has looked at."""
        ended = [task for task in self.begun if task.done()]
        self.begun = [task for task in self.begun if not task.done()]
        # `_log_traceback` is how asyncio itself knows that nobody asked for the exception.
        unseen = [task for task in ended if not task.cancelled() and task._log_traceback]
        return ["".join(traceback.format_exception(task.exception())) for task in unseen]

    def end(self) -> None:
        """Cancel what still runs, let it say goodbye, and close."""
        for task in self.begun:
            task.cancel()
        for _ in range(20):
            if not self.turn():
                break
        self.close()


class CountedSession(Session):
    """A session that stops a screen which draws itself without end.

    An effect that changes what it depends on keeps Flet's scheduler from ever giving way, here
    as in the browser, so that counting turns of the loop alone would not find it.
    """

    drawn = 0

    def schedule_update(self, control: ft.BaseControl) -> None:
        self.drawn += 1
        if self.drawn > TURNS:
            raise AssertionError(f"did not come to rest: {control} drew itself {TURNS} times")
        super().schedule_update(control)


class Client(Connection):
    """Packs each message as the real client's end does, keeps note, answers method calls."""

    def __init__(self, loop: StillLoop, answers: dict[str, Any]) -> None:
        super().__init__()
        self.loop, self.pubsubhub, self.answers = loop, PubSubHub(loop=loop), answers
        self.page_url = "http://localhost/"
        self.session = CountedSession(self)
        self.calls: list[tuple[str, Any]] = []
        self.crashes: list[str] = []
        self.patches = 0
        self.on_route: Callable[[str], object] = lambda route: None

    def send_message(self, message: Message) -> None:
        # Packing has an effect of its own: it keeps what the next diff is taken against.
        msgpack.packb(
            [message.action, message.body],
            default=configure_encode_object_for_msgpack(ft.BaseControl),
        )
        body: Any = message.body
        if message.action == MessageAction.SESSION_CRASHED:
            self.crashes.append(body.message)
        elif message.action == MessageAction.PATCH_CONTROL:
            self.patches += 1
        elif message.action == MessageAction.INVOKE_METHOD:
            self.loop.call_soon(self._answer, body)

    def _answer(self, body: Any) -> None:
        self.calls.append((body.name, body.args))
        answer = self.answers.get(body.name)
        if body.name == "push_route":
            self.on_route(body.args["route"])
        result = answer(body.args) if callable(answer) else answer
        self.session.handle_invoke_method_results(body.control_id, body.call_id, result, None)


class Lost(logging.Handler):
    """Keeps what is only logged: an exception in `page.run_task` reaches no one else."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self.traces: list[str] = []
        logging.getLogger("concurrent.futures").addHandler(self)

    def emit(self, record: logging.LogRecord) -> None:
        if record.exc_info and record.exc_info[0]:
            self.traces.append("".join(traceback.format_exception(*record.exc_info)))

    def close(self) -> None:
        logging.getLogger("concurrent.futures").removeHandler(self)
        super().close()
