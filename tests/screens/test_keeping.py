"""How safe things are: what is said of room, promise, copies and pictures, and when."""

import logging
import sys
from typing import Any

import pytest
from attrs import evolve

from app.device import memory_device
from app.device.desktop_images import DesktopImages
from app.device.device import FixedClock, MemoryDevice, MemoryFiles
from app.device.parts import Callback, Health, HeldElsewhere, NewerJournal
from app.device.slots import MemorySlot
from app.journal.records import Kit
from app.screens.kit.faults import WithoutWords, without_words
from app.screens.kit.keeping import (
    DAY_S,
    REMIND_AFTER_DAYS,
    REMIND_SOON_DAYS,
    Keeping,
    copy_said,
    full_said,
    offline_said,
    room_said,
    update_said,
)
from app.store.shelf import Shelf
from tests.screens.harness import Screens
from tests.store.made import batch, moment

OWN = (batch("b0"),)


def days_on(days: float) -> Any:
    return moment(days * DAY_S)


def said_after(days: float, health: Health | None = None, **kit: Any) -> str:
    return copy_said(Kit(**kit), OWN, days_on(days), health or Health())


def test_a_first_copy_is_asked_for_after_a_month_and_sooner_where_the_browser_clears() -> None:
    assert said_after(REMIND_AFTER_DAYS - 0.1) == ""
    assert said_after(REMIND_AFTER_DAYS).startswith("No copy of your journal was saved yet.")
    clears = Health(persisted=False, clears_unused=True)
    assert said_after(REMIND_SOON_DAYS - 0.1, clears) == ""
    assert "home screen" in said_after(REMIND_SOON_DAYS, clears)
    kept = evolve(clears, persisted=True)
    assert said_after(REMIND_SOON_DAYS, kept) == ""


def test_an_old_copy_is_only_spoken_of_when_something_changed_since() -> None:
    assert said_after(90, last_backup=days_on(1)) == ""
    changed = (evolve(OWN[0], changed=days_on(2)),)
    kit = Kit(last_backup=days_on(1))
    assert copy_said(kit, changed, days_on(90), Health()).startswith(
        "The last copy of your journal is 89 days old."
    )
    assert copy_said(kit, changed, days_on(20), Health()) == ""


def test_nobody_is_asked_to_copy_the_example() -> None:
    example = (evolve(OWN[0], demonstration=True),)
    assert copy_said(Kit(), example, days_on(400), Health()) == ""


def test_room_is_a_figure_where_it_is_told_and_a_word_where_it_is_not() -> None:
    assert room_said(Keeping(Health(True, 90_000_000, 2_090_000_000))) == "2.0 GB"
    assert room_said(Keeping(Health(True, 90_000_000))) == "enough"
    assert room_said(Keeping(scarce=True)) == "less than 40 MB"
    assert full_said(Keeping()) == ""
    assert "only 12 MB" in full_said(Keeping(Health(True, 88_000_000, 100_000_000), scarce=True))
    assert "What is saved is safe" in full_said(Keeping(scarce=True))


def test_what_the_page_tells_of_the_program_itself_is_said_in_plain_words() -> None:
    assert offline_said(Keeping()) == update_said(Keeping()) == ""
    assert "starts without a network" in offline_said(Keeping(offline=True))
    told = offline_said(Keeping(offline=False, offline_why="no https here"))
    assert "needs a network to start. The browser says: no https here." in told
    assert "thrown away" in update_said(Keeping(update_failed=True))


class Phone(MemoryDevice):
    """A device that keeps things, whose browser can be asked, and whose journal can be taken."""

    def __init__(self, files: MemoryFiles | None = None) -> None:
        super().__init__(DesktopImages(), FixedClock(moment().utc_s))
        if files is not None:
            self.files = files
        self.keeps = True
        self.photos_come_by_the_page = True
        self.told = Health(persisted=False, usage=88_000_000, quota=2_000_000_000)
        self.asked: list[bool] = []
        self.gives = True
        self.taken: Callback | None = None

    async def health(self) -> Health:
        return self.told

    async def ask_to_persist(self, quietly: bool = False) -> bool | None:
        self.asked.append(quietly)
        if quietly:
            return None
        self.told = evolve(self.told, persisted=self.gives)
        return self.gives

    def on_taken_over(self, callback: Callback) -> None:
        self.taken = callback


def mounted(phone: Phone) -> Screens:
    return Screens(phone)


def test_the_browser_is_asked_once_and_only_when_there_is_something_to_keep() -> None:
    phone = Phone()
    screens = mounted(phone)
    try:
        screens.pass_time(60)
        assert phone.asked == []
        screens.start_batch()
        screens.pass_time(60)
        assert phone.asked == [False]
        screens.go("/kit")
        screens.press("What is stored")
        assert screens.has("The browser promised to keep your data.")
    finally:
        screens.close()


def test_a_refusal_is_said_and_later_asked_again_only_without_a_question() -> None:
    phone = Phone()
    phone.gives = False
    screens = mounted(phone)
    try:
        screens.start_batch()
        screens.pass_time(60)
        screens.go("/kit")
        screens.press("What is stored")
        assert screens.has("The browser has not promised")
        screens.press("Units")
        screens.press("Units: Metric")
        screens.pass_time(60)
        assert phone.asked == [False]
        screens.close()
        # At the next start it may have changed its mind, but no question comes up.
        again = Phone(phone.files)  # type: ignore[arg-type]
        screens = mounted(again)
        screens.pass_time(60)
        screens.press("Kit")
        assert again.asked == [True]
    finally:
        screens.close()


def test_the_programs_own_room_is_told_apart_from_the_cooks() -> None:
    screens = mounted(Phone())
    try:
        screens.go("/kit")
        screens.press("What is stored")
        assert screens.has("Your journal and photos")
        assert screens.has("88 MB")
        assert screens.has("The program itself")
    finally:
        screens.close()


