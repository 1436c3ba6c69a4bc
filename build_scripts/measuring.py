"""The measurements of `measure.py`: each a function that gives rows of the table.

Which renderer, and why: on a busy machine without a graphics card the first screen stood after
0.45 of the stock time with skwasm and 0.77 with canvaskit (medians of five starts in turns),
while a frame of a scrolled record took 1.3 times canvaskit's (one run of 60 turns of the wheel).
A start is waited for each time the phone is picked up and a record is scrolled for seconds, so
the client's own choice, `auto`, is kept: skwasm where the browser can. Without a graphics card
frames are painted by the processor; on phones both have still to be measured.
"""

import io
import statistics
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from attrs import evolve, frozen
from playwright.sync_api import BrowserContext, Page, Playwright, sync_playwright

from build_scripts import measured_code as code
from build_scripts import stock_site
from build_scripts.chromium import FLAGS
from build_scripts.measuring_journal import opening
from build_scripts.static_host import StaticHost

LIMIT_MS = 120_000
USABLE = "html[data-usable=yes]"
PHONE = {"width": 390, "height": 844}
KEPT = """async () => {
  const { active } = await navigator.serviceWorker.ready;
  while (active.state !== "activated") await new Promise(done => setTimeout(done, 100));
}"""


@frozen
class Row:
    """One line of the table: what was measured, its median and spread, and against what."""

    what: str
    unit: str
    median: float
    least: float
    most: float
    ratio: float | None = None
    ratio_to: str = ""


def row(what: str, values: Sequence[float], unit: str = "ms") -> Row:
    """A row of several values."""
    return Row(what, unit, statistics.median(values), min(values), max(values))


def against(one: Row, other: Row, name: str) -> Row:
    """The same row with its ratio to another."""
    return evolve(one, ratio=one.median / other.median, ratio_to=name)


def against_wanted(one: Row, wanted_ms: float) -> Row:
    """The same row with its ratio to the time that was set for it."""
    return evolve(one, ratio=one.median / wanted_ms, ratio_to=f"the {wanted_ms:g} ms wanted")


@frozen
class Bench:
    """What the measurements run on."""

    playwright: Playwright
    program: str
    ours: StaticHost
    stock: StaticHost
    profiles: Path
    runs: int

    @contextmanager
    def browser(self, profile: str) -> Iterator[BrowserContext]:
        """A browser process of its own, with what an earlier one of that profile kept."""
        context = self.playwright.chromium.launch_persistent_context(
            self.profiles / profile,
            executable_path=self.program,
            args=list(FLAGS),
            viewport=PHONE,  # type: ignore[arg-type]
            device_scale_factor=2,
            has_touch=True,
            is_mobile=True,
        )
        yield context
        context.close()

    def usable(self, context: BrowserContext, path: str = "") -> Page:
        """Our app with its first screen up."""
        page = context.pages[0]
        page.goto(self.ours.address + path)
        page.wait_for_selector(USABLE, state="attached", timeout=LIMIT_MS)
        return page

    def keep(self, profile: str, path: str = "") -> None:
        """Open our app once, so that the profile holds it for starts without a network."""
        with self.browser(profile) as context:
            self.usable(context, path).evaluate(KEPT)


def measure(site: Path, folder: Path, program: str, parts: Sequence[str], runs: int) -> list[Row]:
    """Measure the parts asked for, in the order of the table."""
    stock_site.lay(folder / "stock")
    does: dict[str, Callable[[Bench], list[Row]]] = {
        "start": start,
        "frames": frames,
        "photo": photo_import,
        "save": save,
        "opening": opening,
        "cure": cure,
        "model": model,
        "slices": slices,
        "keystroke": keystroke,
    }
    with (
        StaticHost(site) as ours,
        StaticHost(folder / "stock") as stock,
        sync_playwright() as playwright,
    ):
        bench = Bench(playwright, program, ours, stock, folder / "profiles", runs)
        return [one for part in parts for one in does[part](bench)]


def start(bench: Bench) -> list[Row]:
    """Cold starts in turns: ours without a network by each renderer, and Flet's hello world.

    Each start is a new browser process over a profile that was used once before, so that both
    have what a browser keeps: ours its service worker's files, the stock page its HTTP cache.
    The stock page cannot start without its server, which therefore goes on running.
    """
    bench.keep("skwasm")
    bench.keep("canvaskit", "?client=canvaskit")
    times: dict[str, list[float]] = {"skwasm": [], "canvaskit": [], "stock": []}
    painted: list[float] = []
    once_stock(bench)
    for _ in range(bench.runs):
        bench.ours.stop()
        for name, path in (("skwasm", ""), ("canvaskit", "?client=canvaskit")):
            with bench.browser(name) as context:
                page = bench.usable(context, path)
                times[name].append(page.evaluate(code.MARK, "usable"))
                if name == "skwasm":
                    painted.append(page.evaluate(code.MARK, "first-contentful-paint"))
        bench.ours.start()
        times["stock"].append(once_stock(bench))
    stock = row("Flet's hello world, stock order, its server running", times["stock"])
    ours = row("this program, cold and offline (skwasm)", times["skwasm"])
    return [
        stock,
        against(ours, stock, "stock"),
        against(
            row("this program, cold and offline (canvaskit)", times["canvaskit"]), stock, "stock"
        ),
        row("splash painted", painted),
    ]


def once_stock(bench: Bench) -> float:
    """One start of the stock page."""
    with bench.browser("stock") as context:
        page = context.pages[0]
        page.add_init_script(code.STOCK_IS_READY)
        page.goto(bench.stock.address)
        page.wait_for_selector(USABLE, state="attached", timeout=LIMIT_MS)
        return float(page.evaluate(code.MARK, "usable"))


