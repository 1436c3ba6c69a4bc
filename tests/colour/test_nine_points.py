from app.colour.nine_points import POINTS, count_above, green_points, level_of


def picture(step: int) -> bytes:
    """Two cells beside each other: the left dark, the right bright in its left third."""
    row = [20] * step + [200] * (step // 3) + [20] * (step - step // 3)
    return b"".join(bytes((9, green, 9, 255)) for green in row) * step


def test_points_lie_over_the_whole_cell() -> None:
    points = green_points(picture(9), 18, 9, 2, 1, 9)
    assert len(points) == POINTS
    assert sum(levels[1] == 200 for levels in points) == 3
    assert count_above(points, {0: 100, 1: 100}) == {0: 0, 1: 3}


def test_a_level_is_that_of_its_light() -> None:
    assert level_of(0.2158605) == 128
