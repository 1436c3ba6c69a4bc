"""Photos marked by a finger: bark drawn, outlines dragged, faces mended, and kept so."""

from collections.abc import Sequence

import flet as ft
import pytest
from attrs import evolve

from app.journal.records import BarkReading, FaceReading, Moment, Photo
from app.screens.kit.example import load_example
from app.screens.photos.photo_face_kept import carried_over, face_again, overlay, touched
from app.widgets.picture_points import Place
from tests.screens.harness import Screens

SLICE = "/journal/demo-grey-01/photo/demo-grey-slice"
BARK = "/journal/demo-grey-01/photo/demo-grey-bark"


@pytest.fixture
def example(screens: Screens) -> Screens:
    screens.do(load_example, screens.bench)
    return screens


def photo(screens: Screens, photo_id: str = "demo-grey-slice") -> Photo:
    found = screens.bench.shelf.photo(photo_id)
    assert found is not None
    return found


def finger(screens: Screens, way: Sequence[Place]) -> None:
    """A finger put on the marked picture, moved along parts of it, and lifted."""
    pad = screens.control(kind=ft.GestureDetector)
    width, height = pad.content.width, pad.content.height

    def spot(place: Place) -> dict[str, object]:
        at = {"x": place[0] * width, "y": place[1] * height}
        return {"l": at, "g": at}

    screens.fire(pad, "pan_down", spot(way[0]))
    for place in way[1:]:
        screens.fire(pad, "pan_update", spot(place))
    screens.fire(pad, "pan_end", {**spot(way[-1]), "v": {"x": 0.0, "y": 0.0}})


def tap(screens: Screens, place: Place) -> None:
    """A tap on the marked picture."""
    pad = screens.control(kind=ft.GestureDetector)
    at = {"x": place[0] * pad.content.width, "y": place[1] * pad.content.height}
    screens.fire(pad, "tap_up", {"k": "touch", "l": at, "g": at})


def face(screens: Screens) -> FaceReading:
    found = photo(screens).face
    assert found is not None
    return found


def measured(screens: Screens) -> None:
    """The slice's face on the screen, measured."""
    screens.go(SLICE + "/face")
    screens.press("Measure the face")
    screens.pass_time(0.1)


def test_a_patch_of_bark_is_drawn_read_and_kept(example: Screens) -> None:
    example.go(BARK + "/bark")
    ring = ((0.4, 0.4), (0.6, 0.4), (0.6, 0.6), (0.4, 0.6))
    finger(example, ring)
    kept = photo(example, "demo-grey-bark").bark
    assert kept is not None
    assert len(kept.outline) == 4
    assert kept.at == pytest.approx((0.5, 0.5))
    assert example.has("The bark now")
    example.press("Small")  # back to a round patch in the same place
    again = photo(example, "demo-grey-bark").bark
    assert again is not None
    assert again.outline == ()


def test_the_board_tapped_as_white_is_doubted_and_taken_for_a_guess(example: Screens) -> None:
    example.go(SLICE + "/white")
    tap(example, (0.1, 0.12))  # the paper
    assert example.has("This patch gives the white of the light.")
    tap(example, (0.1, 0.9))  # the board
    assert "white in doubt" in (photo(example).light or ())
    assert example.has("This may be no white.")
    assert example.has("The meat looks blue under this white")
    example.go(SLICE + "/line")
    example.press("Measure this line")
    assert example.has("a guess")
    example.press("Let it count for this batch")
    assert example.has("Its white is in doubt")


def test_a_finger_that_slid_a_little_has_tapped(example: Screens) -> None:
    example.go(BARK + "/bark")
    finger(example, ((0.5, 0.5), (0.505, 0.502)))
    kept = photo(example, "demo-grey-bark").bark
    assert kept is not None
    assert kept.outline == ()
    assert kept.radius == 0.045


def test_the_end_of_a_line_follows_the_finger(example: Screens) -> None:
    example.go(SLICE + "/line")
    finger(example, ((0.51, 0.14), (0.45, 0.2), (0.41, 0.24)))
    line = photo(example).line
    assert line is not None
    assert line.start == pytest.approx((0.4, 0.22))
    assert line.end == pytest.approx((0.5, 0.88))


def test_a_face_is_mended_by_rubbing_and_shown_again(example: Screens) -> None:
    measured(example)
    before = face(example)
    example.press("A finger marks: Fat")
    finger(example, ((0.4, 0.5), (0.6, 0.5)))
    mended = face(example)
    assert mended.by_hand
    assert mended.fat_percent > before.fat_percent + 0.5
    assert mended.outline == before.outline
    example.press("Undo")
    assert face(example) == before
    finger(example, ((0.4, 0.5), (0.6, 0.5)))
    example.go("/journal")
    example.go(SLICE + "/face")
    assert example.has("Put right by hand in places.")
    seen = face_again(face(example))
    assert seen is not None
    assert seen.face.shares["fat"] == mended.fat_percent


