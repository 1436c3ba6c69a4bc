"""The plan and its reminders, as they are seen and pressed."""

from datetime import datetime, time, timedelta

from attrs import evolve

from app.cure.request import MixRequest
from app.device.device import MemoryDevice
from app.device.parts import Abilities
from app.journal.plan import new_batch
from app.journal.records import SliceOutcome
from app.journal.wall import plus, say_wall
from app.screens.bench import new_id
from tests.screens.harness import Screens
from tests.screens.test_record import begun, bodies, clock, stage


def memory(screens: Screens) -> MemoryDevice:
    device = screens.device
    assert isinstance(device, MemoryDevice)
    return device


def test_leave_for_notices_is_asked_only_when_the_cook_asks(screens: Screens) -> None:
    asked: list[str] = []

    async def leave() -> bool:
        asked.append("asked")
        memory(screens).can = evolve(memory(screens).can, notices="granted")
        return True

    screens.device.ask_to_notify = leave  # type: ignore[method-assign]
    begun(screens)
    screens.go("/reminders")
    assert asked == []
    screens.press("Show notices")
    assert asked == ["asked"]
    assert screens.bench.shown.kit.notices
    assert screens.has("On: a notice comes")
    screens.press("Try one now")
    assert memory(screens).notices == {"trial": "/reminders"}
    screens.press("No notices")
    assert not screens.bench.shown.kit.notices


def test_a_step_that_becomes_due_is_told_once(screens: Screens) -> None:
    screens.do(screens.bench.save_kit, evolve(screens.bench.shown.kit, notices=True))
    clock(screens).utc_s += 300  # between two quarters, so that the first step lies ahead
    batch = begun(screens)
    screens.do(screens.bench.look_at_the_clock)
    assert memory(screens).noticed == []
    clock(screens).utc_s += 1800
    screens.do(screens.bench.look_at_the_clock)
    first = min(batch.plan, key=lambda step: step.due)
    assert (first.title, batch.name) in memory(screens).noticed
    assert memory(screens).notices[first.id] == f"/journal/{batch.id}"
    told = len(memory(screens).noticed)
    screens.do(screens.bench.look_at_the_clock)
    assert len(memory(screens).noticed) == told
    screens.do(screens.bench.mark_done, batch.id, first.id)
    assert first.id not in memory(screens).notices
    clock(screens).utc_s -= 7200  # the clock set back, and on again
    screens.do(screens.bench.look_at_the_clock)
    assert len(memory(screens).noticed) == told


def test_without_leave_no_notice_is_given(screens: Screens) -> None:
    begun(screens)
    screens.do(screens.bench.look_at_the_clock)
    clock(screens).utc_s += 1800
    screens.do(screens.bench.look_at_the_clock)
    assert memory(screens).noticed == []


def test_the_icon_counts_what_is_due(screens: Screens) -> None:
    counted: list[int] = []
    screens.device.badge = counted.append  # type: ignore[method-assign, assignment]
    batch = begun(screens)
    assert counted[-1] > 0
    first = min(batch.plan, key=lambda step: step.due)
    screens.do(screens.bench.mark_done, batch.id, first.id)
    assert counted == sorted(set(counted), key=counted.index)


def test_all_plans_go_into_one_calendar_file(screens: Screens) -> None:
    one, other = begun(screens), begun(screens, "Store flat")
    screens.go("/reminders")
    assert screens.has("Off: no calendar file was saved here yet.")
    screens.press("Rings: 1 h before")
    screens.press("Save the calendar file")
    ((name, mime, content),) = memory(screens).handed
    assert (name, mime) == ("brinewright.ics", "text/calendar")
    text = content.decode()
    assert one.name in text
    assert other.name in text
    assert "TRIGGER:-PT1H" in text
    assert screens.has("On: the calendar has been given")
    screens.press("Rings: At the time")
    assert screens.has("Not up to date")


