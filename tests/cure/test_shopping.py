"""The shopping list."""

import pytest

from app.cure.answer import ShoppingItem
from app.cure.mix import MixRequest, shopping_text, work_out
from app.cure.shopping import packs


@pytest.mark.parametrize(
    ("kind", "grams", "system", "expected"),
    [
        ("cure", 21.6, "us", "1 × 4 oz"),
        ("cure", 21.6, "metric", "1 × 100 g"),
        ("salt", 200.0, "metric", "1 × 500 g"),
        ("salt", 2600.0, "metric", "3 × 1 kg"),
        ("ice", 3000.0, "us", ""),
        ("spice", 12.0, "us", ""),
        ("meat", 3000.0, "us", ""),
    ],
)
def test_packs(kind: str, grams: float, system: str, expected: str) -> None:
    assert packs(ShoppingItem(kind, "It", grams), system) == expected


@pytest.mark.parametrize("system", ["us", "metric", "both"])
@pytest.mark.parametrize("method", ["equilibrium", "cover", "injection", "dry"])
def test_the_list_names_everything_and_the_cautions(method: str, system: str) -> None:
    mix = work_out(MixRequest(3345.0, method=method))  # type: ignore[arg-type]
    text = shopping_text(mix, system)
    for one in (*mix.ingredients, *mix.rub):
        if one.kind not in ("water", "spice"):
            assert one.name in text
    assert "6.25 % nitrite" in text
    assert "never spoon" in text
    assert ("7 lb 6 oz" in text) == (system != "metric")


def test_a_spice_of_brine_and_rub_is_bought_once() -> None:
    mix = work_out(MixRequest(3345.0))
    names = [item.name for item in mix.shopping]
    assert len(names) == len(set(names))
    pepper = next(item.grams for item in mix.shopping if item.name == "Black pepper")
    both = sum(one.grams for one in (*mix.ingredients, *mix.rub) if one.name == "Black pepper")
    assert pepper == pytest.approx(both)


def test_an_unknown_system_is_refused() -> None:
    with pytest.raises(ValueError, match="us, metric or both"):
        shopping_text(work_out(MixRequest(3000.0)), "imperial")
