"""Every answer of this room can be opened: formula, what went in, source, limits."""

from datetime import date

import pytest

from app.cure.working import Working
from app.heat import chill, cooling, lethality, offset, rest, stall, storing, thaw

LOG = [(0.0, 60.0), (30.0, 68.0), (60.0, 68.5), (90.0, 69.0)]
STALL = stall.find_stall(LOG)
assert STALL is not None

WORKINGS = {
    "lethality": lethality.accumulate(LOG).working,
    "consumer": lethality.consumer_rule(LOG).working,
    "cooling": cooling.cooling_clocks(LOG, 100.0).working,
    "two hours": cooling.two_hours(30.0).working,
    "rest": rest.rest_forecast((0, 90.0), (60, 84.0)).working,
    "thaw": thaw.thaw_time(3000.0).working,
    "chill": chill.hours_to_chill(5000.0, 8.0, 20.0).working,
    "storing": storing.store_by("cooked", "fridge", date(2027, 3, 6)).working,
    "stall": STALL.working,
    "finish": stall.finish_range(65.0, [stall.PastCook(tuple(LOG), 200.0)]).working,
    "offset": offset.ice_check([0.5]).working,
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
