"""What truly happened, read off steps and record."""

from attrs import evolve

from app.journal.entries import decided, felt, measured
from app.journal.happened import (
    cure_temperature_c,
    decision,
    last_feel,
    pulled_core_c,
    took_s,
    wrapped_after_s,
)
from app.journal.marks import mark_done
from app.journal.records import Decision, Entry, EntryBody, Feel, Moment, Stage
from tests.journal.made import BERLIN, batch, moment, step


def line(at_s: float, body: EntryBody, stage: Stage = "tender") -> Entry:
    return Entry(f"e{at_s}", "s1", Moment(at_s), stage, body, Moment(at_s))


def test_a_stage_took_from_its_beginning_to_what_came_next() -> None:
    made = batch()
    assert took_s(made, "cure") is None
    made = mark_done(made, step(made, "cure").id, moment("2027-03-26T20:00"), BERLIN)
    assert took_s(made, "cure") is None
    made = mark_done(made, step(made, "turn").id, moment("2027-03-27T20:00"), BERLIN)
    assert took_s(made, "cure") is None
    out = mark_done(made, step(made, "end").id, moment("2027-03-28T20:00"), BERLIN)
    assert took_s(out, "cure") == 47 * 3600  # Two days, less the hour of that spring night.
    odd = mark_done(made, step(made, "end").id, moment("2027-03-25T20:00"), BERLIN)
    assert took_s(odd, "cure") is None
    assert took_s(evolve(out, plan=()), "cure") is None


def test_the_last_decision_of_a_kind_counts() -> None:
    lines = [
        line(30, decided("wrapped")),
        line(10, decided("wrapped")),
        line(40, decided("not_yet")),
    ]
    found = decision(lines, "wrapped")
    assert found is not None
    assert found.at.utc_s == 30
    assert decision(lines, "pulled") is None


def test_the_wrap_is_counted_from_the_smoke() -> None:
    made = batch()
    lines = [line(moment("2027-03-01T11:30").utc_s, decided("wrapped"))]
    assert wrapped_after_s(made, lines) is None
    made = mark_done(made, step(made, "smoke").id, moment("2027-03-01T06:30"), BERLIN)
    assert wrapped_after_s(made, lines) == 5 * 3600
    assert wrapped_after_s(made, []) is None


def test_the_hardest_place_of_the_last_round_of_checks_counts() -> None:
    lines = [
        line(0, felt("hard", "flat")),
        line(5000, felt("nearly", "flat", 92)),
        line(5200, felt("soft", "point", 95)),
        line(5300, measured(95)),
    ]
    assert last_feel(lines) == Feel("nearly", "flat", 92.0)
    assert last_feel([]) is None


def test_the_cure_s_temperature_is_the_mean_of_fridge_and_brine() -> None:
    lines = [
        line(1, measured(3, "fridge"), "cure"),
        line(2, measured(5, "brine"), "turn"),
        line(3, measured(20, "flat"), "cure"),
        line(4, measured(15, "fridge"), "dry"),
    ]
    assert cure_temperature_c(lines) == 4.0
    assert cure_temperature_c([]) is None


def test_the_core_when_pulled_is_the_one_read_then_or_by_the_probe_just_before() -> None:
    def line(minute: float, body: EntryBody) -> Entry:
        at = Moment(60.0 * minute)
        return Entry(f"{minute}{body}", "b", at, "tender", body, at)

    felt = [
        line(0, Feel("firm", "flat", 85.0)),
        line(50, Feel("soft", "point", 96.0)),
        line(52, Feel("soft", "flat", 93.0)),
        line(53, Feel("soft", "pit", 20.0)),
    ]
    assert pulled_core_c(felt) is None
    assert pulled_core_c([*felt, line(60, Decision("pulled"))]) == 93.0
    assert pulled_core_c([*felt, line(60, Decision("pulled", None, 95.0))]) == 95.0
    assert pulled_core_c([*felt, line(120, Decision("pulled"))]) is None
