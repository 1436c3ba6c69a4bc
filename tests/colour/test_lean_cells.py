import pytest

from app.colour.cell_classes import BARK, CURED, FAT, GREY, PALE
from app.colour.field import Field
from app.colour.lean_cells import (
    clean_cells,
    mark_cured,
    redder_than_it_looks,
    tone_noise,
    turned_of,
)
from app.colour.tone import Levels

W, H = 30, 20
ENDS = Levels(1.0, 0.2, True, "grey", 0.8, 0.0, 1.0)


def grid(tones: list[float]) -> Field:
    """Columns of these tones, the last to the right edge."""
    row = [*tones, *[tones[-1]] * (W - len(tones))]
    none = [0.0] * (W * H)
    return Field(W, H, none, none, none, row * H)


def classes_of(field: Field, bounds: tuple[float, float]) -> bytearray:
    lean = [*range(W * H)]
    turned = turned_of(field, lean, set(lean), ENDS, 0.1)
    classes = bytearray([GREY]) * (W * H)
    mark_cured(field, lean, turned, bounds, classes)
    return classes


def test_lean_is_divided_by_its_tone() -> None:
    classes = classes_of(grid([0.2] * 10 + [0.6] * 10 + [1.0] * 10), (0.25, 0.75))
    assert classes[:W] == bytes([GREY] * 10 + [PALE] * 10 + [CURED] * 10)


def test_fat_spreads_its_colour_over_lean_but_bark_does_not() -> None:
    classes = bytearray(([FAT] + [GREY] * 28 + [BARK]) * H)
    clean = clean_cells(grid([0.2]), [i for i in range(W * H) if classes[i] == GREY], classes, 2)
    assert {i % W for i in clean} == {*range(3, 28)}


def test_a_cured_rim_too_thin_to_be_clean_is_cured_and_a_dull_one_is_as_within() -> None:
    field = grid([1.0] * 2 + [0.3] * 26 + [0.0] * 2)
    lean = [*range(W * H)]
    clean = {i for i in lean if 2 <= i % W < 28}
    turned = turned_of(field, lean, clean, ENDS, 0.1)
    assert turned[5 * W] == pytest.approx(1.0)
    assert turned[5 * W + 29] == turned[5 * W + 20]


def test_one_wild_cell_changes_nothing() -> None:
    field = grid([0.2] * 15 + [1.0] * 15)
    field.s[5 * W + 5] = 0.9
    assert classes_of(field, (0.25, 0.75))[5 * W + 5] == GREY


def test_noise_is_what_cells_of_one_tone_differ_by() -> None:
    field = grid([1.0])
    assert tone_noise(field, [*range(W * H)], ENDS) == 0.0
    field.s[:] = [0.9 + 0.08 * (i // 2 % 2) for i in range(W * H)]
    assert tone_noise(field, [*range(W * H)], ENDS) == pytest.approx(0.1)


@pytest.mark.parametrize(("even", "read"), [(False, 1.0), (True, 0.7)])
def test_where_red_is_at_its_end_all_over_only_an_even_pale_tone_stays(
    even: bool, read: float
) -> None:
    field = grid([0.2] * 10 + [0.7] * 5 + [1.0] * 15)
    clipped = [1 if s > 0.5 else 0 for s in field.s]
    redder_than_it_looks(field, [*range(W * H)], clipped, ENDS, even)
    assert field.s[12] == read


def test_where_red_is_at_its_end_here_and_there_it_is_taken_for_cured() -> None:
    field = grid([0.2] * 10 + [0.7] * 5 + [1.0] * 15)
    clipped = [1 if s == 0.7 else 0 for s in field.s]
    redder_than_it_looks(field, [*range(W * H)], clipped, ENDS, True)
    assert field.s[12] == 1.0
    assert field.s[3] == 0.2
