"""The record's temperatures as the heat models take them."""

from attrs import evolve

from app.heat.lethality import accumulate
from app.heat.stall import finish_range
from app.journal.entries import decided, felt, measured, noted
from app.journal.logged import core_log, past_cooks
from app.journal.marks import mark_done
from app.journal.records import Batch, Entry, EntryBody
from tests.journal.made import BERLIN, batch, moment, names, step


def smoking() -> Batch:
    made = batch()
    return mark_done(made, step(made, "smoke").id, moment("2027-03-01T06:30"), BERLIN)


def line(at: str, body: EntryBody, batch_id: str = "s1") -> Entry:
    when = moment(at)
    return Entry(f"{at}{body}", batch_id, when, "smoke", body, when)


LINES = [
    line("2027-03-01T12:30", measured(70, "flat")),
    line("2027-03-01T12:30", measured(66, "point")),
    line("2027-03-01T08:30", measured(40, "middle")),
    line("2027-03-01T09:00", measured(120, "pit")),
    line("2027-03-01T14:30", felt("nearly", "flat", 88)),
    line("2027-03-01T14:40", felt("soft", "flat")),
    line("2027-03-01T14:50", felt("soft", "pit", 90)),
    line("2027-02-21T09:00", measured(3, "flat")),
    line("2027-03-01T10:00", noted("x")),
    line("2027-03-01T10:00", measured(50, "flat"), "other"),
]


def test_the_core_is_logged_from_the_smoke_on_and_the_coldest_counts() -> None:
    log = core_log(smoking(), LINES)
    assert log is not None
    assert log.start == moment("2027-03-01T06:30")
    assert log.readings == ((120.0, 40.0), (360.0, 66.0), (480.0, 88.0))
    assert log.minute_of(moment("2027-03-01T07:30")) == 60.0
    assert accumulate(log.readings).log_reduction > 6.5


def test_without_a_smoke_it_counts_from_the_first_reading_or_from_what_is_asked() -> None:
    log = core_log(batch(), LINES)
    assert log is not None
    assert log.readings[0] == (0.0, 3.0)
    later = core_log(batch(), LINES, since=moment("2027-03-01T12:00"))
    assert later is not None
    assert later.readings == ((30.0, 66.0), (150.0, 88.0))
    assert core_log(batch(), []) is None
    assert core_log(smoking(), [LINES[7]]) is None


def test_past_cooks_tell_how_long_to_go() -> None:
    one = smoking()
    pulled = line("2027-03-01T15:00", decided("pulled", None, 94))
    two = evolve(smoking(), id="t1")
    two = mark_done(two, step(two, "tender").id, moment("2027-03-01T15:30"), BERLIN)
    records = {
        one.id: [*LINES, pulled],
        two.id: [evolve(entry, batch_id="t1") for entry in LINES],
    }
    cooks = past_cooks([one, two], records, "brisket FLAT")
    assert [cook.done_min for cook in cooks] == [510.0, 540.0]
    minutes = finish_range(70.0, cooks).minutes
    assert minutes is not None
    assert 60 < minutes.low < minutes.high < 180


def test_cooks_that_tell_nothing_are_left_out() -> None:
    one = smoking()
    pulled = line("2027-03-01T15:00", decided("pulled"))
    early = line("2027-03-01T08:00", decided("pulled"))
    full = {one.id: [*LINES, pulled]}
    assert past_cooks([evolve(one, demonstration=True)], full, one.cut) == ()
    assert past_cooks([one], full, "Round") == ()
    assert past_cooks([one], {}, one.cut) == ()
    assert past_cooks([one], {one.id: LINES}, one.cut) == ()
    assert past_cooks([one], {one.id: [*LINES, early]}, one.cut) == ()
    assert past_cooks([batch("B", ids=names("b"))], full, one.cut) == ()


def test_of_one_round_of_the_probe_the_coldest_place_counts() -> None:
    lines = [
        line("2027-03-01T12:30", measured(95, "flat")),
        line("2027-03-01T12:35", measured(49, "point")),
        line("2027-03-01T12:36", measured(94, "middle")),
        line("2027-03-01T14:30", measured(96, "flat")),
    ]
    log = core_log(smoking(), lines)
    assert log is not None
    assert [celsius for _, celsius in log.readings] == [49, 49, 49, 96]
    # An earlier reading of the same place does not hold a later one back.
    warming = [line(f"2027-03-01T12:{at}", measured(60 + at, "flat")) for at in (30, 40)]
    log = core_log(smoking(), warming)
    assert log is not None
    assert [celsius for _, celsius in log.readings] == [90, 100]
