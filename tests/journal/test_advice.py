"""Advice: what to change, by how much, why, how sure; and silence where nothing is sound."""

from collections.abc import Sequence
from typing import Any

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.advice import Advice, advice, lengths_with, mix_with
from app.journal.advice_colour import EVENING_DAYS, days_carried, days_in_cure, for_thickness
from app.journal.advice_salt import likely_salt_percent, right_salt
from app.journal.advised import Past
from app.journal.cure_model import cure_model
from app.journal.entries import decided, felt, measured
from app.journal.marks import mark_done
from app.journal.plan import add_stage
from app.journal.records import Entry, EntryBody, Moment, SliceOutcome, Stage
from app.journal.repeat import repeat
from app.transport.days import FIRST_PINK_PPM, FULL_COLOUR_PPM
from tests.journal.made import BERLIN, NOW, batch, moment, names, step

MIX = MixRequest(3000.0, cut="flat", water_g=2400.0, salt_percent=2.5, nitrite_ppm=150.0)
AT = moment("2027-03-10T18:00")


def cooked(
    prefix: str = "a",
    days: float = 5.0,
    mm: float | None = 60.0,
    mix: MixRequest = MIX,
    soaked_h: float | None = None,
    finish_min: float | None = None,
    wrap_min: float | None = None,
    says: Sequence[tuple[Stage, EntryBody]] = (),
    fat_cap_on: bool = False,
    **outcome: Any,
) -> Past:
    """A batch cured for so many days, with an outcome."""
    made = batch(prefix, mix=mix, thickness_mm=mm, ids=names(prefix), fat_cap_on=fat_cap_on)
    begun = moment("2027-03-01T08:00")

    def at(minutes: float) -> Moment:
        return evolve(begun, utc_s=begun.utc_s + 60 * minutes)

    over = days * 1440
    made = mark_done(made, step(made, "cure").id, begun, BERLIN)
    made = mark_done(made, step(made, "end").id, at(over), BERLIN)
    if soaked_h is not None:
        if not any(one.stage == "soak" for one in made.plan):
            made = add_stage(made, "soak", names(prefix + "n"), BERLIN)
        made = mark_done(made, step(made, "soak").id, at(over), BERLIN)
        made = mark_done(made, step(made, "dry").id, at(over + 60 * soaked_h), BERLIN)
    if wrap_min is not None:
        made = mark_done(made, step(made, "smoke").id, at(over + 2000), BERLIN)
        says = [*says, ("wrap", decided("wrapped"))]
    if finish_min is not None:
        made = mark_done(made, step(made, "finish").id, at(over + 3000), BERLIN)
        made = mark_done(made, step(made, "tender").id, at(over + 3000 + finish_min), BERLIN)
    wrapped = at(over + 2000 + (wrap_min or 0))
    entries = tuple(
        Entry(f"{prefix}e{i}", made.id, wrapped, stage, body, wrapped)
        for i, (stage, body) in enumerate(says)
    )
    return Past(evolve(made, outcome=SliceOutcome(AT, **outcome)), entries)


def said(this: Past, *others: Past) -> tuple[Advice, ...]:
    records = {one.batch.id: one.entries for one in (this, *others)}
    return advice(this.batch, [one.batch for one in (this, *others)], records)


def ids(found: Sequence[Advice]) -> list[str]:
    return [one.id for one in found]


# Silence.


def test_without_an_outcome_or_with_a_good_one_nothing_is_said() -> None:
    assert advice(batch()) == ()
    good = cooked(days=10, grey_percent=0.0, salt=3, bend="bends", tenderness=5, smoke=3)
    assert said(good) == ()
    assert said(cooked()) == ()
    with pytest.raises(ValueError, match="no outcome yet"):
        _ = Past(batch()).outcome


@pytest.mark.parametrize(
    "this",
    [
        cooked(grey_percent=1.5),  # Within the error of reading.
        cooked(grey_percent=20.0, mix=evolve(MIX, nitrite_ppm=5000.0)),  # Not mixable.
        cooked(grey_percent=20.0, mix=evolve(MIX, nitrite_ppm=10.0)),  # Never turns pink.
        cooked(grey_percent=20.0, days=0.0),
    ],
)
def test_a_grey_core_no_model_can_tell_of_is_left_alone(this: Past) -> None:
    assert said(this) == ()


