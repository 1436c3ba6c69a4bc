"""The shopping list: what the mix needs and the packs that hold it, to share as text."""

import flet as ft

from app.cure.mix import shopping_text
from app.cure.shopping import packs
from app.journal.safety import cautions_for, texts
from app.screens.bench import use_bench
from app.screens.masses import mix_system
from app.screens.mix.mix import answer
from app.screens.mix.mix_results import weighed
from app.screens.sharing import shares
from app.widgets import panels, words
from app.widgets.frame import Act, screen


@ft.component
def ShoppingScreen() -> ft.View:
    """The list for the mix as it stands."""
    bench = use_bench()
    system = bench.shown.kit.system
    mix = answer(bench.shown.draft, bench.shown.kit).mix
    if mix is None:
        return screen(
            "Shopping list",
            [panels.empty("Nothing to buy yet.", "Give the weight of the meat in the mix first.")],
            place="/mix",
            back="/mix",
            main=Act("To the mix", lambda: bench.go("/mix")),
        )
    masses = mix_system(bench.shown.kit)
    text = shopping_text(mix, masses, shop=system)

    rows: list[ft.Control] = []
    for item in mix.shopping:
        value, beside = weighed(item.grams, masses)
        buy = packs(item, system)
        notes = (f"buy {buy}" if buy else "", beside, item.note)
        rows.append(
            panels.figure(item.name, value, note=" · ".join(part for part in notes if part))
        )
        rows.append(panels.line())
    return screen(
        "Shopping list",
        [
            panels.panel(rows[:-1]),
            words.small(
                "Amounts are for the mix as it stands now; packs are the usual shop sizes."
            ),
            *panels.cautions(texts(cautions_for("buy"), bench.kit.system)),
        ],
        place="/mix",
        back="/mix",
        main=Act("Share", shares(bench, text, "Shopping list"), icon=ft.Icons.SHARE),
        side=Act(
            "Copy",
            lambda: bench.show(said="Copied."),
            icon=ft.Icons.CONTENT_COPY,
            action=ft.CopyToClipboard(text),
        ),
    )
