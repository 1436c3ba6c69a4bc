import numpy as np
import pytest

from app.colour.cell_classes import CURED
from app.colour.cure_line import measure_face
from app.colour.mending import mended, shares_of
from tests.colour.flat import DULL, PINK, WHITE, framed, stripes

NEUTRAL = (200, 200, 200)


def a_slice() -> tuple[bytes, int, int]:
    inner, w, h = stripes([(PINK, 60), (DULL, 80), (PINK, 60)], 120)
    return framed(inner, w, h, 40, WHITE)


def oval(
    rings: list[tuple[float, tuple[int, int, int]]], board: tuple[int, int, int]
) -> tuple[bytes, int, int]:
    """Ellipses of flat colour in each other, from the outermost of size 1 inward: RGBA, w, h."""
    y, x = np.mgrid[:300, :480]
    within = np.hypot((x - 240) / 200, (y - 150) / 110)
    picture = np.full((300, 480, 4), 255, np.uint8)
    picture[..., :3] = board
    for size, colour in rings:
        picture[within <= size, :3] = colour
    noise = np.random.default_rng(3).normal(0, 3, (300, 480, 3))
    picture[..., :3] = np.clip(picture[..., :3] + noise, 0, 255).astype(np.uint8)
    return picture.tobytes(), 480, 300


def test_a_face_is_found_on_its_board_and_divided() -> None:
    found = measure_face(*a_slice(), NEUTRAL)
    assert found.cured_percent == pytest.approx(60, abs=3)
    assert found.grey_percent == pytest.approx(40, abs=3)
    assert sum(found.shares.values()) == pytest.approx(100)
    assert found.confidence > 0.8
    assert len(found.classes) == found.columns * found.rows


def test_the_outline_can_be_drawn_by_hand() -> None:
    left_half = ((40.0, 40.0), (140.0, 40.0), (140.0, 160.0), (40.0, 160.0))
    found = measure_face(*a_slice(), NEUTRAL, left_half)
    assert found.cured_percent == pytest.approx(60, abs=4)
    assert found.grey_percent == pytest.approx(40, abs=4)
    quarter = ((40.0, 40.0), (100.0, 40.0), (100.0, 160.0), (40.0, 160.0))
    assert measure_face(*a_slice(), NEUTRAL, quarter).cured_percent == pytest.approx(100, abs=4)


def test_the_found_outline_gives_the_same_face_again() -> None:
    found = measure_face(*a_slice(), NEUTRAL)
    again = measure_face(*a_slice(), NEUTRAL, found.outline)
    assert again.grey_percent == pytest.approx(found.grey_percent, abs=4)


@pytest.mark.parametrize(
    ("colour", "word"),
    [
        ((0, 0, 0), "slice"),
        ((255, 255, 255), "slice"),
        ((185, 145, 100), "slice"),
    ],
)
def test_says_when_there_is_no_slice(colour: tuple[int, int, int], word: str) -> None:
    rgba, w, h = stripes([(colour, 200)], 150)
    found = measure_face(rgba, w, h, NEUTRAL)
    assert not found.known
    assert found.shares == {}
    assert found.confidence == 0.0
    assert word in found.says


def test_a_blue_cloth_is_no_meat() -> None:
    inner, w, h = stripes([((70, 90, 170), 160)], 120)
    found = measure_face(*framed(inner, w, h, 40, WHITE), NEUTRAL)
    assert not found.known


def test_one_tone_without_white_is_not_guessed_where_a_lamp_could_make_it() -> None:
    between = (152, 116, 106)
    inner, w, h = stripes([(between, 160)], 120)
    found = measure_face(*framed(inner, w, h, 40, (60, 60, 70)))
    assert not found.known
    assert "white" in found.says


def test_a_touch_mends_the_class_under_it() -> None:
    found = measure_face(*a_slice(), NEUTRAL)
    assert found.grey_percent is not None
    better = mended(found, 140.0, 100.0, 20.0, CURED)
    assert better.grey_percent is not None
    assert better.grey_percent < found.grey_percent
    assert sum(better.shares.values()) == pytest.approx(100)


def test_mending_refuses_no_face_and_no_class() -> None:
    with pytest.raises(ValueError, match="not measured"):
        mended(measure_face(bytes(40000), 100, 100), 1, 1, 1, CURED)
    with pytest.raises(ValueError, match="class"):
        mended(measure_face(*a_slice(), NEUTRAL), 1, 1, 1, 9)
    with pytest.raises(ValueError, match="Nothing"):
        shares_of(bytes(20))


def test_refuses_an_outline_of_two_points() -> None:
    with pytest.raises(ValueError, match="three points"):
        measure_face(*a_slice(), NEUTRAL, ((0.0, 0.0), (1.0, 1.0)))


def test_a_picture_of_one_pixel_is_answered() -> None:
    assert not measure_face(bytes(4), 1, 1).known


