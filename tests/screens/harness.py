"""Mounts screens without a browser: Flet's own session, with a recording client at its other end.

    screens = Screens()                      # the whole program, an empty journal in memory
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.press("Shopping list")
    assert screens.has("US cure no. 1")
    assert screens.unnamed() == []

What a person does goes the way the client's messages go, so the same drawing and comparing of
old and new controls happens. An exception that nobody caught makes the step fail that caused it.
The event loop's clock stands still until `pass_time`.
"""

import inspect
from collections.abc import Callable
from typing import Any

import flet as ft
from flet.controls.context import _context_page
from flet.messaging.protocol import Message, MessageAction, RegisterClientResponseBody

from app import main
from app.device import Device, memory_device
from app.journal.records import Batch
from tests.screens.client import TURNS, Client, Lost, StillLoop
from tests.screens.seen import Seen


class Mounted(Seen):
    """A program on the screen of a client that does what the test says."""

    def __init__(
        self,
        start: Callable[[ft.Page], object],
        route: str = "/",
        answers: dict[str, Any] | None = None,
    ) -> None:
        self.loop = StillLoop()
        self.client = Client(self.loop, answers or {})
        self.client.on_route = lambda to: self.loop.create_task(self._route_changed(to))
        self.session = self.client.session
        self.page: ft.Page = self.session.page
        self.lost = Lost()
        self._told = 0
        try:
            self.do(self._register, start, route)
        except BaseException:
            self.close()
            raise

    async def _register(self, start: Callable[[ft.Page], object], route: str) -> None:
        # In the order of Flet's own connections; see flet/messaging/pyodide_connection.py.
        self.session.apply_page_patch(
            {"route": route, "web": True, "platform": "android", "width": 390, "height": 844}
        )
        hello = RegisterClientResponseBody(
            session_id=self.session.id, page_patch=self.session.get_page_patch(), error=""
        )
        self.client.send_message(Message(MessageAction.REGISTER_CLIENT, hello))
        self.session.attach_connection(self.client)
        done = start(self.page)
        if inspect.isawaitable(done):
            await done
        await self.session.after_event(self.page)

    # Running.

    def do(self, act: Callable[..., Any], *args: Any) -> Any:
        """Run `act`, async or not, as a handler would be run; settle; give back its result."""

        async def run() -> Any:
            _context_page.set(self.page)
            done = act(*args)
            return await done if inspect.isawaitable(done) else done

        task = self.loop.create_task(run())
        self.loop.begun.remove(task)
        self.settle()
        if not task.done():
            task.cancel()
            raise AssertionError(f"{act} waits for something the test has not given")
        return task.result()

    def settle(self) -> None:
        """Let everything run that needs no time to pass; fail on an error nobody caught."""
        self.session.drawn = 0
        for _ in range(TURNS):
            if not self.loop.turn() and not self._end_dialogs():
                break
        else:
            raise AssertionError(f"the screens did not come to rest in {TURNS} turns")
        self.client.crashes += self.loop.died_of()
        new, self._told = self.errors[self._told :], len(self.errors)
        assert not new, "an error nobody caught:\n" + "\n".join(new)

    def pass_time(self, seconds: float) -> None:
        """Let the event loop's clock go on; the wall's is the device's."""
        self.loop.now_s += seconds
        self.settle()

    @property
    def errors(self) -> list[str]:
        """Traces of exceptions that nobody caught."""
        return self.client.crashes + self.lost.traces

    def close(self) -> None:
        """Take it down."""
        self.lost.close()
        self.loop.end()

    def _end_dialogs(self) -> bool:
        """The client reports a dialog as gone once it has closed it."""
        gone = [d for d in self.page._dialogs.controls if not d.open and d.on_dismiss]
        for dialog in gone:
            # Only the choosers say with it whether nothing was chosen.
            told = False if isinstance(dialog, (ft.DatePicker, ft.TimePicker)) else None
            self.loop.create_task(self.session.dispatch_event(dialog._i, "dismiss", told))
        return bool(gone)

    # Routes.

    @property
    def route(self) -> str:
        """The address where the program stands."""
        return self.page.route or ""

    def go(self, route: str) -> None:
        """Open an address, as if it were typed into the browser."""
        self.do(self._route_changed, route)

    async def _route_changed(self, route: str) -> None:
        self.session.apply_page_patch({"route": route})
        await self.session.dispatch_event(self.page._i, "route_change", {"route": route})

    # What a person does.

    def fire(self, control: Any, event: str, data: Any = None, **props: Any) -> None:
        """Send an event of the client; `props` are what it has changed on its side before."""

        async def come() -> None:
            self.session.apply_patch(control._i, props)
            if getattr(control, f"on_{event}", None) is not None:
                await self.session.dispatch_event(control._i, event, data)

        self.do(come)

    def at_once(self, *events: tuple[Any, str, Any]) -> None:
        """Send events that all wait already when the program comes to look: control, name, data."""

        async def come() -> None:
            for control, event, data in events:
                if event == "change":
                    self.session.apply_patch(control._i, {"value": data})
                self.loop.create_task(self.session.dispatch_event(control._i, event, data))

        self.do(come)

    def press(self, words: str, at: int | None = None) -> None:
        """Press what shows `words` or is read out so; `at` says which of several alike."""
        control = self.button(words, at)
        if isinstance(control, ft.NavigationBarDestination):
            bar = next(path for c, path in self.shown() if c is control)[-1]
            index = bar.destinations.index(control)
            self.fire(bar, "change", index, selected_index=index)
        elif isinstance(control, (ft.Switch, ft.Checkbox)):
            self._turn(control, not control.value)
        else:
            self.fire(control, "tap" if isinstance(control, ft.GestureDetector) else "click")

    def type(self, label: str, text: str) -> None:
        """Put `text` into the field whose label begins with `label`."""
        self.fire(self.field(label), "change", text, value=text)

    def submit(self, label: str) -> None:
        """Press the keyboard's own "done" in a field."""
        control = self.field(label)
        self.fire(control, "submit", control.value)

    def switch(self, label: str, on: bool) -> None:
        """Set the switch or tick box named `label`; one that stands so already is left alone."""
        control = self.control(label, (ft.Switch, ft.Checkbox))
        if bool(control.value) != on:
            self._turn(control, on)

    def _turn(self, control: Any, on: bool) -> None:
        self.fire(control, "change", on, value=on)

    def select(self, label: str, key: str) -> None:
        """Choose the entry `key` of the drop-down list named `label`."""
        control = self.control(label, ft.Dropdown)
        keys = [option.key or option.text for option in control.options]
        assert key in keys, f"{label!r} has no entry {key!r}, only {keys}"
        self.fire(control, "select", key, value=key)

    def pick(self, value: Any) -> None:
        """Choose `value` in the day or time chooser that is open on top."""
        top = self.dialogs()[-1] if self.dialogs() else None
        assert isinstance(top, (ft.DatePicker, ft.TimePicker)), "no day or time chooser is open"
        self.fire(top, "change", value, value=value, open=False)

    def give_files(self, words: str, files: dict[str, bytes], at: int | None = None) -> None:
        """Press what opens a file chooser and choose `files`, name to bytes."""
        action = getattr(self.button(words, at), "action", None)
        assert isinstance(action, ft.PickFiles), f"{words!r} opens no file chooser"
        chosen = [
            {"id": number, "name": name, "size": len(content), "path": None, "bytes": content}
            for number, (name, content) in enumerate(files.items(), 1)
        ]
        self.fire(action.file_picker, "result", {"files": chosen})