# Colour.


def test_a_grey_core_gets_the_days_after_which_the_middle_has_its_colour() -> None:
    this = cooked(days=5, grey_percent=25.0)
    days, inject = said(this)
    assert (days.id, inject.id, inject.instead_of) == ("days", "inject", "days")
    wanted = dict(days.mix_changes)["days"]
    assert isinstance(wanted, float)
    assert wanted > 5
    assert days.stage_minutes == (("cure", wanted * 1440),)
    assert f"{wanted:.0f} days instead of 5" in days.sentence
    assert "25 % of 60 mm was grey" in days.reason
    assert days.sure == "a guess"
    assert days.working is not None
    # Run forward again, the likely meat that showed this grey has its colour by then.
    model = cure_model(MIX, 60.0)
    seen = model.slice_of(5.0, 25.0, 4.0)
    assert seen.grey_percent == 25.0


def test_more_grey_asks_for_more_days_and_slices_that_agree_make_it_surer() -> None:
    wanted = [
        dict(said(cooked(days=5, mm=50.0, grey_percent=grey))[0].mix_changes)["days"]
        for grey in (10.0, 25.0, 45.0)
    ]
    assert wanted == sorted(wanted)  # type: ignore[type-var]
    assert wanted[0] != wanted[-1]
    others = [cooked(p, days=5, grey_percent=25.0) for p in "bcde"]
    assert said(cooked(grey_percent=25.0), *others[:1])[0].sure == "fairly sure"
    assert said(cooked(grey_percent=25.0), *others)[0].sure == "sure"
    demo = Past(evolve(others[0].batch, demonstration=True))
    assert said(cooked(grey_percent=25.0), demo)[0].sure == "a guess"


def test_an_odd_slice_among_the_others_makes_it_a_guess() -> None:
    others = [cooked(p, days=5, grey_percent=2.5, mm=60.0) for p in "bcdefgh"]
    this = cooked(days=5, grey_percent=90.0)
    found = said(this, *others)
    assert not found or found[0].sure == "a guess"


def test_pieces_of_another_cut_or_without_a_reading_teach_nothing() -> None:
    other = cooked("b", grey_percent=25.0)
    other = Past(evolve(other.batch, cut="Round"), other.entries)
    blank = cooked("c", salt=3)
    broken = cooked("d", grey_percent=20.0, mix=evolve(MIX, nitrite_ppm=5000.0))
    assert said(cooked(grey_percent=25.0), other, blank, broken)[0].sure == "a guess"


def test_a_warm_fridge_in_the_log_counts() -> None:
    cold = said(cooked(grey_percent=25.0, says=[("cure", measured(1, "fridge"))]))
    warm = said(cooked(grey_percent=25.0, says=[("cure", measured(9, "fridge"))]))
    # The same grey after the same days: asked for the same fridge again, much the same days.
    assert abs(dict(cold[0].mix_changes)["days"] - dict(warm[0].mix_changes)["days"]) <= 2  # type: ignore[operator]


def test_a_piece_too_thick_for_the_fridge_is_told_to_be_thinner() -> None:
    thick = said(cooked(days=7, mm=110.0, grey_percent=60.0))
    assert thick[0].id == "thinner"
    assert "mm for 10 days" in thick[0].sentence
    assert thick[0].mix_changes == ()
    assert thick[1].instead_of == "thinner"


def test_a_fat_cap_left_on_is_told_to_come_off() -> None:
    found = said(cooked(days=7, mm=40.0, grey_percent=30.0, fat_cap_on=True))
    assert "cap" in ids(found)
    cap = found[ids(found).index("cap")]
    assert cap.fat_cap_off
    assert dict(cap.mix_changes)["fat_cap_on"] is False
    first = dict(found[0].mix_changes).get("days", 99.0)
    assert dict(cap.mix_changes)["days"] < first  # type: ignore[operator]


