"""Someone with the app in their hand: a phone-sized page, the network, eyes and a record."""

import contextlib
import re
from pathlib import Path
from typing import Any, Literal
from urllib.parse import urlsplit

from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Error,
    Page,
    Request,
    WebError,
)

from build_scripts import hand
from build_scripts.environment import CACHE, NODE_MODULES
from build_scripts.static_host import StaticHost
from tests.browser.foreign import Watch

SEMANTICS_ON = hand.SEMANTICS_ON
Look = Literal["light", "dark", "large"]
LOOKS: tuple[Look, ...] = ("light", "dark", "large")
PICTURES = CACHE / "pictures"
WIDTH, HEIGHT = 390, 844
# A person who set large text in the browser; 16 px is what browsers start from.
LARGE_TEXT_PX = 26
ALL_KEPT = """async () => {
  const {active} = await navigator.serviceWorker.ready;
  if (active.state !== "activated") {
    await new Promise(done => active.addEventListener("statechange", () => {
      if (active.state === "activated") done();
    }));
  }
}"""
INLINE = ("data", "blob", "about", "chrome-extension")


# Also what a page that was just closed held open, which takes a moment to be let go.
EMPTY = """async () => {
  const root = await navigator.storage.getDirectory();
  for (let held = 1; held; ) {
    held = 0;
    for await (const name of root.keys()) {
      try { await root.removeEntry(name, { recursive: true }); } catch { held += 1; }
    }
    if (held) await new Promise(done => setTimeout(done, 50));
  }
}"""


def new_context(browser: Browser, look: Look, **context: Any) -> BrowserContext:
    """A fresh profile at phone size."""
    options: dict[str, Any] = {
        "viewport": {"width": WIDTH, "height": HEIGHT},
        "device_scale_factor": 2,
        "has_touch": True,
        "is_mobile": True,
        "color_scheme": "dark" if look == "dark" else "light",
        "locale": "en-US",
    }
    return browser.new_context(**(options | context))


class Visitor:
    """One page in a profile, with what it asked for and what it complained of.

    A `lent` profile is given back empty, but for the copy of the app that it keeps.
    """

    def __init__(
        self,
        context: BrowserContext,
        host: StaticHost,
        watch: Watch,
        look: Look,
        *,
        lent: bool = False,
    ) -> None:
        self.context = context
        self.host = host
        self.look: Look = look
        self.watch = watch
        self.lent = lent
        self.watch.take()
        self.asked: list[str] = []
        self.complaints: list[str] = []
        self.allowed: list[re.Pattern[str]] = []
        self.context.on("request", self._note_request)
        self.context.on("console", self._note_console)
        self.context.on("weberror", self._note_error)
        self.page = self.new_page()

    def new_page(self) -> Page:
        """Another tab of the same profile; `page` is the first."""
        page = self.context.new_page()
        if self.look == "large":
            session = self.context.new_cdp_session(page)
            session.send("Page.setFontSizes", {"fontSizes": {"standard": LARGE_TEXT_PX}})
        return page

    def _note_request(self, request: Request) -> None:
        self.asked.append(request.url)

    def _note_error(self, error: WebError) -> None:
        self.complaints.append(str(error.error))

    def _note_console(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.complaints.append(f"{message.text} [{message.location.get('url', '')}]")

    def open(self, path: str = "") -> Page:
        """Go to a place of the app."""
        self.page.goto(self.host.address + path.lstrip("/"))
        return self.page

    def read_aloud(self, timeout_s: float = 60.0) -> None:
        """Have the names and roles of what is painted, as a screen reader would."""
        hand.read_aloud(self.page, timeout_s)

    def wait_until_kept(self) -> None:
        """Wait until the service worker holds all it needs, which is before it is active."""
        self.page.evaluate(ALL_KEPT)

    def go_offline(self) -> None:
        """The network is gone: the server stops and its open connections are cut."""
        self.host.stop()

    def come_back(self) -> None:
        """The network is there again, at the same address."""
        self.host.start()

    def kill_tab(self) -> None:
        """End the tab's process with no warning to the page, and hold a new, empty tab."""
        # Chromium's own address for it: the renderer dies before anything is unloaded.
        with self.page.expect_event("crash"), contextlib.suppress(Error):
            self.page.goto("chrome://crash")
        self.page.close()
        self.page = self.new_page()

    def picture(self, name: str) -> Path:
        """Write what the screen shows to .cache/pictures, for a person to look at."""
        PICTURES.mkdir(parents=True, exist_ok=True)
        file = PICTURES / f"{name}-{self.look}.png"
        self.page.screenshot(path=file)
        return file

    def barriers(self) -> list[str]:
        """What axe finds serious or critical on the page, one line each."""
        source = (NODE_MODULES / "axe-core" / "axe.min.js").read_text("utf-8")
        # Evaluated by the browser's own debugger: a script element would be barred by the
        # page's policy, as it should be.
        self.page.evaluate(f"() => {{ {source} }}")
        found = self.page.evaluate("() => axe.run(document, {resultTypes: ['violations']})")
        return [
            f"{item['id']} ({item['impact']}): {item['help']}: {node['html'][:200]}"
            for item in found["violations"]
            if item["impact"] in ("serious", "critical")
            for node in item["nodes"]
        ]

    def allow(self, pattern: str) -> None:
        """Expect complaints that match; say beside the call why they are right."""
        self.allowed.append(re.compile(pattern))

    def unexpected_complaints(self) -> list[str]:
        """What the page's console called an error and no test expected."""
        return [c for c in self.complaints if not any(p.search(c) for p in self.allowed)]

    def foreign(self) -> list[str]:
        """Every address asked for outside the page's own origin, by whichever part."""
        own = urlsplit(self.host.origin).netloc
        parts = [(urlsplit(url), url) for url in self.asked]
        seen = [u for part, u in parts if part.scheme not in INLINE and part.netloc != own]
        return seen + self.watch.take()

    def leave(self) -> None:
        """Close the page and its profile, or give a lent one back."""
        if not self.lent:
            self.context.close()
            return
        self.context.remove_listener("request", self._note_request)
        self.context.remove_listener("console", self._note_console)
        self.context.remove_listener("weberror", self._note_error)
        self.context.clear_permissions()
        for page in self.context.pages:
            page.close()
        self.host.stop()
