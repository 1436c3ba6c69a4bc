"""Every answer of this room can be opened: formula, what went in, source, limits."""

import pytest

from app.cure.working import Working
from app.transport import calibrate, days, picture, soak
from app.transport.brining import cover_bath
from app.transport.diffusion import Piece, Stage
from app.transport.outlook import outlook

CURED = outlook([Stage("cure", 100.0, cover_bath(5000, 5000, 600, 2.0))], Piece(45.0))
SLICE = calibrate.CuredSlice(Piece(60.0), 7.0, 20.0, 150.0, 1.0)

WORKINGS = {
    "colour": days.days_to_colour(Piece(45.0), 150.0).working,
    "even": days.days_to_even(Piece(45.0)).working,
    "grey": days.grey_core(Piece(45.0), 3.0, 150.0).working,
    "picture": picture.slice_picture(CURED.likely.end).working,
    "salt now": soak.salt_now(CURED).working,
    "rinse": soak.rinse(CURED).working,
    "soak": soak.soak_needed(CURED, 3.0, 5000, 8000).working,
    "own": calibrate.calibrate([SLICE]).working,
}


@pytest.mark.parametrize("working", [pytest.param(w, id=name) for name, w in WORKINGS.items()])
def test_working_is_whole(working: Working) -> None:
    assert working.title
    assert working.formula
    assert working.result
    assert working.source
    assert working.limits
    assert working.inputs
    assert all(name and value for name, value in working.inputs)


def test_the_result_is_the_sentence_shown() -> None:
    assert WORKINGS["picture"].result == picture.slice_picture(CURED.likely.end).says
    assert WORKINGS["rinse"].result == soak.rinse(CURED).says