def test_more_days_in_a_strong_brine_come_with_less_salt_so_it_gets_no_saltier() -> None:
    mix = evolve(MIX, method="cover", salt_percent=12.0)
    this = cooked(days=5, mix=mix, grey_percent=20.0)
    changes = dict(said(this)[0].mix_changes)
    assert "no saltier" in said(this)[0].sentence
    assert changes["salt_percent"] < 12.0  # type: ignore[operator]
    before = likely_salt_percent(this)
    after_mix = mix_with(mix, said(this)[:1])
    after = likely_salt_percent(cooked(days=float(changes["days"]), mix=after_mix))  # type: ignore[arg-type]
    assert after == pytest.approx(before, rel=0.02)


@pytest.mark.parametrize("method", ["equilibrium", "cover", "dry"])
def test_the_needle_offered_brings_colour_to_the_middle(method: Any) -> None:
    salt = 12.0 if method == "cover" else 2.5
    water = None if method == "dry" else 2400.0
    mix = evolve(MIX, method=method, salt_percent=salt, water_g=water)
    this = cooked(days=4, mix=mix, grey_percent=20.0)
    inject = said(this)[-1]
    assert inject.id == "inject"
    taken = mix_with(mix, [inject])
    assert taken.method == "injection"
    assert taken.salt_percent == (2.5 if method == "equilibrium" else None)
    slow = cure_model(taken, 60.0).after(EVENING_DAYS).slow.end.profiles["nitrite"].core
    assert slow * 0.699 >= FIRST_PINK_PPM


def test_the_needle_is_not_offered_where_it_brings_too_little() -> None:
    weak = cooked(days=4, mix=evolve(MIX, nitrite_ppm=60.0, water_g=12_000.0), grey_percent=20.0)
    assert "inject" not in ids(said(weak))
    # With so little water there is less pickle than the pump takes.
    scant = evolve(MIX, water_g=230.0, salt_percent=1.0)
    no_way = cooked(days=4, mix=scant, grey_percent=20.0)
    assert "days" in ids(said(no_way))
    assert "inject" not in ids(said(no_way))


def test_a_cure_too_weak_for_full_colour_is_given_days_to_its_first_pink() -> None:
    weak = cooked(days=5, mix=evolve(MIX, nitrite_ppm=45.0), grey_percent=20.0)
    days = said(weak)[0]
    assert days.id == "days"
    assert days.working is not None
    assert "first pink" in days.working.title


def test_a_slice_that_contradicts_all_others_is_not_built_on() -> None:
    quick = [cooked(p, days=2, mm=60.0, grey_percent=0.0) for p in "bcdef"]
    assert said(cooked(days=14, mm=60.0, grey_percent=6.0), *quick) == ()


def test_grey_in_injected_meat_is_a_matter_of_stitching() -> None:
    pumped = evolve(MIX, method="injection")
    (stitch,) = said(cooked(mix=pumped, grey_percent=20.0))
    assert stitch.id == "stitch"
    assert "did not get there" in stitch.reason
    weak = evolve(pumped, nitrite_ppm=20.0)
    assert said(cooked(mix=weak, grey_percent=20.0)) == ()
    assert said(cooked(mix=evolve(pumped, nitrite_ppm=5000.0), grey_percent=20.0)) == ()


def test_days_in_the_cure_are_those_spent_else_those_planned() -> None:
    assert days_in_cure(cooked(days=5)) == 5.0
    planned = Past(evolve(batch(), outcome=SliceOutcome(AT)))
    assert days_in_cure(planned) == 7.0
    assert days_in_cure(Past(evolve(planned.batch, plan=()))) is None
    assert FULL_COLOUR_PPM > FIRST_PINK_PPM


# Salt.


def test_too_salty_asks_for_less_and_too_bland_for_more() -> None:
    for score, less in ((5, True), (4, True), (2, False), (1, False)):
        (salt,) = said(cooked(days=10, mm=44.0, salt=score))
        new = dict(salt.mix_changes)["salt_percent"]
        assert (new < 2.5) is less  # type: ignore[operator]
        assert f"({score} of 5)" in salt.reason
        assert salt.sure == "a guess"
        assert "by one tasting" in salt.reason
        assert salt.working is not None
        assert 2.5 / 1.4 < new < 2.5 * 1.4  # type: ignore[operator]
    assert said(cooked(days=10, mm=44.0, salt=3)) == ()


