"""How long the stages take: by habit, by the models, by the cook's own batches."""

import pytest
from attrs import evolve

from app.cure.request import Method, MixRequest
from app.journal.chain import STAGES
from app.journal.lengths import (
    DEFAULT_MIN,
    LONGEST_CURE_DAYS,
    TITLES,
    Length,
    lengths,
    lengths_from,
    usual_stages,
)
from app.journal.marks import mark_done
from app.journal.records import Batch
from tests.journal.made import BERLIN, batch, moment, names, step


def test_every_stage_has_a_length_and_a_title() -> None:
    assert set(DEFAULT_MIN) == set(TITLES) == set(STAGES)
    assert tuple(DEFAULT_MIN) == STAGES
    assert set(lengths(MixRequest(3000.0))) == set(STAGES)
    assert usual_stages("equilibrium", smoked=True, thawed=True)[0] == "buy"


@pytest.mark.parametrize(
    ("grams", "hours"), [(500.0, 24), (2267.96185, 24), (4535.9237, 48), (6000.0, 72)]
)
def test_thaw_takes_24_hours_for_each_5_lb_in_whole_days(grams: float, hours: float) -> None:
    # Fridge thaw 24 h per 5 lb (MSU E3259).
    assert lengths(MixRequest(grams))["thaw"].minutes == hours * 60


@pytest.mark.parametrize(
    ("mix", "thickness", "fat_cap", "days"),
    [
        (MixRequest(3000.0, cut="flat"), 40.0, False, 5),
        (MixRequest(3000.0, cut="flat"), 40.0, True, 17),
        (MixRequest(3000.0), 70.0, False, 14),
        (MixRequest(3000.0), 160.0, False, LONGEST_CURE_DAYS),
        (MixRequest(3000.0), 12.0, False, 3),
        (MixRequest(3000.0, nitrite_ppm=40.0), 40.0, False, 5),
        (MixRequest(3000.0, nitrite_ppm=10.0), 40.0, False, 7),
        (MixRequest(3000.0, nitrite_ppm=9999.0), 40.0, False, 7),
        (MixRequest(3000.0, days=9.0), 40.0, False, 9),
        (MixRequest(3000.0, method="cover"), 70.0, False, 7),
        (MixRequest(3000.0, method="injection"), 70.0, False, 4),
    ],
)
def test_days_in_the_cure_are_as_asked_or_by_the_model_or_by_habit(
    mix: MixRequest, thickness: float, fat_cap: bool, days: float
) -> None:
    assert lengths(mix, thickness, fat_cap)["cure"].minutes == days * 1440


@pytest.mark.parametrize("method", ["equilibrium", "dry"])
def test_a_thicker_piece_never_takes_fewer_days(method: Method) -> None:
    mix = MixRequest(3000.0, method=method)
    days = [lengths(mix, float(mm))["cure"].minutes for mm in range(20, 100, 10)]
    assert days == sorted(days)
    assert days[0] < days[-1]


def test_what_cannot_be_is_refused_and_ones_own_comes_first() -> None:
    with pytest.raises(ValueError, match="more than 0 g"):
        lengths(MixRequest(float("inf")))
    with pytest.raises(ValueError, match="more than 0 mm"):
        lengths(MixRequest(3000.0), float("nan"))
    assert lengths(MixRequest(3000.0), own={"smoke": Length(77)})["smoke"].minutes == 77


def smoked(minutes: float, prefix: str, cut: str = "Brisket flat", **more: object) -> Batch:
    made = batch(cut=cut, ids=names(prefix))
    made = mark_done(made, step(made, "smoke").id, moment("2027-03-01T06:30"), BERLIN)
    wrapped = moment("2027-03-01T06:30")
    wrapped = evolve(wrapped, utc_s=wrapped.utc_s + 60 * minutes)
    return evolve(mark_done(made, step(made, "wrap").id, wrapped, BERLIN), **more)


def test_ones_own_smokes_of_the_same_cut_give_their_middle() -> None:
    batches = [
        smoked(300, "a"),
        smoked(337, "b"),
        smoked(420, "c", cut="BRISKET FLAT"),
        smoked(9000, "d", demonstration=True),
        smoked(60, "e", cut="Round"),
        smoked(-30, "f"),
    ]
    found = lengths_from(batches, "brisket flat")
    assert found == {"smoke": Length(335.0, "middle of 3 batches of your own")}
    assert lengths_from(batches[:1], "Brisket flat")["smoke"].why == "your last batch"
    assert lengths_from([], "Brisket flat") == {}
    assert lengths_from([batch()], "Brisket flat") == {}


@pytest.mark.parametrize(
    ("boiled", "hours", "why"),
    [
        (20.0, 1, "the ice makes it cold at once"),
        (46.0, 1, "the ice makes it cold at once"),  # the most that may be boiled, about 46.6 %
        (60.0, 11, "worked out by how fast a pot of it cools"),
        (100.0, 16, "worked out by how fast a pot of it cools"),
    ],
)
def test_chilling_takes_as_long_as_the_ice_leaves_to_do(
    boiled: float, hours: float, why: str
) -> None:
    mix = MixRequest(3000.0, water_g=2400.0, boiled_percent=boiled)
    chill = lengths(mix)["chill"]
    assert (chill.minutes / 60.0, chill.why.startswith(why)) == (hours, True)


def test_a_mix_that_cannot_be_and_a_dry_one_chill_by_habit() -> None:
    for mix in (MixRequest(3000.0, method="dry"), MixRequest(3000.0, nitrite_ppm=9999.0)):
        assert lengths(mix)["chill"] == Length(DEFAULT_MIN["chill"])


def test_what_was_marked_long_after_teaches_nothing() -> None:
    assert lengths_from([smoked(3, "a")], "Brisket flat") == {}
    assert lengths_from([smoked(60 * 24 * 3, "a")], "Brisket flat") == {}