def test_what_was_mended_outlives_another_outline_and_another_white(example: Screens) -> None:
    measured(example)
    example.press("A finger marks: Fat")
    finger(example, ((0.4, 0.5), (0.6, 0.5)))
    example.press("A finger marks: Nothing")
    mended = face(example)
    finger(example, (mended.outline[0], (mended.outline[0][0] - 0.05, mended.outline[0][1])))
    example.pass_time(0.1)
    pulled = face(example)
    assert pulled.by_hand
    assert pulled.outline != mended.outline
    example.go(SLICE + "/white")
    example.press("Patch right")
    assert photo(example).neutral_rgb is not None
    whited = face_again(face(example))
    assert whited is not None
    by_hand = face_again(mended)
    assert by_hand is not None
    still = [place for place in by_hand.by_hand if whited.face.classes[place] == 2]
    assert len(still) > 0.9 * len(by_hand.by_hand)


def test_a_face_is_laid_over_its_photo(example: Screens) -> None:
    example.go(SLICE)
    assert not example.has("Laid over it")
    measured(example)
    example.go(SLICE)
    example.press("Laid over it: Its parts")
    laid = example.control("The parts of the cut face", ft.Image)
    assert laid.src == overlay(face(example))


def test_what_a_photo_showed_stands_with_the_batch(example: Screens) -> None:
    measured(example)
    example.go("/journal/demo-grey-01")
    kept = face(example)
    says = f"of the face {kept.cured_percent:.0f} % cured, {kept.grey_percent:.0f} % grey"
    assert example.has(says)


def test_a_face_kept_without_its_cells_shows_its_shares(example: Screens) -> None:
    old = FaceReading(60.0, 10.0, 20.0, 5.0, 5.0, 0.9, ((0.1, 0.1), (0.9, 0.1), (0.5, 0.9)))
    spoilt = evolve(old, cells="????", columns=3, rows=3)
    for kept in (old, spoilt):
        example.bench.shelf.save_photo(evolve(photo(example), face=kept))
        example.do(example.bench.refresh)
        example.go(SLICE + "/face")
        assert example.has("Last measured: cured 60 %, pale 10 %, grey 20 %.")


def test_a_mend_that_leaves_nothing_is_refused(example: Screens) -> None:
    measured(example)
    seen = face_again(face(example))
    assert seen is not None
    with pytest.raises(ValueError, match="Nothing of the slice"):
        touched(seen, [(0.0, 0.0)], 5000.0, 0)
    assert carried_over(seen.face, None).by_hand == frozenset()


def test_the_bark_of_a_smoke_is_shown_in_its_order(example: Screens) -> None:
    batch = example.bench.batch("demo-grey-01")
    assert batch is not None
    first = photo(example, "demo-grey-bark")
    labs = ((44.0, 18.0, 20.0), (34.0, 16.0, 15.0))
    early = evolve(first, bark=BarkReading(labs[1], (0.5, 0.5), 0.05))
    begun = next(step.done for step in batch.plan if step.stage == "smoke")
    assert isinstance(begun, Moment)
    two_hours = evolve(begun, utc_s=begun.utc_s + 7200.0)
    four_hours = evolve(begun, utc_s=begun.utc_s + 4 * 3600.0)
    shelf = example.bench.shelf
    shelf.save_photo(evolve(early, taken=four_hours))
    other = photo(example, "demo-grey-slice")
    shelf.save_photo(
        evolve(other, taken=two_hours, stage="smoke", bark=BarkReading(labs[0], (0.5, 0.5), 0.05))
    )
    example.do(example.bench.refresh)
    for place in (BARK + "/bark", "/journal/demo-grey-01/wrap"):
        example.go(place)
        assert example.has("The bark is getting darker, about 5 L* an hour.")
        said = example.texts()
        assert said.index("2 h") < said.index("4 h")


def test_bark_stands_beside_the_best_at_the_wrap(example: Screens) -> None:
    for photo_id, lab in (
        ("demo-good-bark", (28.0, 8.0, 8.5)),
        ("demo-grey-bark", (20.0, 12.0, 8.0)),
    ):
        one = photo(example, photo_id)
        example.bench.shelf.save_photo(evolve(one, bark=BarkReading(lab, (0.5, 0.5), 0.05)))
    example.do(example.bench.refresh)
    for place in (BARK + "/bark", "/journal/demo-grey-01/wrap"):
        example.go(place)
        assert example.has("Darker and redder than your best at its wrap.")


@pytest.mark.parametrize("part", ["", "/white", "/bark", "/line", "/face"])
def test_nothing_waits_for_a_finger_that_it_would_not_hear(example: Screens, part: str) -> None:
    """The client draws an error in place of such a detector."""
    example.go(SLICE + part)
    deaf = [
        one
        for one in example.controls()
        if isinstance(one, ft.GestureDetector)
        and not any((one.on_tap, one.on_tap_up, one.on_pan_update, one.on_scale_update))
    ]
    assert deaf == []
