"""The means of the browser tests, tried on a small site: each must be able to fail."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Error

from build_scripts.static_host import StaticHost
from tests.browser.conftest import Visit

PAGE = """<!doctype html><html lang="en"><title>Small</title>
<link rel="icon" href="data:,">
<meta name="viewport" content="width=device-width">
<style>body{background:#fff;color:#000} @media (prefers-color-scheme:dark){body{background:#000}}
</style><main><h1>Brine</h1><button id="b">Weigh</button></main></html>"""
WORKER = """
self.addEventListener("install", e => e.waitUntil(
  caches.open("kept").then(c => c.addAll(["./", "other.txt"]))));
self.addEventListener("activate", e => e.waitUntil(clients.claim()));
self.addEventListener("fetch", e => e.respondWith(
  caches.match(e.request).then(hit => hit || fetch(e.request))));
"""
ASK = "address => fetch(address).then(r => r.status, () => 'no answer')"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    (tmp_path / "index.html").write_text(PAGE)
    (tmp_path / "worker.js").write_text(WORKER)
    (tmp_path / "other.txt").write_text("kept")
    (tmp_path / "asks.js").write_text(
        "fetch('http://elsewhere.example/').catch(() => 0).then(() => postMessage(0))"
    )
    return tmp_path


def test_a_visitor_holds_a_phone(visit: Visit) -> None:
    page = visit().open()
    assert page.evaluate("[innerWidth, innerHeight, devicePixelRatio]") == [390, 844, 2]
    assert page.evaluate("navigator.maxTouchPoints") > 0
    assert page.get_by_role("button", name="Weigh").is_visible()


def test_the_looks_differ(visit: Visit) -> None:
    colours, sizes = {}, {}
    for look in ("light", "dark", "large"):
        page = visit(look).open()
        style = "getComputedStyle(document.{}).{}"
        colours[look] = page.evaluate(style.format("body", "backgroundColor"))
        sizes[look] = page.evaluate(style.format("documentElement", "fontSize"))
    assert colours["dark"] != colours["light"] == colours["large"]
    assert (sizes["light"], sizes["dark"], sizes["large"]) == ("16px", "16px", "26px")


def test_a_stopped_server_answers_nothing_until_it_is_back(visit: Visit, host: StaticHost) -> None:
    visitor = visit()
    visitor.allow("ERR_CONNECTION_REFUSED")  # the very thing that is tried here
    page = visitor.open()
    before = host.address
    assert page.evaluate(ASK, "other.txt") == 200
    visitor.go_offline()
    assert page.evaluate(ASK, "other.txt?again") == "no answer"
    with pytest.raises(Error, match="ERR_CONNECTION_REFUSED"):
        page.reload()
    page.wait_for_url("chrome-error://**")
    visitor.come_back()
    assert host.address == before
    visitor.open()
    assert page.evaluate(ASK, "other.txt?later") == 200


def test_a_service_worker_serves_while_the_server_is_gone(visit: Visit) -> None:
    visitor = visit()
    page = visitor.open()
    page.evaluate("navigator.serviceWorker.register('worker.js').then(() => 0)")
    visitor.wait_until_kept()
    visitor.go_offline()
    page.reload()
    assert page.get_by_role("heading", name="Brine").is_visible()
    assert page.evaluate(ASK, "other.txt") == 200


def test_a_killed_tab_is_told_nothing_and_a_new_one_opens(visit: Visit) -> None:
    visitor = visit()
    page = visitor.open()
    page.evaluate("localStorage.setItem('weight', '5000')")
    page.evaluate("addEventListener('pagehide', () => localStorage.setItem('left', '1'))")
    visitor.kill_tab()
    assert visitor.open() is not page
    assert visitor.page.evaluate("localStorage.getItem('weight')") == "5000"
    assert visitor.page.evaluate("localStorage.getItem('left')") is None


@pytest.mark.parametrize(
    "ask",
    [
        "fetch('http://elsewhere.example/font').catch(() => 0)",
        "new Promise(done => { const i = new Image(); i.onerror = done;"
        " i.src = 'https://elsewhere.example/dot.png'; }).then(() => 0)",
        "new Promise(done => { const w = new Worker('asks.js');"
        " w.onmessage = done; }).then(() => 0)",
        "new Promise(done => { const s = new WebSocket('ws://elsewhere.example/');"
        " s.onerror = done; }).then(() => 0)",
    ],
    ids=["page", "image", "worker", "socket"],
)
def test_a_request_that_leaves_the_origin_is_seen(visit: Visit, ask: str) -> None:
    visitor = visit()
    visitor.allow("elsewhere.example")
    page = visitor.open()
    page.evaluate(ask)
    assert any("elsewhere.example" in address for address in visitor.foreign())
    visitor.asked.clear()


def test_requests_to_the_own_origin_are_not_foreign(visit: Visit) -> None:
    visitor = visit()
    visitor.open().evaluate(ASK, "other.txt")
    assert any(address.endswith("/other.txt") for address in visitor.asked)
    assert visitor.foreign() == []


def test_errors_of_the_page_are_heard(visit: Visit) -> None:
    visitor = visit()
    page = visitor.open()
    page.evaluate("console.error('too salty')")
    with visitor.context.expect_event("weberror"):
        page.evaluate("void setTimeout(() => { throw new Error('too warm') })")
    heard = "\n".join(visitor.unexpected_complaints())
    assert re.search("too salty", heard)
    assert re.search("too warm", heard)
    visitor.allow("too (salty|warm)")
    assert visitor.unexpected_complaints() == []


def test_axe_finds_a_button_without_a_name_and_nothing_in_a_sound_page(visit: Visit) -> None:
    visitor = visit()
    page = visitor.open()
    assert visitor.barriers() == []
    page.evaluate("document.getElementById('b').textContent = ''")
    assert any(line.startswith("button-name") for line in visitor.barriers())


def test_a_picture_is_written_under_its_name_and_look(
    visit: Visit, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tests.browser.visitor.PICTURES", tmp_path / "pictures")
    visitor = visit("dark")
    visitor.open()
    file = visitor.picture("small")
    assert file.name == "small-dark.png"
    assert file.read_bytes().startswith(b"\x89PNG")
