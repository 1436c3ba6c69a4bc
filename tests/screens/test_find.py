"""Back in the chair: batches found again, set side by side, and their yield and cost over time."""

from datetime import UTC, datetime, timedelta

from attrs import evolve

from app.cure.request import MixRequest
from app.journal.demonstration import demonstration
from app.journal.plan import new_batch
from app.journal.records import Batch, Cost, EntryBody, Moment, Note, SliceOutcome, Weight
from app.screens.bench import new_id
from app.screens.journal.journal import DRAWN
from tests.screens.harness import Screens

DAY = 86400.0


def kept(
    screens: Screens, name: str, *bodies: EntryBody, days_ago: float = 0.0, **changes: object
) -> Batch:
    """A batch begun so long ago, with these lines in its record."""
    now = screens.bench.now()
    at = Moment(now.utc_s - DAY * days_ago, now.offset_min)
    made = new_batch(MixRequest(3200.0), "Brisket flat", name, at, ids=new_id)
    made = evolve(made, **changes)  # type: ignore[arg-type]
    screens.do(screens.bench.save_batch, made)
    for body in bodies:
        screens.do(lambda b=body: screens.bench.add_entry(made, b, ago_s=DAY * days_ago))
    return made


def rated(rating: int) -> SliceOutcome:
    return SliceOutcome(at=Moment(1.8e9), rating=rating)


def cards(screens: Screens, *names: str) -> list[str]:
    """These names in the order they stand in."""
    return [word for word in screens.texts() if word in names]


def test_words_of_a_note_and_the_month_find_a_batch(screens: Screens) -> None:
    kept(screens, "Windy one", Note("The wind turned at noon"))
    kept(screens, "Calm one", days_ago=400)
    screens.go("/journal")
    screens.type("Find", "wind noon")
    assert screens.has("Windy one")
    assert not screens.has("Calm one")
    assert screens.has("1 of 2 fits.")
    screens.type("Find", "nothing like it")
    assert screens.has("None of 2 fit.")
    assert screens.has("Try fewer words")


def test_of_many_batches_the_newest_are_drawn_and_more_when_asked(screens: Screens) -> None:
    names = [f"Piece {number}." for number in range(2 * DRAWN + 5)]
    for number, name in enumerate(names):
        kept(screens, name, days_ago=number)
    screens.go("/journal")
    assert cards(screens, *names) == names[:DRAWN]
    screens.press(f"Show {DRAWN} more of {DRAWN + 5}")
    assert cards(screens, *names) == names[: 2 * DRAWN]
    screens.press("Show the other 5")
    assert cards(screens, *names) == names
    assert not screens.has("Show the other")
    screens.type("Find", names[-1].rstrip("."))
    assert cards(screens, *names) == [names[-1]]


def test_what_was_looked_for_is_still_there_after_a_look_at_a_batch(screens: Screens) -> None:
    one = kept(screens, "Windy one", Note("The wind turned at noon"))
    kept(screens, "Calm one")
    screens.go("/journal")
    screens.type("Find", "wind")
    screens.go(f"/journal/{one.id}")
    screens.press("Back")
    assert screens.field("Find").value == "wind"
    assert not screens.has("Calm one")
    screens.press("Show all")
    assert screens.has("Calm one")
    assert screens.field("Find").value == ""


def test_it_is_filtered_and_ordered_by_everything_asked_for(screens: Screens) -> None:
    kept(screens, "Old good", days_ago=40, outcome=rated(5))
    kept(screens, "New poor", outcome=rated(2), cut="Beef round")
    kept(screens, "Dry one", days_ago=10, mix=MixRequest(2000.0, method="dry"), finished=True)
    names = ("Old good", "New poor", "Dry one")
    screens.go("/journal")
    assert cards(screens, *names) == ["New poor", "Dry one", "Old good"]
    screens.press("Filter and order")
    for order, expected in (
        ("Best", ["Old good", "New poor", "Dry one"]),
        ("Oldest", ["Old good", "Dry one", "New poor"]),
        ("Cut", ["New poor", "Dry one", "Old good"]),
        ("Method", ["Dry one", "New poor", "Old good"]),
    ):
        screens.press(f"Order: {order}")
        assert cards(screens, *names) == expected, order
    for label, option, expected in (
        ("Cut", "Beef round", ["New poor"]),
        ("Method", "Dry, in a bag", ["Dry one"]),
        ("Verdict", "4 or more", ["Old good"]),
        ("State", "Finished", ["Dry one"]),
    ):
        screens.press(f"{label}: {option}")
        assert cards(screens, *names) == expected, label
        screens.press(f"{label}: Any")
    screens.press("From: any day")
    wall = screens.bench.now()
    day = datetime.fromtimestamp(wall.utc_s, UTC).replace(tzinfo=None) - timedelta(days=20)
    screens.pick(day)
    assert set(cards(screens, *names)) == {"New poor", "Dry one"}
    screens.press("Take the filter off")
    assert len(cards(screens, *names)) == 3


