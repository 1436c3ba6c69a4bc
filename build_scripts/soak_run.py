"""The run of a soak: acts in turn, the network coming and going, kills, and what was found."""

import io
import time
import traceback
from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from random import Random

from attrs import define, field
from PIL import Image, ImageDraw
from playwright.sync_api import Error, sync_playwright

from build_scripts.hand import said, wait_usable
from build_scripts.soak_acts import choose_act
from build_scripts.soak_cook import Cook, Cut
from build_scripts.soak_kit_acts import Lost, check
from build_scripts.soak_phone import LEVEL, Memory, Phone, growth, longest_session
from build_scripts.static_host import StaticHost

LONGS = (1, 2, 4, 8, 16, 32, 64)
"""So many acts may pass between one restart and the next."""
ENDINGS = ("tab", "tab", "browser", "browser", "reload", "closed", "another tab")
FEW = 0.05
"""Of so many acts the driver may stumble: a key typed before the client listens, and the like."""
WENT_WRONG = "Something went wrong in the program"


@define
class Outcome:
    """What a soak found. Only `lost`, `wrong` and `complaints` are faults of the program."""

    acts: Counter[str] = field(factory=Counter)
    restarts: Counter[str] = field(factory=Counter)
    checks: int = 0
    cut_off: int = 0
    lost: list[str] = field(factory=list)
    wrong: list[str] = field(factory=list)
    complaints: list[str] = field(factory=list)
    stumbles: list[str] = field(factory=list)
    memory: list[Memory] = field(factory=list)
    lines: int = 0

    def growths(self) -> dict[str, float]:
        """How memory grew over the longest time without a restart; empty when too short to say."""
        longest = longest_session(self.memory)
        return growth(longest) if len(longest) >= 9 else {}

    def faults(self) -> list[str]:
        """Everything that must not be, in sentences."""
        grown = [
            f"{name} grew to {ratio:.2f} of what it was"
            for name, ratio in self.growths().items()
            if ratio > LEVEL
        ]
        done = sum(self.acts.values())
        many = [f"{len(self.stumbles)} of {done} acts could not be finished"]
        return [
            *self.lost,
            *self.wrong,
            *self.complaints,
            *grown,
            *(many if len(self.stumbles) > max(2.0, FEW * done) else []),
        ]

    def told(self) -> list[str]:
        """The closing lines."""
        acts = ", ".join(f"{name} {count}" for name, count in sorted(self.acts.items()))
        ends = ", ".join(f"{name} {count}" for name, count in sorted(self.restarts.items()))
        lines = [
            "",
            f"acts      {sum(self.acts.values())}: {acts}",
            f"restarts  {sum(self.restarts.values())}: {ends}; {self.cut_off} within a save",
            f"checks    {self.checks} against the model; {self.lines} lines stood at the end",
            f"stumbles  {len(self.stumbles)} of the driver",
        ]
        for name, ratio in self.growths().items():
            lines.append(
                f"memory    {name}: {ratio:.2f} (last third of the longest session / first)"
            )
        faults = self.faults()
        return [*lines, *(faults or ["Nothing was lost and nothing went wrong."])]


