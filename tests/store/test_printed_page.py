"""A batch's page holds every word as text and asks nothing of any network."""

import base64
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.store.printed_page import Picture, Section, printed_page

JPEG = b"\xff\xd8 a picture \xff\xd9"
texts = st.text(max_size=60) | st.sampled_from(
    [
        "<script>alert(1)</script>",
        '"><img src=x onerror=alert(1)>',
        "</title><script>",
        "&lt;b&gt; &#60;",
        "' onload='x",
        "]]><!-- -->",
        "\ud800",
    ]
)


class Reading(HTMLParser):
    """What a browser would find: elements, their attributes, and the words between."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def read(page: bytes) -> Reading:
    reading = Reading()
    reading.feed(page.decode())
    reading.close()
    return reading


def page_of(*texts: str, pictures: tuple[Picture, ...] = ()) -> bytes:
    title, heading, label, value, words = texts
    return b"".join(printed_page(title, [Section(heading, ((label, value),), words)], pictures))


PLAIN = ("Flat", "Mix", "Salt", "90 g", "As mixed.")


def test_words_rows_and_pictures_stand_on_the_page() -> None:
    found = read(page_of(*PLAIN, pictures=(Picture(JPEG, "The slice"),)))
    assert {"Flat", "Mix", "Salt", "90 g", "As mixed.", "The slice"} <= set(found.words)
    named = dict(found.attributes)
    assert named["src"] == "data:image/jpeg;base64," + base64.b64encode(JPEG).decode()
    assert named["alt"] == "The slice"


@given(st.tuples(texts, texts, texts, texts, texts), texts)
def test_no_text_becomes_markup(five: tuple[str, ...], caption: str) -> None:
    like = read(page_of(*PLAIN, pictures=(Picture(JPEG, "The slice"),)))
    five = tuple(text or "x" for text in five)
    found = read(page_of(*five, pictures=(Picture(JPEG, caption),)))
    assert found.tags == like.tags
    assert [name for name, _ in found.attributes] == [name for name, _ in like.attributes]


def test_the_page_asks_nothing_and_runs_nothing() -> None:
    page = page_of(*PLAIN, pictures=(Picture(JPEG),)).decode()
    assert "default-src 'none'" in page
    assert "http://" not in page
    assert "https://" not in page
    found = read(page.encode())
    assert not {"script", "link", "iframe", "object", "form", "a"} & set(found.tags)
    assert not [name for name, _ in found.attributes if name.startswith("on")]


def test_signs_made_of_several_characters_stay_whole_and_controls_go() -> None:
    family = "\U0001f468\u200d\U0001f469"
    assert family in page_of(f"{family}\x00\x1c\x9f", *PLAIN[1:]).decode()
    assert not {"\x00", "\x1c", "\x9f"} & set(page_of("\x00\x1c\x9f", *PLAIN[1:]).decode())


def test_a_section_without_anything_is_left_out() -> None:
    page = b"".join(printed_page("Flat", [Section("Empty"), Section("Full", words="x")]))
    assert b"Empty" not in page
    assert b"Full" in page


def test_what_is_no_picture_is_refused() -> None:
    with pytest.raises(ValueError, match="JPEG"):
        page_of(*PLAIN, pictures=(Picture(b"<svg onload=alert(1)>"),))
