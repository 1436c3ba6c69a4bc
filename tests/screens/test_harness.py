"""The harness mounts, looks, presses and types; without it the screens' tests prove nothing."""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, time

import flet as ft
import pytest

from tests.screens.harness import Mounted, Screens

Mount = Callable[..., Mounted]


@ft.observable
@dataclass
class Crock:
    """A small store for the screens below."""

    salt: str = ""
    stirred: int = 0
    covered: bool = False
    notes: list[str] = field(default_factory=list)


CROCK: ft.ContextProvider[Crock | None] = ft.create_context(None)


def crock_here() -> Crock:
    crock = ft.use_context(CROCK)
    assert crock is not None
    return crock


@ft.component
def Tally() -> ft.Control:
    return ft.Text(f"stirred {crock_here().stirred} times")


@ft.component
def Brine() -> ft.View:
    crock = crock_here()

    def salted(e: ft.Event[ft.TextField]) -> None:
        crock.salt = e.control.value or ""

    def stir() -> None:
        crock.stirred += 1

    async def stir_slowly() -> None:
        await asyncio.sleep(0)
        stir()

    def cover(e: ft.Event[ft.Switch]) -> None:
        crock.covered = bool(e.control.value)

    return ft.View(
        controls=[
            ft.Text("Brine"),
            ft.TextField(
                label="Salt (g)",
                value=crock.salt,
                error=None if crock.salt.isdigit() or not crock.salt else "Not a number.",
                on_change=salted,
            ),
            Tally(),
            ft.Text("under the table", visible=False),
            ft.FilledButton(content="Stir", on_click=stir),
            ft.FilledButton(content="Stir slowly", on_click=stir_slowly),
            ft.FilledButton(content="Taste", disabled=True, on_click=stir),
            ft.IconButton(icon=ft.Icon(ft.Icons.ADD, semantics_label="Once more"), on_click=stir),
            ft.Switch(label="Covered", value=crock.covered, on_change=cover),
            ft.Text("lid on" if crock.covered else "lid off"),
            ft.TextButton(
                content="To the shelf", on_click=lambda: ft.context.page.navigate("/shelf")
            ),
        ],
        navigation_bar=ft.NavigationBar(
            selected_index=0,
            destinations=[
                ft.NavigationBarDestination(icon=ft.Icons.WATER, label="Here"),
                ft.NavigationBarDestination(icon=ft.Icons.SHELVES, label="There"),
            ],
            on_change=lambda e: ft.context.page.navigate(
                ["/brine", "/shelf"][e.control.selected_index]
            ),
        ),
    )


@ft.component
def Shelf() -> ft.View:
    loaded, set_loaded = ft.use_state("not looked yet")

    async def look() -> None:
        await asyncio.sleep(0)
        set_loaded("two jars")

    ft.use_effect(look, [])
    return ft.View(controls=[ft.Text("Shelf"), ft.Text(loaded)])


@ft.component
def Pantry(crock: Crock) -> object:
    routes = [
        ft.Route(path="/brine", component=Brine),
        ft.Route(path="/shelf", component=Shelf),
    ]
    return CROCK(crock, lambda: ft.Router(routes, manage_views=True))


@pytest.fixture
def crock() -> Crock:
    return Crock()


@pytest.fixture
def pantry(mount: Mount, crock: Crock) -> Mounted:
    return mount(Pantry, crock, route="/brine")


def loose(mount: Mount, build: Callable[[], list[ft.Control]]) -> Mounted:
    @ft.component
    def Loose() -> ft.View:
        return ft.View(route="/loose", controls=build())

    return mount(Loose)


def test_words_are_read_in_order_and_hidden_ones_are_not(pantry: Mounted) -> None:
    assert pantry.texts() == [
        "Brine", "Salt (g)", "stirred 0 times", "Stir", "Stir slowly", "Taste",
        "Covered", "lid off", "To the shelf", "Here", "There",
    ]  # fmt: skip


def test_what_is_typed_reaches_the_handler_and_the_screen(pantry: Mounted, crock: Crock) -> None:
    pantry.type("Salt", "12x")
    assert crock.salt == "12x"
    assert pantry.has("Not a number.")
    pantry.type("Salt", "12")
    assert pantry.field("Salt").value == "12"
    assert not pantry.has("Not a number.")


