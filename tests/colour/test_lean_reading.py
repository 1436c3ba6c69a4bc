"""What tones mean, by beef in daylight: grey about 0.2, pale 0.43, cured 0.69 in cure tone."""

import numpy as np
import pytest

from app.colour.crowd import counted
from app.colour.lean_reading import LeanReading, Looks, Meaning, lean_reading
from app.colour.tone import tone
from app.colour.white_point import WhitePoint, from_light, from_neutral
from tests.colour.camera import light

WHITE = from_neutral((180, 180, 180))


def read(*tones: tuple[float, int], white: WhitePoint | None = WHITE) -> LeanReading:
    """Of cells of these tones, so many each."""
    rng = np.random.default_rng(7)
    cells = [float(s) for place, n in tones for s in rng.normal(place, 0.025, n)]
    return lean_reading(counted(cells), 0.025, white)


@pytest.mark.parametrize(
    ("tones", "meanings"),
    [
        ([(0.2, 500), (0.7, 500)], ("grey", "cured")),
        ([(0.45, 500), (0.7, 500)], ("pale", "cured")),
        ([(0.2, 500), (0.42, 60), (0.7, 440)], ("grey", "pale", "cured")),
        ([(0.2, 900), (0.44, 100)], ("grey", "pale")),
        ([(0.2, 500), (0.66, 420), (1.0, 80)], ("grey", "cured", "ring")),
        ([(0.22, 1000)], ("grey",)),
        ([(0.72, 1000)], ("cured",)),
        ([(0.43, 1000)], ("pale",)),
    ],
)
def test_tones_are_told_by_their_colour_and_by_each_other(
    tones: list[tuple[float, int]], meanings: tuple[Meaning, ...]
) -> None:
    found = read(*tones)
    assert tuple(found.at) == meanings
    assert list(found.at.values()) == pytest.approx([s for s, _ in tones], abs=0.03)


def test_in_a_vivid_picture_all_tones_lie_further_apart() -> None:
    found = read((0.25, 400), (0.75, 150), (1.3, 450))
    assert tuple(found.at) == ("grey", "pale", "cured")


def test_what_is_as_wide_as_the_cured_meat_is_no_ring() -> None:
    assert "ring" not in read((0.2, 300), (0.6, 300), (0.95, 400)).at


@pytest.mark.parametrize("lamp", [0.0, 0.12])
def test_without_white_the_contrast_tells_a_grey_core_from_a_pale_one(lamp: float) -> None:
    grey = read((0.2 + lamp, 500), (0.7 + lamp, 500), white=None)
    pale = read((0.45 + lamp, 500), (0.69 + lamp, 500), white=None)
    assert tuple(grey.at) == ("grey", "cured")
    assert tuple(pale.at) == ("pale", "cured")


def test_fat_tells_of_a_lamp_that_was_left_in() -> None:
    warm = from_light((0.95, 0.6, 0.28), by_fat=True)
    assert tuple(read((0.5, 1000), white=warm).at) == ("grey",)
    assert tuple(read((0.5, 1000), white=WHITE).at) != ("grey",)


def test_under_a_warm_lamp_all_tones_may_lie_lower() -> None:
    warm = from_neutral((200, 150, 80))
    assert tuple(read((0.32, 500), (0.57, 500), white=warm).at) == ("pale", "cured")
    assert tuple(read((0.2, 500), (0.7, 500), white=warm).at) == ("grey", "cured")


def test_two_shades_of_grey_too_near_for_pale_are_one() -> None:
    assert tuple(read((0.13, 500), (0.22, 500)).at) == ("grey",)


def test_a_reading_is_further_ahead_the_clearer_it_is() -> None:
    assert read((0.2, 500), (0.7, 500)).ahead > read((0.31, 500), (0.66, 500)).ahead


@pytest.mark.parametrize("kelvin", [2700, 4000, 6500])
@pytest.mark.parametrize(("lab", "meaning"), [((54, 5, 12.5), "grey"), ((52, 17, 9), "cured")])
def test_without_white_one_tone_is_told_by_its_light_beside_that_of_the_fat(
    kelvin: int, lab: tuple[float, float, float], meaning: Meaning
) -> None:
    """Under a warm lamp grey has the cure tone of pale and of cured; the fat has its lamp too."""
    lean, fat = light(lab, kelvin), light((82, 3, 12), kelvin)
    s = tone(lean, 1e-5).s
    steps = tuple(
        (s + 0.02 * k, 300, (300 * lean[0], 300 * lean[1], 300 * lean[2])) for k in (0, 1)
    )
    cells = [float(x) for x in np.random.default_rng(7).normal(s, 0.025, 900)]
    found = lean_reading(counted(cells), 0.025, None, Looks(steps, fat))
    assert tuple(found.at) == (meaning,)


def test_the_light_of_a_tone_is_that_of_the_cells_nearest_to_it() -> None:
    looks = Looks(((0.2, 2, (2.0, 2.0, 2.0)), (0.3, 1, (4.0, 4.0, 4.0)), (0.9, 1, (7.0, 0.0, 0.0))))
    assert looks.of((0.25,), 0.1) == [(2.0, 2.0, 2.0)]
    assert looks.of((0.2, 0.3), 0.1) == [(1.0, 1.0, 1.0), (4.0, 4.0, 4.0)]
    assert looks.of((0.7,), 0.1) == [(7.0, 0.0, 0.0)]
