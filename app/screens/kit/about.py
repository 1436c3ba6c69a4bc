"""About: what leaves the device, and the facts someone who looks for a fault would ask for."""

import flet as ft

from app.screens.bench import use_bench
from app.screens.kit.keeping import room_said
from app.screens.sharing import shares
from app.widgets import panels, words
from app.widgets.frame import Act, side_button

OFFLINE = {None: "not told", True: "yes", False: "no"}


@ft.component
def About() -> ft.Control:
    """The facts as they would be shared, word for word, and the press that shares them."""
    bench = use_bench()
    keeping = bench.shown.keeping
    told = [
        *bench.diagnostics(),
        ("Starts without a network", OFFLINE[keeping.offline]),
        ("Data promised to be kept", OFFLINE[keeping.health.persisted]),
        ("Room left", room_said(keeping)),
    ]
    text = "\n".join(f"{name}: {value}" for name, value in told)
    return panels.stack(
        [
            words.body(
                "Nothing leaves this device but the files and words you save or share yourself. "
                "There is no account, no server and no counting of visits."
            ),
            *(panels.figure(name, value) for name, value in told),
            words.small(
                "When something goes wrong, these lines help whoever mends it. They are all that "
                "is shared, and hold nothing of your batches."
            ),
            side_button(
                Act("Share these lines", shares(bench, text, "Brinewright"), ft.Icons.SHARE)
            ),
            words.small(
                "Brinewright is free software under the Apache License 2.0. Text is set in a cut "
                "of Lato by Łukasz Dziedzic, SIL Open Font License 1.1."
            ),
        ]
    )
