import pytest

from app.colour.cell_classes import CURED, FAT, GREY
from app.colour.face import CutFace
from app.colour.mending import mended, recounted, shares_of

CELLS = bytes([GREY] * 40 + [CURED] * 60)


def a_face() -> CutFace:
    """Streaks of fat in lean cells, so that no cell is fat by itself."""
    return CutFace(54.0, 0.0, 36.0, 10.0, 0.0, 1.0, columns=10, rows=10, step=4, classes=CELLS)


def test_the_same_classes_give_the_same_shares() -> None:
    assert recounted(a_face(), CELLS).shares == pytest.approx(a_face().shares)


def test_one_cell_moves_no_share_by_more_than_itself() -> None:
    better = mended(a_face(), 2.0, 2.0, 0.0, CURED)
    for name, share in better.shares.items():
        assert share == pytest.approx(a_face().shares[name], abs=1.1)
    assert better.shares["cured"] > 54.0
    assert sum(better.shares.values()) == pytest.approx(100)


def test_cells_marked_as_fat_are_added_to_the_fat_already_seen() -> None:
    better = recounted(a_face(), bytes([FAT] * 10 + [GREY] * 30 + [CURED] * 60))
    assert better.shares["fat"] == pytest.approx(10 + 10, abs=1.5)


def test_all_cells_of_one_class_are_all_of_the_slice() -> None:
    face = recounted(a_face(), bytes([FAT] * 100))
    assert face.fat_percent == pytest.approx(100)
    assert recounted(face, bytes([CURED] * 100)).cured_percent == pytest.approx(100)


def test_refuses_nothing_left_and_another_number_of_cells() -> None:
    with pytest.raises(ValueError, match="Nothing"):
        recounted(a_face(), bytes(100))
    with pytest.raises(ValueError, match="100 cells"):
        recounted(a_face(), bytes([CURED]))
    with pytest.raises(ValueError, match="Nothing"):
        shares_of(bytes(9))
