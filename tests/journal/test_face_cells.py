"""The cells of a face as they are kept."""

from base64 import b64encode
from zlib import compress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.journal.face_cells import MOST_CELLS, packed, unpacked


@given(st.binary(min_size=1, max_size=400).map(lambda b: bytes(c % 7 for c in b)), st.data())
def test_what_is_packed_is_unpacked_as_it_was(classes: bytes, data: st.DataObject) -> None:
    hand = data.draw(st.frozensets(st.integers(0, len(classes) - 1)))
    assert unpacked(packed(classes, hand), len(classes)) == (classes, hand)


def test_a_face_takes_little_room() -> None:
    rows = [bytes([0] * 20 + [1] * 4 + [5] * 80 + [3] * 20 + [0] * 8) for _ in range(100)]
    assert len(packed(b"".join(rows))) < 1000


@pytest.mark.parametrize(
    "text",
    [
        "",
        "not base 64",
        packed(bytes(9)),
        packed(bytes(11)),
        packed(bytes(10))[:-4],
        b64encode(compress(bytes([7] * 10))).decode(),
        b64encode(compress(bytes([16] * 10))).decode(),
        b64encode(compress(bytes(10_000_000))).decode(),
    ],
    ids=["empty", "text", "too few", "too many", "cut", "no class", "no bit", "a bomb"],
)
def test_what_are_no_such_cells_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="cannot be read"):
        unpacked(text, 10)


@pytest.mark.parametrize("count", [0, -1, MOST_CELLS + 1])
def test_a_count_that_cannot_be_is_refused(count: int) -> None:
    with pytest.raises(ValueError, match="cells"):
        unpacked(packed(bytes(10)), count)


def test_no_cell_is_marked_outside_or_of_no_class() -> None:
    with pytest.raises(ValueError, match="3 cells"):
        packed(bytes(3), [3])
    with pytest.raises(ValueError, match="0 to 6"):
        packed(bytes([7]))
