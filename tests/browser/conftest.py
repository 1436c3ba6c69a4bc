"""The built site, a host that can go away, and visitors with a browser.

A test asks for `visit` and gets people: `visitor = visit()` or `visit("dark")`. When it ends,
each of them must have stayed on the site's own origin and have heard no error in the console
that the test did not name with `visitor.allow(...)`.
"""

import contextlib
import os
from collections.abc import Callable, Generator, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, sync_playwright

from build_scripts import chromium, hand
from build_scripts.site_cache import fresh_site
from build_scripts.static_host import StaticHost
from tests.browser.foreign import Watch
from tests.browser.visitor import ALL_KEPT, EMPTY, PICTURES, Look, Visitor, new_context

PEOPLE = pytest.StashKey[list[Visitor]]()
Visit = Callable[..., Visitor]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what lies in this folder, so that it can be chosen or left out by name."""
    here = Path(__file__).parent
    for item in items:
        if item.path.is_relative_to(here):
            item.add_marker(pytest.mark.browser)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item,
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Keep a picture of what a failed test was looking at."""
    report = yield
    if report.when == "call" and report.failed:
        people: list[Visitor] = item.stash.get(PEOPLE, [])
        for number, visitor in enumerate(people):
            PICTURES.mkdir(parents=True, exist_ok=True)
            file = PICTURES / f"failed-{item.name.replace('/', '_')}-{number}.png"
            with contextlib.suppress(Error):  # its tab may be what died
                visitor.page.screenshot(path=file)
                report.sections.append(("picture", str(file)))
    return report


@pytest.fixture(scope="session")
def site() -> Path:
    """The folder of the built site: the one named in BRINEWRIGHT_SITE, or one built now."""
    named = os.environ.get("BRINEWRIGHT_SITE")
    folder = Path(named) if named else fresh_site()
    assert (folder / "index.html").is_file(), f"there is no built site in {folder}"
    return folder


@pytest.fixture(scope="session")
def watch() -> Iterator[Watch]:
    """The watch on what leaves the origin."""
    watch = Watch()
    yield watch
    watch.close()


@pytest.fixture(scope="session")
def browser(watch: Watch) -> Iterator[Browser]:
    """One Chromium for all tests; each visitor has a fresh profile in it."""
    program = chromium.find()
    assert program is not None, chromium.MISSING
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=program, args=[*chromium.FLAGS, *watch.flags]
        )
        yield browser
        browser.close()


class Holders:
    """Profiles that hold the app's own copy, one for each look: keeping it takes its time once."""

    def __init__(self, browser: Browser) -> None:
        self.browser = browser
        self.held: dict[tuple[Look, Path], tuple[BrowserContext, StaticHost]] = {}

    def ready(self, look: Look, site: Path) -> tuple[BrowserContext, StaticHost]:
        """The profile, and its host, which is away."""
        if (look, site) not in self.held:
            context = new_context(self.browser, look)
            with StaticHost(site) as host:
                page = context.new_page()
                page.goto(host.address)
                page.wait_for_selector(hand.USABLE, timeout=hand.START_MS)
                page.evaluate(ALL_KEPT)
                page.close()
            self.held[look, site] = context, host
        return self.held[look, site]


@pytest.fixture(scope="session")
def holders(browser: Browser) -> Holders:
    """Who has the app already."""
    return Holders(browser)


@pytest.fixture
def host(site: Path) -> Iterator[StaticHost]:
    """The site at an address of its own, which a test may take away and bring back."""
    with StaticHost(site) as host:
        yield host


@pytest.fixture
def visit(
    request: pytest.FixtureRequest,
    browser: Browser,
    host: StaticHost,
    watch: Watch,
    site: Path,
    holders: Holders,
) -> Iterator[Visit]:
    """Open the site as a new person, at phone size; `look` is light, dark or large.

    `holds_app` is someone who has the app's own copy already, and no network.
    """
    people: list[Visitor] = []
    request.node.stash[PEOPLE] = people

    def come(look: Look = "light", *, holds_app: bool = False, **context: Any) -> Visitor:
        # A profile is lent to one at a time.
        if holds_app and not context and not any(one.lent for one in people):
            shared, lent = holders.ready(look, site)
            people.append(Visitor(shared, lent, watch, look, lent=True))
            people[-1].open("version.json")
            people[-1].page.evaluate(EMPTY)
        else:
            people.append(Visitor(new_context(browser, look, **context), host, watch, look))
            if holds_app:
                people[-1].open()
                people[-1].page.wait_for_selector(hand.USABLE, timeout=hand.START_MS)
                people[-1].wait_until_kept()
                people[-1].go_offline()
        return people[-1]

    yield come
    foreign = [address for visitor in people for address in visitor.foreign()]
    complaints = [line for visitor in people for line in visitor.unexpected_complaints()]
    for visitor in people:
        visitor.leave()
    assert not foreign, "left the origin: " + ", ".join(foreign)
    assert not complaints, "the console reported: " + "\n".join(complaints)
