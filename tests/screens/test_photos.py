"""Photos on the screens: taken in, marked, measured, counted, set beside each other."""

from pathlib import Path

import flet as ft
import pytest
from attrs import evolve

from app.colour.cure_line import CureLine, measure
from app.cure.meat import CUTS
from app.cure.request import MixRequest
from app.device.parts import STORAGE_FULL, StorageFull
from app.journal.advised import Past
from app.journal.own_slices import length_by_slices, own_slices
from app.journal.photo_readings import outcome_with
from app.journal.plan import new_batch
from app.journal.records import BarkReading, Kit, Moment, Photo, PhotoTaken, SliceReading
from app.screens.bench import new_id
from app.screens.kit.example import load_example
from app.screens.photos.photo_beside import seen
from app.screens.photos.photo_told import caption, figures
from app.widgets.picture_points import moved
from tests.browser.pictures import made
from tests.screens.harness import Screens

PICTURES = Path(__file__).parents[2] / "assets" / "demonstration"
CUT = CUTS[MixRequest(1.0).cut].name
GREY_SLICE = "/journal/demo-grey-01/photo/demo-grey-slice"


def photo(screens: Screens, photo_id: str = "demo-grey-slice") -> Photo:
    found = screens.bench.shelf.photo(photo_id)
    assert found is not None
    return found


@pytest.fixture
def example(screens: Screens) -> Screens:
    screens.do(load_example, screens.bench)
    return screens


def test_a_photo_is_taken_in_with_the_marks_of_its_light(example: Screens) -> None:
    example.go("/journal/demo-grey-01/slice")
    example.give_files("Photograph the slice", {"slice.webp": made("webp")})
    assert example.has("Photo saved.")
    new = example.bench.photos("demo-grey-01")[-1]
    assert new.light == ("no white patch",)


@pytest.mark.parametrize("kind", ["cut-short", "empty", "text"])
def test_what_is_refused_leaves_no_picture_behind(example: Screens, kind: str) -> None:
    example.go("/journal/demo-grey-01/slice")
    before = example.do(example.device.photos.sizes)
    example.give_files("Photograph the slice", {"slice.jpg": made(kind)})
    assert example.has("The photo was not taken in.")
    assert example.do(example.device.photos.sizes) == before


