"""The calendar file, read back by another reader and by RFC 5545's own rules."""

from collections.abc import Iterator

import pytest
import vobject
from attrs import evolve

from app.journal.marks import mark_done, skip, with_reminder
from app.journal.plan import move
from app.journal.records import Batch
from app.journal.reminders import calendar_text
from tests.journal.made import BERLIN, NOW, batch, moment, names, step

Event = dict[str, str]


def events(text: str) -> list[Event]:
    """A reader of our own: unfold, split, gather; alarms under ALARM."""
    found: list[Event] = []
    inside: list[str] = []
    for line in unfolded(text):
        name, _, value = line.partition(":")
        if name == "BEGIN":
            inside.append(value)
            if value == "VEVENT":
                found.append({})
            elif value == "VALARM":
                found[-1]["ALARM"] = "yes"
        elif name == "END":
            assert inside.pop() == value
        elif inside[-1] == "VEVENT":
            found[-1][name.split(";")[0]] = value
        elif inside[-1] == "VALARM":
            found[-1][f"ALARM-{name.split(';')[0]}"] = value
    assert not inside
    return found


def unfolded(text: str) -> Iterator[str]:
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    lines = text.split("\r\n")[:-1]
    assert all(len(line.encode()) <= 75 for line in lines)
    yield from "\r\n".join(lines).replace("\r\n ", "").split("\r\n")


def by_stage(of: Batch, text: str) -> dict[str, Event]:
    uids = {f"{one.id}-{of.id}@brinewright": one.stage for one in of.plan if one.stage != "turn"}
    return {uids[e["UID"]]: e for e in events(text) if e["UID"] in uids}


def test_every_step_is_an_event_with_an_alarm_by_the_wall_clock() -> None:
    made = batch("Sunday, with \\ friends; and a name long enough that its line is folded: ünüßüal")
    text = calendar_text([made], NOW, lead_min=30)
    found = events(text)
    assert len(found) == len(made.plan)
    smoke = by_stage(made, text)["smoke"]
    assert smoke["DTSTART"] == step(made, "smoke").due.replace("-", "").replace(":", "") + "00"
    assert smoke["STATUS"] == "CONFIRMED"
    assert smoke["ALARM-ACTION"] == "DISPLAY"
    assert smoke["ALARM-TRIGGER"] == "-PT30M"
    assert smoke["SUMMARY"].replace("\\", "") == f"Start the smoke: {made.name}".replace("\\", "")
    assert text.splitlines()[0] == "BEGIN:VCALENDAR"
    assert {"VERSION:2.0", "CALSCALE:GREGORIAN"} <= set(text.split("\r\n"))
    assert "METHOD" not in text  # A METHOD would ask for an ORGANIZER (RFC 5546, 3.2).


def test_another_reader_reads_the_same() -> None:
    made = batch("Sunday, with friends; twice")
    calendar = vobject.readOne(calendar_text([made], NOW))
    read = {event.uid.value: event for event in calendar.vevent_list}
    assert len(read) == len(made.plan)
    for one in made.plan:
        event = read[f"{one.id}-{made.id}@brinewright"]
        assert event.dtstart.value.isoformat(timespec="minutes") == one.due
        assert event.dtstart.value.tzinfo is None
        assert event.dtend.value > event.dtstart.value
        assert event.summary.value == f"{one.title}: {made.name}"
        assert event.valarm.trigger.value.total_seconds() == -900
        assert event.dtstamp.value.timestamp() == NOW.utc_s


def test_a_second_export_keeps_names_and_counts_up() -> None:
    made = batch()
    later = evolve(
        move(made, step(made, "smoke").id, "2027-03-02T07:00", BERLIN),
        changed=moment("2027-02-21T09:00"),
    )
    first, second = (by_stage(one, calendar_text([one], NOW)) for one in (made, later))
    assert {s: e["UID"] for s, e in first.items()} == {s: e["UID"] for s, e in second.items()}
    assert int(second["smoke"]["SEQUENCE"]) > int(first["smoke"]["SEQUENCE"])
    assert second["smoke"]["DTSTART"] == "20270302T070000"
    assert second["smoke"]["LAST-MODIFIED"] == "20270221T080000Z"
    again = evolve(made, changed=moment("2027-02-19T09:00"))  # A clock set back counts as nought.
    assert by_stage(again, calendar_text([again], NOW))["smoke"]["SEQUENCE"] == "0"
    assert calendar_text([made], NOW) == calendar_text([made], NOW)


def test_what_is_left_out_is_cancelled_and_what_is_done_rings_no_more() -> None:
    made = batch()
    made = skip(made, step(made, "dry").id, BERLIN)
    made = mark_done(made, step(made, "buy").id, NOW, BERLIN)
    made = with_reminder(made, step(made, "rub").id, False)
    found = by_stage(made, calendar_text([made], NOW))
    assert found["dry"]["STATUS"] == "CANCELLED"
    assert [s for s in found if "ALARM" not in found[s]] == ["buy", "dry", "rub"]
    assert found["buy"]["STATUS"] == found["rub"]["STATUS"] == "CONFIRMED"


def test_a_batch_given_up_takes_all_its_steps_out_again() -> None:
    made = batch()
    before = by_stage(made, calendar_text([made], NOW))
    after = by_stage(made, calendar_text([made], NOW, cancelled=True))
    assert {event["STATUS"] for event in after.values()} == {"CANCELLED"}
    assert not any("ALARM" in event for event in after.values())
    assert int(after["cure"]["SEQUENCE"]) > int(before["cure"]["SEQUENCE"])


def test_several_batches_share_one_file_and_invented_ones_stay_out() -> None:
    one, two = batch("One"), batch("Two", ids=names("t"))
    invented = evolve(batch("Demo", ids=names("d")), demonstration=True)
    found = events(calendar_text([one, two, invented], NOW))
    assert len(found) == len(one.plan) + len(two.plan)
    assert len({event["UID"] for event in found}) == len(found)
    assert events(calendar_text([], NOW)) == []


@pytest.mark.parametrize("lead", [-1, 7 * 1440 + 1])
def test_an_alarm_is_not_rung_after_the_step_nor_weeks_ahead(lead: int) -> None:
    with pytest.raises(ValueError, match="0 min to a week"):
        calendar_text([], NOW, lead_min=lead)


def test_a_stage_of_days_is_written_by_its_beginning() -> None:
    made = batch()
    found = by_stage(made, calendar_text([made], NOW))
    assert found["cure"]["DTSTART"][9:] == "060000"
    assert found["cure"]["DTEND"][9:] == "061500"
    assert found["buy"]["DTEND"][9:] == "100000"
    assert found["store"]["DTEND"] > found["store"]["DTSTART"]
