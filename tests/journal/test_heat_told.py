"""The core log of a batch read by the heat models: what each says, and when it cannot."""

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.entries import decided, measured, new_entry
from app.journal.heat_told import heat_told
from app.journal.marks import mark_done
from app.journal.records import Batch, Entry, EntryBody, Moment, SliceOutcome, Stage
from tests.journal.made import NOW, batch, step


def at(hours: float) -> Moment:
    return Moment(NOW.utc_s + 3600.0 * hours, NOW.offset_min)


def smoked(**marks: float) -> Batch:
    """A batch with these stages marked, hours after it was begun."""
    made = batch()
    for stage, hours in marks.items():
        made = mark_done(made, step(made, stage).id, at(hours))  # type: ignore[arg-type]
    return made


def lines(of: Batch, *read: tuple[float, EntryBody], stage: Stage = "smoke") -> list[Entry]:
    now = at(500.0)
    return [
        new_entry(f"e{n}", of, body, at(hours), now, stage) for n, (hours, body) in enumerate(read)
    ]


def core(*points: tuple[float, float]) -> list[tuple[float, EntryBody]]:
    return [(hours, measured(celsius)) for hours, celsius in points]


COOK = core((200, 5), (203, 55), (205, 66), (207, 75), (208, 92))


def test_nothing_logged_says_nothing() -> None:
    told = heat_told(batch(), [], NOW)
    assert told.log is None
    assert (told.finish, told.rest, told.cooling_plain, told.out) == (None, None, None, None)
    with pytest.raises(ValueError, match="no log"):
        told.moment_of(1.0)


def test_the_moment_it_was_safe_lies_within_the_log() -> None:
    made = smoked(smoke=200)
    told = heat_told(made, lines(made, *COOK), at(208))
    assert told.lethality.reached_min is not None
    assert at(203).utc_s < told.moment_of(told.lethality.reached_min).utc_s < at(208).utc_s
    assert told.consumer.met


def test_the_finish_learns_from_other_batches_of_the_cut() -> None:
    past = evolve(smoked(smoke=200), id="past")
    records = {"past": [*lines(past, *COOK), *lines(past, (208.5, decided("pulled")))]}
    made = smoked(smoke=200)
    told = heat_told(made, lines(made, *COOK[:3]), at(205), [made, past], records)
    assert told.finish is not None
    assert told.finish.batches == 1
    assert "Your one like batch took" in told.finish.says


def test_once_pulled_the_finish_is_over_and_the_rest_is_told() -> None:
    made = smoked(smoke=200, rest=208)
    told = heat_told(made, lines(made, *COOK, *core((209, 88), (210, 84))), at(210))
    assert told.finish is None
    assert told.rest is not None
    assert told.rest.minutes is not None
    assert told.cooling_plain is not None
    assert told.cooling_plain.state == "not_begun"


def test_both_cooling_limits_run_and_the_one_that_holds_is_named() -> None:
    made = smoked(smoke=200, rest=208)
    cooling = core((210, 60), (210.5, 54), (212.5, 30), (213, 26), (217, 8), (219, 4))
    told = heat_told(made, lines(made, *COOK, *cooling), at(219))
    assert told.cooling_plain is not None
    assert told.cooling_cured is not None
    assert told.cooling_plain.state == "failed"
    assert told.cooling_cured.state == "passed"
    assert told.applies.startswith("Plain limit")


def test_a_grey_core_has_the_plain_limit_whatever_went_in() -> None:
    made = evolve(smoked(smoke=200), outcome=SliceOutcome(at=NOW, grey_percent=20.0))
    assert "20 % of the slice was grey" in heat_told(made, [], NOW).applies


def test_two_hours_count_from_leaving_sixty_degrees_to_the_fridge() -> None:
    made = smoked(smoke=200, rest=208, store=211)
    told = heat_told(made, lines(made, *COOK, *core((209, 70), (211, 50))), at(400))
    assert told.out is not None
    # Straight from 70 to 50 °C in two hours: 60 °C after one, and in the cold an hour later.
    assert told.out.left_minutes == pytest.approx(60.0)


@pytest.mark.parametrize("stored", [True, False])
def test_no_clock_runs_on_in_a_finished_batch(stored: bool) -> None:
    marks = {"smoke": 200, "rest": 208, **({"store": 211} if stored else {})}
    made = smoked(**marks)
    log = lines(made, *COOK, *core((209, 70), (210.5, 61)))
    running = heat_told(made, log, at(210.6))
    assert running.rest is not None
    assert running.cooling_plain is not None
    told = heat_told(evolve(made, finished=True), log, at(210.6))
    assert (told.rest, told.finish, told.cooling_plain, told.cooling_cured) == (None,) * 4


