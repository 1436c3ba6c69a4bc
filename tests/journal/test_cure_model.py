"""A mix as the transport models take it."""

import pytest

from app.cure.mix import work_out
from app.cure.request import Method, MixRequest
from app.journal.cure_model import cure_model, planned_days
from app.transport.brining import NITRITE, SALT, nitrite_ppm, salt_percent

LONG_DAYS = 400.0


@pytest.mark.parametrize("method", ["equilibrium", "cover", "dry", "injection"])
def test_after_very_long_the_meat_holds_what_the_mix_says(method: Method) -> None:
    mix = MixRequest(3000.0, method=method, water_g=None if method == "dry" else 2500.0)
    model = cure_model(mix, 40.0)
    end = model.after(LONG_DAYS).likely.end
    water = model.meat_water
    if method != "injection":
        held = nitrite_ppm(end.profiles[NITRITE].core, water)
        assert held == pytest.approx(model.ingoing_ppm, rel=0.01)
        salt = salt_percent(end.profiles[SALT].average, water)
        at_rest = work_out(mix).salt.at_rest_percent
        assert salt == pytest.approx(at_rest, rel=0.01)
    else:
        held = nitrite_ppm(end.profiles[NITRITE].core, water)
        assert held == pytest.approx(model.ingoing_ppm, rel=0.15)


def test_injected_meat_holds_cure_in_the_middle_from_the_start() -> None:
    pumped = cure_model(MixRequest(3000.0, method="injection", water_g=2500.0), 80.0)
    soaked = cure_model(MixRequest(3000.0, water_g=2500.0), 80.0)
    assert pumped.start is not None
    assert soaked.start is None
    cores = [m.after(1.0).likely.end.profiles[NITRITE].core for m in (pumped, soaked)]
    assert cores[0] > 10 * cores[1]
    assert pumped.bath_ratio > 0


def test_with_all_of_the_pickle_pumped_in_no_bath_is_left() -> None:
    def mix(water_g: float) -> MixRequest:
        return MixRequest(3000.0, method="injection", water_g=water_g, salt_percent=0.5)

    low, high = 200.0, 400.0  # Less than the pump takes, and more.
    for _ in range(60):
        middle = (low + high) / 2
        try:
            work_out(mix(middle))
            high = middle
        except ValueError:
            low = middle
    model = cure_model(mix(high), 40.0)
    assert model.bath is None
    assert model.bath_ratio == 0.0
    held = model.after(30.0).likely.end.profiles[NITRITE].average
    assert nitrite_ppm(held, model.meat_water) > 0


def test_the_piece_comes_from_the_batch_the_mix_or_the_cut() -> None:
    assert cure_model(MixRequest(3000.0, cut="flat")).piece.thickness_mm == 40.0
    assert cure_model(MixRequest(3000.0, thickness_mm=55.0)).piece.thickness_mm == 55.0
    assert cure_model(MixRequest(3000.0, thickness_mm=55.0), 66.0).piece.thickness_mm == 66.0
    assert cure_model(MixRequest(3000.0, fat_cap_on=True)).piece.faces == 1
    assert cure_model(MixRequest(3000.0, fat_cap_on=True), fat_cap_on=False).piece.faces == 2


def test_planned_days_fall_back_to_first_pink_and_to_nothing() -> None:
    assert planned_days(MixRequest(3000.0, nitrite_ppm=10.0), 40.0) is None
    weak = planned_days(MixRequest(3000.0, nitrite_ppm=40.0), 40.0)
    strong = planned_days(MixRequest(3000.0, nitrite_ppm=150.0), 40.0)
    assert weak is not None
    assert strong is not None
    with pytest.raises(ValueError, match="more than the 200 ppm"):
        planned_days(MixRequest(3000.0, nitrite_ppm=5000.0), 40.0)
