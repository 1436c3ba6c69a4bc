"""Python's worker: what it finds of its surroundings, and that neither it nor the page may leave
the site's own origin."""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from build_scripts import host_headers
from tests.browser.conftest import Visit
from tests.browser.test_boot import opened, python_worker, wait_until_usable

# Everything the page's policy refuses, also before its own scripts run.
NOTE_REFUSALS = """
window.refused = [];
addEventListener("securitypolicyviolation", event =>
  refused.push(`${event.violatedDirective} ${event.blockedURI}`));
"""
ASK_ELSEWHERE = """() =>
  fetch("https://elsewhere.example/").then(() => "answered", () => "refused")"""
ASK_FOR_A_PICTURE = """() => new Promise(done => {
  const image = new Image();
  image.onload = image.onerror = event => done(event.type);
  image.src = "https://elsewhere.example/dot.png";
})"""
# Later, since the debugger's own words are exempt while they run.
MAKE_CODE_OF_TEXT = """() => new Promise(done => setTimeout(() => {
  try { done(new Function("return 'ran'")()); } catch { done("refused"); }
}))"""
STORE_A_PHOTO = """async () => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle("photos", {create: true});
  const file = await (await folder.getFileHandle("one.jpg", {create: true})).createWritable();
  await file.write(new Uint8Array([255, 216, 255, 217]));
  await file.close();
}"""
ASK_FOR_A_PHOTO = """name => fetch(`photos/${name}`).then(async answer =>
  [answer.status, answer.headers.get("content-type"), (await answer.arrayBuffer()).byteLength])"""


def in_python(page: Page, code: str) -> Any:
    """What a piece of Python gives in the page's own worker."""
    return python_worker(page).evaluate("code => brinewrightPython.runPython(code)", code)


@pytest.mark.parametrize("client", ["", "?client=canvaskit"], ids=["skwasm", "canvaskit"])
def test_the_policy_refuses_nothing_the_program_does(visit: Visit, client: str) -> None:
    visitor = visit()
    visitor.context.add_init_script(NOTE_REFUSALS)
    page = opened(visitor, client)
    visitor.wait_until_kept()
    assert page.evaluate("refused") == []
    page.reload()
    wait_until_usable(page)
    assert page.evaluate("refused") == []


HEADERS = """async () => Object.fromEntries((await fetch(location.href)).headers)"""
ALLOWED = """name => document.featurePolicy.allowsFeature(name)"""


def test_the_page_comes_with_its_policies_from_the_host_and_from_its_own_copy(
    visit: Visit, site: Path
) -> None:
    wanted = host_headers.for_path(host_headers.read(site / host_headers.NAME), "/")
    guards = ("Content-Security-Policy", "Referrer-Policy", "Permissions-Policy")
    assert "unsafe-inline" not in wanted["Content-Security-Policy"].split("style-src")[0]
    visitor = visit()
    page = opened(visitor)
    for _ in range(2):  # the second time without the host
        sent = page.evaluate(HEADERS)
        for name in guards:
            assert sent[name.lower()] == wanted[name]
        assert page.evaluate(ALLOWED, "camera") is True
        assert page.evaluate(ALLOWED, "geolocation") is False
        visitor.wait_until_kept()
        visitor.go_offline()
        page.reload()
        wait_until_usable(page)


def test_neither_page_nor_worker_can_ask_another_origin(visit: Visit) -> None:
    visitor = visit()
    visitor.allow("elsewhere.example|Content Security Policy")
    page = opened(visitor)
    visitor.wait_until_kept()
    for _ in range(2):  # the second time with the service worker in charge
        assert page.evaluate(ASK_ELSEWHERE) == "refused"
        assert page.evaluate(ASK_FOR_A_PICTURE) == "error"
        assert python_worker(page).evaluate(ASK_ELSEWHERE) == "refused"
        page.reload()
        wait_until_usable(page)
    assert visitor.watch.take() == []
    visitor.asked.clear()  # the listener on the page notes refused attempts too


def test_the_policy_stands_in_the_worker_too(visit: Visit) -> None:
    visitor = visit()
    page = opened(visitor)
    visitor.wait_until_kept()
    page.reload()
    wait_until_usable(page)
    assert python_worker(page).evaluate(MAKE_CODE_OF_TEXT) == "refused"


def test_chance_differs_from_start_to_start(visit: Visit) -> None:
    draw = "import random, uuid; f'{random.random()} {uuid.uuid4()}'"
    page = opened(visit())
    first = in_python(page, draw).split()
    page.reload()
    wait_until_usable(page)
    second = in_python(page, draw).split()
    assert first[0] != second[0]
    assert first[1] != second[1]


def test_modules_that_the_snapshot_lacks_can_still_be_imported(visit: Visit) -> None:
    page = opened(visit())
    for name in ("wave", "flet.security", "pint.matplotlib"):
        assert in_python(page, f"{name!r} in __import__('sys').modules") is False
    assert in_python(page, "import wave; wave.__name__") == "wave"
    assert in_python(page, "import importlib.util as u; u.find_spec('pint.matplotlib').name")
    assert in_python(page, "import zoneinfo; zoneinfo.ZoneInfo('Asia/Kathmandu').key")


def test_python_has_the_clock_of_this_device_not_of_the_build(visit: Visit) -> None:
    page = opened(visit(timezone_id="America/New_York"))
    summer = "import time; time.localtime(1_750_000_000)"
    assert in_python(page, f"{summer}.tm_gmtoff") == -4 * 3600
    here = "import datetime as d; d.datetime.fromtimestamp(1_750_000_000).astimezone()"
    assert in_python(page, f"{here}.isoformat()") == "2025-06-15T11:06:40-04:00"


def test_photos_come_from_the_private_files(visit: Visit) -> None:
    visitor = visit()
    page = opened(visitor)
    visitor.wait_until_kept()
    page.evaluate(STORE_A_PHOTO)
    visitor.go_offline()
    assert page.evaluate(ASK_FOR_A_PHOTO, "one.jpg") == [200, "image/jpeg", 4]
    visitor.allow("404")
    assert page.evaluate(ASK_FOR_A_PHOTO, "none.jpg")[0] == 404
    assert page.evaluate(ASK_FOR_A_PHOTO, "..%2Fjournal")[0] == 404


def test_a_thumb_in_a_note_is_drawn_with_the_sites_own_font(visit: Visit) -> None:
    visitor = visit()
    page = opened(visitor)
    visitor.asked.clear()
    show = "page.show_dialog(ft.AlertDialog(content=ft.Text('salty \\U0001f44d \\u2713')))"
    find = "page = next(one for one in gc.get_objects() if type(one) is Page)"
    with page.expect_response("**/brinewright-signs.woff2") as drawn:
        in_python(page, f"import gc, flet as ft; from flet import Page; {find}; {show}; 1")
    assert drawn.value.ok
