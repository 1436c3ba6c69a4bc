"""The parts of the build, each on a small site of its own; the whole is tried in the browser."""

import gzip
import json
import re
import zipfile
from pathlib import Path

import pytest

from build_scripts import build
from build_scripts.site import cache_list, client, front, python, sizes
from build_scripts.trouble import Trouble


@pytest.fixture
def small_site(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    for name in (
        "index.html", "main.dart.js", "main.dart.wasm", "canvaskit/skwasm.wasm",
        "canvaskit/canvaskit.wasm", "python/snapshot-0a.bin.gz", "python/packages-0b.zip",
        "screenshots/mix.png", "_headers", "boot/worker.js",
    ):  # fmt: skip
        file = site / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(name.encode() * 50)
    return site


# ---- Command line ----


@pytest.mark.parametrize(
    ("asked", "base"), [("/", "/"), ("", "/"), ("/meat/", "/meat/"), ("meat/cure", "/meat/cure/")]
)
def test_a_base_starts_and_ends_with_a_slash(asked: str, base: str) -> None:
    assert build.base_path(asked) == base


@pytest.mark.parametrize("asked", ["https://example.org/meat/", '/a"b/', "/a b/", "/../", "/a?b/"])
def test_what_is_no_path_is_refused(asked: str) -> None:
    with pytest.raises(Trouble, match="--base"):
        build.base_path(asked)


def test_a_folder_with_something_else_in_it_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letters.txt").write_text("mine")
    with pytest.raises(Trouble, match="not a built site"):
        build.build(tmp_path)
    assert (tmp_path / "letters.txt").read_text() == "mine"


# ---- Python's archive ----


def test_the_archive_holds_what_python_needs_and_nothing_else(tmp_path: Path) -> None:
    packages, app = tmp_path / "packages", tmp_path / "app"
    for name in (
        "one/__init__.py", "one/default.txt", "one/_fast.so", "one/tests/test_one.py",
        "one/__pycache__/one.pyc", "bin/one", "one-1.0.dist-info/licenses/LICENSE",
    ):  # fmt: skip
        (packages / name).parent.mkdir(parents=True, exist_ok=True)
        (packages / name).write_text("x")
    (app / "cure").mkdir(parents=True)
    (app / "cure" / "brine.py").write_text("x = 1")
    python.pack(packages, app, tmp_path / "a.zip")
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        assert archive.namelist() == [
            "app/cure/brine.py",
            "one-1.0.dist-info/licenses/LICENSE",
            "one/__init__.py",
            "one/default.txt",
        ]


def test_the_same_packages_give_the_same_archive(tmp_path: Path) -> None:
    for name in ("first", "second"):
        (tmp_path / name / "packages").mkdir(parents=True)
        (tmp_path / name / "app").mkdir()
        (tmp_path / name / "packages" / "one.py").write_text("x = 1")
        python.pack(tmp_path / name / "packages", tmp_path / name / "app", tmp_path / f"{name}.zip")
    assert (tmp_path / "first.zip").read_bytes() == (tmp_path / "second.zip").read_bytes()


def test_a_hashed_name_changes_with_its_content(tmp_path: Path) -> None:
    python.put_hashed(tmp_path, "snapshot", ".bin.gz", b"one")
    python.put_hashed(tmp_path, "snapshot", ".bin.gz", b"two")
    names = sorted(file.name for file in tmp_path.iterdir())
    assert len(names) == 2
    assert all(re.fullmatch(r"snapshot-[0-9a-f]{16}\.bin\.gz", name) for name in names)


# ---- The client ----


def test_the_clients_own_service_worker_is_left_out() -> None:
    stock = (client.web_folder() / "flutter_bootstrap.js").read_text("utf-8")
    assert "serviceWorkerSettings: {" in stock
    assert "serviceWorkerSettings: {" not in client.bootstrap(stock)
    assert "onEntrypointLoaded" in client.bootstrap(stock)


def test_a_changed_client_is_noticed() -> None:
    with pytest.raises(Trouble, match="has changed"):
        client.bootstrap("_flutter.loader.load({})")


def test_the_fonts_named_are_ours_and_no_formulas(tmp_path: Path) -> None:
    stock = client.web_folder() / "assets" / "FontManifest.json"
    manifest = tmp_path / "assets" / "FontManifest.json"
    manifest.parent.mkdir()
    manifest.write_bytes(stock.read_bytes())
    client.fonts(manifest)
    families = {one["family"]: one["fonts"] for one in json.loads(manifest.read_text("utf-8"))}
    assert not [name for name in families if "math" in name.lower() or "KaTeX" in name]
    for font in families["Brinewright Text"]:
        assert (front.ASSETS / font["asset"]).is_file()


# ---- The page ----


def test_the_page_runs_no_script_but_files_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "boot").mkdir()
    front.index(tmp_path, "/meat/")
    page = (tmp_path / "index.html").read_text("utf-8")
    assert '<base href="/meat/">' in page
    assert "<title>Brinewright</title>" in page
    scripts = re.findall(r"<script([^>]*)>(.*?)</script>", page, re.S)
    assert scripts
    assert all(re.search(r'src="(?!https?:|//)[^"]+"', how) and not what for how, what in scripts)
    settings = (tmp_path / "boot" / "config.js").read_text("utf-8")
    assert 'flet.canvasKitBaseUrl="/meat/canvaskit/"' in settings
    assert 'flet.fontFallbackBaseUrl="/meat/assets/fonts/"' in settings
    assert "flet.noCdn=true" in settings


