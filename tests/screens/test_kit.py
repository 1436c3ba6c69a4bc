"""Kit: what is set once changes what follows; a copy goes out and comes back."""

from io import BytesIO
from zipfile import ZipFile

import pytest

from app.device import MemoryDevice
from app.journal.records import Kit
from tests.screens.harness import Screens


def test_units_set_what_a_bare_number_means(screens: Screens) -> None:
    screens.go("/kit")
    screens.press("Units")
    screens.press("Units: Metric")
    screens.go("/mix")
    screens.type("Weight on the label (kg)", "3.2")
    assert screens.has("3.2 kg") or screens.bench.shown.draft.weight == "3.2"
    assert screens.bench.shelf.kit().system == "metric"


def test_rules_change_the_legal_most(screens: Screens) -> None:
    screens.go("/kit")
    screens.press("Nitrite rules")
    screens.press("Rules: European Union, to 8 October 2025")
    screens.go("/mix")
    screens.type("Weight on the label", "7")
    assert screens.has("150")
    assert screens.bench.shelf.kit().rules == "eu_before_2025_10"


def test_an_own_limit_above_the_law_is_refused_with_a_sentence(screens: Screens) -> None:
    screens.go("/kit")
    screens.press("Nitrite rules")
    screens.press("Rules: Own limit")
    screens.type("Own limit", "900")
    assert screens.has("at most 200 ppm")
    assert screens.bench.shelf.kit().own_limit_ppm == 150.0


def test_cure_no_2_is_refused_and_what_was_typed_stays(screens: Screens) -> None:
    screens.go("/kit/salt")
    screens.type("Name on the label", "Dry sausage cure")
    screens.type("Sodium nitrite", "6.25")
    screens.type("Nitrate", "4")
    screens.press("Save")
    assert screens.has("no. 2")
    assert screens.field("Name on the label").value == "Dry sausage cure"
    assert screens.bench.shelf.kit().salts == ()


def test_a_salt_of_ones_own_can_be_chosen_in_the_mix(screens: Screens) -> None:
    screens.go("/kit/salt")
    screens.type("Name on the label", "Corner shop cure")
    screens.type("Sodium nitrite", "5")
    screens.press("Save")
    assert screens.route == "/kit"
    assert [salt.name for salt in screens.bench.shelf.kit().salts] == ["Corner shop cure"]


def test_a_container_needs_its_sizes(screens: Screens) -> None:
    screens.go("/kit/container")
    screens.type("Name", "blue box")
    screens.press("Save")
    assert screens.bench.shelf.kit().containers == ()
    for side in ("Length inside", "Width inside", "Height inside"):
        screens.type(side, "12")
    screens.press("Save")
    (box,) = screens.bench.shelf.kit().containers
    assert box.name == "blue box"
    assert box.length_mm == pytest.approx(304.8)  # 12 in of 25.4 mm


def test_ice_water_puts_the_thermometer_right(screens: Screens) -> None:
    screens.go("/kit")
    screens.press("Thermometer")
    screens.type("It reads", "34")
    screens.press("Keep")
    assert screens.bench.shelf.kit().thermometer_offset_c == pytest.approx(2 / 1.8)


def test_a_copy_can_be_read_without_the_program_and_comes_back(screens: Screens) -> None:
    screens.start_batch()
    screens.go("/kit")
    screens.press("Copy and restore")
    screens.press("Save everything to a file")
    device = screens.device
    assert isinstance(device, MemoryDevice)
    name, mime, packed = device.handed[-1]
    assert name.endswith(".zip")
    assert mime == "application/zip"
    with ZipFile(BytesIO(packed)) as archive:
        assert "manifest.json" in archive.namelist()
    kept = screens.bench.shelf.batches()
    screens.bench.shelf.delete_batch(kept[0].id)
    screens.do(screens.bench.refresh)
    assert screens.bench.shown.batches == ()
    screens.give_files("Read a file back", {name: packed})
    screens.press("Add it")
    assert [batch.id for batch in screens.bench.shown.batches] == [kept[0].id]


def test_a_file_that_is_no_copy_changes_nothing(screens: Screens) -> None:
    screens.go("/kit")
    screens.press("Copy and restore")
    screens.give_files("Read a file back", {"letter.zip": b"Dear aunt"})
    assert screens.has("Nothing was changed.")
    assert screens.bench.shelf.kit() == Kit()


def test_kit_can_be_read_out_and_pressed_with_wet_fingers(screens: Screens) -> None:
    screens.go("/kit")
    for part in (
        "Units",
        "Look",
        "Nitrite rules",
        "Curing salts",
        "Containers",
        "Thermometer",
        "What is stored",
        "Copy and restore",
        "About",
    ):
        screens.press(part)
        assert screens.unnamed() == []
        assert screens.small_targets() == []


def test_a_table_of_all_batches_is_handed_out(screens: Screens) -> None:
    screens.start_batch()
    screens.go("/kit")
    screens.press("Copy and restore")
    screens.press("A table of all batches (CSV)")
    device = screens.device
    assert isinstance(device, MemoryDevice)
    name, mime, sheet = device.handed[-1]
    assert name.endswith(".csv")
    assert mime == "text/csv"
    assert "Brisket, whole" in sheet.decode("utf-8-sig")


def test_what_was_removed_before_this_start_is_forgotten(screens: Screens) -> None:
    screens.start_batch()
    (batch,) = screens.bench.shown.batches
    screens.bench.shelf.delete_batch(batch.id)
    screens.do(screens.bench.clear_out)
    screens.bench.shelf.restore_batch(batch.id)
    assert screens.bench.shelf.batches() == ()


def test_a_batch_becomes_a_page_that_stands_by_itself(screens: Screens) -> None:
    screens.start_batch()
    (batch,) = screens.bench.shown.batches
    screens.go(f"/journal/{batch.id}")
    screens.press("Page to print")
    device = screens.device
    assert isinstance(device, MemoryDevice)
    name, mime, page = device.handed[-1]
    assert (name, mime) == ("Brisket whole 7 lb 6 oz.html", "text/html")
    assert "default-src 'none'" in page.decode()
    assert "Put the meat in the cure" in page.decode()


def test_kits_own_words_follow_the_units(screens: Screens) -> None:
    screens.go("/kit/container")
    screens.type("Name", "blue box")
    for side in ("Length inside", "Width inside", "Height inside"):
        screens.type(side, "12")
    screens.press("Save")
    screens.press("Thermometer")
    screens.type("It reads", "34")
    assert screens.has("stir a minute, and hold the tip in the middle. It should read 32 °F.")
    screens.press("Keep")
    assert screens.has("reads 2.0 °F too high; put right")
    screens.press("Containers")
    assert screens.has("12 in × 12 in × 12 in")
    screens.press("Units")
    screens.press("Units: Metric")
    assert screens.has("reads 1.1 °C too high; put right")
    screens.press("Containers")
    assert screens.has("30.5 cm × 30.5 cm × 30.5 cm")
    screens.press("Thermometer")
    assert screens.has("It should read 0 °C.")


def test_a_packets_label_has_its_weight_in_the_cooks_units(screens: Screens) -> None:
    screens.start_batch()
    (batch,) = screens.bench.shown.batches
    screens.go(f"/journal/{batch.id}/store")
    screens.press("It is: Cooked")
    screens.type("This packet weighs", "2")
    assert screens.has("cooked, 2 lb")
    assert screens.has("Reheat to 165 °F (74 °C).")
