"""One batch as a page of its own, for printing and sending: text, tables and pictures in one file.

The page asks nothing of any network and runs nothing: pictures stand in it as they are, its own
policy forbids all else, and every word is escaped.
"""

import base64
from collections.abc import Iterable, Iterator
from html import escape

from attrs import frozen

_POLICY = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
_STYLE = """
body { font: 16px/1.45 Georgia, serif; color: #2b1d14; background: #fff; max-width: 46rem;
  margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.8rem; margin: 0 0 .25rem; } h2 { font-size: 1.2rem; margin: 1.6rem 0 .4rem;
  border-bottom: 1px solid #b9a58f; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top;
  padding: .2rem .6rem .2rem 0; border-bottom: 1px solid #e6dccd; white-space: pre-line; }
th { font-weight: normal; width: 38%; color: #5b4636; }
figure { margin: 1rem 0; break-inside: avoid; } img { max-width: 100%; height: auto; }
tr { break-inside: avoid; } p { white-space: pre-line; }
@media print { body { margin: 0; max-width: none; } }
""".strip()


@frozen
class Section:
    """A part of the page: a heading, words, and rows of name and value."""

    heading: str
    rows: tuple[tuple[str, str], ...] = ()
    words: str = ""


@frozen
class Picture:
    """A photo on the page, with what is said below it."""

    jpeg: bytes
    caption: str = ""


def printed_page(
    title: str, sections: Iterable[Section], pictures: Iterable[Picture] = (), language: str = "en"
) -> Iterator[bytes]:
    """The page piece by piece, so that no more than one picture is in memory.

    Parameters
    ----------
    title : name of the batch
    sections : in the order they stand; one without rows and words is left out
    pictures : stand at the end
    language : of the words, for screen readers

    Returns
    -------
    Pieces of one HTML file in UTF-8

    Raises
    ------
    ValueError : a picture is no JPEG
    """
    name = _words(title)
    yield (
        f'<!doctype html>\n<html lang="{_words(language)}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"<title>{name}</title>\n<style>\n{_STYLE}\n</style>\n</head>\n<body>\n<h1>{name}</h1>\n"
    ).encode()
    for section in sections:
        if section.rows or section.words:
            yield _section(section).encode()
    for picture in pictures:
        if not picture.jpeg.startswith(b"\xff\xd8"):
            raise ValueError("A JPEG picture was expected on the page.")
        yield b'<figure><img src="data:image/jpeg;base64,' + base64.b64encode(picture.jpeg)
        caption = _words(picture.caption)
        yield f'" alt="{caption}"><figcaption>{caption}</figcaption></figure>\n'.encode()
    yield b"</body>\n</html>\n"


def _section(section: Section) -> str:
    parts = [f"<section>\n<h2>{_words(section.heading)}</h2>\n"]
    if section.words:
        parts.append(f"<p>{_words(section.words)}</p>\n")
    if section.rows:
        rows = (
            f'<tr><th scope="row">{_words(label)}</th><td>{_words(value)}</td></tr>\n'
            for label, value in section.rows
        )
        parts += ["<table>\n", *rows, "</table>\n"]
    return "".join([*parts, "</section>\n"])


def _words(text: str) -> str:
    """Text as text: no mark-up, and no character that a page may not hold."""
    shown = "".join(c for c in text if c in "\n\t" or not (c < " " or "\x7f" <= c <= "\x9f"))
    return escape(shown.encode("utf-8", "replace").decode(), quote=True)