def test_the_policy_allows_no_other_origin_and_no_script_in_the_page() -> None:
    rules = dict(rule.strip().split(" ", 1) for rule in front.policy().split(";"))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == "'self' 'wasm-unsafe-eval'"
    allowed = {word for words in rules.values() for word in words.split()}
    assert allowed <= {
        "'none'", "'self'", "'wasm-unsafe-eval'", "'unsafe-inline'", "blob:", "data:",
    }  # fmt: skip
    assert [name for name, words in rules.items() if "'unsafe-inline'" in words] == ["style-src"]
    assert rules["style-src-attr"] == "'none'"


def test_a_host_gets_the_headers_with_the_same_policy() -> None:
    written = front.HEADERS.format(policy=front.policy())
    assert f"Content-Security-Policy: {front.policy()}; frame-ancestors 'none'" in written
    assert re.search(r"^/python/\*\n  Cache-Control: .*immutable$", written, re.M)


def test_the_manifest_names_the_pictures_that_are_there(tmp_path: Path) -> None:
    (tmp_path / "manifest.webmanifest").write_bytes(
        (front.ASSETS / "manifest.webmanifest").read_bytes()
    )
    front.manifest(tmp_path)
    assert "screenshots" not in json.loads((tmp_path / "manifest.webmanifest").read_text("utf-8"))
    (tmp_path / "screenshots").mkdir()
    icon = front.ASSETS / "icons" / "icon-192.png"
    (tmp_path / "screenshots" / "the-mix.png").write_bytes(icon.read_bytes())
    front.manifest(tmp_path)
    shot = json.loads((tmp_path / "manifest.webmanifest").read_text("utf-8"))["screenshots"]
    assert [(one["src"], one["sizes"], one["label"]) for one in shot] == [
        ("screenshots/the-mix.png", "192x192", "the mix")
    ]


def test_a_version_changes_with_any_file(small_site: Path) -> None:
    before = front.version_of(small_site)
    assert front.version_of(small_site) == before
    (small_site / "boot" / "worker.js").write_text("other")
    assert front.version_of(small_site) != before


# ---- What is kept offline ----


def test_all_is_kept_but_what_only_a_host_or_a_shop_wants(small_site: Path) -> None:
    names = [name for name, _ in cache_list.kept(small_site)]
    assert "index.html" in names
    assert "python/snapshot-0a.bin.gz" in names
    assert "_headers" not in names
    assert "screenshots/mix.png" not in names


@pytest.mark.parametrize("name", cache_list.ONLY)
def test_each_renderers_files_are_among_those_built(name: str) -> None:
    built = {*client.CODE, *(f"canvaskit/{renderer}" for renderer in client.RENDERERS)}
    assert name in built


def test_the_bar_of_the_splash_knows_how_much_is_to_come(small_site: Path) -> None:
    cache_list.facts(small_site)
    text = (small_site / "boot" / "site.js").read_text("utf-8")
    told = json.loads(text.removeprefix("window.brinewrightSite = ").rstrip(";\n"))
    kept = cache_list.kept(small_site)
    first = sum(f.stat().st_size for n, f in kept if n in (
        "index.html", "main.dart.wasm", "canvaskit/skwasm.wasm", "python/snapshot-0a.bin.gz",
        "python/packages-0b.zip", "boot/worker.js",
    ))  # fmt: skip
    assert told["firstLoadBytes"] == first
    assert told["snapshot"] == "python/snapshot-0a.bin.gz"
    assert told["archive"] == "python/packages-0b.zip"


def test_the_sizes_told_are_those_of_a_first_load(
    small_site: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    packed = gzip.compress(b"memory" * 1000, mtime=0)
    (small_site / "python" / "snapshot-0a.bin.gz").write_bytes(packed)
    (small_site / "main.dart.js").write_bytes(bytes(9_000_000))  # another renderer's
    sizes.tell(small_site)
    last = capsys.readouterr().out.strip().splitlines()[-1]
    assert last.split() == ["all", "of", "it", "0.0", "0.0"]