def test_a_device_that_fills_up_in_the_middle_keeps_no_photo_without_its_line(
    example: Screens, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = example.device.files
    append, appended = files.append, list[int]()

    def append_once(content: bytes) -> None:
        appended.append(len(content))
        if len(appended) > 1:
            raise StorageFull(STORAGE_FULL)
        append(content)

    monkeypatch.setattr(files, "append", append_once)
    example.go("/journal/demo-grey-01/slice")
    example.give_files("Photograph the slice", {"slice.webp": made("webp")})
    bodies = [entry.body for entry in example.bench.entries("demo-grey-01")]
    named = {body.photo_id for body in bodies if isinstance(body, PhotoTaken)}
    assert {photo.id for photo in example.bench.photos("demo-grey-01")} == named


def test_a_line_is_measured_moved_by_buttons_and_counts(example: Screens) -> None:
    example.go(GREY_SLICE + "/line")
    example.press("Measure this line")
    first = photo(example).line
    assert first is not None
    assert first.grey_percent is not None
    assert 15.0 < first.grey_percent < 40.0
    example.press("End A left")
    assert photo(example).line != first
    example.press("Let it count for this batch")
    batch = example.bench.batch("demo-grey-01")
    kept = photo(example).line
    assert batch is not None
    assert batch.outcome is not None
    assert kept is not None
    assert batch.outcome.grey_percent == pytest.approx(kept.grey_percent, abs=0.06)


def test_a_line_is_measured_once_for_each_change(
    example: Screens, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []

    def counted(*given: object) -> CureLine:
        asked.append(given[3:5])
        return measure(*given)  # type: ignore[arg-type]

    monkeypatch.setattr("app.screens.photos.photo_pixels.measure", counted)
    example.go(GREY_SLICE + "/line")
    example.press("Measure this line")
    assert len(asked) == 1
    example.press("End A left")
    example.press("End B")  # nothing of the line changes
    assert len(asked) == 2


def test_a_thickness_is_kept_once_when_it_is_typed(
    example: Screens, monkeypatch: pytest.MonkeyPatch
) -> None:
    example.go(GREY_SLICE + "/line")
    example.press("Measure this line")
    kept = []
    keep = example.bench.shelf.save_photo
    monkeypatch.setattr(
        example.bench.shelf, "save_photo", lambda one: kept.append(one) or keep(one)
    )
    for text in ("2", "2.", "2.5"):
        example.type("The piece there", text)
    assert kept == []
    example.fire(example.field("The piece there"), "blur")
    example.submit("The piece there")
    assert [one.line.thickness_mm for one in kept] == [pytest.approx(63.5)]


def test_a_thickness_typed_last_is_kept_and_counts(example: Screens) -> None:
    example.go(GREY_SLICE + "/line")
    example.press("Measure this line")
    example.type("The piece there", "2")
    example.press("Let it count for this batch")
    batch = example.bench.batch("demo-grey-01")
    assert batch is not None
    assert batch.outcome is not None
    assert batch.outcome.thickness_mm == pytest.approx(50.8)
    example.type("The piece there", "3")
    example.go(GREY_SLICE)
    line = photo(example).line
    assert line is not None
    assert line.thickness_mm == pytest.approx(76.2)


def test_a_thickness_is_refused_in_the_cooks_own_unit(example: Screens) -> None:
    example.go(GREY_SLICE + "/line")
    example.type("The piece there", "14")
    assert example.has("more than 0 and at most 11.8 in.")


def test_a_measured_slice_sets_the_days_of_the_next_batch(screens: Screens) -> None:
    now = screens.bench.now()
    week = evolve(now, utc_s=now.utc_s - 7 * 86400.0)
    first = new_batch(MixRequest(3000.0), CUT, "First", week, ids=new_id, thickness_mm=62.0)
    done = {"cure": week, "end": now}
    plan = tuple(evolve(step, done=done.get(step.stage)) for step in first.plan)
    screens.do(screens.bench.save_batch, evolve(first, plan=plan))
    screens.go(f"/journal/{first.id}/slice")
    screens.give_files(
        "Photograph the slice", {"s.jpg": (PICTURES / "grey-slice.jpg").read_bytes()}
    )
    taken = screens.bench.photos(first.id)[0]
    screens.go(f"/journal/{first.id}/photo/{taken.id}/line")
    screens.press("Measure this line")
    screens.press("Let it count for this batch")
    assert screens.has("From your own slices: the next piece like this needs")
    screens.go("/mix")
    screens.type("Weight on the label", "6.6")
    screens.press("Start batch")
    assert screens.has("from your own slices: 1 so far")
    screens.press("Start")
    second = next(one for one in screens.bench.shown.batches if one.id != first.id)
    own = own_slices([Past(batch) for batch in screens.bench.shown.batches], CUT)
    length = length_by_slices(second.mix, second.thickness_mm, second.fat_cap_on, own)
    assert length is not None
    assert next(s.minutes for s in second.plan if s.stage == "cure") == length.minutes


def test_a_line_says_what_each_number_is_of(example: Screens) -> None:
    example.go(GREY_SLICE + "/line")
    example.press("Measure this line")
    kept = photo(example).line
    assert kept is not None
    # The example's slice has a smoke ring, bark and a streak of fat on this line.
    assert kept.left_out_percent == pytest.approx(17.5, abs=3)
    assert example.has("Parts of the lean, 83 % of the way from edge to edge. Left out: 7 % smoke")
    assert example.has("measured from edge to edge, bark and fat counted in.")
    for key, holds in (
        ("grey", "Its bands on the photo, fat and all"),
        ("B", "Cured meat ends at"),
        ("sure", "tapped"),
    ):
        example.go(f"{GREY_SLICE}/line/how/{key}")
        assert example.has(holds)
        assert example.unnamed() == []
    example.go(GREY_SLICE)
    assert example.has("Left out: fat, bark, ring")
    assert example.has(f"{kept.left_out_percent:.0f} % of the way from edge to edge")


def test_a_white_patch_can_be_taken_back(example: Screens) -> None:
    example.go(GREY_SLICE + "/white")
    before = photo(example).neutral_rgb
    example.press("Take the patch away")
    assert photo(example).neutral_rgb is None
    example.press("Undo")
    assert photo(example).neutral_rgb == before


def test_every_photo_screen_can_be_read_and_touched(example: Screens) -> None:
    tools = [f"{GREY_SLICE}{tool}" for tool in ("", "/white", "/bark", "/line", "/face")]
    beside = "/photos/beside/demo-grey-slice"
    for place in (*tools, "/photos", beside, f"{beside}/demo-good-slice"):
        example.go(place)
        assert example.unnamed() == []
        assert example.small_targets() == []


def test_a_photo_leaves_with_its_figures(example: Screens) -> None:
    example.go(GREY_SLICE + "/line")
    example.press("Measure this line")
    batch, kit = example.bench.batch("demo-grey-01"), example.bench.shown.kit
    assert batch is not None
    lines = caption(batch, photo(example), kit)
    assert any(line.startswith("Grey, on the line: ") for line in lines)
    example.go(GREY_SLICE)
    example.press("Save a copy")
    name, mime, content = example.device.handed[-1]  # type: ignore[attr-defined]
    assert (name[-4:], mime, content[:2]) == (".jpg", "image/jpeg", b"\xff\xd8")


def test_figures_name_the_bark_in_plain_words() -> None:
    bark = BarkReading((9.0, 5.0, 4.0), (0.5, 0.5), 0.05)
    one = Photo("a", "b", Moment(0.0), "wrap", 10, 10, 1, bark=bark)
    assert figures(one, Kit())[0] == ("Bark", "near black chestnut, L* 9  a* 5  b* 4")


def test_a_line_that_showed_nothing_is_no_outcome(example: Screens) -> None:
    with pytest.raises(ValueError, match="not measured"):
        outcome_with(SliceReading((0.0, 0.0), (1.0, 1.0)), None, example.bench.now())


def test_invented_batches_teach_no_days(example: Screens) -> None:
    batches = example.bench.shown.batches
    own = own_slices([Past(one) for one in batches], batches[0].cut)
    assert own.diffusivity.slices == 0
    assert length_by_slices(batches[0].mix, 40.0, False, own) is None


def test_an_outline_pulled_takes_its_neighbours_along() -> None:
    square = ((0.2, 0.2), (0.8, 0.2), (0.8, 0.8), (0.2, 0.8))
    pulled = moved(square, 0, (0.1, 0.0), spread=1.0)
    assert pulled[0] == pytest.approx((0.3, 0.2))
    assert pulled[1][0] == pytest.approx(0.8 + 0.1 * 2.718281828**-1)
    assert pulled[2][0] == pytest.approx(0.8, abs=0.01)


@pytest.mark.parametrize(
    ("part", "says"),
    [
        (1.0, "only the left photo, the earlier one"),
        (0.6, "more of the left photo, the earlier one, 60 %"),
        (0.5, "half of each"),
        (0.25, "more of the right photo, the later one, 75 %"),
        (0.0, "only the right photo, the later one"),
    ],
)
def test_the_slider_tells_which_photo_it_shows(part: float, says: str) -> None:
    early = Photo("a", "b", Moment(1000.0, 0), "slice", 100, 100, 1)
    late = evolve(early, id="c", taken=Moment(2000.0, 0))
    assert seen(part, early, late) == says
    swapped = says.replace("earlier", "?").replace("later", "earlier").replace("?", "later")
    assert seen(part, late, early) == swapped
    assert "er one" not in seen(part, early, early)


def test_a_screen_reader_moves_the_slider_by_steps(example: Screens) -> None:
    example.go("/photos/beside/demo-grey-slice/demo-good-slice")
    example.press("With a slider")

    def slider() -> ft.Semantics:
        (found,) = [c for c in example.controls() if isinstance(c, ft.Semantics) and c.slider]
        return found

    assert slider().value == "half of each"
    example.fire(slider(), "increase")
    assert slider().value == "more of the left photo, the earlier one, 60 %"
    for _ in range(8):
        example.fire(slider(), "decrease")
    assert slider().value == slider().decreased_value == "only the right photo, the later one"
