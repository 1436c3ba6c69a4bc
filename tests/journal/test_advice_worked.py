"""Advice against cases worked by hand, from the formulas it names and not from its own code."""

from math import cos, exp, pi, tan

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.advice_salt import likely_salt_percent, right_salt
from app.journal.advised import Past
from app.journal.cure_model import cure_model
from app.journal.entries import decided
from tests.journal.test_advice import MIX, cooked, said


def _roots(alpha: float, count: int = 40) -> list[float]:
    """Positive roots of tan q = −α q, one in each (n − ½, n) · π, by halving."""
    found = []
    for n in range(1, count + 1):
        low, high = (n - 0.5) * pi + 1e-9, n * pi - 1e-9
        for _ in range(80):
            middle = (low + high) / 2.0
            if tan(middle) + alpha * middle < 0.0:
                low = middle
            else:
                high = middle
        found.append((low + high) / 2.0)
    return found


def _there(place: float, fourier: float, alpha: float) -> float:
    """Part of the final value at `place` (0 the middle, 1 the face) of a sheet in a limited bath.

    Crank, The Mathematics of Diffusion, 2nd ed. (1975), eq. 4.36 (number from memory).
    """
    series = sum(
        2.0
        * (1.0 + alpha)
        / (1.0 + alpha + alpha * alpha * q * q)
        * exp(-q * q * fourier)
        * cos(q * place)
        / cos(q)
        for q in _roots(alpha)
    )
    return 1.0 + series


def _fourier_when(place: float, wanted: float, alpha: float) -> float:
    low, high = 0.01, 5.0
    for _ in range(80):
        middle = (low + high) / 2.0
        low, high = (middle, high) if _there(place, middle, alpha) < wanted else (low, middle)
    return (low + high) / 2.0


def test_days_for_a_grey_core_are_those_of_cranks_series() -> None:
    # A 60 mm flat, 25 % of it grey after 5 days: there 14 ppm stood a quarter of the way from
    # the middle. How long until 45 ppm stand in the middle follows by the square-root law alone.
    model = cure_model(MIX, 60.0)
    seen = _fourier_when(0.25, 14.0 / model.ingoing_ppm, model.bath_ratio)
    needed = _fourier_when(0.0, 45.0 / model.ingoing_ppm, model.bath_ratio)
    by_hand = 5.0 * needed / seen
    # Twenty slices that say the same leave nothing of what is held before the first.
    others = [cooked(f"n{n}", days=5, grey_percent=25.0) for n in range(20)]
    days = said(cooked(grey_percent=25.0), *others)[0]
    wanted = dict(days.mix_changes)["days"]
    assert isinstance(wanted, float)
    assert wanted == pytest.approx(by_hand, rel=0.12)
    assert wanted - 1.0 <= by_hand * 1.05, "whole days, rounded up"
    assert days.sure == "sure"


@pytest.mark.parametrize(
    ("score", "new"),
    [
        (4, 2.0),  # 2.5 % · e^−0.22 = 2.006 %
        (2, 3.1),  # 2.5 % · e^+0.22 = 3.115 %
        (5, 1.9),  # e^−0.44 = 0.644 is more than one step may take: 2.5 % / 1.35 = 1.852 %
        (1, 3.4),  # 2.5 % · 1.35 = 3.375 %
    ],
)
def test_one_tasting_moves_the_salt_by_one_step_and_no_further_than_allowed(
    score: int, new: float
) -> None:
    (salt,) = said(cooked(days=10, mm=44.0, salt=score))
    assert dict(salt.mix_changes)["salt_percent"] == new


def test_what_is_called_right_is_the_middle_of_all_tastings_in_the_logarithm() -> None:
    # ln right = mean(ln salt − 0.22 · (score − 3)), worked for three batches.
    pasts = [
        cooked(p, days=10, mm=44.0, salt=s, mix=evolve(MIX, salt_percent=percent))
        for p, s, percent in (("a", 4, 2.8), ("b", 3, 2.2), ("c", 2, 1.9))
    ]
    held = [likely_salt_percent(past) for past in pasts]
    assert None not in held
    product = 1.0
    for salt, past in zip(held, pasts, strict=True):
        assert salt is not None
        product *= salt * exp(-0.22 * ((past.outcome.salt or 3) - 3))
    right = right_salt(pasts)
    assert right is not None
    assert right.percent == pytest.approx(product ** (1.0 / 3.0), rel=1e-9)


def test_a_thin_piece_at_rest_holds_what_the_masses_say() -> None:
    # 3000 g of meat in 2400 g of water to 2.5 % of all: the salt spreads over the water of both.
    mix = MixRequest(3000.0, cut="flat", water_g=2400.0, salt_percent=2.5, nitrite_ppm=150.0)
    model = cure_model(mix, 10.0)
    salt_g = 0.025 * (3000.0 + 2400.0)
    by_hand = 100.0 * salt_g * model.meat_water / (3000.0 * model.meat_water + 2400.0)
    held = likely_salt_percent(cooked(days=30, mm=10.0, mix=mix))
    assert held == pytest.approx(by_hand, rel=0.04)


def test_a_wrap_two_hours_late_and_too_smoky_is_moved_by_two_hours() -> None:
    right = [cooked(p, wrap_min=m, smoke=3) for p, m in (("b", 300), ("c", 310), ("d", 320))]
    (wrap,) = said(cooked(wrap_min=430, smoke=5), *right)
    assert wrap.sentence.startswith("Wrap 2 h earlier, after about 5 h 10 min")
    assert wrap.sure == "fairly sure"
    (later,) = said(cooked(wrap_min=190, smoke=1), *right)
    assert later.sentence.startswith("Wrap 2 h later, after about 5 h 10 min")


def test_a_tough_one_gets_the_middle_of_what_the_tender_ones_took() -> None:
    good = [
        cooked(p, finish_min=m, tenderness=5, says=[("tender", decided("pulled", None, c))])
        for p, m, c in (("b", 240, 94), ("c", 300, 95), ("d", 420, 97))
    ]
    (finish,) = said(cooked(finish_min=180, tenderness=1), *good)
    assert finish.stage_minutes == (("finish", 300.0),)
    assert "5 h" in finish.sentence
    assert "95 °C inside" in finish.reason


def test_an_invented_batch_teaches_nothing_and_silence_stays_silence() -> None:
    demo = Past(evolve(cooked("b", wrap_min=330, smoke=3).batch, demonstration=True))
    assert said(cooked(wrap_min=430, smoke=5), demo) == ()
    assert said(cooked(tenderness=3, smoke=3, salt=3, bend="bends")) == ()
