"""The file of headers: which are sent with which path."""

from pathlib import Path

import pytest

from build_scripts import host_headers

TOLD = """# For all.
/*
  Cache-Control: no-cache
  Content-Security-Policy: default-src 'none'; connect-src 'self' blob: data:

/python/*
  Cache-Control: public, max-age=31536000
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / host_headers.NAME
    file.write_text(TOLD)
    return file


def test_a_path_gets_what_every_pattern_that_fits_says(file: Path) -> None:
    rules = host_headers.read(file)
    assert host_headers.for_path(rules, "/index.html") == {
        "Cache-Control": "no-cache",
        "Content-Security-Policy": "default-src 'none'; connect-src 'self' blob: data:",
    }


def test_where_two_differ_the_later_holds(file: Path) -> None:
    found = host_headers.for_path(host_headers.read(file), "/python/deep/snapshot.bin")
    assert found["Cache-Control"] == "public, max-age=31536000"
    assert "Content-Security-Policy" in found


def test_without_the_file_nothing_is_wanted(tmp_path: Path) -> None:
    assert host_headers.read(tmp_path / host_headers.NAME) == []


@pytest.mark.parametrize("line", ["  X-Early: a header before any path", "/*\n  no colon here"])
def test_what_is_no_header_is_refused(file: Path, line: str) -> None:
    file.write_text(line)
    with pytest.raises(ValueError, match="a header below a path was expected"):
        host_headers.read(file)
