"""What the soak's cook does, each act as a person would: to the screen, typed, saved, maybe undone.

An act leaves `cook.kept` as what the screen called saved. Its name is its function's.
"""

import re
from collections.abc import Callable

from app.cure.targets import METHOD_NAMES
from app.screens.journal.told import CHOICES, FEELS, SPOTS, WEIGHED
from build_scripts.hand import said
from build_scripts.soak_cook import SAVED_MS, Cook
from build_scripts.soak_kit_acts import copy, look, own_salt, read_a_copy_back, units
from build_scripts.soak_model import BatchKept, Kept, says_of

Act = Callable[[Cook], None]
LB_G = 453.59237
MOST_BATCHES = 8
SCORES = ("salt", "smoke", "pepper", "tenderness", "moisture")
ONE_SAVED = re.compile(r"^Saved\b")


def batch_of(cook: Cook) -> str:
    """A batch, any of them."""
    return cook.chance.choice(sorted(cook.kept.batches))


def celsius(cook: Cook, low: float, high: float) -> tuple[str, float]:
    """A temperature as it is typed, in either unit, and what it is [°C]."""
    value = round(cook.chance.uniform(low, high), 1)
    if cook.chance.random() < 0.5:
        return f"{value} °C", value
    fahrenheit = round(value * 1.8 + 32.0, 1)
    return f"{fahrenheit} °F", (fahrenheit - 32.0) / 1.8


def mass(cook: Cook, low_g: float, high_g: float) -> tuple[str, float]:
    """A mass as it is typed, and what it is [g]."""
    grams = cook.chance.uniform(low_g, high_g)
    if cook.chance.random() < 0.5:
        return f"{grams / 1000:.2f} kg", float(f"{grams / 1000:.2f}") * 1000
    return f"{grams / LB_G:.1f} lb", float(f"{grams / LB_G:.1f}") * LB_G


def start_batch(cook: Cook) -> None:
    method = cook.chance.choice(sorted(METHOD_NAMES))
    typed, grams = mass(cook, 1000, 6000)
    name = f"Batch {cook.fresh_word()}"
    cook.hand.place("Mix")
    cook.hand.write("Weight on the label", typed)
    cook.hand.sees("Weigh these")
    cook.hand.press("Method")
    cook.hand.press(f"Method: {METHOD_NAMES[method]}")
    cook.hand.sees(f"Method: {METHOD_NAMES[method]}, chosen")
    cook.hand.press("Start batch")
    cook.hand.sees("What it becomes")
    cook.hand.write("Name", name)

    def change(kept: Kept) -> None:
        kept.batches[name] = BatchKept(grams, method, plan=(0, 0))

    cook.commit(lambda: cook.hand.press("Start", exact=True), "Batch started.", change)
    cook.hand.sees("Record")
    cook.kept.batches[name].id = cook.id_here()


def repeat(cook: Cook) -> None:
    name = batch_of(cook)
    method = cook.to(name, "repeat").method
    typed, grams = mass(cook, 1000, 6000)
    again = f"Batch {cook.fresh_word()}"
    cook.hand.write("New weight", typed)
    cook.hand.sees("Weigh these")
    cook.hand.write("Name", again)

    def change(kept: Kept) -> None:
        kept.batches[again] = BatchKept(grams, method, plan=(0, 0))

    cook.commit(lambda: cook.hand.press("Start", exact=True), "Batch started.", change)


def remove_batch(cook: Cook) -> None:
    name = batch_of(cook)
    cook.to_batch(name)

    def change(kept: Kept) -> None:
        del kept.batches[name]
        for held in cook.at_least:
            held.batches.pop(name, None)

    cook.commit(lambda: cook.hand.press("Remove batch"), f"{name} removed.", change)
    cook.maybe_undo(f"{name} put back.")


def save_line(cook: Cook, name: str, body: dict[str, object]) -> None:
    """Press one of the ways to save a line, for now or a time past."""
    ago = cook.chance.choice((0, 0, 10, 20, 30, 60))
    words = "1 h ago" if ago == 60 else f"{ago} min ago" if ago else "Save, just now"
    change = cook.add_line(name, body, 60.0 * ago)
    cook.commit(lambda: cook.hand.press(words), ONE_SAVED, change)
    cook.maybe_undo("Removed", "Put back")


