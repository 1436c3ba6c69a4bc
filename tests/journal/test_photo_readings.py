"""What the photos of a journal say together."""

from typing import Any

import pytest
from attrs import evolve

from app.colour.lab import Triple
from app.journal.photo_readings import (
    Witness,
    bark_at_wrap,
    bark_trend,
    beside_earlier,
    in_record,
    mm_per_part,
    outcome_with,
)
from app.journal.records import (
    BarkReading,
    Batch,
    Decision,
    Entry,
    Moment,
    Photo,
    PhotoTaken,
    SliceOutcome,
    SliceReading,
    Stage,
)
from tests.journal import made

HOUR_S = 3600.0
DARK, PALE_BROWN, RED = (20.0, 12.0, 8.0), (40.0, 10.0, 14.0), (24.0, 20.0, 9.0)


def later(hours: float) -> Moment:
    return evolve(made.NOW, utc_s=made.NOW.utc_s + hours * HOUR_S)


def shot(hours: float, lab: Triple | None, stage: Stage = "wrap", **given: Any) -> Photo:
    bark = BarkReading(lab, (0.5, 0.5), 0.05) if lab else None
    name = f"p{hours:g}"
    return Photo(name, "b", later(hours), stage, 2000, 1000, 1, **({"bark": bark} | given))


def wrapped(hours: float) -> Entry:
    return Entry("w", "b", later(hours), "wrap", Decision("wrapped"), made.NOW)


def batch(name: str, rating: int | None = None, begun_h: float = 0.0) -> Batch:
    outcome = None if rating is None else SliceOutcome(at=made.NOW, rating=rating)
    return evolve(made.batch(name), id=name, outcome=outcome, created=later(begun_h))


def test_photos_whose_line_was_removed_are_left_out() -> None:
    named = Entry("e", "b", made.NOW, "wrap", PhotoTaken("p1"), made.NOW)
    assert in_record([shot(1, DARK), shot(2, DARK)], [named]) == (shot(1, DARK),)


def test_the_bark_at_the_wrap_is_the_last_before_the_decision() -> None:
    photos = (shot(3, PALE_BROWN), shot(5, DARK), shot(9, RED), shot(4.5, None))
    one = Witness(batch("a"), (wrapped(5.1),), photos)
    found = bark_at_wrap(one)
    assert found is not None
    assert found.id == "p5"


def test_a_photo_taken_while_wrapping_still_shows_it() -> None:
    one = Witness(batch("a"), (wrapped(5.0),), (shot(3, PALE_BROWN), shot(5.2, DARK)))
    found = bark_at_wrap(one)
    assert found is not None
    assert found.id == "p5.2"


def test_bark_of_a_slice_is_not_bark_at_the_wrap() -> None:
    one = Witness(batch("a"), (), (shot(3, DARK, "slice"), shot(2, DARK, "smoke")))
    found = bark_at_wrap(one)
    assert found is not None
    assert found.stage == "smoke"
    assert bark_at_wrap(Witness(batch("a"), (), (shot(3, DARK, "slice"),))) is None


def test_the_best_rated_batch_stands_first_and_is_called_the_best() -> None:
    others = [
        Witness(batch("poor", 2, 9.0), (), (shot(1, DARK),)),
        Witness(batch("good", 5, 1.0), (), (shot(1, PALE_BROWN),)),
        Witness(batch("never judged", None, 8.0), (), (shot(1, RED),)),
        Witness(batch("never photographed", 5, 20.0)),
    ]
    found = beside_earlier(DARK, batch("now"), others)
    assert [one.batch_id for one in found] == ["good", "poor", "never judged"]
    assert found[0].best
    assert found[0].compared.sentence.startswith("Much darker")
    assert found[0].compared.sentence.endswith("than your best at its wrap.")
    assert found[1].compared.sentence == "The same to the eye as poor at its wrap."


def test_darker_and_redder_than_the_best_is_said_in_these_words() -> None:
    best = Witness(batch("good", 5), (), (shot(1, (28.0, 8.0, 8.5)),))
    found = beside_earlier(DARK, batch("now"), [best])
    assert found[0].compared.sentence == "Darker and redder than your best at its wrap."


def test_a_batch_is_not_set_beside_itself() -> None:
    this = batch("now", 5)
    assert beside_earlier(DARK, this, [Witness(this, (), (shot(1, DARK),))]) == []


def test_the_later_of_two_alike_is_the_best() -> None:
    others = [
        Witness(batch(name, 4, at), (), (shot(1, DARK),)) for name, at in (("a", 1), ("b", 2))
    ]
    assert beside_earlier(RED, batch("now"), others)[0].batch_id == "b"


def test_the_trend_counts_hours_from_the_fire_and_leaves_slices_out() -> None:
    photos = [shot(1, PALE_BROWN, "smoke"), shot(3, DARK), shot(30, (60.0, 5.0, 5.0), "slice")]
    told = bark_trend(batch("a"), photos)
    assert told is not None
    assert told.lightness_per_h == pytest.approx(-10.0)
    assert "darker, about 10 L* an hour" in told.sentence


def test_one_photo_is_no_trend() -> None:
    assert bark_trend(batch("a"), [shot(1, DARK), shot(2, None)]) is None
    assert bark_trend(batch("a"), []) is None


LINE = SliceReading((0.5, 0.1), (0.5, 0.9), 60.0, 13.456, 26.543, (0.1, 0.9), 0.8, 62.0)


def test_a_line_goes_into_the_outcome_and_leaves_the_tasting_alone() -> None:
    before = SliceOutcome(at=made.NOW, salt=4, notes="peppery", thickness_mm=40.0)
    after = outcome_with(LINE, before, later(1))
    assert (after.grey_percent, after.pale_percent, after.thickness_mm) == (26.5, 13.5, 62.0)
    assert (after.salt, after.notes, after.at) == (4, "peppery", made.NOW)


def test_a_line_without_a_thickness_leaves_the_known_one() -> None:
    before = SliceOutcome(at=made.NOW, thickness_mm=40.0)
    assert outcome_with(evolve(LINE, thickness_mm=None), before, made.NOW).thickness_mm == 40.0
    assert outcome_with(LINE, None, later(2)).at == later(2)


def test_a_line_that_showed_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="not measured"):
        outcome_with(SliceReading((0.0, 0.0), (1.0, 1.0)), None, made.NOW)


def test_a_photos_scale_follows_from_the_thickness_between_the_edges() -> None:
    # 1000 px high, the line 800 px long, the slice on 640 of them: 62 mm.
    assert mm_per_part(shot(1, None, line=LINE)) == pytest.approx(2000 * 62.0 / 640.0)


@pytest.mark.parametrize(
    "line",
    [None, evolve(LINE, thickness_mm=None), evolve(LINE, edges=(0.4, 0.4))],
    ids=["no line", "no thickness", "no slice between the edges"],
)
def test_without_a_thickness_there_is_no_scale(line: SliceReading | None) -> None:
    assert mm_per_part(shot(1, None, line=line)) is None
