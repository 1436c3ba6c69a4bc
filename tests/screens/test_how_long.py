"""How long, the slice on any day, and the soak: the screens that look into the meat."""

import pytest

from app.journal.records import Kit
from app.screens.mix.cure_in_hand import CureInHand, cure_in_hand
from app.screens.mix.how_long import HowLong, in_days, look_ahead
from app.screens.mix.mix_draft import LaterDraft, MixDraft
from app.screens.mix.profile import parts_of, picture_on
from tests.screens.harness import Screens

US = Kit()


def cure(kit: Kit = US, **typed: object) -> CureInHand:
    got = cure_in_hand(MixDraft(weight="7.4", **typed), kit).cure  # type: ignore[arg-type]
    assert got is not None
    return got


def opened(screens: Screens, door: str, weight: str = "7.4") -> Screens:
    screens.go("/mix")
    screens.type("Weight on the label", weight)
    screens.press(door)
    return screens


def test_days_are_a_range_never_one_number() -> None:
    told = look_ahead(cure())
    assert told.colour is not None
    assert told.colour.days is not None
    assert told.colour.days.low < told.colour.days.likely < told.colour.days.high


def test_a_week_in_strong_brine_leaves_a_thick_point_grey_and_cures_a_thin_flat() -> None:
    week = LaterDraft(pulled="7")
    thick = look_ahead(cure(method="cover", salt="12", cut="point", thickness="4", later=week))
    thin = look_ahead(cure(method="cover", salt="12", cut="flat", thickness="1.2", later=week))
    assert thick.grey.likely > 0.0
    assert thin.grey.high == 0.0


def likely_days(told: HowLong) -> float:
    assert told.colour is not None
    assert told.colour.days is not None
    return told.colour.days.likely


def test_a_cold_fridge_takes_longer_and_a_fat_cap_four_times_as_long() -> None:
    plain = likely_days(look_ahead(cure()))
    assert likely_days(look_ahead(cure(later=LaterDraft(fridge="33")))) > plain
    assert likely_days(look_ahead(cure(fat_cap_on=True))) == pytest.approx(4.0 * plain)


def test_injected_meat_has_no_days_to_wait_for_but_a_picture() -> None:
    told = look_ahead(cure(method="injection"))
    assert told.colour is None
    assert told.grey.high == 0.0


def test_days_said_shortly() -> None:
    assert [in_days(days) for days in (5.0, 6.74, 13.2, 250.0)] == ["5", "6.7", "13", "over 99"]


def test_the_screen_names_the_old_rules_as_common_practice(screens: Screens) -> None:
    opened(screens, "How long")
    assert screens.route == "/mix/days"
    assert screens.has("Common practice, no source.")
    assert screens.has("The old rules do not agree")
    assert screens.has("This brine freezes at")
    assert screens.has("No slice of your own yet")
    assert screens.unnamed() == []
    assert screens.small_targets() == []


def test_how_even_is_chosen(screens: Screens) -> None:
    opened(screens, "How long")
    screens.press("Even to: 95 %")
    assert screens.has("Salt even to 95 %")
    assert look_ahead(cure(), 95.0).even != look_ahead(cure(), 90.0).even


def test_a_warm_fridge_is_a_danger(screens: Screens) -> None:
    opened(screens, "How long")
    screens.type("Fridge", "50")
    assert screens.has("where a cure is not safe to leave")
    screens.type("Fridge", "100")
    assert screens.has("is no refrigerator")


@pytest.mark.parametrize(
    ("system", "fridge", "says"),
    [
        ("us", "36", ("At 36 °F the", "days at 39 °F become")),
        ("metric", "2", ("At 2.0 °C the", "days at 4 °C become")),
        ("us", "90", ("90 °F is no refrigerator; from 23 to 59 °F was expected.",)),
    ],
)
def test_degrees_are_the_cooks_own(
    screens: Screens, system: str, fridge: str, says: tuple[str, ...]
) -> None:
    screens.do(screens.bench.save_kit, Kit(system))  # type: ignore[arg-type]
    opened(screens, "How long")
    screens.type("Fridge", fridge)
    assert all(screens.has(one) for one in says)


def test_the_examples_of_how_to_type_stay_in_both_units(screens: Screens) -> None:
    opened(screens, "How long")
    screens.type("Fridge", "cold")
    assert screens.has("expected a temperature such as 38 °F or 3 °C.")


def test_every_range_opens_its_working(screens: Screens) -> None:
    opened(screens, "How long")
    screens.press("Full colour in the middle")
    assert screens.route == "/mix/days/how/colour"
    assert screens.has("Crank")
    screens.press("Back")
    assert screens.route == "/mix/days"


def test_without_a_mix_the_screens_say_what_to_do(screens: Screens) -> None:
    for route in ("/mix/days", "/mix/face", "/mix/soak"):
        screens.go(route)
        assert screens.has("Give the weight of the meat in the mix")


