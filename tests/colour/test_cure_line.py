import pytest

from app.colour.cure_line import measure
from tests.colour.flat import DULL, HALF, PINK, WHITE, Rgb, stripes

NEUTRAL = (200, 200, 200)
SLICE: list[tuple[Rgb, int]] = [(WHITE, 30), (PINK, 60), (DULL, 80), (PINK, 60), (WHITE, 30)]


def test_a_grey_core_is_measured_with_its_depths() -> None:
    rgba, w, h = stripes(SLICE)
    found = measure(rgba, w, h, (26, 20), (233, 20), NEUTRAL, 50.0)
    assert found.grey_percent == pytest.approx(40, abs=1.5)
    assert found.cured_percent == pytest.approx(60, abs=1.5)
    assert found.grey_mm == pytest.approx(20, abs=0.8)
    assert found.left_depth_percent == pytest.approx(30, abs=1.5)
    assert found.right_depth_mm == pytest.approx(15, abs=0.8)
    assert found.left_edge == pytest.approx(4 / 207, abs=0.02)
    assert found.right_edge == pytest.approx(1 - 4 / 207, abs=0.02)
    assert found.confidence > 0.8
    assert [band for _, _, band in found.bands] == ["cured", "grey", "cured"]


def test_the_parts_add_up_to_a_hundred() -> None:
    rgba, w, h = stripes([(WHITE, 20), (PINK, 50), (HALF, 30), (DULL, 60), (HALF, 20), (WHITE, 20)])
    found = measure(rgba, w, h, (18, 20), (182, 20), NEUTRAL)
    assert found.cured_percent is not None
    assert found.pale_percent is not None
    assert found.grey_percent is not None
    assert found.cured_percent + found.pale_percent + found.grey_percent == pytest.approx(100)
    assert found.pale_percent == pytest.approx(100 * 50 / 160, abs=4)
    assert found.grey_mm is None


def test_cured_from_one_side_only() -> None:
    rgba, w, h = stripes([(WHITE, 20), (PINK, 60), (DULL, 100), (WHITE, 20)])
    found = measure(rgba, w, h, (20, 20), (179, 20), NEUTRAL)
    assert found.left_depth_percent == pytest.approx(37.5, abs=2)
    assert found.right_depth_percent == 0.0


@pytest.mark.parametrize(("strip", "depth"), [(6, 30.0), (30, 0.0)])
def test_a_thin_dull_strip_at_the_edge_does_not_take_the_depth_behind_it(
    strip: int, depth: float
) -> None:
    """3 % of the slice may be half fat or half bark; 15 % is a rim the cure did not reach."""
    parts = [(WHITE, 20), (PINK, 60), (DULL, 80), (PINK, 60 - strip), (DULL, strip), (WHITE, 20)]
    rgba, w, h = stripes(parts)
    found = measure(rgba, w, h, (20, 20), (219, 20), NEUTRAL)
    assert found.right_depth_percent == pytest.approx(depth, abs=2)
    assert found.left_depth_percent == pytest.approx(30, abs=2)


@pytest.mark.parametrize(("meat", "part"), [(PINK, "cured_percent"), (DULL, "grey_percent")])
def test_one_tone_is_known_by_its_hue_where_white_was_tapped(meat: Rgb, part: str) -> None:
    rgba, w, h = stripes([(WHITE, 30), (meat, 200), (WHITE, 30)])
    found = measure(rgba, w, h, (28, 20), (232, 20), NEUTRAL)
    assert getattr(found, part) == pytest.approx(100)


def test_one_tone_without_white_is_told_only_where_any_lamp_would_show_it() -> None:
    board: Rgb = (60, 60, 70)
    rgba, w, h = stripes([(board, 30), (PINK, 200), (board, 30)])
    found = measure(rgba, w, h, (28, 20), (232, 20))
    assert found.grey_percent == 0.0
    assert found.confidence < 0.8
    assert "white" in found.says


def test_one_tone_without_white_is_not_guessed() -> None:
    board: Rgb = (60, 60, 70)
    rgba, w, h = stripes([(board, 30), ((168, 125, 112), 200), (board, 30)])
    found = measure(rgba, w, h, (28, 20), (232, 20))
    assert not found.known
    assert found.confidence == 0.0
    assert "white" in found.says