def test_yield_and_cost_over_time_are_a_chart_and_words(screens: Screens) -> None:
    kept(screens, "First", Weight(3000), Weight(2100, "rested"), Cost(30, "$"), days_ago=30)
    kept(screens, "Second", Weight(3000), Weight(1800, "rested"), Cost(36, "$"))
    kept(screens, "Unweighed", days_ago=3)
    screens.go("/journal")
    assert screens.has("3 batches")
    screens.press("Yield and cost over time")
    said = screens.spoken()
    assert "Yield of 2 batches, from 60 % to 70 %: 1 First 70 %, 2 Second 60 %." in said
    assert (
        "Cost a serving of 2 batches, from $2.14 to $3.00: 1 First $2.14, 2 Second $3.00." in said
    )
    assert screens.has("1  First")
    assert not screens.has("  Unweighed")
    assert screens.unnamed() == []


def test_many_batches_are_drawn_all_and_told_by_their_ends(screens: Screens) -> None:
    for number in range(33):
        kept(screens, f"No {number}", Weight(3000), Weight(2000 + number, "rested"))
    screens.go("/journal")
    screens.press("Yield and cost over time")
    assert screens.has("The latest 30; 3 before them are on the chart.")
    (told,) = [word for word in screens.spoken() if word.startswith("Yield of 33 batches")]
    assert told.count(" No ") == 2


def test_one_batch_is_told_without_a_chart(screens: Screens) -> None:
    kept(screens, "Only one", Weight(3000), Weight(2100, "rested"))
    screens.go("/journal")
    assert screens.has("one batch")
    screens.press("Yield and cost over time")
    assert screens.has("A chart begins with the second batch")
    assert screens.has("70 %")


def test_side_by_side_what_differs_then_what_is_not_known_of_all(screens: Screens) -> None:
    one = kept(screens, "One", Cost(30, "$"), outcome=rated(5))
    kept(screens, "Two", Cost(41.5, "€"), days_ago=3, thickness_mm=60.0)
    screens.go(f"/journal/{one.id}/compare")
    assert screens.has("$30.00")
    assert screens.has("€41.50")
    assert not screens.has("Verdict"), "known of one alone, so folded away"
    assert not screens.has("Method")
    screens.press("Not known of all")
    assert screens.has("Verdict")
    assert screens.has("not known")
    screens.press("The same in all")
    assert screens.has("Method")
    assert not screens.has("Verdict")


def test_the_example_is_removed_from_its_own_page_and_nothing_else(screens: Screens) -> None:
    own = kept(screens, "Own one")
    example = demonstration(screens.bench.now())
    screens.do(screens.bench.shelf.save_all, example.batches, example.entries, example.photos)
    screens.do(screens.bench.refresh)
    screens.go(f"/journal/{example.batches[0].id}")
    assert screens.has("An invented example, not a batch of yours.")
    screens.press("Remove the example")
    assert [one.id for one in screens.bench.shown.batches] == [own.id]
    assert screens.route == "/journal"


def test_the_example_can_be_loaded_beside_own_batches_and_taken_out(screens: Screens) -> None:
    own = kept(screens, "My own")
    screens.go("/journal")
    screens.press("Load the example")
    assert len(screens.bench.shown.batches) == 3
    screens.press("Remove the example")
    assert screens.bench.shown.batches == (own,)
    screens.press("Undo")
    assert len(screens.bench.shown.batches) == 3
    assert not screens.has("Load the example")
    screens.go("/")
    assert not screens.has("Load the example")
