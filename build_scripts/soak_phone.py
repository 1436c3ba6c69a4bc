"""The phone the soak runs on: a browser whose tab and process can be killed, and its memory."""

import os
import re
import signal
import statistics
import sys
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path

from attrs import define, field, frozen
from playwright.sync_api import (
    BrowserContext,
    ConsoleMessage,
    Error,
    Page,
    Playwright,
    WebError,
    expect,
)

from build_scripts.chromium import FLAGS
from build_scripts.hand import SEEN_MS, Hand, read_aloud, wait_usable
from build_scripts.static_host import StaticHost

# The server is gone most of the time: what asks for it anew hears so.
EXPECTED = re.compile("ERR_CONNECTION_REFUSED|ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_RESET")
WITHOUT_THE_NETWORK = """async () => {
  const { active } = await navigator.serviceWorker.ready;
  if (active.state !== "activated") {
    await new Promise(done => active.addEventListener("statechange", () => {
      if (active.state === "activated") done();
    }));
  }
}"""
HELD_BY_PYTHON = "import gc; gc.collect(); len(gc.get_objects())"
LEVEL = 1.3
"""The last third's median may be so many times the first third's."""


@frozen
class Memory:
    """What is held: the page's JS heap and Python's memory [bytes], and objects Python keeps."""

    at_s: float
    session: int
    page_bytes: float
    python_bytes: float
    python_objects: float


@define(slots=False)  # the driver keeps a note of its own on what listens to it
class Phone:
    """A browser over a profile of its own; `page` is the tab in use."""

    playwright: Playwright
    program: str
    host: StaticHost
    profile: Path
    context: BrowserContext | None = None
    tab: Page | None = None
    session: int = 0
    complaints: list[str] = field(factory=list)

    @property
    def page(self) -> Page:
        assert self.tab is not None, "the browser is not open"
        return self.tab

    def open(self) -> None:
        """Start the browser, or a new tab of it, and wait for the first screen."""
        if self.context is None:
            self.context = self.playwright.chromium.launch_persistent_context(
                self.profile,
                executable_path=self.program,
                args=list(FLAGS),
                viewport={"width": 390, "height": 844},
                device_scale_factor=2,
                has_touch=True,
                is_mobile=True,
                locale="en-US",
                accept_downloads=True,
            )
            self.context.on("console", self._note)
            self.context.on("weberror", self._note_error)
            self.tab = self.context.pages[0]
        elif self.tab is None:
            self.tab = self.context.new_page()
        self.session += 1
        self.page.goto(self.host.address)
        wait_usable(self.page)

    def _note(self, message: ConsoleMessage) -> None:
        if message.type == "error" and not EXPECTED.search(message.text):
            self.complaints.append(f"{message.text} [{message.location.get('url', '')}]")

    def _note_error(self, error: WebError) -> None:
        self.complaints.append(str(error.error))

    def keep(self) -> None:
        """Wait until the service worker holds what a start without the network needs."""
        self.page.evaluate(WITHOUT_THE_NETWORK)

    def move_to_another_tab(self) -> None:
        """Open the app in a second tab and go on there; the first lets go of the journal."""
        assert self.context is not None
        first, self.tab = self.page, self.context.new_page()
        self.session += 1
        self.page.goto(self.host.address)
        read_aloud(self.page)
        hand = Hand(self)
        hand.sees("open in another window")
        hand.press("Use it here")
        expect(self.page.get_by_role("tab", name="Mix").first).to_be_attached(timeout=SEEN_MS)
        first.close()
        self.page.bring_to_front()

    def kill_tab(self) -> None:
        """End the tab's process with no warning to the page."""
        # Chromium's own address for it: the renderer dies before anything is unloaded.
        with self.page.expect_event("crash"), suppress(Error):
            self.page.goto("chrome://crash")
        self.page.close()
        self.tab = None

    def kill_browser(self) -> None:
        """End the browser's own process as the system does when it wants the room."""
        assert self.context is not None
        assert self.context.browser is not None
        session = self.context.browser.new_browser_cdp_session()
        told = session.send("SystemInfo.getProcessInfo")["processInfo"]
        own = next(int(one["id"]) for one in told if one["type"] == "browser")
        os.kill(own, signal.SIGTERM if sys.platform == "win32" else signal.SIGKILL)
        with suppress(Error):
            self.context.close()
        self.context = self.tab = None

    def close(self) -> None:
        """Close the browser as a person does."""
        if self.context is not None:
            self.context.close()
        self.context = self.tab = None

    def memory(self, begun_s: float) -> Memory:
        """What is held now, after what nobody needs was cleared away."""
        assert self.context is not None
        session = self.context.new_cdp_session(self.page)
        session.send("HeapProfiler.collectGarbage")
        session.send("Performance.enable")
        told = session.send("Performance.getMetrics")["metrics"]
        session.detach()
        worker = next(one for one in self.page.workers if one.url.endswith("boot/worker.js"))
        return Memory(
            time.monotonic() - begun_s,
            self.session,
            next(one["value"] for one in told if one["name"] == "JSHeapUsedSize"),
            float(worker.evaluate("brinewrightPython._module.HEAP8.length")),
            float(worker.evaluate("code => brinewrightPython.runPython(code)", HELD_BY_PYTHON)),
        )


HELD: dict[str, Callable[[Memory], float]] = {
    "the page's heap": lambda one: one.page_bytes,
    "Python's memory": lambda one: one.python_bytes,
    "Python's objects": lambda one: one.python_objects,
}


def thirds(values: Sequence[float]) -> float:
    """The median of the last third, as a part of the first third's."""
    third = len(values) // 3
    if third == 0:
        raise ValueError(f"Three values or more were expected; {len(values)} were given.")
    return statistics.median(values[-third:]) / statistics.median(values[:third])


def growth(samples: Sequence[Memory]) -> dict[str, float]:
    """How each kind of memory grew, over all samples."""
    return {name: thirds([of(one) for one in samples]) for name, of in HELD.items()}


def longest_session(samples: Sequence[Memory]) -> list[Memory]:
    """The samples of the session with the most of them, in which nothing was started anew."""
    by_session: dict[int, list[Memory]] = {}
    for one in samples:
        by_session.setdefault(one.session, []).append(one)
    return max(by_session.values(), key=len, default=[])