def test_presses_plain_slow_and_on_a_picture(pantry: Mounted) -> None:
    pantry.press("Stir")
    pantry.press("Stir slowly")
    pantry.press("Once more")
    assert pantry.has("stirred 3 times")


def test_only_what_changed_is_sent(pantry: Mounted) -> None:
    before = pantry.client.patches
    pantry.press("Stir")
    # The crock is watched by the screen and by the tally inside it.
    assert 1 <= pantry.client.patches - before <= 2


def test_a_switch_is_turned_once(pantry: Mounted, crock: Crock) -> None:
    pantry.switch("Covered", True)
    pantry.switch("Covered", True)
    assert crock.covered
    assert pantry.has("lid on")
    pantry.press("Covered")
    assert pantry.has("lid off")


@pytest.mark.parametrize("way", ["press", "bar", "address"])
def test_three_ways_to_another_screen(pantry: Mounted, way: str) -> None:
    if way == "address":
        pantry.go("/shelf")
    else:
        pantry.press("To the shelf" if way == "press" else "There")
    assert pantry.route == "/shelf"
    assert pantry.texts() == ["Shelf", "two jars"]


def test_a_change_from_outside_is_drawn(pantry: Mounted, crock: Crock) -> None:
    pantry.do(setattr, crock, "stirred", 7)
    assert pantry.has("stirred 7 times")


def test_what_is_not_there_or_not_to_be_pressed_is_said(pantry: Mounted) -> None:
    with pytest.raises(AssertionError, match=r"Nothing says 'Drain'.*'Stir slowly'"):
        pantry.press("Drain")
    with pytest.raises(AssertionError, match="disabled"):
        pantry.press("Taste")
    with pytest.raises(AssertionError, match="Nothing says 'Sugar'"):
        pantry.type("Sugar", "1")


def test_of_several_alike_one_must_be_meant(mount: Mount) -> None:
    pressed: list[str] = []
    there = loose(
        mount,
        lambda: [
            ft.TextButton(content="Remove", on_click=lambda: pressed.append("first")),
            ft.TextButton(content="Remove", on_click=lambda: pressed.append("second")),
        ],
    )
    with pytest.raises(AssertionError, match="2 things say 'Remove'"):
        there.press("Remove")
    there.press("Remove", at=1)
    assert pressed == ["second"]


def breaks() -> None:
    raise RuntimeError("the crock cracked")


async def breaks_later() -> None:
    await asyncio.sleep(0)
    breaks()


@pytest.mark.parametrize(
    "act",
    [
        breaks,
        breaks_later,
        lambda: asyncio.get_running_loop().create_task(breaks_later()) and None,
        lambda: ft.context.page.run_task(breaks_later) and None,
    ],
    ids=["handler", "slow handler", "task", "task of the page"],
)
def test_an_error_nobody_caught_fails_the_press(mount: Mount, act: Callable[[], object]) -> None:
    there = loose(mount, lambda: [ft.TextButton(content="Go", on_click=act)])
    with pytest.raises(AssertionError, match="the crock cracked"):
        there.press("Go")
    assert there.errors
    there.settle()


@pytest.mark.parametrize("where", ["drawing", "effect"])
def test_an_error_in_drawing_or_after_it_fails_the_press(mount: Mount, where: str) -> None:
    @ft.component
    def Cracks() -> ft.View:
        broken, set_broken = ft.use_state(False)

        def after() -> None:
            if broken:
                breaks()

        ft.use_effect(after, [broken])
        if broken and where == "drawing":
            breaks()
        return ft.View(controls=[ft.TextButton(content="Go", on_click=lambda: set_broken(True))])

    there = mount(Cracks)
    with pytest.raises(AssertionError, match="the crock cracked"):
        there.press("Go")


def test_an_error_in_the_first_drawing_comes_out(mount: Mount) -> None:
    def cracked() -> list[ft.Control]:
        raise RuntimeError("the crock cracked")

    with pytest.raises(RuntimeError, match="the crock cracked"):
        loose(mount, cracked)


def test_a_screen_that_feeds_itself_is_found(mount: Mount) -> None:
    @ft.component
    def Restless() -> ft.View:
        turns, set_turns = ft.use_state(0)
        ft.use_effect(lambda: set_turns(turns + 1), [turns])
        return ft.View(controls=[ft.Text(str(turns))])

    with pytest.raises(AssertionError, match="did not come to rest"):
        mount(Restless)


