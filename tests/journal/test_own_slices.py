"""What a cook's own slices do to the days of the next batch."""

from typing import Any

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.advised import Past
from app.journal.own_slices import (
    length_by_slices,
    likely_days,
    own_slices,
    say_slices,
    taught_by,
)
from app.journal.records import SliceOutcome
from app.transport.diffusivity import NITRITE
from tests.journal import made

DAY_S = 86400.0
THICK_MM = 60.0


def cured(days: float, grey: float | None, name: str = "First", **given: Any) -> Past:
    """A batch that lay so long in the cure and showed so much grey."""
    given = {"mix": MixRequest(3000.0), "thickness_mm": THICK_MM, **given}
    outcome = SliceOutcome(at=made.NOW, grey_percent=grey)
    batch = evolve(made.batch(name, **given), outcome=outcome, id=name)
    begun = made.NOW.utc_s
    ends = {"cure": begun, "end": begun + days * DAY_S}
    plan = tuple(
        evolve(step, done=evolve(made.NOW, utc_s=ends[step.stage])) if step.stage in ends else step
        for step in batch.plan
    )
    return Past(evolve(batch, plan=plan))


def days_for(pasts: list[Past]) -> float:
    """Days of the next cure of the same cut and thickness [d]."""
    own = own_slices(pasts, "Brisket flat")
    length = length_by_slices(MixRequest(2500.0), THICK_MM, False, own)
    assert length is not None
    return length.minutes / 1440.0


def test_a_greyer_slice_asks_for_more_days_and_a_pink_one_for_fewer() -> None:
    by_slow, by_quick = days_for([cured(7.0, 60.0)]), days_for([cured(7.0, 0.0)])
    general = likely_days(MixRequest(2500.0), THICK_MM, False)
    assert general is not None
    assert by_slow > general > by_quick - 1.0  # days are rounded up to whole ones
    assert by_slow > by_quick


def test_more_slices_that_agree_move_the_days_further() -> None:
    one = days_for([cured(7.0, 60.0)])
    four = days_for([cured(7.0, 60.0, f"No. {n}") for n in range(4)])
    assert four > one


def test_the_length_says_that_it_comes_from_own_slices() -> None:
    own = own_slices([cured(7.0, 30.0), cured(8.0, 25.0, "Second")], "brisket FLAT")
    length = length_by_slices(MixRequest(2500.0), THICK_MM, False, own)
    assert length is not None
    assert length.why == "from your own slices: 2 so far"
    assert length.minutes % 1440.0 == 0.0


@pytest.mark.parametrize(
    "past",
    [
        cured(7.0, None),
        cured(7.0, 30.0, cut="Brisket point"),
        cured(7.0, 30.0, mix=MixRequest(3000.0, method="injection")),
        Past(evolve(cured(7.0, 30.0).batch, demonstration=True)),
        Past(evolve(cured(7.0, 30.0).batch, outcome=None)),
    ],
    ids=["no grey told", "another cut", "injected", "invented", "not cut yet"],
)
def test_what_is_no_slice_of_this_cut_teaches_nothing(past: Past) -> None:
    own = own_slices([past], "Brisket flat")
    assert own.diffusivity == NITRITE
    assert length_by_slices(MixRequest(2500.0), THICK_MM, False, own) is None
    if past.batch.cut == "Brisket flat":
        assert taught_by(past, []) is None


@pytest.mark.parametrize(
    "mix",
    [
        MixRequest(2500.0, days=9.0),
        MixRequest(2500.0, method="cover"),
        MixRequest(2500.0, method="injection"),
    ],
    ids=["days asked for", "strong cover brine", "injected"],
)
def test_slices_do_not_set_days_that_are_set_otherwise(mix: MixRequest) -> None:
    own = own_slices([cured(7.0, 30.0)], "Brisket flat")
    assert own.diffusivity.slices == 1
    assert length_by_slices(mix, THICK_MM, False, own) is None


def test_a_slice_says_what_it_changes_for_the_next_batch() -> None:
    this = cured(7.0, 60.0)
    told = taught_by(this, [])
    assert told is not None
    assert told.before_days is not None
    assert told.after_days is not None
    assert told.after_days > told.before_days
    assert told.slices == 1
    assert told.sentence.startswith("From your own slices: the next piece like this needs ")
    assert "without this slice it was" in told.sentence
    assert told.sentence.endswith("It rests on 1 slice (brisket flat).")


def test_a_slice_counts_once_though_its_batch_is_among_the_others() -> None:
    this = cured(7.0, 60.0)
    told, alone = taught_by(this, [this, cured(7.0, 55.0, "Second")]), taught_by(this, [])
    assert told is not None
    assert alone is not None
    assert told.slices == 2
    assert told.before_days != alone.before_days


def test_a_slice_that_changes_nothing_says_so() -> None:
    # So much nitrite reaches the middle of thin meat on the first days whatever is learned.
    thin: dict[str, Any] = {"thickness_mm": 8.0}
    told = taught_by(cured(5.0, 0.0, **thin), [])
    assert told is not None
    assert "as it was without this slice" in told.sentence


def test_the_outcomes_thickness_serves_where_the_batch_has_none() -> None:
    past = cured(7.0, 60.0, thickness_mm=None)
    assert past.batch.outcome is not None
    thick = evolve(past.batch.outcome, thickness_mm=THICK_MM)
    told = taught_by(Past(evolve(past.batch, outcome=thick)), [])
    with_own = taught_by(cured(7.0, 60.0), [])
    assert told is not None
    assert with_own is not None
    assert told.after_days == with_own.after_days


def test_a_piece_the_models_cannot_take_has_no_days() -> None:
    own = own_slices([cured(7.0, 30.0)], "Brisket flat")
    assert length_by_slices(MixRequest(2500.0), -4.0, False, own) is None


def test_slices_are_counted_in_words() -> None:
    assert (say_slices(1), say_slices(3)) == ("1 slice", "3 slices")
