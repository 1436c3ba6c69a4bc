"""The trimmed weight against the mix made for another one."""

import pytest
from attrs import evolve

from app.cure.mix import work_out
from app.cure.request import Method, MixRequest
from app.cure.targets import METHOD_NAMES
from app.journal.entries import weighed
from app.journal.marks import mark_done
from app.journal.records import Batch, Entry
from app.journal.trimmed import mixed_for, other_weight
from tests.journal.made import BERLIN, batch, moment, step


def line(grams: float, of: str = "trimmed", at: str = "2027-02-20T10:00") -> Entry:
    when = moment(at)
    return Entry(f"{at}{of}", "s1", when, "trim", weighed(grams, of), when)


def in_cure(made: Batch) -> Batch:
    return mark_done(made, step(made, "cure").id, moment("2027-02-20T20:00"), BERLIN)


def test_a_near_weight_and_no_weight_say_nothing() -> None:
    made = batch(mix=MixRequest(3000.0))
    assert other_weight(made, []) is None
    assert other_weight(made, [line(3000.0 * 0.985), line(1000.0, "cured")]) is None
    assert other_weight(evolve(made, finished=True), [line(2000.0)]) is None


@pytest.mark.parametrize(
    ("trimmed_g", "doubtful"),
    [(3200.0 * 0.45, True), (2000.0, False), (3100.0, False), (3200.0 * 2.2, True)],
)
def test_a_weight_that_may_be_in_the_other_unit_is_doubted(
    trimmed_g: float, doubtful: bool
) -> None:
    found = other_weight(batch(mix=MixRequest(3200.0)), [line(trimmed_g)])
    assert found is not None
    assert found.doubtful is doubtful


@pytest.mark.parametrize("method", METHOD_NAMES)
def test_the_nitrite_stays_and_the_meat_is_less(method: Method) -> None:
    made = batch(mix=MixRequest(3000.0, method=method))
    found = other_weight(made, [line(2500.0, at="2027-02-20T09:30"), line(2000.0)])
    assert found is not None
    assert (found.trimmed_g, found.mixed_g, found.in_cure) == (2000.0, 3000.0, False)
    mixed = work_out(made.mix).nitrite
    pickle = 1e6 * mixed.grams / mixed.ppm - 3000.0
    assert found.ppm * (2000.0 + pickle) == pytest.approx(150.0 * (3000.0 + pickle))
    assert found.most_ppm == mixed.most_ppm
    # Dry, all of it is on the meat: by the handbook's own sum, 150 · 3000 / 2000.
    if method == "dry":
        assert found.ppm == pytest.approx(225.0)


def test_mixed_for_the_trimmed_weight_it_agrees_again() -> None:
    made = batch(mix=MixRequest(3000.0, salt_percent=2.2))
    again = mixed_for(made, 2000.0)
    assert other_weight(again, [line(2000.0)]) is None
    assert again.mix == MixRequest(2000.0, salt_percent=2.2)


def test_in_the_cure_it_is_said_and_above_the_limit_too() -> None:
    made = in_cure(batch(mix=MixRequest(3000.0)))
    mild, strong = (other_weight(made, [line(grams)]) for grams in (2600.0, 1200.0))
    assert mild is not None
    assert strong is not None
    assert (mild.in_cure, mild.over_limit) == (True, False)
    assert strong.over_limit
    out = mark_done(made, step(made, "end").id, moment("2027-02-28T07:00"), BERLIN)
    assert other_weight(out, [line(1200.0)]) is None