def test_time_passes_only_when_told(mount: Mount) -> None:
    @ft.component
    def Clock() -> ft.View:
        minutes, set_minutes = ft.use_state(0)

        async def tick() -> None:
            await asyncio.sleep(60)
            set_minutes(minutes + 1)

        ft.use_effect(tick, [minutes])
        return ft.View(controls=[ft.Text(f"{minutes} min")])

    there = mount(Clock)
    assert there.texts() == ["0 min"]
    there.pass_time(59)
    assert there.texts() == ["0 min"]
    there.pass_time(1)
    assert there.texts() == ["1 min"]


def test_a_dialog_covers_the_screen_until_it_is_closed(mount: Mount) -> None:
    closed: list[str] = []

    def ask() -> None:
        page = ft.context.page
        page.show_dialog(
            ft.AlertDialog(
                title="Throw it out?",
                content=ft.Text("The brine is cloudy."),
                on_dismiss=lambda: closed.append("closed"),
                actions=[ft.TextButton(content="Keep it", on_click=lambda: page.pop_dialog())],
            )
        )

    there = loose(mount, lambda: [ft.TextButton(content="Throw out", on_click=ask)])
    there.press("Throw out")
    assert there.texts() == ["Throw out", "Throw it out?", "The brine is cloudy.", "Keep it"]
    with pytest.raises(AssertionError, match="Nothing says"):
        there.press("Throw out")
    there.press("Keep it")
    assert there.texts() == ["Throw out"]
    assert closed == ["closed"]


def test_a_day_and_then_a_time_are_picked(mount: Mount) -> None:
    picked: list[object] = []
    passed_over: list[str] = []

    def ask_time(e: ft.Event[ft.DatePicker]) -> None:
        picked.append(e.control.value)
        ft.context.page.show_dialog(
            ft.TimePicker(on_change=lambda t: picked.append(t.control.value))
        )

    def ask_day() -> None:
        ft.context.page.show_dialog(
            ft.DatePicker(on_change=ask_time, on_dismiss=lambda: passed_over.append("day"))
        )

    there = loose(mount, lambda: [ft.TextButton(content="When", on_click=ask_day)])
    with pytest.raises(AssertionError, match="no day or time chooser"):
        there.pick(time(18))
    there.press("When")
    there.pick(date(2027, 3, 6))
    there.pick(time(18))
    assert picked == [date(2027, 3, 6), time(18)]
    assert passed_over == []
    assert there.dialogs() == []


def test_a_client_answers_what_it_is_asked(mount: Mount) -> None:
    heard: list[str | None] = []

    async def paste() -> None:
        heard.append(await ft.Clipboard().get())

    @ft.component
    def Paste() -> ft.View:
        return ft.View(controls=[ft.TextButton(content="Paste", on_click=paste)])

    there = mount(Paste, answers={"get": "7.4 lb"})
    there.press("Paste")
    assert heard == ["7.4 lb"]


def test_files_are_given(mount: Mount) -> None:
    taken: list[tuple[str, bytes | None]] = []

    @ft.component
    def Album() -> ft.View:
        picker = ft.use_memo(
            lambda: ft.FilePicker(
                on_result=lambda e: taken.extend((f.name, f.bytes) for f in e.files)
            ),
            [],
        )
        return ft.View(
            controls=[ft.TextButton(content="Photo", action=ft.PickFiles(picker, with_data=True))]
        )

    mount(Album).give_files("Photo", {"bark.jpg": b"\xff\xd8"})
    assert taken == [("bark.jpg", b"\xff\xd8")]


def test_the_program_begins(screens: Screens) -> None:
    assert screens.has("Nothing is curing.")
    screens.go("/kit")
    assert screens.route == "/kit"
    assert screens.has("Kit")


def test_a_fault_the_program_survives_fails_a_test_all_the_same(screens: Screens) -> None:
    with pytest.raises(AssertionError, match="the crock cracked"):
        screens.do(screens.session.error, "the crock cracked")
    # What was said may hold what someone typed; the kind and the place are kept.
    assert screens.bench.faults == ("fault: place not told",)
