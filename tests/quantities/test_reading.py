"""What people write, read; and what cannot be read, refused in a sentence."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.quantities import KINDS, format, parse, plain, to_unit, usual_unit

LB, OZ, GAL, IN = 453.59237, 28.349523125, 3785.411784, 25.4  # NIST Handbook 44, exact

READ = [
    ("7 lb 6 oz", "mass", "g", 7 * LB + 6 * OZ),
    ("7lb6oz", "mass", "g", 7 * LB + 6 * OZ),
    ("7 lbs., 6 oz.", "mass", "g", 7 * LB + 6 * OZ),
    ("7 pounds and 6 ounces", "mass", "g", 7 * LB + 6 * OZ),
    ("3.4kg", "mass", "lb", 3400.0),
    ("3,4 kg", "mass", "lb", 3400.0),
    ("0,350 kg", "mass", "lb", 350.0),
    ("1,200 g", "mass", "g", 1200.0),
    ("1,234.5 g", "mass", "g", 1234.5),
    ("1.234,5 g", "mass", "g", 1234.5),
    ("12,345,678 mg", "mass", "g", 12345.678),
    ("3.345", "mass", "kg", 3345.0),
    (".5", "mass", "lb", LB / 2),
    ("7½ lb", "mass", "g", 7.5 * LB),
    ("5#", "mass", "g", 5 * LB),
    ("0", "mass", "g", 0.0),
    ("1½ gal", "volume", "L", 1.5 * GAL),
    ("1 gal 2 qt", "volume", "L", 1.5 * GAL),
    ("½ cup", "volume", "L", GAL / 32),
    ("8 fl. oz.", "volume", "L", GAL / 16),
    ("1 1/2 tsp", "volume", "L", 1.5 * GAL / 768),
    ("2 tbsp", "volume", "L", GAL / 128),
    ("3.8 L", "volume", "gal", 3800.0),
    ("2 1/4 in", "length", "mm", 2.25 * IN),
    ("2-1/4 in", "length", "mm", 2.25 * IN),
    ('2 1/4"', "length", "mm", 2.25 * IN),
    ("3/4", "length", "in", 0.75 * IN),
    ("1 ft 2 in", "length", "mm", 14 * IN),
    ("5.7 cm", "length", "in", 57.0),
    ("38 F", "temperature", "°C", 10.0 / 3.0),
    ("38°F", "temperature", "°C", 10.0 / 3.0),
    ("100 degrees Fahrenheit", "temperature", "°C", 340.0 / 9.0),
    ("-2 °C", "temperature", "°F", -2.0),
    ("−2", "temperature", "°C", -2.0),
    ("4", "temperature", "C", 4.0),
    ("5 days 12 h", "duration", "h", 5.5 * 86400),
    ("1 week", "duration", "h", 7 * 86400),
    ("90 min", "duration", "h", 5400.0),
    ("1½ h", "duration", "h", 5400.0),
    ("3.35 kg / 7 lb 6 oz", "mass", "g", 3350.0),
    ("21.6 g (0.76 oz)", "mass", "g", 21.6),
    ("٣ kg", "mass", "lb", 3000.0),
    ("３ｋｇ", "mass", "lb", 3000.0),
    ("\u00a03.4\u202fkg ", "mass", "lb", 3400.0),
]


@pytest.mark.parametrize(("text", "kind", "unit", "expected"), READ)
def test_reads(text: str, kind: str, unit: str, expected: float) -> None:
    assert parse(text, kind, unit) == pytest.approx(expected, rel=1e-12, abs=1e-9)


REFUSED = [
    ("", "mass", "such as 7 lb 6 oz"),
    ("  ", "mass", "Nothing is written"),
    ("brisket", "mass", "cannot be read"),
    ("-3 kg", "mass", "below 0"),
    ("nan", "mass", "cannot be read"),
    ("inf", "mass", "cannot be read"),
    ("1e3 g", "mass", "cannot be read|no unit known"),
    ("3 gal", "mass", "is a volume"),
    ("3 stone", "mass", "no unit known"),
    ("1,200 kg", "mass", "may be 1200 or 1.2"),
    ("1,200", "mass", "may be 1200 or 1.2"),
    ("1.2.3 g", "mass", "no number"),
    ("1,2,3 g", "mass", "no number"),
    ("7 lb 6", "mass", "no unit"),
    ("7 6 oz", "mass", "two numbers"),
    ("6 oz 7 lb", "mass", "large to small"),
    ("3 lb 2 lb", "mass", "large to small"),
    ("3-4 lb", "mass", "cannot be read|two numbers"),
    ("1 5/4 lb", "mass", "no fraction"),
    ("1/0 lb", "mass", "no fraction"),
    ("999999 kg", "mass", "too small or too large"),
    ("8 oz", "volume", "fl oz"),
    ("3 T", "volume", "no unit known"),
    ("3 m", "duration", "is a length"),
    ("38 F 2 C", "temperature", "more than one"),
    ("5000 C", "temperature", "too small or too large"),
    ("-400 F", "temperature", "too small or too large"),
    ("3 kg / 3 lb", "mass", "two different things"),
    ("9" * 400, "mass", "too small or too large"),
    ("5² g", "mass", "no unit known"),
]


@pytest.mark.parametrize(("text", "kind", "sentence"), REFUSED)
def test_refuses_with_a_sentence(text: str, kind: str, sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        parse(text, kind, usual_unit(kind, "us"))


def test_names_the_kinds_and_units_there_are() -> None:
    with pytest.raises(ValueError, match="mass, volume"):
        parse("3 kg", "weight", "kg")
    with pytest.raises(ValueError, match="is a volume"):
        parse("3", "mass", "gal")
    with pytest.raises(ValueError, match="us, metric or both"):
        usual_unit("mass", "imperial")


def read_or_refusal(text: str, kind: str) -> float | str:
    try:
        return parse(text, kind, usual_unit(kind, "us"))
    except ValueError as refusal:
        return str(refusal)


LIKELY = st.text("0123456789.,/ -½²lbkgozF°C'\"()", max_size=14)


@given(st.one_of(st.text(max_size=12), LIKELY), st.sampled_from(KINDS))
def test_any_text_is_read_or_refused_in_a_sentence(text: str, kind: str) -> None:
    got = read_or_refusal(text, kind)
    if isinstance(got, str):
        assert len(got) > 15
        assert got.endswith((".", "expected."))
    else:
        assert got >= (-100.0 if kind == "temperature" else 0.0)


# The step that each writing rounds to, in the kind's own unit or as a part of the value.
STEPS = {
    "mass": (lambda v: max(0.5 * OZ + 0.01 if v > 5 * LB else 0.06 * OZ, 0.006 * v), 0.0, 9e5),
    "volume": (lambda v: max(1.0, 0.006 * v), 0.0, 9e5),
    "length": (lambda v: max(IN / 15.0, 0.01 * v), 0.0, 9e3),
    "temperature": (lambda v: 0.3, -90.0, 900.0),
    "duration": (lambda v: 1800.0 if v > 172800 else 30.0, 0.0, 3e8),
}


@given(st.data(), st.sampled_from(KINDS), st.sampled_from(["us", "metric", "both"]))
def test_what_is_written_reads_back(data: st.DataObject, kind: str, system: str) -> None:
    step, low, high = STEPS[kind]
    value = data.draw(st.floats(low, high))
    assert parse(
        format(value, kind, system), kind, "day" if kind == "duration" else usual_unit(kind, "us")
    ) == pytest.approx(value, abs=step(value) + 0.31)


@given(st.floats(0.0, 9e5), st.sampled_from(["g", "kg", "lb", "oz"]))
def test_a_plain_number_reads_back_in_its_unit(grams: float, unit: str) -> None:
    assert parse(plain(grams, "mass", unit), "mass", unit) == pytest.approx(grams, abs=0.06)
    assert to_unit(parse("1", "mass", unit), "mass", unit) == 1.0
