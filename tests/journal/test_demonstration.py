"""The two invented batches, their record and their pictures."""

from pathlib import Path
from statistics import mean

import pytest
from PIL import Image

from app.colour.cure_line import measure
from app.journal.advice import advice
from app.journal.compare import compare
from app.journal.demonstration import (
    CARD_RGB,
    PICTURES,
    PREFIX,
    Demonstration,
    SlicePicture,
    demonstration,
    is_demonstration,
)
from app.journal.due import due_list
from app.journal.fits import misfits
from app.journal.records import Moment, PhotoTaken
from app.journal.wall import wall_of
from app.journal.yields import money, weights, yield_percent
from tests.journal.made import NOW

ASSETS = Path(__file__).resolve().parents[2] / "assets"
MADE = demonstration(NOW)


def test_all_of_it_is_marked_as_invented() -> None:
    assert all(one.demonstration and is_demonstration(one.id) for one in MADE.batches)
    assert all("Invented" in one.name for one in MADE.batches)
    ids = [
        *(one.id for one in MADE.batches),
        *(step.id for one in MADE.batches for step in one.plan),
        *(one.id for one in MADE.entries),
        *(one.id for one in MADE.photos),
    ]
    assert all(one.startswith(PREFIX) for one in ids)
    assert len(set(ids)) == len(ids)
    assert {one.batch_id for one in MADE.entries} == {one.id for one in MADE.batches}
    assert not is_demonstration("4f2a")


def test_it_is_the_same_each_time_and_lies_before_now() -> None:
    assert demonstration(NOW) == MADE
    later = demonstration(Moment(NOW.utc_s + 86400, -300))
    assert [one.id for one in later.batches] == [one.id for one in MADE.batches]
    assert all(one.at.utc_s < NOW.utc_s for one in MADE.entries)
    assert all(one.changed.utc_s < NOW.utc_s for one in MADE.batches)
    assert all(wall_of(one.created).endswith("T09:00") for one in later.batches)


def test_both_are_finished_and_ask_for_nothing() -> None:
    assert all(one.finished for one in MADE.batches)
    assert due_list(MADE.batches, wall_of(NOW)) == ()
    assert all(misfits(one, wall_of(NOW)) == () for one in MADE.batches)


def test_one_is_good_and_one_has_a_grey_core_and_advice_tells_them_apart() -> None:
    good, grey = MADE.batches
    assert good.outcome is not None
    assert grey.outcome is not None
    assert (good.outcome.grey_percent, good.outcome.rating) == (0.0, 5)
    assert (grey.outcome.grey_percent or 0) > 20
    record = {one.id: [e for e in MADE.entries if e.batch_id == one.id] for one in MADE.batches}
    assert advice(good, MADE.batches, record) == ()
    said = advice(grey, MADE.batches, record)
    assert [one.id for one in said] == ["days", "inject", "taste", "finish"]
    lines = compare(MADE.batches, record)
    assert lines[0].differs
    assert {"Grey core", "In the cure", "Core when pulled"} <= {x.label for x in lines if x.differs}
    for one in MADE.batches:
        assert len(weights(one, record[one.id])) >= 4
        assert 60 < (yield_percent(one, record[one.id]) or 0) < 80
        assert money(one, record[one.id])[0].per_serving


def test_every_photo_is_there_as_its_record_says() -> None:
    taken = {one.body.photo_id: one for one in MADE.entries if isinstance(one.body, PhotoTaken)}
    assert {one.id for one in MADE.photos} == set(taken) == set(dict(MADE.files))
    assert {one.cover_photo_id for one in MADE.batches} <= set(taken)
    for photo in MADE.photos:
        file = ASSETS / dict(MADE.files)[photo.id]
        assert file.stat().st_size == photo.stored_bytes < 60_000
        with Image.open(file) as image:
            assert (image.format, image.size) == ("JPEG", (photo.width, photo.height))
        assert photo.batch_id == taken[photo.id].batch_id


@pytest.mark.parametrize("picture", [p for p in PICTURES if isinstance(p.drawn, SlicePicture)])
def test_the_drawn_slice_shows_what_the_outcome_says(picture) -> None:  # type: ignore[no-untyped-def]
    outcome = next(b.outcome for b in MADE.batches if b.cover_photo_id == picture.photo_id)
    assert outcome is not None
    assert outcome.grey_percent == picture.drawn.grey_percent
    assert outcome.thickness_mm == picture.drawn.thickness_mm
    with Image.open(ASSETS / "demonstration" / picture.file) as image:
        rgb = image.convert("RGB")
        corner = rgb.crop((60, 50, 120, 90)).resize((1, 1), Image.Resampling.BOX).getpixel((0, 0))
        middle = rgb.crop((420, 380, 540, 410)).resize((1, 1), Image.Resampling.BOX)
        red, green, _ = middle.getpixel((0, 0))  # type: ignore[misc]
    assert picture.neutral_rgb == CARD_RGB
    assert max(abs(a - b) for a, b in zip(corner, CARD_RGB, strict=True)) <= 3  # type: ignore[arg-type]
    # Grey in the middle where the cure did not reach, plainly red where it did.
    assert (red - green < 45) is (picture.drawn.grey_percent > 0)


@pytest.mark.parametrize("picture", [p for p in PICTURES if isinstance(p.drawn, SlicePicture)])
def test_the_program_reads_off_the_slice_what_was_drawn(picture) -> None:  # type: ignore[no-untyped-def]
    with Image.open(ASSETS / "demonstration" / picture.file) as image:
        rgba, (wide, high) = image.convert("RGBA").tobytes(), image.size
    lines = [
        measure(
            rgba, wide, high, (x * wide, 0.2 * high), (x * wide, 0.97 * high), picture.neutral_rgb
        )
        for x in (0.35, 0.5, 0.65)
    ]
    grey = mean(line.grey_percent or 0.0 for line in lines)
    assert all(line.known for line in lines)
    # The bounds between grey and pale are drawn soft, and uneven as meat has them.
    assert grey == pytest.approx(picture.drawn.grey_percent, abs=6.0)


def test_a_demonstration_is_plain_data() -> None:
    assert isinstance(MADE, Demonstration)
    assert len(MADE.batches) == 2
    assert len(MADE.photos) == len(PICTURES) == 4