class Screens(Mounted):
    """The whole program over one device, in memory unless another is given."""

    def __init__(
        self,
        device: Device | None = None,
        route: str = "/",
        answers: dict[str, Any] | None = None,
    ) -> None:
        self.device = device or memory_device()
        super().__init__(self._begin, route, answers)

    async def _begin(self, page: ft.Page) -> None:
        await self.device.files.open()
        self.bench = main.begin(page, self.device)
        # The program keeps its own faults and goes on; to a test they are errors all the same.
        go_on = self.session.error

        def fault(trace: str) -> None:
            self.client.crashes.append(trace)
            go_on(trace)

        self.session.error = fault  # type: ignore[method-assign]

    def to_start(self) -> None:
        """Type a weight into Mix and open the screen on which a batch is started."""
        self.go("/mix")
        self.type("Weight on the label", "7.4")
        self.press("Start batch")

    def start_batch(self) -> Batch:
        """Start a batch as a cook does; the new one."""
        before = self.bench.shelf.batches()
        self.to_start()
        self.press("Start")
        (new,) = set(self.bench.shelf.batches()) - set(before)
        return new


def mount(
    app: Callable[..., Any], *args: Any, route: str = "/", answers: dict[str, Any] | None = None
) -> Mounted:
    """Draw a component that returns a view, or a router of views.

    `answers` are what the client gives back to a method call, by the method's name: a value,
    or a function of the arguments.
    """
    return Mounted(lambda page: page.render_views(app, *args), route, answers)


def stand(build: Callable[[], Any]) -> Mounted:
    """Put loose widgets on an otherwise empty screen; `build` may use hooks."""

    @ft.component
    def Stand() -> ft.View:
        built = build()
        return ft.View(controls=built if isinstance(built, list) else [built])

    return mount(Stand)
