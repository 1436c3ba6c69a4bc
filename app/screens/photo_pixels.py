"""A stored photo's pixels, and what is measured in them: white, bark, line and face."""

from collections.abc import Callable

from attrs import evolve, field, frozen

from app.colour.bark import Bark, measure_bark
from app.colour.cure_line import CureLine, CutFace, measure, measure_face
from app.colour.light import marks
from app.colour.patch import patch_rgb
from app.device.parts import Images, Photos
from app.journal.records import BarkReading, FaceReading, Photo, SliceReading
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
    _lines: dict[object, CureLine] = field(factory=dict, init=False, repr=False)
    """The line last measured, so that it is not measured again each time it is drawn."""

    def spot(self, at: Place) -> tuple[float, float]:
        """A place of the picture in pixels, always on a pixel."""
        return (
            min(self.width - 1.0, at[0] * self.width),
            min(self.height - 1.0, at[1] * self.height),
        )

    def place(self, point: tuple[float, float]) -> Place:
        """Pixels as parts of the picture."""
        return point[0] / self.width, point[1] / self.height

    def once(self, asked: object, measured: Callable[[], CureLine]) -> CureLine:
        """A line's reading: the last one again when the same is asked."""
        if asked not in self._lines:
            found = measured()
            self._lines.clear()
            self._lines[asked] = found
        return self._lines[asked]


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
        bark = bark_of(pixels, changed, photo.bark.at, photo.bark.radius)
        kept = kept_bark(bark, photo.bark.at, photo.bark.radius) if bark else None
        changed = evolve(changed, bark=kept)
    if photo.line is not None:
        points = (photo.line.start, photo.line.end)
        line = line_of(pixels, changed, points)
        changed = evolve(changed, line=kept_line(line, points, photo.line.thickness_mm))
    if photo.face is not None and not photo.face.by_hand:
        face = face_of(pixels, changed, photo.face.outline)
        changed = evolve(changed, face=kept_face(pixels, face, False) if face.known else None)
    return changed


def bark_of(pixels: Pixels, photo: Photo, at: Place, radius: float) -> Bark | None:
    """Bark in a round patch, seen under the photo's white."""
    return measure_bark(
        pixels.rgba,
        pixels.width,
        pixels.height,
        pixels.spot(at),
        max(1.0, radius * pixels.width),
        photo.neutral_rgb,
    )


def kept_bark(bark: Bark, at: Place, radius: float) -> BarkReading:
    """Bark as it is kept with the photo."""
    lightness, a, b = (round(part, 2) for part in bark.lab)
    return BarkReading((lightness, a, b), at, radius, bark.confidence)


def line_of(pixels: Pixels, photo: Photo, points: Points) -> CureLine:
    """What lies along a line, in parts of it; ValueError when it is too short."""
    return pixels.once(
        (points, photo.neutral_rgb),
        lambda: measure(
            pixels.rgba,
            pixels.width,
            pixels.height,
            pixels.spot(points[0]),
            pixels.spot(points[1]),
            photo.neutral_rgb,
        ),
    )


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
    )


def face_of(pixels: Pixels, photo: Photo, outline: Points = ()) -> CutFace:
    """Shares of the cut face, inside an outline if one is given."""
    drawn = tuple(pixels.spot(point) for point in outline)
    return measure_face(pixels.rgba, pixels.width, pixels.height, photo.neutral_rgb, drawn or None)


def kept_face(pixels: Pixels, face: CutFace, by_hand: bool) -> FaceReading:
    """A face as it is kept with the photo."""
    shares = face.shares
    return FaceReading(
        shares["cured"],
        shares["pale"],
        shares["grey"],
        shares["fat"],
        shares["bark"],
        face.confidence,
        tuple(pixels.place(point) for point in face.outline),
        by_hand,
    )