def test_taken_up_it_comes_to_what_this_cook_calls_right() -> None:
    this = cooked(days=10, mm=44.0, salt=4)
    (salt,) = said(this)
    right = right_salt([this])
    assert right is not None
    again = cooked("b", days=10, mm=44.0, mix=mix_with(MIX, [salt]))
    assert likely_salt_percent(again) == pytest.approx(right.percent, rel=0.03)
    assert right.low_percent < right.percent < right.high_percent


def test_what_is_right_is_learned_from_all_tastings() -> None:
    right = [
        cooked(p, days=10, mm=44.0, salt=3, mix=evolve(MIX, salt_percent=s))
        for p, s in zip("bcdef", (1.9, 2.0, 2.0, 2.1, 2.0), strict=True)
    ]
    this = cooked(days=10, mm=44.0, salt=4)
    found = right_salt([this, *right])
    assert found is not None
    assert found.tastings == 6
    (salt,) = said(this, *right)
    assert dict(salt.mix_changes)["salt_percent"] == pytest.approx(2.0, abs=0.1)
    assert salt.sure == "sure"
    (two,) = said(this, right[0])
    assert two.sure in ("a guess", "fairly sure")


def test_where_the_tastings_say_the_opposite_the_salt_stays_and_is_tasted_again() -> None:
    bland = [
        cooked(p, days=10, mm=44.0, salt=1, mix=evolve(MIX, salt_percent=3.0)) for p in "bcdef"
    ]
    (taste,) = said(cooked(days=10, mm=44.0, salt=4), *bland)
    assert (taste.id, taste.mix_changes, taste.sure) == ("taste", (), "a guess")
    assert "Leave the salt as it is" in taste.sentence
    assert "too salty (4 of 5)" in taste.reason
    assert "by 6 tastings" in taste.reason


def test_the_taste_of_a_piece_with_a_grey_core_teaches_nothing_of_salt() -> None:
    this = cooked(days=5, grey_percent=25.0, salt=5)
    assert "salt" not in ids(said(this))
    assert right_salt([this]) is None
    # It is not passed over either: what to do about it is said.
    taste = said(this)[-1]
    assert (taste.id, taste.mix_changes) == ("taste", ())
    assert "Mend the grey core first" in taste.sentence
    assert "too salty (5 of 5), but 25 % of it was grey" in taste.reason
    assert "taste" not in ids(said(cooked(days=5, grey_percent=25.0, salt=3)))
    assert "taste" not in ids(said(cooked(days=5, grey_percent=25.0)))
    assert right_salt([cooked(salt=None)]) is None


@pytest.mark.parametrize("method", ["equilibrium", "cover", "injection", "dry"])
@pytest.mark.parametrize("score", [1, 2, 4, 5])
@pytest.mark.parametrize("grey", [None, 1.0, 5.0, 25.0])
def test_no_score_beside_the_right_one_is_met_with_silence(
    method: Any, score: int, grey: float | None
) -> None:
    water = None if method == "dry" else 2400.0
    for salt in (0.8, 2.5, 5.0, 12.0):
        mix = evolve(MIX, method=method, salt_percent=salt, water_g=water)
        for soaked_h in (None, 6.0):
            made = cooked(
                days=7, mm=44.0, mix=mix, salt=score, grey_percent=grey, soaked_h=soaked_h
            )
            found = said(made)
            assert {"salt", "soak", "taste"} & set(ids(found)), (salt, soaked_h)
            for one in found:
                new = dict(one.mix_changes).get("salt_percent")
                # Never more salt for what was too salty, nor less for what was bland.
                if one.id == "salt" and isinstance(new, float):
                    assert (new < salt) is (score > 3)


def test_hardly_any_salt_called_salty_and_much_called_bland_are_no_matter_of_the_mix() -> None:
    for percent in (0.0, 0.6, 1.0):
        mix = evolve(MIX, salt_percent=percent)
        (taste,) = said(cooked(days=10, mm=44.0, salt=5, mix=mix))
        assert taste.id == "taste"
        assert "Look for other salt" in taste.sentence
    strong = cooked(days=7, mm=44.0, salt=1, mix=evolve(MIX, method="cover", salt_percent=16.0))
    (taste,) = said(strong)
    assert "Add no salt yet" in taste.sentence
    assert "5." in taste.reason or "6." in taste.reason