def note(cook: Cook) -> None:
    name, text = batch_of(cook), cook.fresh_word()
    cook.to(name, "add/note")
    cook.hand.write("Note", text)
    save_line(cook, name, {"kind": "Note", "text": text})


def temperature(cook: Cook) -> None:
    name = batch_of(cook)
    spot = cook.chance.choice(("flat", "point", "pit", "fridge"))
    low, high = {"pit": (80, 180), "fridge": (0, 9)}.get(spot, (1, 96))
    typed, value = celsius(cook, low, high)
    cook.to(name, "add/temperature")
    cook.hand.write("It reads", typed)
    cook.hand.press(f"Where: {SPOTS[spot]}")
    save_line(cook, name, {"kind": "Temperature", "celsius": value, "spot": spot})


def weight(cook: Cook) -> None:
    name, of = batch_of(cook), cook.chance.choice(sorted(WEIGHED))
    typed, grams = mass(cook, 500, 6000)
    cook.to(name, "add/weight")
    cook.hand.write("It weighs", typed)
    cook.hand.press(f"What lay on the scale: {WEIGHED[of]}")
    save_line(cook, name, {"kind": "Weight", "grams": grams, "of": of})


def feel(cook: Cook) -> None:
    name, step = batch_of(cook), cook.chance.choice(sorted(FEELS))
    spot = cook.chance.choice(("flat", "point", "middle", "edge"))
    cook.to(name, "probe")
    cook.hand.press(f"Where: {SPOTS[spot]}")
    value = None
    if cook.chance.random() < 0.6:
        typed, value = celsius(cook, 60, 99)
        cook.hand.write("It reads", typed)
    body = {"kind": "Feel", "step": step, "spot": spot, "celsius": value}
    cook.commit(lambda: cook.hand.press(FEELS[step]), ONE_SAVED, cook.add_line(name, body))
    cook.maybe_undo("Removed", "Put back")


def wrap(cook: Cook) -> None:
    name, choice = batch_of(cook), cook.chance.choice(("wrapped", "not_yet"))
    cook.to(name, "wrap")
    typed, pit_c = celsius(cook, 90, 150)
    cook.hand.write("Pit", typed)
    typed, core_c = celsius(cook, 50, 85)
    cook.hand.write("Core", typed)
    line = cook.add_line(
        name, {"kind": "Decision", "choice": choice, "pit_c": pit_c, "core_c": core_c}
    )

    def change(kept: Kept) -> None:
        line(kept)
        kept.batches[name].plan = None  # the rest of the plan follows; how is not foretold here

    says = CHOICES[choice].split(":")[0]
    cook.commit(lambda: cook.hand.press(says, exact=True), ONE_SAVED, change)
    cook.maybe_undo("Taken back")


def slice_and_taste(cook: Cook) -> None:
    name = batch_of(cook)
    before = cook.kept.batches[name].outcome
    # A second press on the chosen score takes it back.
    scores = {
        one: cook.chance.choice([mark for mark in range(1, 6) if mark != before.get(one)])
        for one in cook.chance.sample(SCORES, 2)
    }
    cook.to(name, "slice")
    outcome: dict[str, object] = dict(scores)
    if cook.chance.random() < 0.5:
        grey = cook.chance.randint(0, 60)
        cook.hand.write("Grey: no cure came here", str(grey))
        outcome["grey_percent"] = float(grey)
    for one, mark in scores.items():
        cook.hand.press(f"{one.capitalize()}: {mark}")

    def change(kept: Kept) -> None:
        kept.batches[name].outcome |= outcome

    cook.commit(lambda: cook.hand.press("Save", exact=True), ONE_SAVED, change)
    cook.maybe_undo("Taken back")


def photo(cook: Cook) -> None:
    name = batch_of(cook)
    cook.to_batch(name)
    file = cook.chance.choice(sorted(cook.folder.glob("photo-*.jpg")))
    change = cook.add_line(name, {"kind": "PhotoTaken", "caption": ""})
    cook.commit(lambda: cook.hand.choose_file("Photo", file), re.compile("^Photo saved"), change)
    cook.maybe_undo("Removed", "Put back")


def what_is_no_photo(cook: Cook) -> None:
    cook.to_batch(batch_of(cook))
    cook.hand.choose_file("Photo", cook.folder / "no-photo.jpg")
    cook.hand.sees("The photo was not taken in.", SAVED_MS)


