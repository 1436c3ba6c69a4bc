"""The mix by each method, its limits, and what it refuses."""

from math import inf, nan

import cattrs
import pytest
from attrs import evolve

from app.cure import turning
from app.cure.blends import Blend, BlendPart
from app.cure.mix import Mix, MixRequest, OverLimit, UnsuitableCure, scale, work_out
from app.cure.nitrite import (
    ingoing_by_equilibrium_ppm,
    ingoing_by_pickup_ppm,
    ingoing_dry_ppm,
    ingoing_pumped_ppm,
)
from app.cure.request import Method
from app.transport.diffusion import uptake_fraction

METHODS: tuple[Method, ...] = ("equilibrium", "cover", "injection", "dry")
BOX = {
    "vessel": "box",
    "vessel_length_mm": 400.0,
    "vessel_width_mm": 250.0,
    "vessel_height_mm": 200.0,
}


def weighed(mix: Mix, kind: str) -> float:
    return sum(one.grams for one in mix.ingredients if one.kind == kind)


def said(mix: Mix, words: str) -> bool:
    return any(words in one.text for one in mix.warnings)


@pytest.mark.parametrize("method", METHODS)
def test_a_weight_alone_is_enough(method: Method) -> None:
    mix = work_out(MixRequest(3345.0, method=method))
    assert mix.nitrite.ppm == pytest.approx(150.0)
    assert mix.nitrite.least_ppm <= mix.nitrite.ppm <= mix.nitrite.most_ppm
    assert weighed(mix, "cure") > 0
    assert mix.request.salt_percent is not None
    assert not [one for one in mix.warnings if one.severity == "danger"]
    assert (mix.brine is None) == (method == "dry")


def test_five_kilos_of_meat_in_four_of_pickle() -> None:
    """5 kg meat + 4 kg pickle, 150 ppm by equilibrium: 1.350 g = 21.60 g of 6.25 % cure."""
    mix = work_out(MixRequest(5000.0, water_g=3600.0, salt_percent=3.0, sugar_percent=1.5))
    assert mix.brine is not None
    # 3600 g of water, 3 % salt and 1.5 % sugar of 8600 g: 3987 g; made up to 4 kg by hand.
    by_hand = 1.350 * (5000 + mix.brine.mass_g) / 9000
    assert mix.nitrite.grams == pytest.approx(by_hand)
    assert weighed(mix, "cure") == pytest.approx(21.60 * (5000 + mix.brine.mass_g) / 9000)


def test_the_curing_salts_own_salt_counts() -> None:
    mix = work_out(MixRequest(5000.0, water_g=4000.0, salt_percent=2.0))
    salt = weighed(mix, "salt") + 0.9375 * weighed(mix, "cure")
    assert salt == pytest.approx(0.02 * 9000)


def test_both_immersion_figures_are_shown_and_the_higher_binds() -> None:
    mix = work_out(MixRequest(5000.0, water_g=4000.0))
    assert mix.brine is not None
    by_basis = {one.basis: one for one in mix.nitrite.figures}
    grams, pickle = mix.nitrite.grams, mix.brine.mass_g
    assert by_basis["equilibrium"].ppm == pytest.approx(
        ingoing_by_equilibrium_ppm(grams, 5000, pickle)
    )
    assert by_basis["pick-up"].ppm == pytest.approx(ingoing_by_pickup_ppm(grams, pickle, 0.10))
    assert by_basis["equilibrium"].binds
    assert not by_basis["pick-up"].binds
    assert "higher" in mix.nitrite.binding_reason


def test_with_hardly_any_pickle_the_pickup_binds() -> None:
    mix = work_out(MixRequest(5000.0, water_g=200.0, salt_percent=0.5, sugar_percent=0.0))
    assert next(one.basis for one in mix.nitrite.figures if one.binds) == "pick-up"
    assert max(one.ppm for one in mix.nitrite.figures) == pytest.approx(150.0)


