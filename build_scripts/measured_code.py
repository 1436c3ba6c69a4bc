"""What `measure.py` runs inside the page and inside the page's Python."""

# Marks the moment a page says it stands, seen after the frame that shows it.
STOCK_IS_READY = """
new BroadcastChannel("stock-ready").onmessage = () =>
  requestAnimationFrame(() => requestAnimationFrame(() => {
    performance.mark("usable");
    document.documentElement.dataset.usable = "yes";
  }));
"""
MARK = "name => performance.getEntriesByName(name)[0]?.startTime ?? null"
# Time between frames while the finger draws up and down; the page is driven from outside.
BEGIN_FRAMES = """() => {
  window.frames_ = [];
  let last = performance.now();
  const next = now => {
    frames_.push(now - last);
    last = now;
    framing = requestAnimationFrame(next);
  };
  let framing = requestAnimationFrame(next);
  window.endFrames = () => { cancelAnimationFrame(framing); return frames_.slice(1); };
}"""
END_FRAMES = "() => endFrames()"
# From the key to the first change of the results as they are read aloud.
BEGIN_KEYSTROKE = """() => {
  const host = document.querySelector("flt-semantics-host");
  window.keystroke = new Promise(done => {
    let pressed = 0;
    const first = { once: true, capture: true };
    addEventListener("keydown", () => { pressed = performance.now(); }, first);
    new MutationObserver((changes, watch) => {
      // A single change is the field's own; a result changes many lines.
      if (!pressed || changes.length < 4) return;
      watch.disconnect();
      requestAnimationFrame(() => done(performance.now() - pressed));
    }).observe(host, { subtree: true, childList: true, characterData: true, attributes: true,
                       attributeFilter: ["aria-label"] });
  });
}"""
END_KEYSTROKE = "() => keystroke"
# Gives the moment at which "Photo saved." is said.
BEGIN_PHOTO = """() => {
  const host = document.querySelector("flt-semantics-host");
  window.photo = new Promise(done => {
    new MutationObserver((_, watch) => {
      const said = host.textContent + [...host.querySelectorAll("[aria-label]")]
        .map(one => one.getAttribute("aria-label")).join(" ");
      if (!said.includes("Photo saved.")) return;
      watch.disconnect();
      requestAnimationFrame(() => done(performance.now()));
    }).observe(host, { subtree: true, childList: true, characterData: true, attributes: true });
  });
}"""
END_PHOTO = "() => photo"

RUN_IN_PYTHON = "code => brinewrightPython.runPython(code)"
# Both give milliseconds, and run in any Python that has the program.
CURE = """
from statistics import median
from time import perf_counter
from app.cure.mix import work_out
from app.cure.request import MixRequest
times = []
for turn in range(10):
    begun = perf_counter()
    for gram in range(10):
        work_out(MixRequest(3000.0 + 10 * turn + gram, days=6.5))
    times.append((perf_counter() - begun) * 1000 / 10)
median(times)
"""
SAVE = """
from statistics import median
from time import perf_counter
from app.cure.request import MixRequest
from app.device.device import MemoryFiles
from app.journal.records import Batch, Entry, Moment, Weight
from app.store.shelf import Shelf
shelf = Shelf.open(MemoryFiles.holding(b""))
def entry(batch, number):
    at = Moment(1_800_000_000.0 + 60 * number, 0)
    return Entry(f"e{number}", batch, at, "smoke", Weight(3000.0 - number, "smoked"), at)
at = Moment(1_800_000_000.0, 0)
for number in range(BATCHES):
    name = f"b{number}"
    batch = Batch(name, f"Flat {number}", "brisket", at, at, MixRequest(3000.0, days=6.5))
    shelf.save_all((batch,), tuple(entry(name, one) for one in range(50)), ())
times = []
for group in range(10):  # a browser's clock is too coarse for one
    begun = perf_counter()
    for number in range(20):
        shelf.save_entry(entry("b0", 50 + 20 * group + number))
    times.append((perf_counter() - begun) * 1000 / 20)
median(times)
"""
MODEL = """
from statistics import median
from time import perf_counter
from app.transport.diffusion import Bath, Piece, Solute, Stage, simulate
solutes = [Solute("salt", 4e-10), Solute("nitrite", 4e-10)]
stages = [
    Stage("cure", 168.0, Bath(1.2, {"salt": 0.05, "nitrite": 0.0002})),
    Stage("soak", 8.0, Bath(4.0, {})),
    Stage("stand", 48.0),
]
times = []
for turn in range(5):
    begun = perf_counter()
    simulate(stages, Piece(60.0 + turn), solutes)
    times.append((perf_counter() - begun) * 1000)
median(times)
"""
# A slice drawn in plain runs of colour: board, bark, cured meat and a grey core. It takes the
# measuring the same way through as a photo does; its truth is not looked at here.
SLICE = """
from statistics import median
from time import perf_counter
from app.colour.cure_line import measure
from app.colour.face import measure_face
WIDTH, HEIGHT = 1600, 1200
RINGS = ((1.0, (60, 35, 28)), (0.94, (168, 78, 72)), (0.4, (134, 112, 98)))
def row(y):
    line = bytearray(bytes((222, 216, 204, 255)) * WIDTH)
    down = (y - HEIGHT / 2) / (0.4 * HEIGHT)
    for size, colour in RINGS:
        if abs(down) < size:
            half = int(0.42 * WIDTH * (size * size - down * down) ** 0.5)
            first = WIDTH // 2 - half
            shade = 3 * (y % 5) - 6
            paint = bytes((*(part + shade for part in colour), 255))
            line[4 * first : 4 * (first + 2 * half)] = paint * (2 * half)
    return bytes(line)
rgba = b"".join(row(y) for y in range(HEIGHT))
times = []
for turn in range(3):
    begun = perf_counter()
    WHAT
    times.append((perf_counter() - begun) * 1000)
median(times)
"""
LINE = SLICE.replace(
    "WHAT", "measure(rgba, WIDTH, HEIGHT, (100.0, 600.0 + turn), (1500.0, 600.0 + turn))"
)
FACE = SLICE.replace("WHAT", "measure_face(rgba, WIDTH, HEIGHT)")
