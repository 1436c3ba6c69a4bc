"""A fault of the program's own: told, and never the end of the program."""

import pytest
from pytest_mock import MockerFixture

from tests.screens.harness import Screens


def test_a_screen_that_cannot_be_drawn_is_left_for_kit(
    screens: Screens, mocker: MockerFixture
) -> None:
    batch = screens.start_batch()
    screens.go("/journal")
    mocker.patch.object(
        type(screens.bench), "entries", side_effect=RuntimeError("broken on purpose")
    )
    screens.go(f"/journal/{batch.id}")
    mocker.stopall()
    screens.settle()
    assert screens.route == "/kit"
    assert screens.has("What was saved is safe")
    screens.press("Units")
    assert screens.has("Metric"), "the program goes on being drawn"


def test_an_act_that_fails_keeps_the_screen(screens: Screens, mocker: MockerFixture) -> None:
    screens.go("/kit")
    screens.press("Units")
    mocker.patch.object(type(screens.bench), "save_kit", side_effect=RuntimeError("on purpose"))
    with pytest.raises(AssertionError, match="on purpose"):
        screens.press("Units: Metric")
    assert screens.has("What was saved is safe")
    assert screens.has("Kit")


@pytest.mark.parametrize("address", ["/mix/start/add/weight", "/nothing", "/journal/none/of/it"])
def test_an_address_that_is_none_leads_back(screens: Screens, address: str) -> None:
    screens.go("/mix")
    screens.go(address)
    assert screens.has("There is no such screen.")
    screens.press("To what is due")
    assert screens.route == "/"
    assert screens.has("Nothing is curing.")
