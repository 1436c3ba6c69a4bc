"""Batches side by side, what differs first."""

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.compare import Line, Paid, compare
from app.journal.entries import decided, paid, weighed
from app.journal.marks import mark_done, skip
from app.journal.records import Batch, Entry, Moment, SliceOutcome
from tests.journal.made import BERLIN, batch, moment, names, step


def cooked(prefix: str, hours: float, **outcome: object) -> tuple[Batch, list[Entry]]:
    made = batch(prefix, ids=names(prefix), mix=MixRequest(3000.0, salt_percent=2.5))
    begun = moment("2027-03-01T06:00")
    made = mark_done(made, step(made, "smoke").id, begun, BERLIN)
    at = Moment(begun.utc_s + 3600 * hours, begun.offset_min)
    made = mark_done(made, step(made, "wrap").id, at, BERLIN)
    made = evolve(made, outcome=SliceOutcome(at, **outcome))  # type: ignore[arg-type]
    bodies = [
        decided("not_yet", 110),
        decided("wrapped", 120, 70),
        paid(30),
        weighed(2100, "smoked"),
    ]
    return made, [Entry(f"{prefix}e{i}", made.id, at, "wrap", b, at) for i, b in enumerate(bodies)]


def labels(lines: tuple[Line, ...], differ: bool) -> list[str]:
    return [line.label for line in lines if line.differs is differ]


def test_what_differs_comes_first_and_what_is_unknown_stays_out() -> None:
    one, said_one = cooked("a", 5.0, salt=3, bend="bends", again=True, rating=5)
    two, said_two = cooked("b", 6.5, salt=4, bend="bends", again=True)
    lines = compare([one, two], {one.id: said_one, two.id: said_two})
    assert [line.differs for line in lines] == sorted((x.differs for x in lines), reverse=True)
    assert labels(lines, True) == ["Wrapped after", "Saltiness", "Verdict"]
    by_label = {line.label: line for line in lines}
    assert by_label["Wrapped after"].values == (18000.0, 23400.0)
    assert by_label["Verdict"].values == (5.0, None)  # Known on one side only: after the others.
    assert by_label["Pit at the wrap"].values == (120.0, 120.0)
    assert by_label["Do it again"].values == ("yes", "yes")
    assert by_label["Bend"].values == ("bends", "bends")
    assert by_label["Cost"].values == (Paid(((30.0, ""),)),) * 2
    cost = by_label["Cost a serving"].values[0]
    assert isinstance(cost, Paid)
    assert cost.parts == ((pytest.approx(30 / 14), ""),)
    assert not by_label["Verdict"].known
    assert "Grey core" not in by_label
    assert "Soak" not in by_label
    assert {line.part for line in lines} == {"piece", "mix", "smoke", "slice"}


def test_words_are_people_s_words() -> None:
    one, _ = cooked("a", 5.0, bend="falls_apart", again=False)
    lines = {line.label: line.values for line in compare([one, batch("B", ids=names("b"))])}
    assert lines["Bend"] == ("falls apart", None)
    assert lines["Do it again"] == ("no", None)
    assert lines["Fat cap"] == ("taken off", "taken off")


def test_what_no_scale_or_clock_tells_apart_does_not_differ() -> None:
    one, said_one = cooked("a", 5.0)
    two, said_two = cooked("b", 5.05)
    close = evolve(two, mix=evolve(two.mix, meat_g=3004.0))
    lines = compare([one, close], {one.id: said_one, two.id: said_two})
    assert labels(lines, True) == []
    mixed = evolve(close, id="c", fat_cap_on=True, thickness_mm=40.0)
    records = {b.id: [evolve(e, batch_id=b.id) for e in said_one] for b in (one, close, mixed)}
    three = compare([one, close, mixed], records)
    assert labels(three, True) == ["Fat cap", "Thickness"]  # One not known on all sides.


def test_two_or_three_different_ones_are_asked_for() -> None:
    one = batch()
    for chosen, said in (([one], "1 were"), ([one] * 4, "4 were"), ([one, one], "chosen twice")):
        with pytest.raises(ValueError, match=said):
            compare(chosen)


def test_a_stage_left_out_took_no_time() -> None:
    one, said = cooked("a", 5.0)
    two = skip(batch("B", ids=names("b")), step(batch("B", ids=names("b")), "rest").id, BERLIN)
    assert "Rest" not in {line.label for line in compare([one, two], {one.id: said})}


def test_a_choice_left_open_is_compared_by_what_was_used_for_it() -> None:
    open_, said = batch(mix=MixRequest(3000.0, water_g=2000.0)), "Salt"
    same = evolve(open_, id="x", mix=evolve(open_.mix, salt_percent=2.5))
    other = evolve(open_, id="y", mix=evolve(open_.mix, salt_percent=3.0))
    assert said not in labels(compare([open_, same]), True)
    assert said in labels(compare([open_, other]), True)
    unmixable = evolve(open_, id="z", mix=evolve(open_.mix, nitrite_ppm=9999.0))
    lines = {line.label: line.values for line in compare([open_, unmixable])}
    assert lines["Nitrite going in"] == (150.0, 9999.0)


def test_money_keeps_its_currency_and_is_not_added_across() -> None:
    one, said_one = cooked("a", 5.0)
    two, said_two = cooked("b", 5.0)
    said_one = [evolve(e, body=paid(30, "$")) if e.id == "ae2" else e for e in said_one]
    at = said_two[0].at
    said_two = [
        *(evolve(e, body=paid(30, "€")) if e.id == "be2" else e for e in said_two),
        Entry("be9", two.id, at, "buy", paid(4, "$"), at),
    ]
    lines = {x.label: x for x in compare([one, two], {one.id: said_one, two.id: said_two})}
    assert lines["Cost"].values == (Paid(((30.0, "$"),)), Paid(((4.0, "$"), (30.0, "€"))))
    assert lines["Cost"].differs