def test_a_picture_without_colour_is_refused() -> None:
    rgba, w, h = stripes([((40, 40, 40), 30), ((110, 110, 110), 200), ((40, 40, 40), 30)])
    assert not measure(rgba, w, h, (28, 20), (232, 20)).known


def test_an_uncut_piece_is_refused() -> None:
    rgba, w, h = stripes([(WHITE, 30), ((44, 32, 27), 200), (WHITE, 30)])
    for neutral in (None, NEUTRAL):
        assert not measure(rgba, w, h, (28, 20), (232, 20), neutral).known


@pytest.mark.parametrize("kept", [False, True])
def test_fat_and_bark_are_left_out(kept: bool) -> None:
    bark: Rgb = (44, 30, 25)
    fat: Rgb = (236, 222, 198)
    widths = [(WHITE, 30), (bark, 8), (PINK, 50), (fat, 20), (PINK, 30), (DULL, 80), (PINK, 40)]
    rgba, w, h = stripes([*widths, (bark, 8), ((40, 42, 46) if kept else WHITE, 30)])
    found = measure(rgba, w, h, (27, 20), (268, 20), NEUTRAL)
    assert found.grey_percent == pytest.approx(40, abs=2)
    # Of 236 px between the edges 20 are fat and 16 bark; the core's 80 are 40 % of the lean.
    assert [kind for kind, _ in found.left_out] == ["fat", "bark"]
    assert found.left_out_percent == pytest.approx(100 * 36 / 236, abs=2)
    assert found.drawn_percent("grey") == pytest.approx(100 * 80 / 236, abs=1.5)


@pytest.mark.parametrize(
    ("colour", "word"),
    [((0, 0, 0), "dark"), ((255, 255, 255), "bright"), ((90, 120, 200), "No cut face")],
)
def test_says_when_it_cannot_know(colour: Rgb, word: str) -> None:
    rgba, w, h = stripes([(colour, 260)])
    found = measure(rgba, w, h, (20, 20), (240, 20), NEUTRAL)
    assert found.grey_percent is None
    assert found.confidence == 0.0
    assert word in found.says


@pytest.mark.parametrize("board", [(185, 145, 100), (150, 112, 76), (120, 120, 120)])
def test_a_bare_board_is_no_cut_face(board: Rgb) -> None:
    rgba, w, h = stripes([(board, 260)])
    assert not measure(rgba, w, h, (20, 20), (240, 20), NEUTRAL).known


def test_a_line_mostly_outside_the_picture_is_refused() -> None:
    rgba, w, h = stripes(SLICE)
    assert not measure(rgba, w, h, (-600, 20), (200, 20), NEUTRAL).known


@pytest.mark.parametrize(
    ("start", "end"),
    [((0, 0), (0, 0)), ((0, 0), (10, 0)), ((0, float("nan")), (200, 0)), ((0, 0), (1e400, 0))],
)
def test_refuses_what_is_no_line(start: tuple[float, float], end: tuple[float, float]) -> None:
    rgba, w, h = stripes(SLICE)
    with pytest.raises(ValueError, match="line"):
        measure(rgba, w, h, start, end)


@pytest.mark.parametrize("thickness", [0, -3, float("nan"), float("inf")])
def test_refuses_a_thickness_that_is_none(thickness: float) -> None:
    rgba, w, h = stripes(SLICE)
    with pytest.raises(ValueError, match="thickness"):
        measure(rgba, w, h, (26, 20), (233, 20), NEUTRAL, thickness)


@pytest.mark.parametrize(("width", "height"), [(0, 40), (10, 40), (-1, -1), (260, 40.0)])
def test_refuses_what_is_no_picture(width: int, height: int) -> None:
    rgba, _, _ = stripes(SLICE)
    with pytest.raises(ValueError, match="picture"):
        measure(rgba, width, height, (26, 20), (233, 20))


@pytest.mark.parametrize("kind", [bytes, bytearray, memoryview])
def test_takes_any_bytes(kind: type) -> None:
    rgba, w, h = stripes(SLICE)
    found = measure(kind(rgba), w, h, (26, 20), (233, 20), NEUTRAL)
    assert found.grey_percent == pytest.approx(40, abs=1.5)
