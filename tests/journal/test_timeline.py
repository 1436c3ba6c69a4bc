"""A batch as one line through time, and its temperatures as a chart."""

from attrs import evolve

from app.journal.entries import decided, felt, measured, noted
from app.journal.marks import mark_done, skip
from app.journal.records import Entry, Moment, SliceOutcome
from app.journal.timeline import chart, timeline, wall_now
from tests.journal.made import BERLIN, batch, moment, step


def line(name: str, wall: str, body: object, batch_id: str = "s1") -> Entry:
    at = moment(wall)
    return Entry(name, batch_id, at, "smoke", body, at)  # type: ignore[arg-type]


def test_planned_done_left_out_and_entered_stand_in_the_order_of_time() -> None:
    made = batch()
    made = mark_done(made, step(made, "buy").id, moment("2027-02-20T09:40"), BERLIN)
    made = skip(made, step(made, "dry").id, BERLIN)
    made = evolve(made, outcome=SliceOutcome(moment("2027-03-01T20:00"), salt=3))
    rows = timeline(
        made,
        [
            line("e2", "2027-02-20T09:40", noted("shop")),
            line("e1", "2027-02-20T08:00", noted("early")),
            line("x", "2027-02-20T08:30", noted("of another batch"), "other"),
        ],
        BERLIN,
    )
    assert [row.wall for row in rows] == sorted(row.wall for row in rows)
    assert [(row.kind, row.entry.id if row.entry else row.stage) for row in rows[:3]] == [
        ("entry", "e1"),
        ("step_done", "buy"),
        ("entry", "e2"),
    ]
    assert rows[1].words == "40 min later than planned"
    assert rows[1].late_min == 40
    assert [row.words for row in rows if row.kind == "step_left_out"] == ["left out"]
    assert [row.stage for row in rows if row.kind == "tasted"] == ["slice"]
    assert len(rows) == len(made.plan) + 3


def test_planned_against_actual_counts_real_minutes_and_forgives_five() -> None:
    made = batch()
    one = evolve(made.plan[0], due="2027-03-28T01:30", done=moment("2027-03-28T03:30"))
    rows = timeline(evolve(made, plan=(one,)), [], BERLIN)
    assert rows[0].words == "1 h later than planned"
    early = evolve(one, due="2027-03-28T05:00")
    assert timeline(evolve(made, plan=(early,)), [], BERLIN)[0].words == (
        "1 h 30 min earlier than planned"
    )
    close = evolve(one, due="2027-03-28T03:27")
    assert timeline(evolve(made, plan=(close,)), [], BERLIN)[0].words == "as planned"


def test_the_chart_counts_from_its_beginning_and_marks_what_was_begun() -> None:
    made = batch()
    made = mark_done(made, step(made, "smoke").id, moment("2027-03-01T06:30"), BERLIN)
    made = mark_done(made, step(made, "wrap").id, moment("2027-03-01T12:30"), BERLIN)
    made = mark_done(made, step(made, "rest").id, moment("2027-03-01T15:30"), BERLIN)
    made = mark_done(made, step(made, "slice").id, moment("2027-03-02T12:30"), BERLIN)
    entries = [
        line("b", "2027-03-01T13:00", measured(72, "flat")),
        line("a", "2027-03-01T07:00", measured(120, "pit")),
        line("n", "2027-03-01T08:00", noted("no reading")),
        line("f", "2027-02-21T07:00", measured(3, "fridge")),
    ]
    smoke = moment("2027-03-01T06:30")
    readings, marks = chart(made, entries, since=smoke)
    assert [(r.minutes, r.celsius, r.spot, r.entry_id) for r in readings] == [
        (30.0, 120.0, "pit", "a"),
        (390.0, 72.0, "flat", "b"),
    ]
    assert [(m.minutes, m.stage) for m in marks] == [
        (0.0, "smoke"),
        (360.0, "wrap"),
        (540.0, "rest"),
    ], "the slicing of the next day is no part of it"
    assert len(chart(made, entries)[0]) == 3
    assert [r.entry_id for r in chart(made, entries, until=smoke)[0]] == ["f"]
    assert chart(made, []) == ((), ())


def test_readings_of_the_probe_and_of_decisions_are_on_the_chart() -> None:
    made = batch()
    entries = [
        line("d", "2027-03-01T09:00", decided("wrapped", 121, 71)),
        line("f", "2027-03-01T10:00", felt("nearly", "point", 92)),
        line("g", "2027-03-01T10:05", felt("soft", "point")),
        line("h", "2027-03-01T10:10", decided("pulled")),
    ]
    readings, _ = chart(made, entries)
    assert [(r.minutes, r.celsius, r.spot, r.entry_id) for r in readings] == [
        (0.0, 121.0, "pit", "d"),
        (0.0, 71.0, "middle", "d"),
        (60.0, 92.0, "point", "f"),
    ]


def test_the_wall_clock_now_goes_by_the_zone_or_by_the_kept_offset() -> None:
    assert wall_now(Moment(0.0, 120), "Europe/Berlin") == "1970-01-01T01:00"
    assert wall_now(Moment(0.0, 120)) == "1970-01-01T02:00"