def test_a_removed_batch_offers_to_take_itself_out_of_the_calendar(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}")
    screens.press("Leave out")
    assert not screens.has("The phone's calendar still has it")  # it was never given it
    screens.press("Undo")
    screens.go("/reminders")
    screens.press("Save the calendar file")
    screens.go(f"/journal/{batch.id}")
    screens.press("Leave out")
    screens.press("Calendar file")
    assert memory(screens).handed[-1][2].decode().count("STATUS:CANCELLED") == 1
    screens.press("Remove batch")
    assert screens.route == "/journal"
    screens.press("Calendar file")
    text = memory(screens).handed[-1][2].decode()
    assert text.count("STATUS:CANCELLED") == text.count("BEGIN:VEVENT") == len(batch.plan)
    assert "BEGIN:VALARM" not in text
    screens.go("/reminders")
    assert not screens.has("Not up to date")


def test_what_this_phone_cannot_do_is_said(screens: Screens) -> None:
    memory(screens).can = Abilities("none", apple=True)
    screens.go("/reminders")
    assert screens.has("Off: this browser shows no notices.")
    assert screens.has("added to the home screen")
    assert screens.has("Off: this browser puts no number on an icon.")
    assert screens.has("This browser does not let the screen be kept on.")
    memory(screens).can = Abilities("denied", badge=True, awake=True)
    screens.go("/")
    screens.go("/reminders")
    assert screens.has("Off: notices are blocked for this page.")
    assert screens.has("Not yet: it is shown on the icon")
    assert screens.has("Keep the screen on")


def test_a_trial_of_each_can_be_made(screens: Screens) -> None:
    counted: list[int] = []
    screens.device.badge = counted.append  # type: ignore[method-assign, assignment]
    screens.go("/reminders")
    screens.press("Try one: an alarm in 5 minutes")
    text = memory(screens).handed[-1][2].decode()
    assert text.count("BEGIN:VALARM") == text.count("BEGIN:VEVENT") == 1
    screens.press("Try: show 9 for ten seconds")
    assert counted == [9]
    screens.pass_time(11)
    assert counted == [9, 0]
    assert screens.unnamed() == []


def test_a_reminder_is_silenced(screens: Screens) -> None:
    batch = begun(screens)
    screens.go("/reminders")
    screens.press("Turn off: Rub")
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    assert sum(not step.reminder for step in kept.plan) == 1


def test_not_yet_looks_again_in_half_an_hour(screens: Screens) -> None:
    batch = begun(screens)
    due = stage(screens, batch, "wrap").due
    clock(screens).utc_s += 30 * 86400
    screens.go(f"/journal/{batch.id}/wrap")
    screens.press("Not yet")
    assert len(bodies(screens, batch)) == 1
    moved = stage(screens, batch, "wrap")
    assert moved.done is None
    assert moved.due >= plus(screens.bench.wall(), 30)
    assert not moved.moved_by_hand
    screens.press("Undo")
    assert stage(screens, batch, "wrap").due == due


