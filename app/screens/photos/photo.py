"""One photo: pinched and moved, its figures, and the ways on to measuring and comparing it."""

from collections.abc import Callable

import flet as ft

from app.journal.records import Batch, Photo
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.photos.photo_copies import hand_out_photo, share_photo
from app.screens.photos.photo_desk import TOOLS, light_notices, no_photo, photo_of
from app.screens.photos.photo_face_kept import overlay
from app.screens.photos.photo_told import STAGES, figures
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen, side_button
from app.widgets.picture import picture

MOST_SCALE = 8.0

_SAYS = {
    "white": "tap paper towel or a grey card in the same light",
    "bark": "its colour, beside your earlier ones",
    "line": "how far the cure reached, edge to edge",
    "face": "cured, pale, grey, fat and bark in %",
}
_ICONS = {
    "white": ft.Icons.COLORIZE,
    "bark": ft.Icons.PALETTE_OUTLINED,
    "line": ft.Icons.STRAIGHTEN,
    "face": ft.Icons.CENTER_FOCUS_STRONG,
}


@ft.component
def PhotoScreen() -> ft.View:
    """The photo named in the route."""
    bench, batch = use_bench(), use_batch()
    photo_id = ft.use_route_params().get("photo", "")
    photo = photo_of(bench, batch, photo_id)
    show, set_show = ft.use_state("none")
    kept = photo.face if photo else None
    layer = ft.use_memo(lambda: overlay(kept, show), [kept, show])
    if batch is None or photo is None:
        return no_photo("Photo")

    async def save() -> None:
        await hand_out_photo(bench, batch, photo)

    async def share() -> None:
        await share_photo(bench, batch, photo)

    told = figures(photo, bench.shown.kit)
    return screen(
        STAGES[photo.stage],
        [
            ft.InteractiveViewer(
                content=_with_parts(
                    picture(bench.photo_src(photo_id), f"Photo of {batch.name}"), layer
                ),
                max_scale=MOST_SCALE,
            ),
            *([_parts(show, set_show)] if kept is not None and kept.cells else []),
            words.small(_when(bench, batch, photo)),
            *light_notices(photo),
            *(
                [panels.panel([panels.figure(*one) for one in told], title="Measured")]
                if told
                else []
            ),
            *(_door(bench, batch, photo, tool, name) for tool, name in TOOLS),
            panels.door(
                "Beside another photo",
                "two at the same scale, side by side or with a slider",
                lambda: bench.go(f"/photos/beside/{photo_id}"),
                ft.Icons.COMPARE,
            ),
            panels.door(
                "All photos of this batch",
                "by stage",
                lambda: bench.go(f"/journal/{batch.id}/photos"),
                ft.Icons.PHOTO_LIBRARY_OUTLINED,
            ),
            side_button(
                Act(
                    "Use as the cover",
                    lambda: bench.set_cover(batch, photo_id),
                    icon=ft.Icons.BOOKMARK_OUTLINE,
                    enabled=batch.cover_photo_id != photo_id,
                )
            ),
        ],
        place="/journal",
        back=f"/journal/{batch.id}",
        main=Act("Share it", share, icon=ft.Icons.SHARE),
        side=Act("Save a copy", save, icon=ft.Icons.DOWNLOAD),
    )


def _with_parts(photo: ft.Control, layer: bytes | None) -> ft.Control:
    """The photo, with the parts of its cut face laid over it where there are any."""
    if layer is None:
        return photo
    parts = ft.Image(
        src=layer,
        left=0,
        top=0,
        right=0,
        bottom=0,
        fit=ft.BoxFit.FILL,
        gapless_playback=True,
        filter_quality=ft.FilterQuality.NONE,
        semantics_label="The parts of the cut face, laid over it",
    )
    return ft.Stack([photo, parts])


def _parts(show: str, set_show: Callable[[str], object]) -> ft.Control:
    options = [("none", "The photo alone"), ("all", "Its parts"), ("grey", "Its grey")]
    return fields.choice("Laid over it", options, show, set_show)


def _when(bench: Bench, batch: Batch, photo: Photo) -> str:
    told = [batch.name, say_wall(wall_of(photo.taken), bench.wall())]
    told.append(f"{photo.width} × {photo.height} px")
    if photo.camera_utc_s is not None and photo.camera_utc_s != photo.taken.utc_s:
        told.append("the camera's own clock says another time")
    return " · ".join(told)


def _door(bench: Bench, batch: Batch, photo: Photo, tool: str, name: str) -> ft.Control:
    return panels.door(
        name,
        _SAYS[tool],
        lambda: bench.go(f"/journal/{batch.id}/photo/{photo.id}/{tool}"),
        _ICONS[tool],
    )
