"""A second calendar file puts the first one right, in the calendar of a phone."""

from collections.abc import Sequence
from datetime import datetime

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from app.journal.in_calendar import Standing, standing
from app.journal.marks import mark_done, skip, unskip, with_reminder
from app.journal.plan import move
from app.journal.records import Batch, InCalendar
from app.journal.reminders import calendar_file, uid_of
from app.journal.wall import wall_of
from tests.journal.made import BERLIN, NOW, batch, moment, names, step
from tests.journal.phone_calendar import PhoneCalendar

NOW_WALL = wall_of(NOW)


def hand_over(
    phone: PhoneCalendar,
    batches: Sequence[Batch],
    written: tuple[InCalendar, ...],
    every: Sequence[Batch] | None = None,
    lead_min: int = 15,
) -> tuple[InCalendar, ...]:
    file = calendar_file(
        batches,
        NOW,
        written=written,
        every=batches if every is None else every,
        lead_min=lead_min,
    )
    phone.opens(file.text)
    return file.written


def as_planned(*batches: Batch) -> dict[str, tuple[datetime, str, bool]]:
    """What the phone should show."""
    return {
        uid_of(made, one): (
            datetime.fromisoformat(one.due),
            f"{one.title}: {made.name}",
            one.reminder and one.done is None,
        )
        for made in batches
        for one in made.plan
        if not one.skipped and (one.done is not None or not made.finished)
    }


def test_a_second_file_moves_and_does_not_double() -> None:
    phone, made = PhoneCalendar(), batch()
    written = hand_over(phone, [made], ())
    assert phone.events == as_planned(made)
    # Changed at a clock that was set back: the number still grows.
    moved = evolve(
        move(made, step(made, "smoke").id, "2027-03-02T07:00", BERLIN),
        changed=moment("2027-02-19T09:00"),
    )
    written = hand_over(phone, [moved], written)
    assert phone.events == as_planned(moved)
    assert len(phone.events) == len(made.plan)
    again = calendar_file([moved], NOW, written=written, every=[moved])
    assert again.written == written


def test_a_step_left_out_goes_and_comes_back() -> None:
    phone, made = PhoneCalendar(), batch()
    written = hand_over(phone, [made], ())
    without = skip(made, step(made, "dry").id, BERLIN)
    assert standing([without], written, NOW_WALL, 15).to_take_out == 1
    written = hand_over(phone, [without], written)
    assert phone.events == as_planned(without)
    assert standing([without], written, NOW_WALL, 15).right
    back = unskip(without, step(made, "dry").id, BERLIN)
    written = hand_over(phone, [back], written)
    assert phone.events == as_planned(made) == as_planned(back)


def test_a_step_never_put_in_is_not_cancelled() -> None:
    made = batch()
    without = skip(made, step(made, "dry").id, BERLIN)
    file = calendar_file([without], NOW, every=[without])
    assert "CANCELLED" not in file.text
    assert len(file.written) == len(made.plan) - 1


def test_a_batch_taken_out_of_the_journal_goes_from_the_calendar() -> None:
    phone, one, two = PhoneCalendar(), batch("One"), batch("Two", ids=names("t"))
    written = hand_over(phone, [one, two], ())
    assert standing([two], written, NOW_WALL, 15).to_take_out == len(one.plan)
    written = hand_over(phone, [two], written)
    assert phone.events == as_planned(two)
    # Put back, it is there again although nothing in it changed.
    written = hand_over(phone, [one, two], written)
    assert phone.events == as_planned(one, two)


def test_one_plan_alone_leaves_the_other_in_place_but_takes_out_what_is_gone() -> None:
    phone = PhoneCalendar()
    one, two, three = (batch(name, ids=names(name)) for name in ("One", "Two", "Three"))
    written = hand_over(phone, [one, two, three], ())
    moved = move(one, step(one, "smoke").id, "2027-03-02T07:00", BERLIN)
    bare = skip(two, step(two, "rest").id, BERLIN)
    hand_over(phone, [moved], written, every=[moved, bare])
    # Three is gone, and the rest of Two; what else moved in Two is left for a file of its own.
    still = as_planned(two)
    del still[uid_of(two, step(two, "rest"))]
    assert phone.events == as_planned(moved) | still


def test_a_batch_finished_early_rings_no_more() -> None:
    phone, made = PhoneCalendar(), batch()
    written = hand_over(phone, [made], ())
    made = mark_done(made, step(made, "buy").id, NOW, BERLIN)
    over = evolve(made, finished=True)
    assert standing([over], written, NOW_WALL, 15).to_take_out == len(made.plan) - 1
    hand_over(phone, [], written, every=[over])
    assert set(phone.events) == {uid_of(made, step(made, "buy"))}


def test_silence_and_another_lead_are_changes_too() -> None:
    phone, made = PhoneCalendar(), batch()
    written = hand_over(phone, [made], ())
    assert standing([made], written, NOW_WALL, 60).changed == len(made.plan)
    silent = with_reminder(made, step(made, "rub").id, False)
    assert standing([silent], written, NOW_WALL, 15) == Standing(len(made.plan) - 1, 1)
    hand_over(phone, [silent], written)
    assert phone.events == as_planned(silent)


def test_what_is_long_past_is_forgotten_and_an_example_never_written() -> None:
    made = batch()
    written = calendar_file([made], NOW, every=[made]).written
    later = moment("2027-06-01T09:00")
    assert calendar_file([], later, written=written, every=[]).written == ()
    assert standing([], written, "2027-06-01T09:00", 15).right
    example = evolve(made, demonstration=True)
    assert calendar_file([example], NOW, every=[example]).written == ()
    assert standing([example], (), NOW_WALL, 15) == Standing()
    assert standing([made], (), NOW_WALL, 15).missing == len(made.plan)


acts = st.lists(
    st.tuples(st.sampled_from(["move", "skip", "remove", "restore", "mute"]), st.integers(0, 99)),
    max_size=6,
)


@given(st.lists(acts, min_size=1, max_size=4))
@settings(max_examples=25, deadline=None)
def test_whatever_was_done_between_files_the_phone_shows_the_plans(
    rounds: list[list[tuple[str, int]]],
) -> None:
    phone, written = PhoneCalendar(), ()
    journal = {
        one.id: one for one in (batch("One", zone=""), batch("Two", zone="", ids=names("t")))
    }
    removed: dict[str, Batch] = {}
    for acts_ in rounds:
        for what, number in acts_:
            if what == "restore":
                journal |= removed
                removed.clear()
            if not journal:
                continue
            made = list(journal.values())[number % len(journal)]
            one = made.plan[number % len(made.plan)]
            if what == "remove":
                removed[made.id] = journal.pop(made.id)
            elif what == "move":
                journal[made.id] = move(made, one.id, f"2027-03-{number % 28 + 1:02}T10:00")
            elif what == "skip":
                journal[made.id] = (unskip if one.skipped else skip)(made, one.id)
            elif what == "mute":
                journal[made.id] = with_reminder(made, one.id, not one.reminder)
        written = hand_over(phone, tuple(journal.values()), written)
        assert phone.events == as_planned(*journal.values())
        assert standing(journal.values(), written, NOW_WALL, 15).right
