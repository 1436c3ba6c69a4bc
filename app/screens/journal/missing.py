"""What is drawn when a route names something that is not there."""

import flet as ft

from app.widgets import panels
from app.widgets.frame import Act, screen


def no_batch() -> ft.View:
    """A batch that was removed, or an address typed by hand."""
    return screen(
        "No such batch",
        [
            panels.empty(
                "This batch is not in the journal.",
                "It may have been removed. Everything else is where it was.",
            )
        ],
        place="/journal",
        back="/journal",
        main=Act("To the journal", lambda: ft.context.page.navigate("/journal")),
    )
