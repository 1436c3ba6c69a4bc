"""What is typed into the mix outlives a page that is dropped."""

import pytest
from attrs import evolve
from pytest_mock import MockerFixture

from app.cure.blends import Blend
from app.device.device import MemoryFiles
from app.screens.mix.kept_draft import EVERY_S, kept_draft
from app.screens.mix.mix_draft import MixDraft
from app.store.shelf import Shelf
from app.store.structuring import document_of
from tests.screens.harness import Screens


def opened_again(screens: Screens) -> Shelf:
    return Shelf.open(MemoryFiles.holding(screens.device.files.read_all()))


def test_a_mix_half_typed_is_there_after_the_page_was_dropped(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "8.2")
    screens.press("Salt, sugar, nitrite")
    screens.type("Salt", "2")
    screens.pass_time(EVERY_S)
    again = kept_draft(opened_again(screens))
    assert (again.weight, again.salt) == ("8.2", "2")
    assert again == screens.bench.shown.draft


def test_a_choice_is_kept_at_once_and_keys_a_moment_later(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "8.2")
    assert kept_draft(opened_again(screens)) == MixDraft()
    screens.press("Method")
    screens.press("Method: Dry, in a bag")
    assert kept_draft(opened_again(screens)).method == "dry"
    assert kept_draft(opened_again(screens)).weight == "8.2"


def test_a_press_that_changes_nothing_writes_nothing(screens: Screens) -> None:
    screens.go("/mix")
    screens.press("Unit: kg")
    before = screens.device.files.read_all()
    screens.press("Method")
    assert screens.device.files.read_all() == before


def test_an_untouched_mix_writes_nothing(screens: Screens) -> None:
    before = screens.device.files.read_all()
    screens.go("/mix")
    screens.pass_time(3 * EVERY_S)
    assert screens.device.files.read_all() == before


def test_a_mix_emptied_again_is_forgotten(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "8.2")
    screens.pass_time(EVERY_S)
    screens.type("Weight on the label", "")
    screens.pass_time(EVERY_S)
    assert kept_draft(opened_again(screens)) == MixDraft()


@pytest.mark.parametrize("said", [{}, {"weight": 3}, {"later": "soon"}, {"schema": "x", "rub": 1}])
def test_what_cannot_be_read_is_an_empty_mix(said: dict[str, object]) -> None:
    shelf = Shelf.open(MemoryFiles.holding(b""))
    shelf.desk.save_draft(said)
    assert isinstance(kept_draft(shelf), MixDraft)


def test_every_part_of_it_is_kept() -> None:
    shelf = Shelf.open(MemoryFiles.holding(b""))
    draft = evolve(MixDraft(), weight="3,2 kg", rub=Blend("Mine", "100_cm2", ()), spices=None)
    draft = evolve(draft, later=evolve(draft.later, servings="6"))
    draft = evolve(draft, recipe=evolve(draft.recipe, thickness="60"))
    shelf.desk.save_draft(document_of(draft))
    assert kept_draft(shelf) == draft


def test_a_file_that_takes_nothing_for_once_stops_neither_the_hand_nor_the_keeping(
    screens: Screens, mocker: MockerFixture
) -> None:
    screens.go("/mix")
    append = mocker.patch.object(screens.device.files, "append", side_effect=OSError("Refused."))
    screens.type("Weight on the label", "8.2")
    screens.pass_time(EVERY_S)
    screens.press("Method")
    screens.press("Method: Dry, in a bag")
    assert append.called
    mocker.stopall()
    screens.type("Weight on the label", "8.3")
    assert kept_draft(opened_again(screens)) == MixDraft()
    screens.pass_time(EVERY_S)
    assert kept_draft(opened_again(screens)).weight == "8.3"
    assert screens.errors == []
