"""Starting: on each renderer and each way, without a network, and when something is broken."""

import gzip
import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Route, Worker

from build_scripts.static_host import StaticHost
from tests.browser.altered_site import copied, replace, under
from tests.browser.conftest import Visit
from tests.browser.visitor import Visitor

USABLE = "html[data-usable=yes]"
LIMIT_MS = 30_000
ANDROID = (
    "Mozilla/5.0 (Linux; Android 14; Pixel 7) AppleWebKit/537.36 (KHTML, like Gecko) "
    "Chrome/140.0.0.0 Mobile Safari/537.36"
)
IPHONE = (
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 "
    "(KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1"
)


def wait_until_usable(page: Page) -> None:
    """The first screen stands and can be used."""
    page.wait_for_selector(USABLE, state="attached", timeout=LIMIT_MS)


def opened(visitor: Visitor, path: str = "") -> Page:
    """Open the app and wait for its first screen."""
    page = visitor.open(path)
    wait_until_usable(page)
    return page


def wait_until_read_aloud(page: Page) -> None:
    """The names for a screen reader are on, without anyone having asked for them."""
    page.get_by_role("tab", name="Mix").wait_for(state="attached", timeout=LIMIT_MS)


def python_worker(page: Page) -> Worker:
    """The worker that runs Python; with the skwasm renderer there may be others."""
    return next(one for one in page.workers if one.url.endswith("boot/worker.js"))


def started(page: Page) -> dict[str, Any]:
    """Which way it started, as the diagnostics tell it."""
    return dict(python_worker(page).evaluate("brinewright.start"))


def snapshot_of(site: Path) -> Path:
    """The site's memory snapshot."""
    return next((site / "python").glob("snapshot-*"))


@pytest.mark.parametrize(
    ("asked", "client", "way"),
    [
        ("", "skwasm", "snapshot"),
        ("?client=canvaskit", "chromium", "snapshot"),
        ("?start=ordinary", "skwasm", "ordinary"),
    ],
)
def test_it_starts_with_the_network_and_then_without(
    visit: Visit, host: StaticHost, asked: str, client: str, way: str
) -> None:
    visitor = visit()
    page = opened(visitor, asked)
    assert page.evaluate("brinewright.client") == client
    assert started(page)["way"] == way
    visitor.wait_until_kept()
    visitor.go_offline()
    page.reload()
    wait_until_usable(page)
    assert started(page)["way"] == way
    wait_until_read_aloud(page)


def test_a_fresh_tab_starts_without_the_network(visit: Visit) -> None:
    visitor = visit()
    page = opened(visitor)
    visitor.wait_until_kept()
    visitor.go_offline()
    page.close()
    visitor.page = visitor.new_page()
    opened(visitor, "#/mix")
    assert started(visitor.page)["way"] == "snapshot"
    assert visitor.page.evaluate("location.hash") == "#/mix"


@pytest.mark.parametrize("agent", [ANDROID, IPHONE], ids=["android", "iphone"])
def test_it_starts_on_what_calls_itself_a_phone(visit: Visit, agent: str) -> None:
    page = opened(visit(user_agent=agent))
    wait_until_read_aloud(page)


def test_it_works_under_a_path_of_a_host(visit: Visit, site: Path, tmp_path: Path) -> None:
    base = "/meat/cure/"
    with StaticHost(under(site, tmp_path / "under", base), base=base) as host:
        visitor = visit()
        visitor.host = host
        page = opened(visitor)
        visitor.wait_until_kept()
        assert [asked for asked in host.asked if asked.status == 404] == []
        assert started(page)["way"] == "snapshot"
        visitor.go_offline()
        page.reload()
        wait_until_usable(page)


# ---- When the snapshot is no good ----

DAMAGE = {
    "noise": bytes(range(256)) * 400,
    "half of it": None,
    "packed noise": gzip.compress(b"This is no memory of Python's." * 1000, mtime=0),
    "nothing": b"",
}