def test_a_journal_taken_by_another_window_is_taken_back_with_what_that_one_wrote() -> None:
    phone = Phone()
    screens = mounted(phone)
    try:
        first = screens.start_batch()
        phone.files.close()
        assert phone.taken is not None
        screens.do(phone.taken)
        assert screens.has("now open in another window")
        assert screens.unnamed() == []
        # The other window writes, and lets go.
        other = Phone(phone.files)  # type: ignore[arg-type]
        elsewhere = mounted(other)
        second = elsewhere.start_batch()
        elsewhere.close()
        phone.files.close()
        screens.press("Take it back here")
        screens.go(f"/journal/{second.id}")
        assert screens.has(second.name)
        assert {one.id for one in Shelf.open(phone.files).batches()} == {first.id, second.id}
    finally:
        screens.close()


def test_a_window_that_does_not_let_go_can_be_tried_again() -> None:
    phone = Phone()
    screens = mounted(phone)
    try:
        phone.files.close()
        assert phone.taken is not None
        screens.do(phone.taken)

        async def held() -> None:
            raise HeldElsewhere("held")

        phone.take_over = held  # type: ignore[method-assign]
        screens.press("Take it back here")
        assert screens.has("did not let go")
        del phone.take_over  # type: ignore[method-assign]
        screens.press("Try again")
        screens.go("/kit")
        assert screens.has("Copy and restore")
    finally:
        screens.close()


def test_a_journal_of_a_later_version_is_left_for_a_newer_program() -> None:
    phone = Phone()
    screens = mounted(phone)
    updates: list[bool] = []
    phone.take_update = lambda: updates.append(True)  # type: ignore[method-assign]
    try:
        phone.files.close()
        assert phone.taken is not None
        screens.do(phone.taken)

        async def newer() -> None:
            raise NewerJournal("It was written by a later version.")

        phone.take_over = newer  # type: ignore[method-assign]
        screens.press("Take it back here")
        assert screens.has("written by a later version")
        screens.press("Start the newest version")
        assert updates == [True]
    finally:
        screens.close()


def test_a_change_that_found_no_room_is_said_as_such_and_is_no_fault_of_the_program() -> None:
    slot = MemorySlot()
    screens = mounted(Phone(MemoryFiles(slot)))
    try:
        screens.start_batch()
        before = screens.bench.shown.batches
        slot.room = slot.size() + 10
        screens.go("/kit")
        screens.press("Units")
        with pytest.raises(AssertionError, match="no room left"):  # the harness tells of it too
            screens.press("Units: Metric")
        assert screens.has("so this was not saved")
        assert screens.bench.faults == ()
        assert screens.bench.shelf.kit().system == "us"
        assert screens.bench.shown.batches == before
        slot.room = None
        screens.press("Units: Metric")
        assert screens.bench.shelf.kit().system == "metric"
    finally:
        screens.close()


def test_stray_pictures_are_told_and_go_only_on_the_cooks_word() -> None:
    phone = Phone()
    screens = mounted(phone)
    try:
        screens.do(phone.photos.put, "stray", b"\xff\xd8 large", b"\xff\xd8 small")
        screens.close()
        again = Phone(phone.files)  # type: ignore[arg-type]
        again.photos = phone.photos
        screens = mounted(again)
        screens.go("/kit")
        screens.press("What is stored")
        assert screens.has("1 photo is on this device that no batch names")
        screens.press("Save them to a file")
        assert again.handed[-1][0] == "left-over-pictures.zip"
        screens.press("Delete them")
        screens.press("Delete")
        assert screens.do(again.photos.names) == {}
        assert not screens.has("that no batch names")
    finally:
        screens.close()


def test_a_fault_keeps_its_place_and_none_of_the_cooks_words() -> None:
    trace = (
        'Traceback (most recent call last):\n  File "/py/app/screens/mix.py", line 7, in press\n'
        "    work()\nValueError: “Aunt Erna's brisket” is no weight\n"
    )
    assert without_words(trace) == "ValueError: screens/mix.py 7 press"
    # Flet puts the message before the trace as well; a message may have several lines.
    several = f"Erna\nbrisket\n{trace}Erna\n"
    assert without_words(several) == "ValueError: screens/mix.py 7 press"
    assert without_words("Erna") == "fault: place not told"


def test_a_log_line_of_a_fault_holds_none_of_the_cooks_words() -> None:
    try:
        raise ValueError("Aunt Erna's brisket")
    except ValueError:
        fault = sys.exc_info()
    line = logging.LogRecord(
        "asyncio", logging.ERROR, __file__, 1, "Task died: %s", ("Aunt Erna's brisket",), fault
    )
    said = WithoutWords().format(line)
    assert said.startswith("ERROR asyncio: ValueError: screens/test_keeping.py")
    assert "Erna" not in said
    plain = logging.LogRecord("flet", logging.WARNING, __file__, 1, "No %s here", ("Erna",), None)
    assert WithoutWords().format(plain) == "WARNING flet: No %s here"


def test_the_lines_to_share_are_the_lines_that_are_shown() -> None:
    device = memory_device()
    screens = Screens(device)
    shared: list[str] = []

    async def share(text: str, title: str) -> str:
        shared.append(text)
        return "shared"

    device.share_text = share  # type: ignore[method-assign, assignment]
    try:
        own = screens.start_batch()
        screens.go("/kit")
        screens.press("About")
        screens.press("Share these lines")
        for line in shared[0].splitlines():
            name, value = line.split(": ", 1)
            assert screens.has(name)
            assert screens.has(value)
        assert own.name not in shared[0]
    finally:
        screens.close()