def test_injection_counts_the_needle_and_the_cover() -> None:
    mix = work_out(MixRequest(5000.0, method="injection", pump_percent=12.0))
    assert mix.brine is not None
    by_basis = {one.basis: one for one in mix.nitrite.figures}
    assert by_basis["pumped"].ppm == pytest.approx(
        ingoing_pumped_ppm(mix.nitrite.grams, mix.brine.mass_g, 0.12)
    )
    assert by_basis["equilibrium"].binds
    assert mix.brine.pumped_g == pytest.approx(600.0)
    assert mix.brine.cover_g == pytest.approx(mix.brine.mass_g - 600.0)


def test_injection_with_nothing_left_to_cover_counts_by_the_needle() -> None:
    mix = work_out(
        MixRequest(
            5000.0,
            method="injection",
            pump_percent=10.0,
            water_g=460.0,
            salt_percent=1.0,
            sugar_percent=0.0,
        )
    )
    assert next(one.basis for one in mix.nitrite.figures if one.binds) == "pumped"


def test_dry_counts_on_the_green_weight() -> None:
    mix = work_out(MixRequest(2000.0, method="dry"))
    assert mix.nitrite.ppm == pytest.approx(ingoing_dry_ppm(mix.nitrite.grams, 2000))
    assert weighed(mix, "cure") == pytest.approx(4.8)
    assert mix.salt.at_rest_percent == pytest.approx(2.5)


def test_strength_of_a_cover_brine_is_what_was_asked() -> None:
    mix = work_out(MixRequest(4000.0, method="cover", salt_percent=12.0))
    assert mix.brine is not None
    assert mix.brine.salt_percent == pytest.approx(12.0)


def test_salt_after_fixed_days_follows_the_bath_of_limited_volume() -> None:
    mix = work_out(MixRequest(4000.0, method="cover", water_g=4000.0, days=5.0, thickness_mm=50.0))
    wet = 4000.0 * 0.611
    rest = 4000.0 / 9.0 * wet / (wet + 4000.0)
    for got, speed in (
        (mix.salt.then_percent.low, 2e-10),
        (mix.salt.then_percent.likely, 4e-10),
        (mix.salt.then_percent.high, 8e-10),
    ):
        part = uptake_fraction(50.0, 5.0, speed, 2, 4000.0 / wet)
        assert got == pytest.approx(100 * rest * part / 4000.0)


def test_too_much_nitrite_stops_and_offers_the_most_that_is_safe() -> None:
    request = MixRequest(3000.0, nitrite_ppm=250.0)
    with pytest.raises(OverLimit, match="more than the 200 ppm") as stopped:
        work_out(request)
    assert (stopped.value.limit_ppm, stopped.value.asked_ppm) == (200.0, 250.0)
    assert stopped.value.reason == str(stopped.value)
    safe = stopped.value.largest_safe
    assert work_out(safe).nitrite.ppm == pytest.approx(200.0)
    assert safe == evolve(request, nitrite_ppm=200.0)


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("rules", ["us", "eu_before_2025_10", "eu", "canada", "own"])
def test_the_largest_safe_amount_is_allowed_by_every_rule(method: Method, rules: str) -> None:
    request = MixRequest(3000.0, method=method, rules=rules, nitrite_ppm=700.0, own_limit_ppm=140.0)
    with pytest.raises(OverLimit) as stopped:
        work_out(request)
    mix = work_out(stopped.value.largest_safe)
    assert mix.nitrite.ppm == pytest.approx(stopped.value.limit_ppm)


def test_dry_above_the_home_pack_line_is_allowed_and_warned_of() -> None:
    mix = work_out(MixRequest(2000.0, method="dry", nitrite_ppm=400.0))
    assert said(mix, "21 CFR 172.170")


def test_little_nitrite_is_warned_of_and_none_is_called_salted() -> None:
    assert said(work_out(MixRequest(3000.0, nitrite_ppm=80.0)), "too weak")
    bare = work_out(MixRequest(3000.0, nitrite_ppm=0.0))
    assert bare.warnings[0].severity == "danger"
    assert weighed(bare, "cure") == 0.0