@pytest.mark.parametrize("damage", DAMAGE)
def test_a_damaged_snapshot_still_leads_to_a_start(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path, damage: str
) -> None:
    host.folder = copied(site, tmp_path / "damaged")
    snapshot = snapshot_of(host.folder)
    whole = snapshot.read_bytes()
    content = DAMAGE[damage]
    replace(snapshot, whole[: len(whole) // 2] if content is None else content)
    visitor = visit(service_workers="block")
    # What the given-up worker was still fetching is cut off.
    visitor.allow("Failed to fetch")
    told = started(opened(visitor))
    assert told["way"] == "ordinary"
    assert told["why"] not in ("", None)


def test_a_missing_snapshot_still_leads_to_a_start(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path
) -> None:
    host.folder = copied(site, tmp_path / "missing")
    snapshot_of(host.folder).unlink()
    visitor = visit(service_workers="block")
    visitor.allow("404")  # the missing file itself
    assert "404" in started(opened(visitor))["why"]


# ---- The splash, and what it says ----


def test_the_splash_needs_no_script(visit: Visit, host: StaticHost) -> None:
    visitor = visit()
    held: list[Route] = []
    # Asked for and never answered.
    visitor.page.route(re.compile(r"\.js$"), lambda route: held.append(route))
    visitor.page.goto(host.address, wait_until="commit")
    visitor.page.locator("#splash-name").wait_for(state="visible", timeout=LIMIT_MS)
    visitor.page.locator("#splash-mark").wait_for(state="visible")
    assert held != []
    for route in held:
        route.abort()
    visitor.allow("ERR_FAILED")  # the scripts held back above


def test_the_splash_goes_and_nothing_of_it_stays(visit: Visit) -> None:
    page = opened(visit())
    assert page.locator("#splash").count() == 0


@pytest.mark.parametrize(
    "broken",
    [
        "boot/worker.js",
        "boot/page.js",
        "boot/config.js",
        "flutter_bootstrap.js",
        "main.dart.wasm",
        "canvaskit/skwasm.wasm",
        "pyodide/pyodide.mjs",
        "pyodide/pyodide.asm.wasm",
        "python/packages-",
    ],
)
def test_a_first_load_that_fails_says_so_and_can_be_tried_again(visit: Visit, broken: str) -> None:
    visitor = visit()
    visitor.allow("")  # whatever is missing, the console says it many times over
    page = visitor.page
    page.route(re.compile(re.escape(broken)), lambda route: route.fulfill(status=404))
    visitor.open()
    retry = page.get_by_role("button", name="Try again")
    retry.wait_for(state="visible", timeout=LIMIT_MS)
    assert page.get_by_text("did not start").is_visible()
    page.unroute_all()
    retry.click()
    wait_until_usable(page)


def test_the_words_of_a_failed_start_can_be_read_by_all(visit: Visit) -> None:
    for look in ("light", "dark", "large"):
        visitor = visit(look)
        visitor.allow("404|worker")
        visitor.page.route(re.compile("boot/worker.js"), lambda route: route.fulfill(status=404))
        visitor.open()
        visitor.page.get_by_role("button", name="Try again").wait_for(state="visible")
        visitor.picture("boot-failed")
        assert visitor.barriers() == []


# ---- The page as a browser and a screen reader see it ----


@pytest.mark.parametrize("look", ["light", "dark", "large"])
def test_the_page_itself_bars_nobody(visit: Visit, look: Any) -> None:
    visitor = visit(look)
    page = opened(visitor)
    assert visitor.barriers() == []
    # Whoever needs it larger may pull it larger; the client writes a line of its own for this.
    allowed = page.eval_on_selector_all("meta[name=viewport]", "all => all.map(m => m.content)")
    assert not any(re.search(r"user-scalable=(no|0)|maximum-scale=1\b", one) for one in allowed)
    assert page.title() == "Brinewright"
    assert page.evaluate("document.documentElement.lang") == "en"


def test_the_manifest_names_only_what_is_there(visit: Visit, host: StaticHost, site: Path) -> None:
    written = json.loads((site / "manifest.webmanifest").read_text("utf-8"))
    assert {icon["purpose"] for icon in written["icons"]} == {"any", "maskable", "monochrome"}
    for icon in [*written["icons"], *written.get("screenshots", [])]:
        head = (site / icon["src"]).read_bytes()[16:24]
        size = f"{int.from_bytes(head[:4], 'big')}x{int.from_bytes(head[4:], 'big')}"
        assert icon["sizes"] == size
    visitor = visit()
    opened(visitor)
    session = visitor.context.new_cdp_session(visitor.page)
    assert session.send("Page.getAppManifest")["errors"] == []
    hindrances = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
    # A test's profile is a private window, where nothing can be installed.
    assert {one["errorId"] for one in hindrances} <= {"in-incognito"}
    for shortcut in written["shortcuts"]:
        visitor.page.goto(host.address + shortcut["url"].removeprefix("./"))
        wait_until_usable(visitor.page)
        # The first place may stand without its hash.
        there = visitor.page.evaluate("location.hash") or "#/"
        assert there == shortcut["url"].removeprefix("./")