@pytest.mark.parametrize("core", [0.0, 0.3, 0.5, 0.7, 1.0])
@pytest.mark.parametrize("board", [(235, 232, 225), (250, 250, 250), (120, 85, 60), (40, 40, 42)])
def test_a_plain_slice_with_a_core_is_read_on_any_board(
    core: float, board: tuple[int, int, int]
) -> None:
    """Flat colours, an ellipse in an ellipse: a cured rim is no plate under a grey core."""
    picture = oval([(1.0, (190, 95, 90)), (core, (140, 120, 105))], board)
    found = measure_face(*picture, (240, 240, 240))
    assert found.grey_percent == pytest.approx(100 * core**2, abs=4)
    assert found.cured_percent == pytest.approx(100 - 100 * core**2, abs=4)


@pytest.mark.parametrize("plate", [(60, 62, 66), (45, 70, 120), (225, 222, 215)])
@pytest.mark.parametrize("rim", [None, (215, 200, 170)])
@pytest.mark.parametrize("table", [(170, 120, 75), (150, 155, 150)])
def test_a_plate_is_no_meat_whatever_its_colour_and_its_rim(
    plate: tuple[int, int, int], rim: tuple[int, int, int] | None, table: tuple[int, int, int]
) -> None:
    """A slice of a third of the plate's size across, cured round a grey core."""
    rings = [(1.0, rim or plate), (0.95, plate), (0.5, (190, 95, 90)), (0.3, (140, 120, 105))]
    found = measure_face(*oval(rings, table), (235, 235, 235))
    assert found.grey_percent == pytest.approx(36, abs=4)
    assert found.cured_percent == pytest.approx(64, abs=4)


@pytest.mark.parametrize(("lean", "named"), [((190, 95, 90), "cured"), ((140, 120, 105), "grey")])
@pytest.mark.parametrize("neutral", [None, (255, 255, 255)])
def test_one_plain_colour_is_told_without_a_white_where_no_lamp_could_make_the_other(
    lean: tuple[int, int, int], named: str, neutral: tuple[int, int, int] | None
) -> None:
    inner, w, h = stripes([(lean, 200)], 120)
    found = measure_face(*framed(inner, w, h, 40, WHITE), neutral)
    assert found.shares[named] == pytest.approx(100, abs=3)
    assert "lamps" in found.says


def test_a_grey_core_far_lighter_than_the_cured_meat_is_no_fat() -> None:
    """Cured L* 42 and grey L* 62 as one author draws them; the fat is lighter in red too."""
    rings = [(1.0, (160, 78, 80)), (0.5, (168, 147, 132))]
    found = measure_face(*oval(rings, (245, 245, 245)), (245, 245, 245))
    assert found.fat_percent == pytest.approx(0, abs=1)
    assert found.grey_percent == pytest.approx(25, abs=3)
    found = measure_face(*oval([*rings, (0.2, (228, 215, 195))], (245, 245, 245)), (245, 245, 245))
    assert found.fat_percent == pytest.approx(4, abs=1)
    assert found.grey_percent == pytest.approx(21, abs=3)


def test_two_tones_are_told_by_green_and_blue_where_all_red_is_blown_out() -> None:
    rings = [(1.0, (60, 30, 20)), (0.9, (255, 128, 72)), (0.5, (255, 178, 82))]
    found = measure_face(*oval(rings, (130, 80, 40)))
    assert found.grey_percent == pytest.approx(25, abs=3)
    assert found.bark_percent == pytest.approx(19, abs=3)
    one = measure_face(*oval([(1.0, (60, 30, 20)), (0.9, (255, 178, 82))], (130, 80, 40)))
    assert not one.known


@pytest.mark.parametrize("tint", [(1.0, 1.0, 1.0), (1.07, 0.95, 0.78)])
@pytest.mark.parametrize("fat", [(1.0, (60, 45, 40)), (0.5, (230, 220, 200))])
def test_a_picture_without_colour_is_refused(
    tint: tuple[float, float, float], fat: tuple[float, tuple[int, int, int]]
) -> None:
    rgba, w, h = oval([(1.0, (60, 45, 40)), (0.95, (150, 90, 85)), fat], (200, 190, 180))
    levels = np.frombuffer(rgba, np.uint8).reshape(h, w, 4).copy()
    grey = levels[..., :3] @ np.array([0.3, 0.59, 0.11])
    levels[..., :3] = np.clip(grey[..., None] * np.array(tint), 0, 255).astype(np.uint8)
    found = measure_face(levels.tobytes(), w, h)
    assert not found.known


def test_an_uncut_joint_is_refused() -> None:
    found = measure_face(*oval([(1.0, (58, 36, 28))], (215, 205, 190)), (215, 205, 190))
    assert not found.known
    assert "cut face" in found.says