def test_where_no_model_runs_the_score_alone_moves_the_salt() -> None:
    (salt,) = said(cooked(days=0.0, mm=44.0, salt=5))
    assert (salt.id, salt.sure) == ("salt", "a guess")
    assert dict(salt.mix_changes)["salt_percent"] == round(2.5 / 1.35, 1)
    assert "by your score alone" in salt.reason
    (salt,) = said(cooked(days=0.0, mm=44.0, salt=2))
    assert dict(salt.mix_changes)["salt_percent"] == 3.1
    assert said(cooked(days=0.0, mm=44.0, salt=5, mix=evolve(MIX, salt_percent=None))) == ()


def test_a_salty_strong_brine_is_soaked_or_mixed_weaker() -> None:
    cover = evolve(MIX, method="cover", salt_percent=12.0)
    soak, salt = said(cooked(days=7, mm=44.0, mix=cover, salt=5))
    assert (soak.id, salt.id, salt.instead_of) == ("soak", "salt", "soak")
    hours = dict(soak.stage_minutes)["soak"] / 60
    assert f"Soak it {hours:.0f} hours, in the fridge" in soak.sentence
    assert "taste it" in soak.reason
    # A soak already given is counted, and longer is asked for.
    again = said(cooked(days=7, mm=44.0, mix=cover, salt=5, soaked_h=3.0))
    assert again[0].id == "soak"
    assert "instead of 3" in again[0].sentence
    assert dict(again[0].stage_minutes)["soak"] > 180


def test_a_soak_gone_too_far_is_shortened() -> None:
    cover = evolve(MIX, method="cover", salt_percent=12.0)
    soak = said(cooked(days=7, mm=44.0, mix=cover, salt=1, soaked_h=14.0))[0]
    assert soak.id == "soak"
    assert dict(soak.stage_minutes)["soak"] < 14 * 60
    assert "soak" not in ids(said(cooked(days=7, mm=44.0, mix=cover, salt=1)))


def test_a_soak_that_would_not_do_or_was_right_is_not_advised() -> None:
    cover = evolve(MIX, method="cover", salt_percent=16.0)
    assert ids(said(cooked(days=40, mm=180.0, mix=cover, salt=5))) == ["salt"]
    # A thin piece gives up its salt in minutes; no one is sent to the fridge for those.
    assert ids(said(cooked(days=3, mm=8.0, mix=cover, salt=4, soaked_h=0.2))) == ["salt"]


@pytest.mark.parametrize("score", [1, 2, 4, 5])
@pytest.mark.parametrize("soaked_h", [2.0, 7.0, 12.0])
def test_too_salty_never_shortens_a_soak_and_too_bland_never_lengthens_it(
    score: int, soaked_h: float
) -> None:
    cover = evolve(MIX, method="cover", salt_percent=14.0)
    for one in said(cooked(days=6, mm=40.0, mix=cover, salt=score, soaked_h=soaked_h)):
        for _, minutes in one.stage_minutes:
            assert (minutes > 60 * soaked_h) is (score > 3), one.sentence


def test_salt_that_cannot_be_modelled_teaches_nothing_of_what_is_right() -> None:
    for past in (
        cooked(mix=evolve(MIX, nitrite_ppm=5000.0), salt=5),
        cooked(mix=evolve(MIX, salt_percent=0.0), salt=5),
        cooked(days=0.0, salt=5),
        # A tasting of hardly any salt called far too salty is something else than salt.
        cooked(mix=evolve(MIX, salt_percent=0.6), salt=5, days=9),
    ):
        assert right_salt([past]) is None
        assert all(one.working is None and one.sure == "a guess" for one in said(past))


# Finish and wrap.


def test_tough_meat_learns_from_the_tender_ones_of_its_cut() -> None:
    good = [
        cooked(
            p,
            finish_min=m,
            tenderness=5,
            bend="bends",
            says=[("tender", decided("pulled", None, 95))],
        )
        for p, m in (("b", 270), ("c", 280))
    ]
    (finish,) = said(cooked(finish_min=200, tenderness=2), *good)
    assert finish.id == "finish"
    assert "4 h 35 min" in finish.sentence
    assert "by feel and not by time" in finish.sentence
    assert "95 °C" in finish.reason
    assert finish.stage_minutes == (("finish", 275.0),)
    assert finish.sure == "fairly sure"
    (one,) = said(cooked(finish_min=200, bend="cracks"), good[0])
    assert one.sure == "a guess"
    many = [cooked(p, finish_min=275, tenderness=4) for p in "bcde"]
    (sure,) = said(cooked(finish_min=200, tenderness=1), *many)
    assert sure.sure == "sure"
    assert "°C" not in sure.reason


