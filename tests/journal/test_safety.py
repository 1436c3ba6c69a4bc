"""Cautions: there is one where each decision is made, and each says where it comes from."""

import re

import pytest

from app.journal.chain import STAGES
from app.journal.records import Stage
from app.journal.safety import CAUTIONS, DISCLAIMER, caution, cautions_for, texts


@pytest.mark.parametrize(
    ("place", "key"),
    [
        ("mix", "weigh_cure"),
        ("recipe", "weigh_cure"),
        ("mix", "cure_only"),
        ("cure", "cold_cure"),
        ("cure", "clean_vessel"),
        ("end", "throw_brine"),
        ("smoke", "smoke_outdoors"),
        ("smoke", "hot_fat"),
        ("tender", "safe_before_tender"),
        ("store", "cool_fast"),
        ("store", "keep_how_long"),
        ("rub", "allergens"),
        ("share", "no_approval"),
    ],
)
def test_each_caution_of_the_design_stands_where_it_is_decided(place: str, key: str) -> None:
    assert key in {one.key for one in cautions_for(place)}  # type: ignore[arg-type]


@pytest.mark.parametrize("place", STAGES)
def test_a_dry_cure_is_told_nothing_of_brine(place: Stage) -> None:
    assert "brine" not in " ".join(texts(cautions_for(place, dry=True)))
    assert "bag" not in " ".join(texts(cautions_for(place)))


def test_the_disclaimer_is_word_for_word() -> None:
    assert DISCLAIMER == (
        "This helps with home cooking. It is not a process approval: for sale or service, follow "
        "local food codes and a qualified process authority."
    )
    assert caution("no_approval").text == DISCLAIMER


def test_every_caution_is_a_sentence_with_a_source_and_a_name_of_its_own() -> None:
    assert len({one.key for one in CAUTIONS}) == len(CAUTIONS)
    for one in CAUTIONS:
        assert one.text.endswith("."), one
        assert one.source, one
        assert one.places, one
        assert set(one.places) <= {*STAGES, "kit", "recipe", "share"}
    assert texts(cautions_for("smoke", "wrap"))[-1] == caution("hot_fat").text
    assert len(cautions_for("smoke", "wrap")) == len(set(cautions_for("smoke", "wrap")))
    with pytest.raises(ValueError, match="no caution named 'x'"):
        caution("x")


def test_every_temperature_is_told_in_both_units_and_they_agree() -> None:
    told = re.findall(r"(\d+) °F \((\d+(?:\.\d)?) °C\)", "\n".join(texts(CAUTIONS)))
    assert len(told) >= 5
    for fahrenheit, celsius in told:
        assert abs((float(fahrenheit) - 32) / 1.8 - float(celsius)) <= 0.5, (fahrenheit, celsius)