def test_parts_of_the_picture_fill_the_thickness() -> None:
    one = cure()
    picture = picture_on(one, 3.0)
    parts = parts_of(picture.points)
    assert [colour for colour, _ in parts] == ["cured", "pale", "grey", "pale", "cured"]
    assert sum(length for _, length in parts) == pytest.approx(70.0)


def test_more_days_never_leave_more_grey() -> None:
    one = cure()
    grey = [picture_on(one, day).grey_percent for day in (0.5, 2.0, 5.0, 10.0, 20.0)]
    assert grey == sorted(grey, reverse=True)


def test_quick_meat_is_never_greyer_than_slow() -> None:
    one = cure()
    slow, likely, quick = (
        picture_on(one, 4.0, p).grey_percent for p in ("slow", "likely", "quick")
    )
    assert slow >= likely >= quick


def test_the_day_is_stepped_and_dragged(screens: Screens) -> None:
    opened(screens, "The slice, day by day")
    assert screens.has("Day 14")
    screens.press("Half a day less")
    assert screens.has("Day 13.5")
    slider = screens.control("Day in the cure")
    screens.fire(slider.content, "change", 3.0, value=3.0)
    assert screens.has("Day 3")
    assert screens.has("After 3 days:")
    assert any(" in grey" in one for one in screens.spoken())
    assert screens.unnamed() == []


def test_a_picture_is_one_sentence_to_the_ear(screens: Screens) -> None:
    opened(screens, "The slice, day by day")
    said = [one for one in screens.spoken() if one.startswith("After 14 days")]
    assert said
    assert not any(one == "inches across the meat" for one in screens.spoken())


def test_the_soak_says_where_the_salt_is_and_what_a_rinse_does(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.press("Method")
    screens.press("Method: Strong cover brine")
    screens.press("Soak the salt out")
    for words in ("Outside", "In the middle", "On average", "rinse takes the brine off"):
        assert screens.has(words)
    assert screens.has("cook it, taste it")
    screens.type("Salt wanted", "2")
    assert screens.has("To come down to 2 %")
    assert screens.has("Hours in water")
    assert screens.has("Fillings of fresh water")
    assert screens.unnamed() == []
    screens.press("Hours in water")
    assert screens.has("Hours of soaking")


def test_a_soak_that_cannot_be_read_says_so(screens: Screens) -> None:
    opened(screens, "Soak the salt out")
    screens.type("Salt wanted", "50")
    assert screens.has("The salt must be from 0.2 to 10 %")


def test_the_needle_tells_days_between_its_holes(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.press("Method")
    screens.press("Method: Injection and cover")
    screens.go("/mix/days")
    assert screens.has("between the holes")
    before = next(
        one for one in screens.spoken() if one.startswith("Even to 90 % between the holes:")
    )
    screens.type("From hole to hole", "2")
    after = next(
        one for one in screens.spoken() if one.startswith("Even to 90 % between the holes:")
    )
    assert before != after
    screens.type("From hole to hole", "20")
    assert screens.has("7/16 to 7 7/8 in apart")


def test_the_working_of_the_slice_is_for_the_day_looked_at(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.go("/mix/face")
    planned = screens.texts()
    screens.press("Half a day less")
    assert screens.texts() != planned
    day = next(one for one in screens.texts() if one.startswith("Day "))
    screens.press("How this was worked out")
    assert screens.has(day.removeprefix("Day ") + " days")
    screens.go("/mix/face")
    assert screens.has(day)


def in_the_cure(screens: Screens) -> str:
    """A batch whose meat went into the cure three days ago; its id."""
    bench, clock = screens.bench, screens.device.clock
    batch = screens.start_batch()
    for step in batch.plan:
        if step.stage in ("trim", "mix", "chill", "cure"):
            screens.do(bench.mark_done, batch.id, step.id)
    clock.utc_s += 3 * 86400.0  # type: ignore[attr-defined]
    return batch.id


def test_a_running_batch_is_soaked_by_the_days_it_lay_in_the_cure(screens: Screens) -> None:
    batch_id = in_the_cure(screens)
    screens.go(f"/journal/{batch_id}")
    screens.press("Soak the salt out")
    assert screens.has("Left empty: 3 days")
    before = next(one for one in screens.texts() if one.startswith("To come down to"))
    screens.type("Salt wanted", "1.2")
    assert screens.has("To come down to 1.2 %")
    assert screens.has("Left empty: 2.5 %, a usual saltiness")
    screens.type("Taken out after", "4")
    assert screens.has("Left empty: 3 days")
    assert before != "To come down to 1.2 %"
    screens.press("In the middle")
    assert screens.route == f"/journal/{batch_id}/soak/how/now"
    assert not screens.has("There is no such number now.")
    screens.go(f"/journal/{batch_id}/soak")
    assert screens.has("To come down to 1.2 %")
    assert screens.unnamed() == []
