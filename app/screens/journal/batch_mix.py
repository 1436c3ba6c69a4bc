"""The mix of a batch, as it was weighed; taken back into Mix for a change or another use."""

import flet as ft

from app.cure.mix import OverLimit, work_out
from app.cure.targets import METHOD_NAMES
from app.screens.bench import use_batch, use_bench
from app.screens.journal.missing import no_batch
from app.screens.masses import grams
from app.screens.mix.mix_draft import MixDraft, draft_of
from app.widgets import panels, words
from app.widgets.frame import Act, screen


@ft.component
def BatchMixScreen() -> ft.View:
    """What was weighed, and the nitrite it came to."""
    bench = use_bench()
    batch = use_batch()
    if batch is None:
        return no_batch()
    mixed = any(step.stage == "mix" and step.done for step in batch.plan) or batch.finished
    body: list[ft.Control] = [words.small(f"{batch.name} · {METHOD_NAMES[batch.mix.method]}")]
    try:
        mix = work_out(batch.mix)
    except OverLimit as over:
        body.append(panels.notice(over.reason, "danger"))
    except ValueError as wrong:
        body.append(panels.notice(str(wrong), "attention"))
    else:
        body.append(
            panels.panel(
                [
                    panels.figure(part.name, grams(part.grams, bench.kit), note=part.note)
                    for part in mix.ingredients
                ],
                title="Weighed" if mixed else "To weigh",
            )
        )
        body.append(
            panels.panel(
                [
                    panels.figure("Nitrite going in", f"{mix.nitrite.ppm:.0f} ppm"),
                    panels.figure("Salt in the meat", f"{mix.salt.at_rest_percent:.1f} %"),
                ],
                title="It comes to",
            )
        )

    def open_in_mix() -> None:
        draft = draft_of(batch.mix, bench.shown.kit)
        if bench.shown.draft != MixDraft():
            bench.replace_draft(draft, f"The mix is that of {batch.name} now.")
        else:
            bench.show(draft=draft)
        bench.go("/mix")

    return screen(
        "The mix",
        body,
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Open in Mix", open_in_mix, icon=ft.Icons.SCALE),
    )