def what_cannot_be(cook: Cook) -> None:
    cook.to(batch_of(cook), "add/temperature")
    cook.hand.write("It reads", cook.chance.choice(("9999", "warm", "-400")))
    cook.hand.press("Save, just now")
    cook.hand.sees(re.compile("expected|is not|Write"))


def correct(cook: Cook) -> None:
    found = [
        (name, line)
        for name, batch in cook.kept.batches.items()
        for line in batch.lines
        if line.id and ("kind", "Note") in line.says
    ]
    if not found:
        return note(cook)
    name, line = cook.chance.choice(found)
    cook.to(name, f"entry/{line.id}")
    cook.hand.sees("Put right: note")
    if cook.chance.random() < 0.4:

        def remove(kept: Kept) -> None:
            kept.batches[name].lines.remove(line)

        cook.commit(lambda: cook.hand.press("Remove", exact=True), re.compile("^Removed"), remove)
        return cook.maybe_undo("Put back")
    text = cook.fresh_word()
    cook.hand.write("Note", text)

    def change(kept: Kept) -> None:
        there = next(one for one in kept.batches[name].lines if one.id == line.id)
        there.says = says_of({"kind": "Note", "text": text})

    cook.commit(lambda: cook.hand.press("Save", exact=True), re.compile("^Put right\\."), change)
    return cook.maybe_undo("As it was")


def step(cook: Cook) -> None:
    """Mark the next step of the plan done, or leave it out."""
    name = batch_of(cook)
    batch = cook.to_batch(name)
    if batch.plan is None:
        return
    button = cook.page.get_by_role("button", name=re.compile("^Done: ")).first
    if not cook.hand.find(button):
        return  # all is done or left out
    leaves_out = cook.chance.random() < 0.4
    # The button for the next step begins alike, but is no sentence.
    word = re.compile(r"^Left out: .*\.$" if leaves_out else r"^Done: .*\.$")

    def press() -> None:
        if leaves_out:
            return cook.hand.press("Leave out")
        return go_on_all_the_same(cook, lambda: cook.hand.tap(button), word)

    def change(kept: Kept) -> None:
        done, out = kept.batches[name].plan or (0, 0)
        kept.batches[name].plan = (done, out + 1) if leaves_out else (done + 1, out)

    cook.commit(press, word, change)
    cook.maybe_undo("Taken back")


def go_on_all_the_same(cook: Cook, press: Callable[[], object], word: re.Pattern[str]) -> None:
    """Press what may ask first, and go on when it does."""
    press()
    asked = cook.page.get_by_role("button", name="Go on all the same")
    asked.or_(said(cook.page, word)).first.wait_for(state="attached", timeout=SAVED_MS)
    if asked.count():
        asked.tap()


def finish(cook: Cook) -> None:
    """Call a batch finished, or open it again."""
    name = batch_of(cook)
    finished = cook.to_batch(name).finished
    word = re.compile("^Open again" if finished else "^Finished")

    def press() -> None:
        words = "Reopen" if finished else "Finish"
        go_on_all_the_same(cook, lambda: cook.hand.press(words, exact=True), word)

    def change(kept: Kept) -> None:
        kept.batches[name].finished = not finished

    cook.commit(press, word, change)
    cook.maybe_undo("Taken back")


ACTS: tuple[tuple[Act, int], ...] = (
    (start_batch, 6),
    (repeat, 3),
    (remove_batch, 3),
    (note, 10),
    (temperature, 12),
    (weight, 5),
    (feel, 6),
    (wrap, 5),
    (slice_and_taste, 6),
    (photo, 8),
    (what_is_no_photo, 1),
    (what_cannot_be, 2),
    (correct, 5),
    (step, 6),
    (finish, 2),
    (units, 2),
    (look, 2),
    (own_salt, 1),
    (read_a_copy_back, 1),
    (copy, 2),
)
"""Each act and how often it is done among the others."""


def choose_act(cook: Cook) -> Act:
    """The next act: a batch is begun where there is none, one removed where there are many."""
    if not cook.kept.batches:
        return start_batch
    if len(cook.kept.batches) >= MOST_BATCHES:
        return remove_batch
    acts, weights = zip(*ACTS, strict=True)
    return cook.chance.choices(acts, weights)[0]  # type: ignore[no-any-return]
