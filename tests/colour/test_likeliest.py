"""Which tones are grey, pale, cured or a smoke ring: beef as a* and b* have it, under lamps by
Planck's law.

Colours in CIELAB at L* 52 to 55, from memory: grey well-done beef a* 5, b* 12; cured beef a* 17,
b* 9; between both a* 10, b* 11.
"""

import pytest
from attrs import evolve

from app.colour.likeliest import Seen, likeliest
from app.colour.tone import tone
from app.colour.white_point import WhitePoint, from_light
from tests.colour.camera import light

GREY, PALE, CURED, RING = (54, 5, 12.5), (54, 10, 11), (52, 17, 9), (46, 28, 12)
CREAM = (82, 3, 12)


def seen(
    kelvin: float, white: WhitePoint | None, *tones: tuple[tuple[float, float, float], float, bool]
) -> list[Seen]:
    r, g, b = white.gains if white is not None else (1.0, 1.0, 1.0)
    found = []
    for lab, share, rim in tones:
        red, green, blue = light(lab, kelvin)
        balanced = red * r, green * g, blue * b
        found.append(Seen(tone(balanced, 1e-5).s, balanced, share, rim))
    return found


@pytest.mark.parametrize("kelvin", [2700, 4000, 5200, 6500, 7500])
@pytest.mark.parametrize(
    ("tones", "meanings"),
    [
        ([(GREY, 0.6, False), (CURED, 0.4, False)], ("grey", "cured")),
        ([(PALE, 0.5, False), (CURED, 0.5, False)], ("pale", "cured")),
        ([(GREY, 0.4, False), (PALE, 0.2, False), (CURED, 0.4, False)], ("grey", "pale", "cured")),
        ([(GREY, 0.5, False), (CURED, 0.4, False), (RING, 0.1, True)], ("grey", "cured", "ring")),
        ([(GREY, 1.0, False)], ("grey",)),
        ([(CURED, 1.0, False)], ("cured",)),
    ],
)
def test_under_a_measured_white(
    kelvin: float,
    tones: list[tuple[tuple[float, float, float], float, bool]],
    meanings: tuple[str, ...],
) -> None:
    white = from_light(light((80, 0, 0), kelvin))
    assert likeliest(seen(kelvin, white, *tones), white).meanings == meanings


@pytest.mark.parametrize("kelvin", [2700, 3300, 4000, 5000, 6500, 7500])
def test_grey_and_cured_are_told_without_a_white(kelvin: float) -> None:
    two = seen(kelvin, None, (GREY, 0.5, False), (CURED, 0.5, False))
    assert likeliest(two, None).meanings == ("grey", "cured")


def test_a_pale_core_is_told_without_a_white_where_the_camera_balanced_well() -> None:
    two = seen(6200, None, (PALE, 0.5, False), (CURED, 0.5, False))
    told = likeliest(two, None)
    assert told.meanings == ("pale", "cured")
    assert told.grey < two[0].s - 0.1


def test_one_tone_under_a_warm_lamp_is_not_sure_without_fat_or_patch() -> None:
    kelvin = 3000
    one = seen(kelvin, None, (PALE, 1.0, False))
    assert likeliest(one, None).ahead < 2.0
    grey = seen(kelvin, None, (GREY, 1.0, False))
    by_fat = likeliest(grey, None, light(CREAM, kelvin))
    assert by_fat.meanings == ("grey",)
    assert by_fat.ahead > likeliest(grey, None).ahead


def test_two_shades_of_one_plateau_are_one_meaning() -> None:
    white = from_light(light((80, 0, 0)))
    tones = ((52, 16.4, 9.2), 0.4, False), ((52, 17.4, 8.8), 0.4, False)
    told = likeliest(seen(6500, white, ((54, 5, 12.5), 0.2, False), *tones), white)
    assert told.meanings == ("grey", "cured", "cured")


def test_what_stands_inside_is_no_smoke_ring() -> None:
    white = from_light(light((80, 0, 0)))
    told = likeliest(
        seen(6500, white, (GREY, 0.4, False), (CURED, 0.5, False), (RING, 0.1, False)), white
    )
    assert "ring" not in told.meanings
    assert told.ring is None


def test_a_missing_grey_is_reckoned_from_pale_and_cured() -> None:
    white = from_light(light((80, 0, 0)))
    both = seen(6500, white, (GREY, 0.5, False), (CURED, 0.5, False))
    told = likeliest(seen(6500, white, (PALE, 0.5, False), (CURED, 0.5, False)), white)
    assert told.grey == pytest.approx(both[0].s, abs=0.08)
    assert told.cured == pytest.approx(both[1].s, abs=1e-9)


def test_a_red_rim_at_one_end_only_is_sooner_cured_than_smoke() -> None:
    white = from_light((0.5, 0.5, 0.5))
    grey, rim = seen(6500, white, (GREY, 0.93, False), ((50, 23, 11), 0.07, True))
    assert likeliest([grey, rim], white).meanings == ("grey", "ring")
    assert likeliest([grey, evolve(rim, ends=1)], white).meanings == ("grey", "cured")


def test_a_thin_redder_rim_round_grey_is_a_ring_and_a_thick_one_is_cured() -> None:
    white = from_light((0.5, 0.5, 0.5))
    rim = (50, 23, 11)
    thin = seen(6500, white, (GREY, 0.95, False), (rim, 0.05, True))
    thick = seen(6500, white, (GREY, 0.85, False), (rim, 0.15, True))
    assert likeliest(thin, white).meanings == ("grey", "ring")
    assert likeliest(thick, white).meanings == ("grey", "cured")


def test_a_tone_between_is_pale_where_it_lies_between_and_not_within_grey() -> None:
    white = from_light((0.5, 0.5, 0.5))
    near = (54, 8.4, 12)
    tones = seen(6500, white, (GREY, 0.4, False), (near, 0.2, False), (CURED, 0.4, False))
    between, within = [2, 1, 0, 1, 2], [2, 0, 1, 0, 2]
    assert likeliest(tones, white, None, between).meanings == ("grey", "pale", "cured")
    assert likeliest(tones, white, None, within).meanings == ("grey", "grey", "cured")
