"""The static host: headers, refusals, and being away and back."""

import http.client
from collections.abc import Iterator
from pathlib import Path

import pytest

from build_scripts.static_host import (
    ASK_AGAIN,
    FOR_EVER,
    Asked,
    StaticHost,
    cache_control,
    content_type,
    locate,
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    (site / "deep").mkdir(parents=True)
    (site / "index.html").write_text("<h1>Brine</h1>")
    (site / "app.wasm").write_bytes(b"\0asm")
    (site / "deep" / "salt.json").write_text("{}")
    (tmp_path / "secret.txt").write_text("not for you")
    return site


@pytest.fixture
def host(folder: Path) -> Iterator[StaticHost]:
    with StaticHost(folder) as host:
        yield host


def ask(
    host: StaticHost, path: str, method: str = "GET", headers: dict[str, str] | None = None
) -> tuple[http.client.HTTPResponse, bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", host.port, timeout=5)
    connection.request(method, path, headers=headers or {})
    response = connection.getresponse()
    body = response.read()
    connection.close()
    return response, body


def ask_again(connection: http.client.HTTPConnection) -> None:
    connection.request("GET", "/")
    connection.getresponse()


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("index.html", ASK_AGAIN),
        ("service-worker.js", ASK_AGAIN),
        ("manifest.webmanifest", ASK_AGAIN),
        ("main.dart.js", ASK_AGAIN),
        ("snapshot-0a1b2c3d4e5f.bin.gz", FOR_EVER),
        ("app.0a1b2c3d.zip", FOR_EVER),
        ("icon-maskable.png", ASK_AGAIN),
        # Letters a to f only: a word, not a hash.
        ("beefaced-decade.js", ASK_AGAIN),
        ("cafe-decadefaced.js", ASK_AGAIN),
    ],
)
def test_only_names_that_carry_a_hash_are_kept_for_ever(name: str, expected: str) -> None:
    assert cache_control(name) == expected


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("a.wasm", "application/wasm"),
        ("a.mjs", "text/javascript; charset=utf-8"),
        ("a.JS", "text/javascript; charset=utf-8"),
        ("manifest.json", "application/json"),
        ("a.bin", "application/octet-stream"),
        ("LICENSE", "application/octet-stream"),
    ],
)
def test_types_are_what_browsers_insist_on(name: str, expected: str) -> None:
    assert content_type(name) == expected


def test_a_page_comes_with_its_headers(host: StaticHost) -> None:
    response, body = ask(host, "/?from=shortcut")
    assert response.status == 200
    assert body == b"<h1>Brine</h1>"
    assert response.headers["Content-Type"] == "text/html; charset=utf-8"
    assert response.headers["Cache-Control"] == "no-cache"
    assert response.headers["X-Content-Type-Options"] == "nosniff"


def test_what_the_site_wants_sent_is_sent_below_any_base(folder: Path) -> None:
    (folder / "_headers").write_text("/deep/*\n  Content-Security-Policy: default-src 'none'\n")
    for base in ("/", "/meat/"):
        with StaticHost(folder, base=base) as host:
            deep = ask(host, f"{base}deep/salt.json")[0].headers
            assert deep["Content-Security-Policy"] == "default-src 'none'"
            assert ask(host, base)[0].headers["Content-Security-Policy"] is None
            # It is for the host, not for the visitor.
            assert ask(host, f"{base}_headers")[0].status == 404


def test_head_says_the_same_without_the_body(host: StaticHost) -> None:
    response, body = ask(host, "/app.wasm", "HEAD")
    assert (response.status, body) == (200, b"")
    assert response.headers["Content-Length"] == "4"
    assert response.headers["Content-Type"] == "application/wasm"


def test_an_unchanged_file_is_not_sent_twice(host: StaticHost, folder: Path) -> None:
    tag = ask(host, "/app.wasm")[0].headers["ETag"]
    response, body = ask(host, "/app.wasm", headers={"If-None-Match": tag})
    assert (response.status, body) == (304, b"")
    (folder / "app.wasm").unlink()
    (folder / "app.wasm").write_bytes(b"\0asm, another")
    assert ask(host, "/app.wasm", headers={"If-None-Match": tag})[0].status == 200


@pytest.mark.parametrize(
    "path",
    ["/nothing.js", "/deep/", "/deep", "/../secret.txt", "/%2e%2e/secret.txt", "/a%00b", "/..%5c"],
)
def test_what_is_not_the_sites_is_not_found(host: StaticHost, path: str) -> None:
    response, body = ask(host, path)
    assert (response.status, body) == (404, b"")


def test_a_link_out_of_the_folder_leads_nowhere(folder: Path) -> None:
    (folder / "link.txt").symlink_to(folder.parent / "secret.txt")
    assert locate(folder, "/", "/link.txt") is None


def test_other_methods_are_refused(host: StaticHost) -> None:
    assert ask(host, "/index.html", "POST")[0].status == 501


def test_it_remembers_what_it_was_asked(host: StaticHost) -> None:
    ask(host, "/")
    ask(host, "/none", "HEAD")
    assert host.asked == [Asked("GET", "/", 200), Asked("HEAD", "/none", 404)]


def test_under_a_sub_path_nothing_else_is_answered(folder: Path) -> None:
    with StaticHost(folder, base="/meat/cure/") as host:
        assert host.address.endswith("/meat/cure/")
        assert ask(host, "/meat/cure/")[0].status == 200
        assert ask(host, "/meat/cure/deep/salt.json")[0].status == 200
        assert ask(host, "/")[0].status == 404
        assert ask(host, "/deep/salt.json")[0].status == 404


@pytest.mark.parametrize("base", ["", "meat/", "/meat"])
def test_a_sub_path_without_its_slashes_is_refused(folder: Path, base: str) -> None:
    with pytest.raises(ValueError, match="must start and end with a slash"):
        StaticHost(folder, base=base)


def test_stopping_cuts_also_a_connection_that_was_kept_open(host: StaticHost) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", host.port, timeout=5)
    connection.request("GET", "/")
    connection.getresponse().read()
    host.stop()
    with pytest.raises((ConnectionError, http.client.HTTPException)):
        ask_again(connection)
    with pytest.raises(ConnectionRefusedError):
        ask(host, "/")


def test_it_comes_back_at_the_same_address(host: StaticHost) -> None:
    before = host.address
    host.stop()
    host.stop()
    host.start()
    assert host.address == before
    assert ask(host, "/")[0].status == 200
    with pytest.raises(RuntimeError, match="already running"):
        host.start()
