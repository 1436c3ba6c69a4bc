"""Measuring: the table, its ratios, the stock page it is measured against, and the code it runs."""

import ast
import tarfile
from pathlib import Path
from typing import Any

import pytest

from app.device.device import MemoryFiles
from app.device.slots import JournalFile, MemorySlot
from app.store.shelf import Shelf
from build_scripts import large_journal, measure, measured_code, measuring, stock_site
from build_scripts.measuring import Row, against, ninth_tenth, row


def test_a_row_holds_median_and_spread() -> None:
    assert row("start", [3.0, 1.0, 20.0]) == Row("start", "ms", 3.0, 1.0, 20.0)


def test_a_ratio_is_of_the_medians_and_names_what_it_is_to() -> None:
    ours = against(row("ours", [20.0, 30.0, 25.0]), row("theirs", [90.0, 100.0, 110.0]), "theirs")
    assert (ours.ratio, ours.ratio_to) == (0.25, "theirs")


def test_nine_in_ten_is_between_the_median_and_the_most() -> None:
    values = [float(n) for n in range(1, 101)]
    assert ninth_tenth(values) == pytest.approx(90.9)


def test_the_table_shows_ratios_only_where_there_are_any() -> None:
    other = row("without", [10.0])
    text = measure.table([against(row("with", [5.0]), other, "without"), other])
    head, first, second = text.splitlines()
    assert head.endswith("ratio")
    assert first.endswith("0.50 of without")
    assert second.rstrip().endswith("10 to 10")


def test_parts_can_be_chosen_and_unknown_ones_are_refused() -> None:
    assert measure.read_arguments([]).only == measure.PARTS
    assert measure.read_arguments(["--only", "save", "cure"]).only == ["save", "cure"]
    with pytest.raises(SystemExit):
        measure.read_arguments(["--only", "speed"])


def test_every_part_is_measured_by_a_function_of_its_name() -> None:
    for part in measure.PARTS:
        name = {"photo": "photo_import"}.get(part, part)
        assert callable(getattr(measuring, name))


def result_of(code: str) -> Any:
    """What the page's Python would give: the value of the last line."""
    tree = ast.parse(code)
    last = tree.body.pop()
    assert isinstance(last, ast.Expr)
    names: dict[str, Any] = {}
    exec(compile(tree, "measured", "exec"), names)
    return eval(compile(ast.Expression(last.value), "measured", "eval"), names)


@pytest.mark.parametrize(
    "code",
    [
        measured_code.CURE,
        measured_code.SAVE.replace("BATCHES", "2"),
        measured_code.MODEL,
        measured_code.LINE,
        measured_code.FACE,
    ],
    ids=["cure", "save", "model", "line", "face"],
)
def test_what_the_pages_python_is_to_run_runs_in_any(code: str) -> None:
    assert result_of(code) > 0


def test_a_large_journal_is_one_the_program_opens(tmp_path: Path) -> None:
    log = large_journal.log(5)
    first, second = MemorySlot(log), MemorySlot()
    file = JournalFile()
    file.open_slots(first, second)
    shelf = Shelf.open(MemoryFiles.holding(file.read_all()))
    assert shelf.report == ()
    assert len(shelf.batches()) == 5
    newest = shelf.batches()[0]
    assert len(shelf.entries(newest.id)) == large_journal.LINES
    assert {photo.id for photo in shelf.photos(newest.id)} >= {newest.cover_photo_id}
    assert [batch.finished for batch in shelf.batches()].count(False) == large_journal.RUNNING


def test_the_stock_page_is_flets_own_with_nothing_to_fetch(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    packages = tmp_path / "packages"
    (packages / "flet" / "__pycache__").mkdir(parents=True)
    (packages / "flet" / "__init__.py").write_text("")
    (packages / "flet" / "__pycache__" / "old.pyc").write_text("")
    (packages / "msgpack").mkdir()
    for name in ("repath.py", "six.py"):
        (packages / name).write_text("")
    web = tmp_path / "web"
    web.mkdir()
    (web / "index.html").write_text('<base href="/"><!-- fletAppConfig -->')
    monkeypatch.setattr(stock_site.packages, "installed", lambda: packages)
    monkeypatch.setattr(stock_site, "web_folder", lambda: web)
    stock_site.lay(tmp_path / "stock")
    with tarfile.open(tmp_path / "stock" / "app.tar.gz") as archive:
        names = archive.getnames()
    assert "main.py" in names
    assert "__pypackages__/flet/__init__.py" in names
    assert not any("__pycache__" in name for name in names)
    # Either would have the stock page fetch a package installer first.
    assert not {"requirements.txt", "pyproject.toml"} & set(names)
    assert "flet.pyodide = true" in (tmp_path / "stock" / "index.html").read_text("utf-8")
