"""The unit the cook weighs in: chosen once, it holds in the mix and in the whole record."""

import asyncio

import pytest
from attrs import evolve
from pytest_mock import MockerFixture

from app.device import Device, memory_device
from app.device.device import MemoryDevice, MemoryFiles
from app.journal.records import Batch, Kit, WeighsIn, Weight
from app.quantities import G_PER_LB
from app.screens.journal.begun_forms import Draft
from app.screens.journal.compare import told
from app.screens.journal.kept_forms import kept_forms
from app.screens.masses import mass_unit, read_mass, typed_mass
from app.screens.mix.kept_draft import EVERY_S, kept_draft
from app.screens.mix.mix_draft import MixDraft
from app.store.shelf import Shelf
from app.store.structuring import document_of
from tests.screens.harness import Screens


def weighed_in(screens: Screens, unit: str, weight: str) -> Batch:
    """A batch begun in the mix with a unit chosen there."""
    screens.go("/mix")
    screens.press(f"Unit: {unit}")
    screens.type("Weight on the label", weight)
    screens.press("Start batch")
    screens.press("Start")
    return screens.bench.shown.batches[0]


def grams_kept(screens: Screens, batch: Batch) -> list[float]:
    bodies = [entry.body for entry in screens.bench.entries(batch.id)]
    return [body.grams for body in bodies if isinstance(body, Weight)]


def left_behind() -> tuple[Device, Shelf]:
    """A device, and its shelf to fill with what an earlier version left there."""
    device = memory_device()
    asyncio.run(device.files.open())
    return device, Shelf.open(device.files)


def on_disk(screens: Screens) -> Shelf:
    return Shelf.open(MemoryFiles.holding(screens.device.files.read_all()))


@pytest.mark.parametrize(
    ("system", "unit", "typed", "trimmed", "says"),
    [
        ("us", "kg", "3.4", "3.1", "3.1 kg"),
        ("us", "g", "3400", "3100", "3.1 kg"),
        ("us", "lb oz", "7 8", "6 12", "6 lb 12 oz"),
        ("metric", "lb", "7.5", "6.75", "6 lb 12 oz"),
    ],
)
def test_the_record_is_weighed_in_the_unit_chosen_in_the_mix(
    screens: Screens, system: str, unit: str, typed: str, trimmed: str, says: str
) -> None:
    screens.do(screens.bench.save_kit, evolve(Kit(), system=system))
    batch = weighed_in(screens, unit, typed)
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.type(f"It weighs ({unit})", trimmed)
    screens.press("Save, just now")
    assert grams_kept(screens, batch) == [pytest.approx(read_mass(trimmed, unit))]
    foreign = " lb" if unit in ("kg", "g") else " kg"
    for place in ("", "/mix", "/store", "/repeat"):
        screens.go(f"/journal/{batch.id}{place}")
        if place == "/repeat":
            screens.type(f"New weight ({unit})", typed)
        # A caution of the trade's names both.
        shown = [one for one in screens.texts() if "a day for each" not in one]
        assert [one for one in shown if foreign in one] == []
    screens.go(f"/journal/{batch.id}/store")
    assert screens.has(f"In all {says}.")
    screens.type(f"This packet weighs ({unit})", trimmed)
    assert screens.has(f", {says}")
    screens.go("/journal")
    assert not [one for one in screens.texts() if foreign in one]


def test_what_is_handed_out_and_compared_is_in_the_unit_chosen(screens: Screens) -> None:
    batch = weighed_in(screens, "kg", "3.4")
    screens.do(screens.bench.add_entry, batch, Weight(3100.0, "trimmed"))
    screens.go(f"/journal/{batch.id}")
    screens.press("Page to print")
    assert isinstance(screens.device, MemoryDevice)
    page = screens.device.handed[-1][2].decode()
    assert "3.1 kg" in page
    assert " lb" not in page
    assert told(3400.0, "mass", screens.bench.kit) == "3.4 kg"
    assert told(57.15, "length", screens.bench.kit) == "2 1/4 in"


