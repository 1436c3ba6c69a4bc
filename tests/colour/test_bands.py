from hypothesis import given
from hypothesis import strategies as st

from app.colour.bands import bands

places = st.lists(st.floats(-0.5, 1.6), min_size=1, max_size=120)


@given(places)
def test_every_place_gets_a_band(turned: list[float]) -> None:
    marks = bands(turned)
    assert len(marks) == len(turned)
    assert set(marks) <= {"grey", "pale", "cured"}


@given(st.integers(5, 80), st.integers(15, 60), st.integers(5, 80))
def test_a_line_read_backwards_gives_the_same_shares(cured: int, pale: int, grey: int) -> None:
    turned = [1.0] * cured + [0.5] * pale + [0.0] * grey
    there, back = bands(turned), bands(turned[::-1])
    assert there == back[::-1]


def test_a_wide_pale_band_is_kept_whole() -> None:
    marks = bands([1.0] * 80 + [0.5] * 40 + [0.0] * 80)
    assert (marks.count("cured"), marks.count("pale"), marks.count("grey")) == (80, 40, 80)


def test_a_slow_slope_is_pale_nearly_from_end_to_end() -> None:
    marks = bands([1.0] * 80 + [1 - k / 40 for k in range(41)] + [0.0] * 80)
    assert 30 <= marks.count("pale") <= 41


def test_a_blurred_bound_is_no_pale_band() -> None:
    marks = bands([1.0] * 100 + [0.8, 0.5, 0.2] + [0.0] * 100)
    assert marks.count("pale") == 0


def test_one_spot_of_fat_makes_no_band() -> None:
    marks = bands([1.0] * 60 + [0.0] * 2 + [1.0] * 60)
    assert set(marks) == {"cured"}
