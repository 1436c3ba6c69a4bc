"""The needle instead of the days: its mix, its days, its steps."""

import pytest
from attrs import evolve

from app.cure.request import Method, MixRequest
from app.journal.fits import misfits
from app.journal.marks import mark_done
from app.journal.needle import by_needle
from tests.journal.made import BERLIN, batch, moment, names, step


@pytest.mark.parametrize("method", ["equilibrium", "cover", "dry"])
def test_the_mix_is_pumped_and_the_days_are_those_it_takes_to_even_out(method: Method) -> None:
    mix = MixRequest(3000.0, method=method, salt_percent=2.0 if method != "cover" else 8.0)
    made = batch(mix=mix, serve="2027-03-06T18:00")
    after = by_needle(made, names("n"), BERLIN)
    assert (after.mix.method, after.mix.meat_g) == ("injection", 3000.0)
    assert step(after, "cure").minutes == 4 * 1440
    assert {"chill", "soak"} <= {one.stage for one in after.plan}
    assert [one.due[11:] for one in after.plan if one.stage == "turn"] == [
        step(after, "cure").due[11:]
    ]
    assert misfits(after, "2027-02-20T09:00", BERLIN) == ()
    if method == "equilibrium":
        assert after.mix.salt_percent == 2.0
    assert made.mix.method == method


def test_it_makes_room_before_a_meal_that_was_too_near() -> None:
    made = batch(serve="2027-02-27T18:00")
    now = "2027-02-20T09:00"
    (misfit,) = misfits(made, now, BERLIN)
    assert misfit.needle
    assert misfits(by_needle(made, names("n"), BERLIN), now, BERLIN) == ()


def test_what_is_in_the_cure_or_injected_cannot_be_pumped() -> None:
    made = batch()
    begun = mark_done(made, step(made, "cure").id, moment("2027-02-20T22:30"), BERLIN)
    with pytest.raises(ValueError, match="in the cure already"):
        by_needle(begun, names("n"))
    with pytest.raises(ValueError, match="injected already"):
        by_needle(by_needle(made, names("n")), names("n"))
    with pytest.raises(ValueError, match="in the cure already"):
        by_needle(evolve(made, plan=()), names("n"))
