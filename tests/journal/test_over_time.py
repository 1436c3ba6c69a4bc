"""Yield and cost from batch to batch."""

from attrs import evolve

from app.journal.entries import paid, weighed
from app.journal.over_time import courses
from app.journal.records import Batch, Entry, EntryBody, Moment
from tests.journal.made import NOW, batch, names


def made(name: str, day: int, **more: object) -> Batch:
    at = Moment(NOW.utc_s + 86400.0 * day, NOW.offset_min)
    return evolve(batch(name, now=at, ids=names(name)), **more)  # type: ignore[arg-type]


def record(of: Batch, *bodies: EntryBody) -> list[Entry]:
    return [
        Entry(f"{of.id}{n}", of.id, of.created, "slice", body, of.created)
        for n, body in enumerate(bodies)
    ]


def test_each_figure_runs_from_the_earliest_batch_on_and_currencies_stay_apart() -> None:
    late, early, bare = made("late", 9), made("early", 2), made("bare", 5)
    records = {
        late.id: record(late, weighed(3000), weighed(1800, "rested"), paid(36, "$")),
        early.id: record(early, weighed(3000), weighed(2100, "rested"), paid(30, "$")),
        bare.id: record(bare, paid(25, "€")),
    }
    shown, found = courses([late, early, bare], records)
    assert [one.name for one in shown] == ["early", "bare", "late"]
    assert [(c.what, c.currency) for c in found] == [
        ("yield", ""),
        ("serving", "$"),
        ("cost", "€"),
    ]
    assert [(p.number, round(p.value, 6)) for p in found[0].points] == [(1, 70.0), (3, 60.0)]
    # 2100 g are fourteen servings of 150 g, 1800 g twelve.
    assert [round(p.value, 3) for p in found[1].points] == [2.143, 3.0]
    assert (found[0].least, found[0].most) == (60.0, 70.0)


def test_invented_batches_are_left_out_once_there_are_own_ones() -> None:
    demo, own = made("demo", 1, demonstration=True), made("own", 3)
    records = {demo.id: record(demo, weighed(2000, "rested"))}
    assert [one.name for one in courses([demo, own], records)[0]] == ["demo"]
    records[own.id] = record(own, weighed(2000, "rested"))
    assert [one.name for one in courses([demo, own], records)[0]] == ["own"]


def test_without_weight_and_cost_there_is_nothing_to_draw() -> None:
    assert courses([made("a", 1)], {}) == ((), ())