def test_a_line_is_put_right_in_the_unit_chosen(screens: Screens) -> None:
    batch = weighed_in(screens, "lb oz", "7 8")
    entry = screens.do(screens.bench.add_entry, batch, Weight(3345.24))
    screens.go(f"/journal/{batch.id}/entry/{entry.id}")
    assert screens.field("It weighs (lb oz)").value == "7 lb 6 oz"


def test_a_batch_opened_in_the_mix_takes_the_unit_along(screens: Screens) -> None:
    batch = weighed_in(screens, "kg", "3.4")
    screens.go(f"/journal/{batch.id}/mix")
    screens.press("Open in Mix")
    assert screens.field("Weight on the label (kg)").value == "3.4"


def test_what_is_bought_is_typed_in_the_unit_chosen(screens: Screens) -> None:
    screens.do(screens.bench.weigh_in, "g")
    screens.go("/mix/buy")
    screens.type("How many eat", "12")
    screens.type("Sliced meat for one (g)", "170")
    screens.press("Mix for")
    weight = screens.field("Weight on the label (g)").value
    assert weight.isdecimal()
    assert 2000 < int(weight) < 8000


def test_kit_and_mix_choose_the_same_unit(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.go("/kit")
    screens.press("Units")
    screens.press("Weights in: kg")
    assert screens.has("kilograms, inches, °F")
    assert screens.unnamed() == []
    assert screens.small_targets() == []
    screens.go("/mix")
    # Chosen elsewhere, it leaves what was typed with what it meant.
    assert screens.field("Weight on the label (kg)").value == "7.4 lb"
    screens.press("Unit: g")
    assert screens.bench.shelf.kit().weighs_in == "g"
    # Beside the field it is the field that gets another unit.
    screens.type("Weight on the label", "3400")
    screens.press("Unit: lb")
    assert screens.field("Weight on the label (lb)").value == "3400"
    assert screens.bench.shelf.kit() == Kit()


@pytest.mark.parametrize(
    ("unit", "system", "then"),
    [("kg", "metric", ""), ("lb oz", "metric", ""), ("kg", "both", "kg"), ("", "both", "")],
)
def test_another_system_brings_its_own_unit(
    screens: Screens, unit: WeighsIn, system: str, then: str
) -> None:
    screens.do(screens.bench.save_kit, Kit(weighs_in=unit))
    screens.go("/kit")
    screens.press("Units")
    screens.press(f"Units: {system.capitalize()}")
    assert screens.bench.shelf.kit() == evolve(Kit(), system=system, weighs_in=then)


def test_a_weight_half_typed_has_its_unit_on_the_disk_before_the_kit_has_another(
    screens: Screens, mocker: MockerFixture
) -> None:
    batch = screens.start_batch()
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.type("It weighs", "7.1")
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "38")
    screens.pass_time(EVERY_S)
    shelf = screens.bench.shelf
    save_kit, before = shelf.save_kit, []

    def look_first(kit: Kit) -> None:
        before.append(kept_forms(on_disk(screens)))
        save_kit(kit)

    mocker.patch.object(shelf, "save_kit", look_first)
    screens.do(screens.bench.weigh_in, "kg")
    (forms,) = before
    assert forms[f"weight {batch.id}"].text == "7.1 lb"
    assert forms[f"temperature {batch.id}"].text == "38"
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.press("Save")
    assert grams_kept(screens, batch) == [pytest.approx(7.1 * G_PER_LB)]


