"""A newer version: fetched behind the scenes, announced, taken on the user's word alone."""

import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

from build_scripts.static_host import StaticHost
from tests.browser.altered_site import LOGIN_PAGE, newer, replace
from tests.browser.conftest import Visit
from tests.browser.hand import Hand, is_told
from tests.browser.test_boot import LIMIT_MS, opened, wait_until_usable

# Looks for a newer version now, and says what became of it; a page does the same by itself,
# each time it is opened or comes to the front.
LOOK = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  try { await registration.update(); } catch (why) { return "refused"; }
  const worker = registration.installing;
  if (!worker) return registration.waiting ? "waiting" : "none";
  return await new Promise(done => worker.addEventListener("statechange", () => {
    if (worker.state === "installed") done("waiting");
    if (worker.state === "redundant") done("given up");
  }));
}"""


def version(page: Page) -> str:
    """The build the page runs."""
    return str(page.evaluate("brinewright.version"))


def loads_of(page: Page) -> list[str]:
    """A list that gets a line with every load of the page from now on."""
    loads: list[str] = []
    page.on("domcontentloaded", lambda one: loads.append(one.url))
    return loads


def test_a_newer_version_waits_for_the_users_word(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path
) -> None:
    visitor = visit()
    page = opened(visitor)
    visitor.wait_until_kept()
    old = version(page)
    host.folder = newer(site, tmp_path / "newer")
    host.asked.clear()
    loads = loads_of(page)
    assert page.evaluate(LOOK) == "waiting"
    offer = page.get_by_role("button", name="Start it now")
    offer.wait_for(state="attached", timeout=LIMIT_MS)
    words = "A newer version is ready."
    told = page.get_by_text(words).or_(page.get_by_label(words)).first
    told.wait_for(state="attached", timeout=LIMIT_MS)
    assert loads == []
    # Only what differs was fetched.
    fetched = {asked.path.split("?")[0] for asked in host.asked if asked.status == 200}
    assert fetched <= {"/sw.js", "/version.json", "/boot/site.js", "/"}

    # Opened again without a word, it is still the old one, and still says there is a newer.
    page.reload()
    wait_until_usable(page)
    assert version(page) == old
    offer.wait_for(state="attached", timeout=LIMIT_MS)

    loads.clear()
    with page.expect_event("domcontentloaded", timeout=LIMIT_MS):
        offer.dispatch_event("click")
    wait_until_usable(page)
    assert version(page) != old
    assert len(loads) == 1
    assert offer.count() == 0

    visitor.go_offline()
    page.reload()
    wait_until_usable(page)
    assert version(page) != old
    assert len(loads) == 2


def all_login(site: Path) -> None:
    """A network that answers everything with its sign-in page, the list of files excepted."""
    for name in ("version.json", "boot/site.js"):
        replace(site / name, LOGIN_PAGE)


def login_for_the_worker(site: Path) -> None:
    """The same for the service worker itself."""
    replace(site / "sw.js", LOGIN_PAGE)


def garbage(site: Path) -> None:
    """A host whose disk is failing: every file has its length and none of its content."""
    for name in ("version.json", "boot/site.js", "index.html"):
        length = (site / name).stat().st_size
        replace(site / name, random.Random(length).randbytes(length))


def half_a_file(site: Path) -> None:
    """A connection that was cut, with no word of it."""
    content = (site / "boot" / "site.js").read_bytes()
    replace(site / "boot" / "site.js", content[: len(content) // 2])


def a_file_missing(site: Path) -> None:
    """An upload that is still going on."""
    (site / "version.json").unlink()


def half_a_worker(site: Path) -> None:
    """A service worker cut short."""
    content = (site / "sw.js").read_bytes()
    replace(site / "sw.js", content[: len(content) // 2])


def an_old_host(site: Path) -> None:
    """A host that has lost the service worker."""
    (site / "sw.js").unlink()


@pytest.mark.parametrize(
    ("spoil", "outcome"),
    [
        (all_login, "given up"),
        (garbage, "given up"),
        (half_a_file, "given up"),
        (a_file_missing, "given up"),
        (login_for_the_worker, "refused"),
        (half_a_worker, "refused"),
        (an_old_host, "refused"),
    ],
)
def test_a_spoiled_update_leaves_what_worked(
    visit: Visit,
    host: StaticHost,
    site: Path,
    tmp_path: Path,
    spoil: Callable[[Path], None],
    outcome: str,
) -> None:
    visitor = visit()
    # What is refused is told in the console, which is right.
    visitor.allow("404|MIME type|ServiceWorker|bad-precaching|sw.js")
    page = opened(visitor)
    visitor.wait_until_kept()
    old = version(page)
    host.folder = newer(site, tmp_path / "newer")
    spoil(host.folder)
    assert page.evaluate(LOOK) == outcome
    assert page.get_by_role("button", name="Start it now").count() == 0
    if outcome == "given up":
        hand = Hand(visitor)
        hand.place("Kit")
        hand.press("What is stored")
        assert is_told(hand.page, re.compile("did not arrive whole"))
    visitor.go_offline()
    page.reload()
    wait_until_usable(page)
    assert version(page) == old


def start_batch(hand: Hand, weight: str) -> None:
    """Start a batch, as it is done in the shop."""
    hand.place("Mix")
    hand.write("Weight on the label", weight)
    hand.sees("Weigh these")
    hand.press("Start batch")
    hand.sees("What it becomes")
    hand.press("Start", exact=True)
    hand.sees("Record")


def test_an_old_page_beside_a_newer_one_loses_nothing(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path
) -> None:
    visitor = visit()
    old = opened(visitor)
    visitor.read_aloud()
    visitor.wait_until_kept()
    hand = Hand(visitor)
    start_batch(hand, "7.1")
    old_version = version(old)
    host.folder = newer(site, tmp_path / "newer")
    assert old.evaluate(LOOK) == "waiting"

    # Another tab takes the newer version; this one stays open, its program now an old one.
    new = visitor.new_page()
    visitor.page = new
    new.goto(host.address)
    wait_until_usable(new)
    visitor.read_aloud()
    hand.press("Use it here")
    with new.expect_event("domcontentloaded", timeout=LIMIT_MS):
        hand.press("Start it now")
    wait_until_usable(new)
    visitor.read_aloud()
    assert version(new) != old_version
    hand.place("Journal")
    hand.sees(re.compile("7 lb 2 oz"))  # what the old page saved: 7.1 lb
    start_batch(hand, "8.2")

    # The old page goes on, takes the journal back, and has what the newer one wrote.
    visitor.page = old
    old.bring_to_front()
    assert version(old) == old_version
    hand.press("Take it back here")
    hand.place("Journal")
    hand.sees(re.compile("8 lb 3 oz"))
    start_batch(hand, "9.3")
    visitor.go_offline()
    old.reload()
    wait_until_usable(old)
    visitor.read_aloud()
    assert version(old) != old_version
    hand.place("Journal")
    for weight in ("7 lb 2 oz", "8 lb 3 oz", "9 lb 5 oz"):
        assert is_told(hand.page, re.compile(weight))


def test_after_a_spoiled_update_a_whole_one_is_taken(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path
) -> None:
    visitor = visit()
    visitor.allow("404|bad-precaching")
    page = opened(visitor)
    visitor.wait_until_kept()
    whole = newer(site, tmp_path / "newer")
    spoiled = newer(site, tmp_path / "spoiled")
    half_a_file(spoiled)
    host.folder = spoiled
    assert page.evaluate(LOOK) == "given up"
    host.folder = whole
    assert page.evaluate(LOOK) == "waiting"
    page.get_by_role("button", name="Start it now").wait_for(state="attached", timeout=LIMIT_MS)


def test_a_first_load_from_a_sign_in_page_keeps_nothing(
    visit: Visit, host: StaticHost, site: Path, tmp_path: Path
) -> None:
    visitor = visit()
    visitor.allow("bad-precaching|404")
    host.folder = newer(site, tmp_path / "newer")
    half_a_file(host.folder)
    replace(host.folder / "boot" / "site.js", (site / "boot" / "site.js").read_bytes())
    page = opened(visitor)
    # The page works; only a copy for later could not be kept, and none that is wrong was.
    assert (
        page.evaluate("navigator.serviceWorker.getRegistration().then(r => r?.active ?? null)")
        is None
    )