def test_tough_meat_pulled_before_the_probe_went_in_softly_is_told_to_wait() -> None:
    says = [("tender", felt("nearly", "point", 90)), ("tender", decided("pulled", None, 90))]
    (finish,) = said(cooked(tenderness=2, says=says))  # type: ignore[arg-type]
    assert finish.stage_minutes == ()
    assert "at 90 °C while the probe still felt nearly there in the point" in finish.reason
    (bare,) = said(cooked(tenderness=2, says=[("tender", felt("hard"))]))
    assert "taken off while the probe still felt hard" in bare.reason
    assert said(cooked(tenderness=2, says=[("tender", felt("soft"))])) == ()
    assert said(cooked(tenderness=2)) == ()
    assert said(cooked(tenderness=5, bend="cracks")) == ()


def test_meat_that_fell_apart_is_looked_at_sooner_if_there_are_better_ones() -> None:
    good = cooked("b", finish_min=200, tenderness=5)
    (finish,) = said(cooked(finish_min=300, bend="falls_apart"), good)
    assert "Look 1 h 40 min sooner" in finish.sentence
    assert said(cooked(finish_min=300, bend="falls_apart")) == ()
    assert said(cooked(finish_min=205, bend="falls_apart"), good) == ()
    assert said(cooked(bend="falls_apart"), good) == ()


@pytest.mark.parametrize(("score", "wrapped", "word"), [(5, 420, "earlier"), (1, 240, "later")])
def test_smoke_moves_the_wrap_by_what_was_right_before(score: int, wrapped: int, word: str) -> None:
    right = cooked("b", wrap_min=330, smoke=3)
    (wrap,) = said(cooked(wrap_min=wrapped, smoke=score), right)
    assert f"90 min {word}" in wrap.sentence or f"1 h 30 min {word}" in wrap.sentence
    assert wrap.stage_minutes == (("smoke", 330.0),)
    assert wrap.sure == "a guess"


def test_smoke_says_nothing_of_the_wrap_without_a_measure_or_against_it() -> None:
    right = cooked("b", wrap_min=330, smoke=3)
    assert said(cooked(wrap_min=420, smoke=5)) == ()
    assert said(cooked(smoke=5), right) == ()
    assert said(cooked(wrap_min=335, smoke=5), right) == ()
    assert said(cooked(wrap_min=240, smoke=5), right) == ()


# Taking it up.


def test_taken_up_it_reaches_mix_and_plan() -> None:
    this = cooked(days=5, grey_percent=25.0)
    days = said(this)[0]
    assert mix_with(MIX, [days]).days == dict(days.mix_changes)["days"]
    assert lengths_with([days])["cure"].minutes == dict(days.stage_minutes)["cure"]
    assert mix_with(MIX, ()) == MIX
    new = repeat(this.batch, 3500.0, "2027-04-01T09:00", NOW, names("n"), zone=BERLIN, taken=[days])
    assert step(new, "cure").minutes == dict(days.stage_minutes)["cure"]


def test_days_go_with_the_square_of_the_thickness_and_other_advice_stays() -> None:
    days = said(cooked(days=5, mm=50.0, grey_percent=25.0))[0]
    wanted = float(dict(days.mix_changes)["days"] or 0)
    carried = for_thickness(days, 50.0, 75.0)
    assert dict(carried.mix_changes)["days"] == days_carried(wanted, 50.0, 75.0)
    assert for_thickness(days, 50.0, 50.0) is days
    assert for_thickness(days, None, 50.0) is days
    other = Advice("salt", "s", "r", "a guess")
    assert for_thickness(other, 50.0, 75.0) is other
    assert days_carried(1.0, 100.0, 20.0) == 1.0
    assert days_carried(7.3, 40.0, 40.0) == 7.3