def test_the_salt_of_a_weak_curing_salt_holds_the_nitrite_down() -> None:
    """EU nitrited salt: 0.5 % gives 120 ppm at 24 g/kg (computed)."""
    weak = MixRequest(
        1000.0,
        method="dry",
        cure_name="EU nitrited salt 0.5 %",
        cure_nitrite_percent=0.5,
        salt_percent=2.388,
        rules="eu_before_2025_10",
        nitrite_ppm=120.0,
    )
    mix = work_out(weak)
    assert weighed(mix, "cure") == pytest.approx(24.0, abs=0.01)
    assert mix.nitrite.ppm == pytest.approx(120.0, abs=0.01)
    held = work_out(evolve(weak, salt_percent=1.6))
    assert held.nitrite.ppm < held.nitrite.asked_ppm
    assert weighed(held, "salt") == 0.0
    assert said(held, "mostly salt")
    assert said(work_out(evolve(weak, salt_percent=0.0)), "mostly salt")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"cure_name": "No. 2", "cure_nitrate_percent": 4.0}, "nitrate"),
        ({"cure_name": "Pure", "cure_nitrite_percent": 99.0}, "cannot weigh it safely"),
    ],
)
def test_unsuitable_cures_are_refused(change: dict[str, object], words: str) -> None:
    with pytest.raises(UnsuitableCure, match=words) as refused:
        work_out(MixRequest(3000.0, **change))  # type: ignore[arg-type]
    assert refused.value.reason == str(refused.value)


def test_a_cure_with_no_nitrite_is_no_cure() -> None:
    with pytest.raises(ValueError, match="no nitrite in it"):
        work_out(MixRequest(3000.0, cure_nitrite_percent=0.0))


WRONG = [
    {"meat_g": 0.0}, {"meat_g": -1.0}, {"meat_g": nan}, {"meat_g": inf}, {"meat_g": 2e6},
    {"method": "smoke"}, {"cut": "ham"}, {"rules": "mars"}, {"rules": "own"}, {"vessel": "boot"},
    {"salt_percent": -1.0}, {"salt_percent": nan}, {"salt_percent": 40.0},
    {"sugar_percent": nan}, {"nitrite_ppm": -1.0}, {"nitrite_ppm": nan}, {"nitrite_ppm": inf},
    {"water_g": 0.0}, {"water_g": nan}, {"thickness_mm": 0.0}, {"days": -1.0}, {"days": nan},
    {"pump_percent": nan}, {"pickup_percent": nan}, {"ascorbate_ppm": nan},
    {"boiled_percent": 101.0}, {"tap_c": nan}, {"target_c": -1.0}, {"cure_nitrite_percent": nan},
    {"vessel_width_mm": nan}, {"meat_water_fraction": 1.2}, {"shrink_percent": 100.0},
    {"method": "injection", "water_g": 100.0}, {"salt_percent": 12.0, "water_g": 500.0},
    {"rub": Blend("Mine", "kg_of_meat_and_brine", (BlendPart("dill", 1.0),))},
    {"rub": Blend("Mine", "100_cm2", (BlendPart("dill", nan),))},
]  # fmt: skip


@pytest.mark.parametrize("wrong", WRONG, ids=str)
def test_impossible_requests_are_refused_in_a_sentence(wrong: dict[str, object]) -> None:
    with pytest.raises(ValueError, match=r"[A-Z].*\.$"):
        work_out(MixRequest(**{"meat_g": 3000.0, **wrong}))  # type: ignore[arg-type]


@pytest.mark.parametrize("method", METHODS)
def test_every_number_has_its_working(method: Method) -> None:
    mix = work_out(MixRequest(3000.0, method=method, ascorbate_ppm=500.0, days=7.0, **BOX))  # type: ignore[arg-type]
    wanted = {"nitrite", "limit", "least", "cure", "salt", "sugar", "salt_in_meat", "salt_then"}
    wanted |= {one.working for one in (*mix.ingredients, *mix.rub) if one.working}
    wanted |= {f"nitrite_{one.basis}" for one in mix.nitrite.figures}
    if method != "dry":
        wanted |= {"strength", "salometer", "gravity", "density", "freezing", "volume", "ice"}
        wanted |= {"landing", "boiled", "ice_volume", "water", "level", "float", "hold_down"}
    if method == "injection":
        wanted.add("pumped")
    assert wanted <= set(mix.workings)
    for working in mix.workings.values():
        assert working.title
        assert working.formula
        assert working.result
        assert working.source
        assert "nan" not in working.result


