"""One photo, as large as the screen, to be pinched and moved."""

import flet as ft

from app.journal.wall import say_wall, wall_of
from app.screens.bench import use_batch, use_bench
from app.screens.missing import no_batch
from app.screens.photo_intake import hand_out_photo
from app.widgets import panels, words
from app.widgets.frame import Act, screen
from app.widgets.picture import picture


@ft.component
def PhotoScreen() -> ft.View:
    """The photo named in the route."""
    bench = use_bench()
    batch = use_batch()
    if batch is None:
        return no_batch()
    photo_id = ft.use_route_params().get("photo", "")
    photo = next((one for one in bench.photos(batch.id) if one.id == photo_id), None)
    if photo is None:
        return screen(
            "Photo",
            [panels.empty("This photo is not here.", "The rest of the batch is unharmed.")],
            place="/journal",
            back=f"/journal/{batch.id}",
        )

    async def save() -> None:
        await hand_out_photo(bench, photo_id)

    return screen(
        "Photo",
        [
            ft.InteractiveViewer(
                content=picture(bench.photo_src(photo_id), f"Photo of {batch.name}"),
                max_scale=8,
            ),
            words.small(
                f"{say_wall(wall_of(photo.taken), bench.wall())} · "
                f"{photo.width} × {photo.height} px"
            ),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act(
            "Use as the cover",
            lambda: bench.set_cover(batch, photo_id),
            icon=ft.Icons.BOOKMARK_OUTLINE,
            enabled=batch.cover_photo_id != photo_id,
        ),
        side=Act("Save a copy", save, icon=ft.Icons.DOWNLOAD),
    )