def test_a_step_is_added_and_taken_back(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/plan")
    screens.press("Soak out salt")
    assert stage(screens, batch, "soak").minutes > 0
    screens.press("Undo")
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    assert all(step.stage != "soak" for step in kept.plan)


def test_a_length_that_is_none_is_said(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/plan")
    screens.press("Start the smoke")
    screens.type("Takes", "long")
    screens.press("Set length")
    assert screens.field("Takes").error
    screens.type("Takes", "7")
    assert not screens.field("Takes").error
    screens.press("Set length")
    assert stage(screens, batch, "smoke").minutes == 420


def test_a_bare_number_is_days_for_what_takes_days(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/plan")
    screens.press("Put the meat in the cure")
    screens.type("Takes", "13")
    screens.press("Set length")
    assert stage(screens, batch, "cure").minutes == 13 * 1440


def test_the_plan_says_what_no_longer_fits(screens: Screens) -> None:
    batch = begun(screens)
    screens.do(
        screens.bench.save_batch, evolve(batch, serve=plus(screens.bench.wall(), 2 * 1440.0))
    )
    screens.go(f"/journal/{batch.id}/plan")
    assert screens.has("or inject")


def test_what_was_said_makes_room_again_but_not_at_once(screens: Screens) -> None:
    begun(screens)
    screens.do(lambda: screens.bench.refresh("Saved."))
    screens.do(screens.bench.look_at_the_clock)
    assert screens.has("Saved.")
    screens.do(screens.bench.look_at_the_clock)
    assert not screens.has("Saved.")


RAW = "Meat the cure has not reached is raw beef"


def test_a_cure_made_shorter_says_what_that_means_and_how_to_mend_it(screens: Screens) -> None:
    batch = begun(screens)
    cure = stage(screens, batch, "cure")
    screens.go(f"/journal/{batch.id}/plan")
    assert not screens.has(RAW)
    screens.press("Put the meat in the cure")
    screens.type("Takes", "2 days")
    screens.press("Set length")
    assert screens.has("Plan changed. Too few days in the cure: see the top of the plan.")
    assert screens.has("too few days")
    assert screens.has(RAW)
    # At the top, and once more in the step that is open.
    told = [one for one in screens.texts() if one.startswith("2 days in the cure, ")]
    assert len(told) == 2
    assert all("fewer than the" in one for one in told)
    screens.go(f"/journal/{batch.id}")
    assert screens.has(RAW)
    # The first screen says it in short, with what mends it.
    screens.go("/")
    assert any(one.startswith("2 days in the cure, ") for one in screens.texts())
    assert not screens.has(RAW)
    screens.press("days in the cure")
    assert stage(screens, batch, "cure").minutes >= cure.minutes
    assert not screens.has("fewer than the")


def test_meat_taken_out_too_soon_is_told_of_on_every_screen_until_it_is_sliced(
    screens: Screens,
) -> None:
    batch = begun(screens)
    screens.do(screens.bench.mark_done, batch.id, stage(screens, batch, "cure").id)
    clock(screens).utc_s += 2 * 86400
    screens.do(screens.bench.mark_done, batch.id, stage(screens, batch, "end").id)
    for route in ("/", f"/journal/{batch.id}", f"/journal/{batch.id}/plan"):
        screens.go(route)
        assert screens.has("It lay in the cure 2 days, ")
        assert screens.has(RAW)
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    sliced = SliceOutcome(screens.bench.now(), grey_percent=0.0)
    screens.do(screens.bench.save_batch, evolve(kept, outcome=sliced))
    assert not screens.has(RAW)


def test_a_step_moved_before_the_cure_is_over_says_so_too(screens: Screens) -> None:
    batch = begun(screens)
    end = stage(screens, batch, "end")
    screens.go(f"/journal/{batch.id}/plan")
    screens.press("Take it out and rinse")
    screens.press(say_wall(end.due, screens.bench.wall()))
    screens.pick(datetime.fromisoformat(end.due).date() - timedelta(days=3))
    screens.pick(time(9, 0))
    assert screens.has("Too few days in the cure: see the top of the plan.")
    assert screens.has("Something no longer fits")
    assert sum("fewer than the" in one for one in screens.texts()) == 2
    # The needle is offered once.
    assert sum(name == "Inject" for name in screens.spoken()) == 1


def test_a_plan_asked_too_short_of_the_mix_says_so_before_it_is_begun(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    bench = screens.bench
    screens.do(lambda: bench.show(draft=evolve(bench.shown.draft, days="2", thickness="3")))
    screens.go("/mix/start")
    assert screens.has(RAW)
    screens.do(lambda: bench.show(draft=evolve(bench.shown.draft, days="")))
    screens.go("/mix")
    screens.go("/mix/start")
    assert not screens.has(RAW)


def test_a_strong_brine_too_short_is_not_made_longer_by_a_press(screens: Screens) -> None:
    made = new_batch(
        MixRequest(3200.0, method="cover"),
        "Brisket point",
        "Strong",
        screens.bench.now(),
        ids=new_id,
        thickness_mm=80.0,
    )
    screens.do(screens.bench.save_batch, made)
    screens.go(f"/journal/{made.id}/plan")
    assert screens.has(RAW)
    assert not any(name.endswith("days in the cure") for name in screens.spoken())
    screens.press("Inject")
    assert not screens.has(RAW)
