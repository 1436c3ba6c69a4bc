"""The cook of the soak: goes about in the program by touch, and notes what it called saved."""

import re
import time
from collections.abc import Callable
from copy import deepcopy
from pathlib import Path
from random import Random
from typing import Any

from attrs import define, field
from playwright.sync_api import Page, expect

from build_scripts.hand import SEEN_MS, Hand, said
from build_scripts.soak_model import BatchKept, Kept, Line, fresh, read_backup, says_of
from build_scripts.soak_phone import Phone

SAVED_MS = 30_000
GO = "to => { location.hash = to }"
WORDS = (
    "bark",
    "brine",
    "fat cap",
    "½ turn",
    "crust",
    "café",
    "salty",
    "=2+2",
    "soft",
    "8 °C",
    "“dry”",
)
TITLES = {
    "add/note": "Note",
    "add/temperature": "Temperature",
    "add/weight": "Weight",
    "probe": "Probe",
    "wrap": "Wrap?",
    "slice": "Slice and taste",
    "repeat": "Do it again",
}
"""What stands above the screens of a batch."""
Change = Callable[[Kept], None]


class Cut(Exception):
    """The tab or the browser is to be killed now, in the middle of a save."""


@define
class Cook:
    """Someone with the phone; `kept` is what the screen called saved.

    `allowed` is what may be stored right now: the same, or in the middle of a save also what is
    there after it. `at_least` is what must be stored, whatever else is, after a copy was added.
    `words` are those the screen said of the last saves.
    """

    phone: Phone
    chance: Random
    folder: Path
    kept: Kept = field(factory=fresh)
    allowed: list[Kept] = field(factory=lambda: [fresh()])
    at_least: list[Kept] = field(factory=list)
    before: Kept = field(factory=fresh)
    copies: list[tuple[Path, Kept]] = field(factory=list)
    cut_next: bool = False
    count: int = 0
    words: list[str] = field(factory=list)

    @property
    def page(self) -> Page:
        return self.phone.page

    @property
    def hand(self) -> Hand:
        return Hand(self.phone)

    # Going about.

    def go(self, route: str) -> None:
        """Open a screen by its address."""
        self.page.evaluate(GO, f"#{route}")

    def to_batch(self, name: str) -> BatchKept:
        """A batch's page: by its card in the journal, or by its address."""
        batch = self.kept.batches[name]
        if not batch.id or self.chance.random() < 0.3:
            self.hand.place("Journal")
            self.hand.press(name)
            self.arrive(name)
            batch.id = self.id_here()
        else:
            self.go(f"/journal/{batch.id}")
            self.arrive(name)
        return batch

    def to(self, name: str, part: str) -> BatchKept:
        """One of the screens of a batch."""
        batch = self.kept.batches[name]
        if not batch.id:
            self.to_batch(name)
        self.go(f"/journal/{batch.id}/{part}")
        self.arrive(TITLES.get(part, "Put right"))
        self.hand.sees(name)
        # What a kill left half typed comes back; the acts here begin with an empty form.
        if self.page.get_by_role("button", name="Start over", exact=True).count():
            self.hand.press("Start over", exact=True)
        return batch

    def arrive(self, title: str) -> None:
        """Wait until the screen of that title is there: the one before has the same buttons."""
        heading = self.page.get_by_role("heading", name=title).first
        expect(heading).to_be_attached(timeout=SEEN_MS)

    def to_kit(self) -> None:
        """Kit, with everything in it folded."""
        self.go("/journal")
        self.arrive("Journal")
        self.go("/kit")
        self.arrive("Kit")

    def id_here(self) -> str:
        """The batch of the page in view."""
        found = re.search(r"#/journal/([^/]+)", self.page.evaluate("location.hash"))
        return found[1] if found else ""

    def fresh_word(self) -> str:
        """Words that stand nowhere else."""
        self.count += 1
        return f"N{self.count} {' '.join(self.chance.choices(WORDS, k=self.chance.randint(1, 4)))}"

    def quiet(self) -> None:
        """Take away the word about the last act, so that the next one is surely about the next."""
        close = self.page.get_by_role("button", name="Close", exact=True)
        if close.count():
            close.first.tap()
            expect(close).to_have_count(0, timeout=SEEN_MS)

    # Saving.

    def commit(
        self, press: Callable[[], object], word: str | re.Pattern[str], change: Change
    ) -> None:
        """Press what saves, wait until the screen says so, and only then count on it.

        Raises
        ------
        Cut
            When the next save was to be cut off: some moment after the press.
        """
        after = deepcopy(self.kept)
        change(after)
        self.allowed = [self.kept, after]
        if self.cut_next:
            self.cut_next = False
            press()
            # Chance decides where in the save it is cut off; there is nothing to wait for.
            self.page.wait_for_timeout(self.chance.choice((0, 10, 30, 60, 100, 200, 400)))
            raise Cut
        press()
        self.hand.sees(word, SAVED_MS)
        self.words = [*self.words[-9:], word if isinstance(word, str) else word.pattern]
        self.before, self.kept, self.allowed = self.kept, after, [after]

    def maybe_undo(self, taken_back: str, put_back: str = "") -> None:
        """Now and then take the last act back, and now and then that as well."""
        undo = self.page.get_by_role("button", name="Undo", exact=True)
        if self.chance.random() > 0.25 or not undo.count():
            return
        after = deepcopy(self.kept)
        self._undo(taken_back, self.before)
        if put_back and self.chance.random() < 0.5:
            self._undo(put_back, after)

    def _undo(self, word: str, becomes: Kept) -> None:
        def change(kept: Kept) -> None:
            kept.batches, kept.kit, kept.salts = deepcopy(
                (becomes.batches, becomes.kit, becomes.salts)
            )

        self.commit(
            lambda: self.page.get_by_role("button", name="Undo", exact=True).first.tap(),
            re.compile(f"^{re.escape(word)}"),
            change,
        )

    def add_line(self, name: str, body: dict[str, Any], ago_s: float = 0.0) -> Change:
        """The change of one more line in a record."""
        at_s = time.time() - ago_s
        return lambda kept: kept.batches[name].lines.append(Line(says_of(body), at_s))

    # Copies.

    def save_copy(self) -> tuple[Path, Kept]:
        """Save everything to a file by the program's own means, and read what is in it."""
        self.quiet()
        self.to_kit()
        self.hand.press("Copy and restore")
        with self.page.expect_download(timeout=60_000) as handed:
            self.hand.press("Save everything to a file")
        file = self.folder / f"copy-{len(list(self.folder.glob('copy-*')))}.zip"
        handed.value.save_as(file)
        expect(said(self.page, re.compile("^A copy "))).to_be_attached(timeout=60_000)
        return file, read_backup(file)
