"""A stored photo's pixels, and what is measured in them: white, bark, line and face."""

from collections.abc import Callable
from typing import Any

from attrs import evolve, field, frozen

from app.colour.bark import Bark, measure_bark, measure_drawn_bark
from app.colour.cure_line import CureLine, CutFace, measure, measure_face
from app.colour.light import marks
from app.colour.patch import patch_rgb
from app.device.parts import Images, Photos
from app.journal.records import BarkReading, FaceReading, Photo, SliceReading
from app.screens.photos.photo_face_kept import carried_over, face_again, kept_face
from app.widgets.picture_points import Place, Points

MEASURED_PX = 1600
"""Longest side at which photos are measured: more shows grain, not meat."""

WHITE_RADIUS = 0.015
"""Radius of the white patch, as a part of the width."""


@frozen(eq=False)
class Pixels:
    """A photo's pixels, four bytes each."""

    rgba: bytes
    width: int
    height: int
    _read: dict[str, tuple[object, Any]] = field(factory=dict, init=False, repr=False)
    """What was last measured of each kind, so that no drawing of the screen measures again."""

    def spot(self, at: Place) -> tuple[float, float]:
        """A place of the picture in pixels, always on a pixel."""
        return (
            min(self.width - 1.0, at[0] * self.width),
            min(self.height - 1.0, at[1] * self.height),
        )

    def place(self, point: tuple[float, float]) -> Place:
        """Pixels as parts of the picture."""
        return point[0] / self.width, point[1] / self.height

    def once(self, kind: str, asked: object, measured: Callable[[], Any]) -> Any:
        """What is measured: the last of its kind again when the same is asked."""
        if kind not in self._read or self._read[kind][0] != asked:
            self._read[kind] = (asked, measured())
        return self._read[kind][1]


_last: dict[str, Pixels] = {}
"""The one photo at hand, so that going from tool to tool does not decode it anew."""


async def pixels_of(photos: Photos, images: Images, photo_id: str) -> Pixels:
    """The pixels of a stored photo; LookupError or ValueError with a sentence if it has none."""
    if photo_id not in _last:
        found = Pixels(*await images.rgba(await photos.get(photo_id), MEASURED_PX))
        _last.clear()
        _last[photo_id] = found
    return _last[photo_id]


def white_of(pixels: Pixels, at: Place) -> tuple[int, int, int]:
    """sRGB of the patch around a tap."""
    radius = max(2.0, WHITE_RADIUS * pixels.width)
    return patch_rgb(pixels.rgba, pixels.width, pixels.height, pixels.spot(at), radius)


def with_white(
    pixels: Pixels,
    photo: Photo,
    rgb: tuple[int, int, int] | None,
    at: Place | None,
    again: tuple[tuple[int, int, int], ...] = (),
) -> Photo:
    """The photo with another white patch: its light marked and all it had measured anew."""
    patches = [patch for patch in (rgb, *again) if patch is not None]
    light = marks(pixels.rgba, pixels.width, pixels.height, list(patches))
    changed = evolve(photo, neutral_rgb=rgb, neutral_at=at, neutral_again=again, light=light)
    if photo.bark is not None:
        bark = bark_again(pixels, changed, photo.bark)
        changed = evolve(changed, bark=_with_colour(photo.bark, bark) if bark else None)
    if photo.line is not None:
        points = (photo.line.start, photo.line.end)
        line = line_of(pixels, changed, points)
        changed = evolve(changed, line=kept_line(line, points, photo.line.thickness_mm))
    if photo.face is not None:
        changed = evolve(changed, face=_face_anew(pixels, changed, photo.face))
    return changed


def _face_anew(pixels: Pixels, photo: Photo, kept: FaceReading) -> FaceReading | None:
    """A kept face measured again under another white, what was put right by hand left so."""
    before = face_again(kept)
    if before is None and kept.by_hand:
        return kept  # of an earlier form: which cells were put right is not known
    found = face_of(pixels, photo, kept.outline)
    return kept_face(carried_over(found, before), pixels.place) if found.known else None


def bark_of(pixels: Pixels, photo: Photo, at: Place, radius: float) -> Bark | None:
    """Bark in a round patch, seen under the photo's white."""

    def read() -> Bark | None:
        px = max(1.0, radius * pixels.width)
        spot = pixels.spot(at)
        return measure_bark(pixels.rgba, pixels.width, pixels.height, spot, px, photo.neutral_rgb)

    found: Bark | None = pixels.once("bark", (at, radius, photo.neutral_rgb), read)
    return found


def drawn_bark_of(pixels: Pixels, photo: Photo, outline: Points) -> Bark | None:
    """Bark in a patch drawn by hand; ValueError when it holds nothing."""

    def read() -> Bark | None:
        drawn = tuple((x * pixels.width, y * pixels.height) for x, y in outline)
        return measure_drawn_bark(
            pixels.rgba, pixels.width, pixels.height, drawn, photo.neutral_rgb
        )

    found: Bark | None = pixels.once("bark", (outline, photo.neutral_rgb), read)
    return found


def bark_again(pixels: Pixels, photo: Photo, kept: BarkReading) -> Bark | None:
    """The patch that was kept, read again."""
    if kept.outline:
        return drawn_bark_of(pixels, photo, kept.outline)
    return bark_of(pixels, photo, kept.at, kept.radius)


def kept_bark(bark: Bark, at: Place, radius: float, outline: Points = ()) -> BarkReading:
    """Bark as it is kept with the photo."""
    return _with_colour(BarkReading((0.0, 0.0, 0.0), at, radius, outline=outline), bark)


def _with_colour(kept: BarkReading, bark: Bark) -> BarkReading:
    lightness, a, b = (round(part, 2) for part in bark.lab)
    return evolve(kept, lab=(lightness, a, b), confidence=bark.confidence)


def line_of(pixels: Pixels, photo: Photo, points: Points) -> CureLine:
    """What lies along a line, in parts of it; ValueError when it is too short."""

    def read() -> CureLine:
        ends = pixels.spot(points[0]), pixels.spot(points[1])
        return measure(pixels.rgba, pixels.width, pixels.height, *ends, photo.neutral_rgb)

    found: CureLine = pixels.once("line", (points, photo.neutral_rgb), read)
    return found


def kept_line(line: CureLine, points: Points, thickness_mm: float | None) -> SliceReading:
    """A line as it is kept with the photo."""
    return SliceReading(
        points[0],
        points[1],
        line.cured_percent,
        line.pale_percent,
        line.grey_percent,
        (line.left_edge, line.right_edge),
        line.confidence,
        thickness_mm,
        round(line.left_out_percent, 1) if line.known else None,
    )


def face_of(pixels: Pixels, photo: Photo, outline: Points = ()) -> CutFace:
    """Shares of the cut face, inside an outline if one is given."""
    drawn = tuple(pixels.spot(point) for point in outline)
    return measure_face(pixels.rgba, pixels.width, pixels.height, photo.neutral_rgb, drawn or None)
