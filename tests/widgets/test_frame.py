"""Every screen has a title, a way back, its places, and one thing to do at the thumb."""

import asyncio
from collections.abc import Callable, Iterator

import flet as ft
import pytest

from app.widgets.frame import PLACES, STRIP, Act, quiet_button, screen
from tests.screens import harness
from tests.screens.harness import Mounted

Draw = Callable[[], ft.View]


@pytest.fixture
def framed() -> Iterator[Callable[[Draw], Mounted]]:
    """A drawn screen at /kit, with every other place behind its own address."""
    mounted: list[Mounted] = []

    def keep(draw: Draw, strip: Callable[[], ft.Control | None] = lambda: None) -> Mounted:
        @ft.component
        def Framed() -> ft.View:
            return draw()

        @ft.component
        def Elsewhere() -> ft.View:
            return ft.View(controls=[ft.Text("elsewhere")])

        routes = [ft.Route(path="/kit", component=Framed)] + [
            ft.Route(path=route, component=Elsewhere) for route, *_ in PLACES if route != "/kit"
        ]

        @ft.component
        def Root() -> object:
            return STRIP(strip, lambda: ft.Router(routes, manage_views=True))

        mounted.append(harness.mount(Root, route="/kit"))
        return mounted[-1]

    yield keep
    for one in mounted:
        one.close()


def test_title_body_acts_and_places_in_this_order(framed: Callable[[Draw], Mounted]) -> None:
    there = framed(
        lambda: screen(
            "Kit", [ft.Text("scales")], place="/kit", main=Act("Save"), side=Act("Leave")
        )
    )
    assert there.texts() == ["Kit", "scales", "Leave", "Save", "Now", "Mix", "Journal", "Kit"]
    assert there.control("Kit", ft.Semantics).heading_level == 1
    assert there.unnamed() == []
    assert there.small_targets() == []


def test_the_place_it_belongs_to_is_marked(framed: Callable[[Draw], Mounted]) -> None:
    there = framed(lambda: screen("Kit", [], place="/kit"))
    bar = there.control("", ft.NavigationBar)
    assert bar.destinations[bar.selected_index].label == "Kit"


@pytest.mark.parametrize(("route", "name"), [(p[0], p[1]) for p in PLACES if p[0] != "/kit"])
def test_each_place_can_be_gone_to(
    framed: Callable[[Draw], Mounted], route: str, name: str
) -> None:
    there = framed(lambda: screen("Kit", [], place="/kit"))
    there.press(name)
    assert there.route == route
    assert there.texts() == ["elsewhere"]


def test_back_leads_where_it_was_opened_from(framed: Callable[[Draw], Mounted]) -> None:
    there = framed(lambda: screen("Salt", [], place="/kit", back="/mix"))
    there.press("Back")
    assert there.route == "/mix"


def test_without_a_way_back_there_is_no_button_for_it(framed: Callable[[Draw], Mounted]) -> None:
    there = framed(lambda: screen("Kit", [], place="/kit"))
    with pytest.raises(AssertionError, match="Nothing says 'Back'"):
        there.press("Back")


def test_acts_may_take_their_time(framed: Callable[[Draw], Mounted]) -> None:
    done: list[str] = []

    async def save() -> None:
        await asyncio.sleep(0)
        done.append("saved")

    there = framed(
        lambda: screen(
            "Kit",
            [quiet_button(Act("Clear", lambda: done.append("cleared")))],
            place="/kit",
            main=Act("Save", save),
            side=Act("Leave", lambda: done.append("left")),
        )
    )
    for words in ("Save", "Leave", "Clear"):
        there.press(words)
    assert done == ["saved", "left", "cleared"]


def test_what_cannot_be_done_yet_cannot_be_pressed(framed: Callable[[Draw], Mounted]) -> None:
    there = framed(
        lambda: screen("Kit", [], place="/kit", main=Act("Save", lambda: None, enabled=False))
    )
    with pytest.raises(AssertionError, match="disabled"):
        there.press("Save")


def test_what_was_done_is_said_above_the_acts(framed: Callable[..., Mounted]) -> None:
    there = framed(
        lambda: screen("Kit", [], place="/kit", main=Act("Save")), lambda: ft.Text("Saved.")
    )
    assert there.texts()[:3] == ["Kit", "Saved.", "Save"]
