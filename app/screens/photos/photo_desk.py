"""The desk a photo is measured on: its record, its pixels, and the frame its tools share."""

from collections.abc import Callable, Sequence

import flet as ft
from attrs import frozen

from app.colour.light import WORDS
from app.journal.records import Batch, Photo
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.journal.missing import no_batch
from app.screens.photos.photo_pixels import Pixels, pixels_of
from app.screens.photos.photo_told import lacks_white, light_says
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen
from app.widgets.picture_points import Place

TOOLS = (
    ("white", "White patch"),
    ("bark", "Bark"),
    ("line", "Cure line"),
    ("face", "Whole face"),
)
"""What can be measured in a photo: the last part of the address, and its name."""

STEP = 0.01
"""One press of an arrow moves a point by this part of the picture."""


@frozen(eq=False)
class Desk:
    """A photo on the desk."""

    bench: Bench
    batch: Batch
    photo: Photo
    pixels: Pixels | None
    trouble: str = ""

    @property
    def src(self) -> str | bytes:
        return self.bench.photo_src(self.photo.id)

    @property
    def ratio(self) -> float:
        return self.photo.width / self.photo.height

    def keep(self, photo: Photo, said: str = "") -> None:
        """Keep what was measured; with a word said it can be taken back."""
        before, bench = self.photo, self.bench
        bench.shelf.save_photo(photo)

        def undo() -> None:
            bench.shelf.save_photo(before)
            bench.refresh("Taken back.")

        bench.refresh(said, undo if said else None)


def most_height() -> float:
    """How high a picture may stand above its figures [px]."""
    height = ft.context.page.height or 844.0
    return max(180.0, min(420.0, 0.36 * float(height)))


def use_desk() -> Desk | None:
    """The photo of the route with its pixels, which come a moment later."""
    bench, batch = use_bench(), use_batch()
    photo_id = ft.use_route_params().get("photo", "")
    none_yet: tuple[Pixels | None, str] = (None, "")
    got, set_got = ft.use_state(none_yet)

    async def load() -> None:
        try:
            found = await pixels_of(bench.device.photos, bench.device.images, photo_id)
        except (LookupError, ValueError, OSError) as wrong:
            set_got((None, str(wrong)))
        else:
            set_got((found, ""))

    ft.use_effect(load, [photo_id])
    photo = photo_of(bench, batch, photo_id)
    if batch is None or photo is None:
        return None
    return Desk(bench, batch, photo, *got)


def photo_of(bench: Bench, batch: Batch | None, photo_id: str) -> Photo | None:
    """What is known of a photo of a batch; None when it is not there."""
    if batch is None:
        return None
    return next((one for one in bench.photos(batch.id) if one.id == photo_id), None)


def no_photo(title: str) -> ft.View:
    """What stands where a photo is asked for that is not there."""
    batch = use_batch()
    if batch is None:
        return no_batch()
    return screen(
        title,
        [panels.empty("This photo is not here.", "The rest of the batch is unharmed.")],
        place="/journal",
        back=f"/journal/{batch.id}",
    )


def desk_screen(
    desk: Desk,
    tool: str,
    picture: ft.Control,
    body: Sequence[ft.Control],
    *,
    main: Act | None = None,
    side: Act | None = None,
) -> ft.View:
    """A tool in its frame: the picture stands still, the figures scroll under it."""
    at = f"/journal/{desk.batch.id}/photo/{desk.photo.id}"
    waiting: list[ft.Control] = []
    if desk.trouble:
        waiting.append(panels.notice(desk.trouble, "danger"))
    elif desk.pixels is None:
        waiting.append(words.small("Reading the picture …"))
    return screen(
        dict(TOOLS)[tool],
        [
            *waiting,
            *body,
            panels.line(),
            fields.choice("Measure", TOOLS, tool, lambda key: desk.bench.go(f"{at}/{key}")),
            words.small(desk.batch.name),
        ],
        place="/journal",
        back=at,
        above=picture,
        main=main,
        side=side,
    )


def light_notices(photo: Photo) -> list[ft.Control]:
    """The marks of a photo's light, each with what to do about it."""
    without: list[ft.Control] = []
    if lacks_white(photo):
        without.append(words.small(WORDS["no white patch"]))
    return [*without, *(panels.notice(says, "attention") for says in light_says(photo))]


def arrows(on_move: Callable[[Place], object], name: str) -> ft.Control:
    """Four arrows that move a point, for those who cannot drag or tap so finely."""

    def press(dx: float, dy: float) -> Callable[[], object]:
        return lambda: on_move((dx * STEP, dy * STEP))

    return ft.Row(
        [
            panels.step_button(icon, f"{name} {way}", press(dx, dy))
            for icon, way, dx, dy in (
                (ft.Icons.ARROW_BACK, "left", -1.0, 0.0),
                (ft.Icons.ARROW_UPWARD, "up", 0.0, -1.0),
                (ft.Icons.ARROW_DOWNWARD, "down", 0.0, 1.0),
                (ft.Icons.ARROW_FORWARD, "right", 1.0, 0.0),
            )
        ],
        spacing=8,
        wrap=True,
        run_spacing=8,
    )
