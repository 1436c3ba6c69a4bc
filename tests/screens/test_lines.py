"""Every kind of line in the record: put right, taken out, put back; what cannot be is said."""

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.device import FixedClock
from app.journal.plan import new_batch
from app.journal.records import (
    Batch,
    Cost,
    Decision,
    EntryBody,
    Feel,
    Note,
    PhotoTaken,
    SliceOutcome,
    Temperature,
    Weight,
)
from app.screens.bench import new_id
from tests.screens.harness import Screens

KINDS: list[tuple[EntryBody, str, str, EntryBody]] = [
    (Temperature(60.0, "flat"), "It reads", "150", Temperature(pytest.approx(65.556, abs=0.01))),  # type: ignore[arg-type]
    (Weight(3000.0, "green"), "It weighs", "3.2 kg", Weight(3200.0, "green")),
    (Note("a windy day"), "Note", "A calm day", Note("A calm day")),
    (Cost(30.0, "$", "brisket"), "Paid", "31.50", Cost(31.5, "$", "brisket")),
    (Feel("firm", "point", 90.0), "It read", "", Feel("firm", "point", None)),
    (Decision("wrapped", 120.0, 70.0), "Core", "", Decision("wrapped", 120.0, None)),
    (PhotoTaken("p1", "bark"), "Words under the photo", "The bark", PhotoTaken("p1", "The bark")),
]


def begun(screens: Screens, **changes: object) -> Batch:
    made = new_batch(
        MixRequest(3200.0), "Brisket flat", "Sunday flat", screens.bench.now(), ids=new_id
    )
    made = evolve(made, **changes)  # type: ignore[arg-type]
    screens.do(screens.bench.save_batch, made)
    return made


def bodies(screens: Screens, batch: Batch) -> list[EntryBody]:
    return [entry.body for entry in screens.bench.entries(batch.id)]


@pytest.mark.parametrize(("body", "field", "text", "after"), KINDS, ids=lambda one: str(one)[:12])
def test_each_kind_is_put_right_and_taken_back(
    screens: Screens, body: EntryBody, field: str, text: str, after: EntryBody
) -> None:
    batch = begun(screens)
    entry = screens.do(screens.bench.add_entry, batch, body)
    screens.go(f"/journal/{batch.id}/entry/{entry.id}")
    assert screens.has("Put right")
    screens.type(field, text)
    screens.press("Save")
    assert bodies(screens, batch) == [after]
    assert screens.has("Put right. ")
    screens.press("Undo")
    assert bodies(screens, batch) == [body]


@pytest.mark.parametrize("body", [one[0] for one in KINDS], ids=lambda one: type(one).__name__)
def test_each_kind_is_taken_out_and_put_back(screens: Screens, body: EntryBody) -> None:
    batch = begun(screens)
    entry = screens.do(screens.bench.add_entry, batch, body)
    screens.go(f"/journal/{batch.id}/entry/{entry.id}")
    screens.press("Remove")
    assert bodies(screens, batch) == []
    assert screens.route == f"/journal/{batch.id}"
    assert screens.has("Removed. ")
    screens.press("Undo")
    assert bodies(screens, batch) == [body]
    kept = screens.bench.entries(batch.id)[0]
    assert (kept.id, kept.at) == (entry.id, entry.at)


@pytest.mark.parametrize(
    ("kind", "field", "text", "said"),
    [
        ("temperature", "It reads", "hot", "hot"),
        ("temperature", "It reads", "", "temperature"),
        ("temperature", "It reads", "1500", "Is the unit right?"),
        ("weight", "It weighs", "-3", ""),
        ("weight", "It weighs", "0", "above 0"),
        ("cost", "Paid", "lots", "not an amount of money"),
        ("cost", "Paid", "-4", "from 0 to 100,000"),
        ("note", "Note", "   ", "The note is empty"),
    ],
)
def test_what_cannot_be_is_said_at_its_field_and_stays_as_typed(
    screens: Screens, kind: str, field: str, text: str, said: str
) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/{kind}")
    screens.type(field, text)
    screens.press("Save, just now")
    assert screens.field(field).error
    assert said in str(screens.field(field).error)
    assert screens.field(field).value == text
    assert bodies(screens, batch) == []


def test_with_the_clock_set_back_a_line_is_still_written_and_nothing_is_lost(
    screens: Screens,
) -> None:
    batch = begun(screens)
    screens.do(screens.bench.add_entry, batch, Temperature(60.0))
    device_clock = screens.device.clock
    assert isinstance(device_clock, FixedClock)
    device_clock.utc_s -= 86400.0
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "150")
    screens.press("Save, just now")
    assert len(bodies(screens, batch)) == 2
    screens.go(f"/journal/{batch.id}/heat")
    assert screens.has("One line of this record lies ahead")
    assert screens.has("Nothing is lost")
    # A line of the time that is now ahead can still be put right in what it says.
    ahead = max(screens.bench.entries(batch.id), key=lambda one: one.at.utc_s)
    screens.go(f"/journal/{batch.id}/entry/{ahead.id}")
    screens.type("It reads", "152")
    screens.press("Save")
    after = max(screens.bench.entries(batch.id), key=lambda one: one.at.utc_s)
    assert after.at == ahead.at
    assert isinstance(after.body, Temperature)
    assert after.body.celsius == pytest.approx(66.667, abs=0.01)


@pytest.mark.parametrize("part", ["", "/heat", "/wrap", "/probe", "/slice", "/compare", "/repeat"])
def test_a_batch_without_weights_or_plan_opens_everywhere(screens: Screens, part: str) -> None:
    begun(screens)
    bare = begun(
        screens,
        name="Bare one",
        plan=(),
        outcome=SliceOutcome(at=screens.bench.now(), salt=5, grey_percent=40.0),
    )
    screens.go(f"/journal/{bare.id}{part}")
    assert screens.unnamed() == []
    screens.go("/journal")
    screens.press("Yield and cost over time")
    assert screens.has("No weight or cost is recorded in these batches yet.")