def photos(folder: Path, chance: Random) -> None:
    """A few photos, and a file that is none."""
    for number in range(4):
        wide, high = chance.choice(((800, 600), (1600, 1200), (900, 1600)))
        image = Image.new("RGB", (wide, high), (225, 221, 211))
        draw = ImageDraw.Draw(image)
        colour = tuple(chance.randint(20, 180) for _ in range(3))
        draw.ellipse((wide // 8, high // 8, wide * 7 // 8, high * 7 // 8), fill=colour)
        out = io.BytesIO()
        image.save(out, "JPEG", quality=85)
        (folder / f"photo-{number}.jpg").write_bytes(out.getvalue())
    (folder / "no-photo.jpg").write_text("This is a shopping list.")


def run(
    site: Path,
    folder: Path,
    program: str,
    *,
    seconds: float,
    seed: int,
    least_acts: int = 1,
    pictures: Path | None = None,
    tell: Callable[[str], object] = lambda _: None,
) -> Outcome:
    """Use the app at random for so many seconds and so many acts; the last check comes after."""
    chance = Random(seed)
    photos(folder, chance)
    outcome = Outcome()
    with StaticHost(site) as host, sync_playwright() as playwright:
        phone = Phone(playwright, program, host, folder / "profile")
        cook = Cook(phone, chance, folder)
        _Run(cook, host, outcome, tell, pictures, time.monotonic(), seconds, least_acts).go()
        phone.close()
        outcome.complaints = phone.complaints
        outcome.lines = cook.kept.lines()
    return outcome


@define
class _Run:
    cook: Cook
    host: StaticHost
    outcome: Outcome
    tell: Callable[[str], object]
    pictures: Path | None
    begun_s: float
    seconds: float
    least_acts: int

    def goes_on(self) -> bool:
        """Whether there is more to do: a slow machine takes longer for as many acts."""
        early = time.monotonic() - self.begun_s < self.seconds
        few = sum(self.outcome.acts.values()) < self.least_acts
        return (early or few) and len(self.outcome.lost) < 3

    def go(self) -> None:
        phone, chance = self.cook.phone, self.cook.chance
        phone.open()
        phone.keep()
        self.host.stop()
        until_restart = chance.choice(LONGS)
        since = time.monotonic()
        while self.goes_on():
            if chance.random() < 0.02:
                self.network()
            if until_restart <= 0:
                self.restart(chance.choice(ENDINGS))
                until_restart = chance.choice(LONGS)
                since = time.monotonic()
            if time.monotonic() - since > self.seconds / 3:
                until_restart = 1
            # Of the restarts some come in the middle of a save.
            self.cook.cut_next = until_restart == 1 and chance.random() < 0.6
            self.act()
            until_restart -= 1
            if sum(self.outcome.acts.values()) % 5 == 0:
                self.outcome.memory.append(phone.memory(self.begun_s))
        self.cook.cut_next = False
        self.check()
        self.restart("closed")

    def say(self, words: str) -> None:
        self.tell(f"{time.monotonic() - self.begun_s:7.1f} s  {words}")

    def network(self) -> None:
        """The network comes for a while, or goes."""
        if self.host.listener is None:
            self.host.start()
        else:
            self.host.stop()
        self.say("network " + ("there" if self.host.listener else "gone"))

    def act(self) -> None:
        """One act, and whatever came of it."""
        cook = self.cook
        act = choose_act(cook)
        name = act.__name__
        self.outcome.acts[name] += 1
        self.say(name)
        try:
            cook.quiet()
            act(cook)
        except Cut:
            self.outcome.cut_off += 1
            self.restart(cook.chance.choice(("tab", "browser", "reload")))
        except Lost as why:
            self.note(self.outcome.lost, f"{name}: {why}")
        except (Error, AssertionError) as why:
            self.note(self.outcome.stumbles, f"{name}: {str(why).splitlines()[0]}")
            self.say(traceback.format_exc(limit=-4))
            self.restart("reload")
        if said(cook.page, WENT_WRONG).count():
            self.note(self.outcome.wrong, f"{name}: the program told of a fault of its own")

    def note(self, where: list[str], words: str) -> None:
        """Keep a finding, and what the screen showed."""
        where.append(words)
        self.say(f"!! {words}")
        if self.pictures is not None:
            self.pictures.mkdir(parents=True, exist_ok=True)
            number = len(list(self.pictures.glob("*.png")))
            with suppress(Error):
                self.cook.page.screenshot(path=self.pictures / f"{number:03}.png")
                told = self.cook.page.locator("flt-semantics-host").first.inner_text(timeout=5_000)
                (self.pictures / f"{number:03}.txt").write_text(f"{words}\n\n{told}", "utf-8")

    def restart(self, ending: str) -> None:
        """End the tab or the browser in one of its ways, open it again, and check."""
        phone = self.cook.phone
        self.outcome.restarts[ending] += 1
        self.say(f"-- {ending}")
        self.cook.cut_next = False
        for _ in range(3):
            try:
                self._end(ending)
                break
            except (Error, AssertionError) as why:
                self.note(self.outcome.stumbles, f"{ending}: {str(why).splitlines()[0]}")
                ending = "browser"
        else:
            raise RuntimeError("The app could not be started again three times.")
        self.check()
        if phone.session % 3 == 0:
            self.outcome.memory.append(phone.memory(self.begun_s))

    def _end(self, ending: str) -> None:
        phone = self.cook.phone
        if ending == "tab":
            phone.kill_tab()
        elif ending == "browser":
            phone.kill_browser()
        elif ending == "closed":
            phone.close()
        elif ending == "another tab":
            phone.move_to_another_tab()
            return
        else:
            phone.session += 1
            phone.page.reload()
            wait_usable(phone.page)
            return
        phone.open()

    def check(self) -> None:
        """Hold everything that is stored against the model."""
        for again in range(3):
            try:
                file, stored = self.cook.save_copy()
                break
            except (Error, AssertionError) as why:
                self.note(self.outcome.stumbles, f"copy: {str(why).splitlines()[0]}")
                if again == 2:
                    raise
                self._end("reload")
        self.outcome.checks += 1
        try:
            check(self.cook, file, stored)
        except Lost as why:
            self.say(f"said of the last saves: {self.cook.words}")
            self.note(self.outcome.lost, str(why))
        self.cook.copies = [*self.cook.copies[-4:], (file, stored)]
