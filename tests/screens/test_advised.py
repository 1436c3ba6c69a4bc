"""Advice on the screen: in the cook's units, and of two for one fault only one is taken."""

from attrs import evolve

from app.cure.request import MixRequest
from app.journal.advice import Advice
from app.journal.plan import new_batch
from app.journal.records import Batch, Moment, SliceOutcome
from app.screens.bench import new_id
from app.screens.journal.advised import by_fault, toggled
from tests.screens.harness import Screens


def one(name: str, instead_of: str = "") -> Advice:
    return Advice(name, name, "why", "a guess", instead_of=instead_of)


FOUND = (one("days"), one("cap", "days"), one("inject", "days"), one("finish"))


def test_of_all_that_mend_one_fault_only_one_is_taken() -> None:
    taken = toggled(FOUND, frozenset({"cap", "finish"}), FOUND[2])
    assert taken == {"inject", "finish"}
    assert toggled(FOUND, taken, FOUND[0]) == {"days", "finish"}
    assert toggled(FOUND, taken, FOUND[2]) == {"finish"}


def test_those_for_one_fault_stand_together() -> None:
    assert [[a.id for a in group] for group in by_fault(FOUND)] == [
        ["days", "cap", "inject"],
        ["finish"],
    ]


def grey(screens: Screens) -> Batch:
    now = screens.bench.now()
    made = new_batch(
        MixRequest(3200.0, days=5.0), "Brisket flat", "Grey one", now, ids=new_id, thickness_mm=70.0
    )
    plan = tuple(
        evolve(step, done=Moment(now.utc_s - 86400.0 * 20 + 86400.0 * 5 * (step.stage == "end")))
        if step.stage in ("cure", "end")
        else step
        for step in made.plan
    )
    made = evolve(made, plan=plan, outcome=SliceOutcome(at=now, grey_percent=30.0))
    screens.do(screens.bench.save_batch, made)
    return made


def test_lengths_in_the_advice_are_the_cooks(screens: Screens) -> None:
    batch = grey(screens)
    screens.go(f"/journal/{batch.id}")
    assert screens.has("Next time")
    assert screens.has("30 % of 2 3/4 in was grey")
    assert not screens.has("70 mm")
    screens.go(f"/journal/{batch.id}/repeat")
    assert screens.has("30 % of 2 3/4 in was grey")
    kit = screens.bench.shown.kit
    screens.do(screens.bench.save_kit, evolve(kit, system="metric"))
    screens.go(f"/journal/{batch.id}")
    assert screens.has("30 % of 70 mm was grey")