def test_a_stall_of_a_finished_batch_lasts_no_longer() -> None:
    made = smoked(smoke=200)
    log = lines(made, *core((200, 5), (203, 66), (204, 67), (205, 68)))
    running = heat_told(made, log, at(206)).stall
    done = heat_told(evolve(made, finished=True), log, at(206)).stall
    assert running is not None
    assert done is not None
    assert "up to the last reading" in done.says
    assert "up to the last reading" not in running.says


def test_a_finished_batch_tells_how_long_it_stood_out() -> None:
    made = smoked(smoke=200, rest=208, store=211)
    log = lines(made, *COOK, *core((209, 70), (211, 50)))
    told = heat_told(evolve(made, finished=True), log, at(400))
    assert told.out is not None
    assert told.out.says == "In the cold after 1 h, within the 2 h."
    unmarked = smoked(smoke=200, rest=208)
    assert heat_told(unmarked, log, at(212)).out is not None
    assert heat_told(evolve(unmarked, finished=True), log, at(212)).out is None


def test_cooling_that_was_not_read_to_its_end_is_not_known_once_finished() -> None:
    made = smoked(smoke=200, rest=208)
    log = lines(made, *COOK, *core((208.5, 55), (209.0, 50), (209.3, 40)))
    running = heat_told(made, log, at(209.4)).cooling_plain
    done = heat_told(evolve(made, finished=True), log, at(209.4)).cooling_plain
    assert running is not None
    assert done is not None
    assert (running.state, done.state) == ("running", "unknown")
    for said in (done.says, done.first.says, done.second.says):
        assert "not known" in said


def test_a_clock_set_back_counts_as_the_last_reading() -> None:
    made = smoked(smoke=200, rest=208)
    told = heat_told(made, lines(made, *COOK, *core((210, 50))), at(1))
    assert told.cooling_plain is not None


def test_a_core_that_fell_without_being_called_pulled_is_off_the_fire() -> None:
    made = smoked(smoke=200)
    cooling = core((209, 88), (210, 60), (211, 30), (212, 10))
    told = heat_told(made, lines(made, *COOK, *cooling), at(212))
    assert told.off_guessed
    assert told.finish is None
    assert told.cooling_plain is not None
    assert told.cooling_plain.first.state == "unknown", "the readings lie far apart"
    dipped = heat_told(made, lines(made, *COOK, *core((209, 70), (210, 93))), at(210))
    assert not dipped.off_guessed
    assert dipped.finish is not None


def test_where_it_is_hot_the_two_hours_are_one() -> None:
    made = smoked(smoke=200, slice=210)
    mild = heat_told(made, [], at(211.5))
    hot = heat_told(made, [], at(211.5), room_c=35.0)
    assert mild.out is not None
    assert hot.out is not None
    assert (mild.out.state, hot.out.state) == ("fine", "over")


def test_a_reading_at_a_decision_counts_as_the_core() -> None:
    made = smoked(smoke=200)
    told = heat_told(made, lines(made, (205, decided("wrapped", 121, 71))), at(206))
    assert told.log is not None
    assert told.log.readings == ((300.0, 71.0),)


def test_each_nitrite_is_named_and_the_least_decides_the_limit() -> None:
    told = heat_told(batch(), [], NOW)
    ingoing, pickup = told.nitrite
    assert (ingoing.name, round(ingoing.ppm)) == ("Ingoing nitrite", 150)
    assert ingoing.note == "meat and pickle as one; as the mix has it"
    assert pickup.name == "Pick-up nitrite"
    assert pickup.note == "by the weight taken up; the least it may hold"
    assert told.applies == (
        f"Plain limit: {pickup.ppm:.0f} ppm of pick-up nitrite is less than 100 ppm."
    )
    assert "pick-up" in pickup.working.formula
    (dry,) = heat_told(batch(mix=MixRequest(3000.0, method="dry")), [], NOW).nitrite
    assert dry.note == "on the green weight; as the mix has it"
    pumped = heat_told(batch(mix=MixRequest(3000.0, method="injection")), [], NOW).nitrite
    assert [one.name for one in pumped] == ["Ingoing nitrite", "Pumped nitrite"]
    assert heat_told(batch(mix=MixRequest(3000.0, nitrite_ppm=5000.0)), [], NOW).nitrite == ()
