"""Start a batch from the mix: name it, say when, and the plan is made."""

import flet as ft
from attrs import evolve

from app.cure.meat import CUTS
from app.journal.advised import Past
from app.journal.naming import usual_name
from app.journal.own_lengths import own_lengths
from app.journal.plan import new_batch
from app.journal.records import Batch
from app.journal.safety import DISCLAIMER, cautions_for, texts
from app.quantities import System
from app.screens.bench import Bench, new_id, use_bench
from app.screens.journal.begun_forms import StartDraft
from app.screens.journal.form import use_form
from app.screens.masses import mix_system
from app.screens.mix.cure_in_hand import pasts_of
from app.screens.mix.mix import Answer, answer
from app.screens.mix.mix_draft import MixDraft
from app.screens.mix.mix_results import weighed
from app.screens.plan.plan_preview import CHOOSE_MEAL, preview
from app.screens.plan.when import when_field
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen


def planned(bench: Bench, name: str, when: str, serve: bool, smoked: bool, thawed: bool) -> Batch:
    """The batch as it would be started; ValueError with a sentence when it cannot be."""
    mix = answer(bench.shown.draft, bench.shown.kit).mix
    if mix is None:
        raise ValueError("The mix cannot be worked out yet. Go back to it first.")
    if serve and not when:
        raise ValueError(CHOOSE_MEAL)
    request = mix.request
    cut = CUTS[request.cut].name
    pasts = [Past(*one) for one in pasts_of(bench.shown.batches, bench.entries)]
    return new_batch(
        request,
        cut,
        name,
        bench.now(),
        ids=new_id,
        zone=bench.zone,
        start=None if serve or not when else when,
        serve=when if serve else None,
        thickness_mm=request.thickness_mm,
        fat_cap_on=request.fat_cap_on,
        smoked=smoked,
        thawed=thawed,
        own_lengths=own_lengths(request, cut, request.thickness_mm, request.fat_cap_on, pasts),
    )


def for_the_next(draft: MixDraft) -> MixDraft:
    """The mix as it is left after a batch was started from it.

    What was told of this one piece goes; how this cook cures stays.
    """
    return evolve(
        draft,
        weight="",
        thickness="",
        fat_cap_on=False,
        water="",
        days="",
        later=evolve(draft.later, pulled=""),
    )


def _cure_told(got: Answer, masses: str) -> ft.Control:
    """The cure this batch is started with, said once more before it is."""
    if got.mix is None:
        return panels.notice("The mix cannot be worked out yet. Go back to it first.", "danger")
    nitrite = got.mix.nitrite
    cure = next((part for part in got.mix.ingredients if part.kind == "cure"), None)
    weigh = ""
    if cure is not None:
        grams, ounces = weighed(cure.grams, masses)
        weigh = f" · {cure.name}: {grams}" + (f" ({ounces})" if ounces else "")
    low = nitrite.ppm < nitrite.least_ppm - 0.5
    says = f"Nitrite {nitrite.ppm:.0f} ppm{weigh}."
    if low:
        says += (
            f" That is too weak: a cure holds at least {nitrite.least_ppm:.0f} ppm. "
            "Go back if you did not mean it."
        )
    return panels.notice(says, "danger" if low else "done")


@ft.component
def StartScreen() -> ft.View:
    """Name, time and the kind of plan."""
    bench = use_bench()
    kit, draft = bench.shown.kit, bench.shown.draft
    got, masses = answer(draft, kit), mix_system(kit)
    offered = ""
    if got.mix is not None:
        request = got.mix.request
        system: System = "us" if masses == "us" else "metric"
        offered = usual_name(CUTS[request.cut].name, request.meat_g, system)
    form = use_form("start", lambda _: StartDraft())
    typed = form.typed
    name = offered if typed.name is None else typed.name
    serve, when, smoked, thawed = typed.serve, typed.when, typed.smoked, typed.thawed

    def change(**changes: object) -> None:
        form.change(lambda last: evolve(last, **changes))  # type: ignore[arg-type]

    plan: list[ft.Control] = []
    trouble = ""
    try:
        plan = preview(
            bench, planned(bench, name, when, serve, smoked, thawed), lambda at: change(when=at)
        )
    except ValueError as wrong:
        trouble = str(wrong)

    def start() -> None:
        try:
            made = planned(bench, name, when, serve, smoked, thawed)
        except ValueError as wrong:
            bench.show(said=str(wrong), undo=None)
            return
        bench.save_batch(made, "Batch started.")
        form.drop()
        bench.show(draft=for_the_next(draft))
        bench.go(f"/journal/{made.id}")

    return screen(
        "Start a batch",
        [
            panels.stack(form.kept(bench, form.start_over, "start it")),
            fields.text_field("Name", name, lambda text: change(name=text)),
            _cure_told(got, masses),
            fields.choice(
                "What it becomes",
                (("smoked", "Smoked: pastrami"), ("boiled", "From the pot: corned beef")),
                "smoked" if smoked else "boiled",
                lambda key: change(smoked=key == "smoked"),
            ),
            fields.choice(
                "The meat is",
                (("fresh", "Fresh"), ("frozen", "Frozen")),
                "frozen" if thawed else "fresh",
                lambda key: change(thawed=key == "frozen"),
            ),
            fields.choice(
                "Plan",
                (("start", "Forward from a start"), ("serve", "Back from the meal")),
                "serve" if serve else "start",
                lambda key: change(serve=key == "serve"),
            ),
            when_field(
                bench,
                "To be eaten" if serve else "Begin",
                when,
                lambda at: change(when=at),
                empty="Choose" if serve else "Now",
            ),
            *([panels.notice(trouble, "attention")] if trouble else []),
            *plan,
            *panels.cautions(texts(cautions_for("cure", dry=draft.method == "dry"), kit.system)),
            words.small(DISCLAIMER),
        ],
        place="/mix",
        back="/mix",
        main=Act("Start", start, icon=ft.Icons.PLAY_ARROW, enabled=bool(plan)),
    )