def frames(bench: Bench) -> list[Row]:
    """Time between frames while the record of a batch with photos is drawn up and down."""
    found = {}
    for name, path in (("skwasm", ""), ("canvaskit", "?client=canvaskit")):
        bench.keep(f"frames-{name}", path)
        with bench.browser(f"frames-{name}") as context:
            page = bench.usable(context, path)
            with_example(page)
            page.get_by_role("tab", name="Journal").first.tap()
            page.get_by_role("button", name="Invented").first.tap()
            page.mouse.move(195, 420)
            page.evaluate(code.BEGIN_FRAMES)
            for turn in range(60):
                page.mouse.wheel(0, 160 if turn % 20 < 10 else -160)
                page.wait_for_timeout(33)
            found[name] = list(page.evaluate(code.END_FRAMES))
    rows = []
    for measured, title in ((statistics.median, "median"), (ninth_tenth, "nine in ten within")):
        quick, other = (
            Row(f"frame while scrolling, {title} ({name})", "ms", value, min(all_), max(all_))
            for name, all_ in found.items()
            for value in [float(measured(all_))]
        )
        rows += [against(quick, other, "canvaskit"), other]
    return rows


def ninth_tenth(values: Sequence[float]) -> float:
    """The value that nine in ten do not exceed."""
    return statistics.quantiles(values, n=10)[-1]


def with_example(page: Page) -> None:
    """Load the example batches, which have photos."""
    page.get_by_role("button", name="See an example").tap()
    page.get_by_text("Two invented").or_(page.get_by_label("Two invented")).first.wait_for(
        state="attached", timeout=LIMIT_MS
    )


def photo_import(bench: Bench) -> list[Row]:
    """A 12 megapixel photo: from the file chooser to its line in the record."""
    file = bench.profiles / "photo.jpg"
    bench.profiles.mkdir(exist_ok=True)
    file.write_bytes(camera_jpeg())
    times = []
    bench.keep("photo")
    for _ in range(3):
        with bench.browser("photo") as context:
            page = bench.usable(context)
            if page.get_by_role("button", name="See an example").count():
                with_example(page)
            page.get_by_role("tab", name="Journal").first.tap()
            page.get_by_role("button", name="Invented").first.tap()
            button = page.get_by_role("button", name="Photo", exact=True).first
            button.wait_for(state="attached", timeout=LIMIT_MS)
            page.evaluate(code.BEGIN_PHOTO)
            with page.expect_file_chooser() as chooser:
                button.tap()
            chosen = float(page.evaluate("performance.now()"))
            chooser.value.set_files(file)
            times.append(float(page.evaluate(code.END_PHOTO)) - chosen)
    size = len(file.read_bytes()) / 1e6
    what = f"photo of 12 megapixels ({size:.1f} MB), chooser to record"
    return [against_wanted(row(what, times), 2000.0)]


def camera_jpeg() -> bytes:
    """A picture as large and as full of detail as a phone's."""
    from PIL import Image

    grain = Image.effect_noise((4000, 3000), 60).resize((4000, 3000))
    red = Image.merge("RGB", (grain, grain.point(lambda v: v // 2), grain.point(lambda v: v // 3)))
    out = io.BytesIO()
    red.resize((2000, 1500)).resize((4000, 3000)).save(out, "JPEG", quality=88)
    return out.getvalue()


def in_python(bench: Bench, program: str) -> list[float]:
    """What a piece of code gives in the page's own Python, three times."""
    with bench.browser("python") as context:
        page = bench.usable(context)
        worker = next(one for one in page.workers if one.url.endswith("boot/worker.js"))
        return [float(worker.evaluate(code.RUN_IN_PYTHON, program)) for _ in range(3)]


def save(bench: Bench) -> list[Row]:
    """One saved line of a record, in the page's Python, over files in its memory."""
    few = row("save, 10 batches of 50 lines", in_python(bench, code.SAVE.replace("BATCHES", "10")))
    many = row(
        "save, 1,000 batches of 50 lines", in_python(bench, code.SAVE.replace("BATCHES", "1000"))
    )
    return [few, against(many, few, "10 batches")]


def cure(bench: Bench) -> list[Row]:
    """A whole mix worked out, in the page's Python; how long it cures is another sum."""
    return [row("a mix worked out", in_python(bench, code.CURE))]


def model(bench: Bench) -> list[Row]:
    """Salt and nitrite through cure, soak and rest, in the page's Python."""
    return [row("the model over three stages", in_python(bench, code.MODEL))]


def slices(bench: Bench) -> list[Row]:
    """A line across a drawn slice and its whole face, at the size photos are measured at."""
    return [
        against_wanted(row("a line across a slice", in_python(bench, code.LINE)), 50.0),
        against_wanted(row("a whole face", in_python(bench, code.FACE)), 400.0),
    ]


def keystroke(bench: Bench) -> list[Row]:
    """From a key pressed in the weight field to a result that is read aloud."""
    times = []
    with bench.browser("keys") as context:
        page = bench.usable(context)
        page.get_by_role("tab", name="Mix").first.tap()
        box = page.get_by_role("textbox", name="Weight on the label").first
        box.wait_for(state="attached", timeout=LIMIT_MS)
        box.tap()
        page.wait_for_timeout(1000)
        page.keyboard.type("7.")  # a point alone changes no result
        page.wait_for_timeout(1000)
        for key in ("4", "Backspace", "2", "Backspace", "6"):
            page.evaluate(code.BEGIN_KEYSTROKE)
            page.keyboard.press(key)
            times.append(float(page.evaluate(code.END_KEYSTROKE)))
            page.wait_for_timeout(500)
    return [row("key pressed to a result", times)]