def test_a_request_survives_being_stored() -> None:
    request = MixRequest(3000.0, method="injection", brine_spices=None, own_limit_ppm=100.0)
    for one in (request, MixRequest(1.0), work_out(request).request):
        assert cattrs.structure(cattrs.unstructure(one), MixRequest) == one


def test_a_kept_request_with_fields_left_out_still_opens() -> None:
    assert cattrs.structure({"meat_g": 3000.0}, MixRequest) == MixRequest(3000.0)


def test_container_level_fit_and_floating() -> None:
    mix = work_out(MixRequest(5000.0, thickness_mm=60.0, **BOX))  # type: ignore[arg-type]
    assert mix.fit is not None
    assert mix.fit.level_mm == pytest.approx(75.0, abs=0.5)
    assert mix.fit.covers
    assert mix.fit.fits
    small = work_out(MixRequest(5000.0, water_g=20000.0, **BOX))  # type: ignore[arg-type]
    assert small.fit is not None
    assert not small.fit.fits
    assert small.warnings[0].severity == "danger"
    strong = work_out(MixRequest(5000.0, method="cover", salt_percent=20.0))
    assert strong.fit is not None
    assert strong.fit.floats
    assert strong.fit.hold_down_g > 0
    thin = work_out(MixRequest(5000.0, cut="flat", salt_percent=1.0, water_g=20000.0))
    assert thin.fit is not None
    assert not thin.fit.floats
    assert thin.fit.hold_down_g == 0.0


def test_a_mix_tells_the_turning_the_plan_is_made_by(monkeypatch: pytest.MonkeyPatch) -> None:
    bare = MixRequest(5000.0, water_g=900.0, **BOX)  # type: ignore[arg-type]
    assert said(work_out(bare), "turn it every second day")
    monkeypatch.setattr(turning, "TURN_EVERY_DAYS", 5)
    assert said(work_out(bare), "turn it every 5 days")


def test_boiling_too_much_lands_warm_and_says_so() -> None:
    mix = work_out(MixRequest(5000.0, boiled_percent=80.0))
    assert mix.ice is not None
    assert mix.ice.landing_c > 30.0
    assert said(mix, "Boil at most")


def test_the_ice_is_weighed_and_its_room_told() -> None:
    mix = work_out(MixRequest(5000.0))
    assert mix.ice is not None
    assert mix.ice.landing_c == pytest.approx(4.0)
    assert mix.ice.ice_ml.low > 1.6 * mix.ice.ice_g
    assert mix.ice.ice_water_ml == pytest.approx(mix.ice.ice_g)


def test_spices_follow_the_brine_and_the_rub_the_surface() -> None:
    blend = Blend("Mine", "kg_of_meat_and_brine", (BlendPart("dill", 2.0),))
    mix = work_out(MixRequest(5000.0, water_g=4000.0, brine_spices=blend, rub=None))
    assert mix.brine is not None
    assert weighed(mix, "spice") == pytest.approx(2.0 * (5000 + mix.brine.mass_g) / 1000)
    assert mix.rub == ()
    thick = work_out(MixRequest(5000.0, thickness_mm=40.0))
    thin = work_out(MixRequest(5000.0, thickness_mm=20.0))
    assert sum(one.grams for one in thin.rub) > sum(one.grams for one in thick.rub)


def test_pump_and_ascorbate_beyond_the_rules_are_warned_of() -> None:
    assert said(work_out(MixRequest(3000.0, method="injection", pump_percent=25.0)), "319.101")
    assert said(work_out(MixRequest(3000.0, ascorbate_ppm=700.0)), "550")


def test_a_mix_for_a_new_weight() -> None:
    old = MixRequest(3000.0, water_g=2000.0, salt_percent=2.2)
    new = scale(old, 4500.0, thickness_mm=55.0)
    assert (new.water_g, new.thickness_mm, new.salt_percent) == (3000.0, 55.0, 2.2)
    assert scale(MixRequest(3000.0), 4500.0).water_g is None
    with pytest.raises(ValueError, match="must weigh"):
        scale(old, -1.0)
