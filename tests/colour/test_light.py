import pytest

from app.colour.light import WORDS, marks
from tests.colour.flat import PINK, WHITE, stripes


def test_good_light_has_no_marks() -> None:
    assert marks(*stripes([(WHITE, 40), (PINK, 60)]), [(200, 200, 200), (120, 121, 120)]) == ()


@pytest.mark.parametrize(
    ("colour", "patches", "mark"),
    [
        ((8, 6, 5), [(60, 60, 60)], "too dark"),
        ((255, 240, 200), [(200, 200, 200)], "clipped"),
        (PINK, [], "no white patch"),
        (PINK, [(255, 255, 255)], "no white patch"),
        (PINK, [(200, 200, 200), (200, 165, 110)], "mixed light"),
    ],
)
def test_marks_say_what_is_wrong(
    colour: tuple[int, int, int], patches: list[tuple[float, float, float]], mark: str
) -> None:
    found = marks(*stripes([(colour, 80)]), patches)
    assert found == (mark,)
    assert WORDS[found[0]]
