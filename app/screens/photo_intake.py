"""Taking a photo in: the button that opens the chooser, and what happens to what comes back."""

import flet as ft

from app.journal.records import Batch, Stage
from app.screens.bench import Bench
from app.widgets.frame import Act


def photo_act(
    bench: Bench, batch: Batch, *, stage: Stage | None = None, words: str = "Photo"
) -> Act:
    """A press opens the phone's camera or chooser at once, within the tap itself."""
    picker = bench.picker(batch.id, stage)
    return Act(
        words,
        icon=ft.Icons.PHOTO_CAMERA,
        action=ft.PickFiles(
            picker,
            file_type=ft.FilePickerFileType.IMAGE,
            with_data=not bench.device.photos_come_by_the_page,
        ),
    )