def test_a_kit_read_back_leaves_what_was_typed_with_its_unit(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    shelf = screens.bench.shelf
    # As a copy is put back: past the bench, which is then told to look again.
    screens.do(lambda: (shelf.save_all((), (), (), Kit("metric")), screens.bench.refresh()))
    assert screens.field("Weight on the label (kg)").value == "7.4 lb"


@pytest.mark.parametrize(
    ("choice", "saves"), [("Add it", "save_all"), ("Replace everything with it", "replace_all")]
)
def test_a_copy_read_back_finds_what_was_typed_with_its_unit_on_the_disk(
    screens: Screens, mocker: MockerFixture, choice: str, saves: str
) -> None:
    screens.do(screens.bench.save_kit, Kit("metric"))
    screens.go("/kit")
    screens.press("Copy and restore")
    screens.press("Save everything to a file")
    assert isinstance(screens.device, MemoryDevice)
    name, _, packed = screens.device.handed[-1]
    screens.do(screens.bench.save_kit, Kit())
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    shelf, before = screens.bench.shelf, []
    save = getattr(shelf, saves)

    def look_first(*records: object) -> object:
        before.append(kept_draft(on_disk(screens)).weight)
        return save(*records)

    mocker.patch.object(shelf, saves, look_first)
    screens.go("/kit")
    screens.press("Copy and restore")
    screens.give_files("Read a file back", {name: packed})
    screens.press(choice)
    assert before == ["7.4 lb"]
    assert shelf.kit().system == "metric"


@pytest.mark.parametrize(
    ("kit", "unit", "weight", "shows", "weighs_in"),
    [
        (Kit(), "kg", "3.4", "3.4 kg", "kg"),
        (Kit(), "lb oz", "7 6", "7 lb 6 oz", "lb oz"),
        (Kit(), "lb", "7.4", "7.4", ""),
        (Kit(), "stone", "7.4", "7.4", ""),
        (Kit("metric"), "kg", "3.4", "3.4", ""),
        (Kit(weighs_in="g"), "kg", "3.4", "3.4 kg", "g"),
    ],
)
def test_the_unit_an_older_version_kept_with_the_mix_is_taken_up(
    kit: Kit, unit: str, weight: str, shows: str, weighs_in: str
) -> None:
    device, shelf = left_behind()
    shelf.save_kit(kit)
    shelf.desk.save_draft({**document_of(MixDraft(weight=weight)), "weight_unit": unit})
    shelf.desk.save_begun("weight b1", document_of(Draft("7.1", "trimmed")))
    screens = Screens(device)
    bench = screens.bench
    assert (bench.shown.draft.weight, bench.kit.weighs_in) == (shows, weighs_in)
    # The forms of the record were typed in the unit of the kit, whatever the mix had.
    typed = read_mass(bench.drafts["weight b1"].text, bench.mass_unit)
    assert typed == pytest.approx(read_mass("7.1", mass_unit(kit)))
    # Given up in Kit, it does not come back with the next start.
    screens.do(lambda: bench.save_kit(evolve(bench.kit, weighs_in="")))
    again = Screens(device)
    assert again.bench.kit.weighs_in == ""
    again.close()
    screens.close()


def test_a_kit_that_could_not_be_read_is_not_written_over() -> None:
    device, shelf = left_behind()
    shelf._table("desk").put("kit", {**document_of(Kit()), "theme": "of a later version"})
    shelf.desk.save_draft({**document_of(MixDraft(weight="3.4")), "weight_unit": "kg"})
    before = device.files.read_all()
    screens = Screens(device)
    assert device.files.read_all() == before
    assert screens.bench.shown.draft.weight == "3.4 kg"
    screens.close()


def test_a_draft_of_now_is_opened_as_it_was() -> None:
    shelf = Shelf.open(MemoryFiles.holding(b""))
    shelf.save_kit(Kit(weighs_in="kg"))
    shelf.desk.save_draft(document_of(MixDraft(weight="3.4")))
    assert kept_draft(shelf) == MixDraft(weight="3.4")


@pytest.mark.parametrize("grams", [60.0, 453.5, 453.59237, 907.18, 3345.24, 13607.7])
@pytest.mark.parametrize("unit", ["kg", "g", "lb", "lb oz"])
def test_a_weight_typed_back_is_the_one_that_was_read(grams: float, unit: str) -> None:
    assert read_mass(typed_mass(grams, unit), unit) == pytest.approx(grams, abs=1.5)
