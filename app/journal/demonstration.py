"""Two invented batches to look round in: one good, one with a grey core.

Everything here is made up, and marked so: ids begin with "demo-", `demonstration` is true. The
pictures are drawn from the parameters below by build_scripts/draw_demonstration.py.
"""

from collections.abc import Callable
from itertools import count

from attrs import evolve, frozen

from app.cure.request import MixRequest
from app.journal.entries import decided, felt, measured, noted, paid, pictured, weighed
from app.journal.lengths import Length
from app.journal.marks import mark_done
from app.journal.plan import new_batch
from app.journal.records import Batch, Entry, EntryBody, Moment, Photo, SliceOutcome, Stage
from app.journal.wall import days_later, instant_s, plus, wall_of

PREFIX = "demo-"

Say = tuple[Stage, float, EntryBody]
"""A line of the record: its stage, how long after the stage began [min], what it says."""


@frozen
class BarkPicture:
    """A bark close up: how dark and how red it is, how much pepper, how wet with fat (0 to 1)."""

    seed: int
    darkness: float
    redness: float
    pepper: float
    wetness: float


@frozen
class SlicePicture:
    """A cut face: parts of the thickness the cure never or half reached, marbling (0 to 1)."""

    seed: int
    grey_percent: float
    pale_percent: float
    marbling: float
    thickness_mm: float


@frozen
class Picture:
    """A picture of the demonstration: where it belongs and what it was drawn from."""

    photo_id: str
    file: str
    stage: Stage
    stored_bytes: int
    drawn: BarkPicture | SlicePicture
    width: int = 960
    height: int = 720
    neutral_rgb: tuple[int, int, int] | None = None


CARD_RGB, CARD_AT = (225, 221, 211), (0.095, 0.105)
"""The white card beside the slices, as the pictures show it, and where it lies."""

PICTURES: tuple[Picture, ...] = (
    Picture(
        "demo-good-bark",
        "good-bark.jpg",
        "wrap",
        56574,
        BarkPicture(11, 0.82, 0.55, 0.75, 0.35),
    ),
    Picture(
        "demo-good-slice",
        "good-slice.jpg",
        "slice",
        56452,
        SlicePicture(12, 0.0, 0.0, 0.5, 44.0),
        neutral_rgb=CARD_RGB,
    ),
    Picture(
        "demo-grey-bark",
        "grey-bark.jpg",
        "wrap",
        57995,
        BarkPicture(21, 0.45, 0.85, 0.45, 0.7),
    ),
    Picture(
        "demo-grey-slice",
        "grey-slice.jpg",
        "slice",
        56494,
        SlicePicture(22, 26.0, 12.0, 0.8, 66.0),
        neutral_rgb=CARD_RGB,
    ),
)
"""Files lie in assets/demonstration."""


@frozen
class Demonstration:
    """All that is loaded, and removed again, with one tap. `files` are asset names by photo id."""

    batches: tuple[Batch, ...]
    entries: tuple[Entry, ...]
    photos: tuple[Photo, ...]
    files: tuple[tuple[str, str], ...]


def is_demonstration(record_id: str) -> bool:
    """Whether a record of that name is one of the invented ones."""
    return record_id.startswith(PREFIX)


def demonstration(now: Moment) -> Demonstration:
    """The two batches as if made some weeks before `now`, by the clock where one is."""
    good, good_said = _good(now)
    grey, grey_said = _grey(now)
    photos = tuple(
        _photo(picture, entry)
        for picture in PICTURES
        for entry in (*good_said, *grey_said)
        if getattr(entry.body, "photo_id", "") == picture.photo_id
    )
    files = tuple((picture.photo_id, f"demonstration/{picture.file}") for picture in PICTURES)
    return Demonstration((good, grey), (*good_said, *grey_said), photos, files)


def _photo(picture: Picture, entry: Entry) -> Photo:
    return Photo(
        picture.photo_id,
        entry.batch_id,
        entry.at,
        picture.stage,
        picture.width,
        picture.height,
        picture.stored_bytes,
        picture.neutral_rgb,
        neutral_at=CARD_AT if picture.neutral_rgb else None,
    )


def _names(kind: str) -> Callable[[], str]:
    numbers = count(1)
    return lambda: f"{PREFIX}{kind}-{next(numbers):02d}"


def _carried_out(
    planned: Batch, said: tuple[Say, ...], outcome: SliceOutcome, cover: str, offset_min: int
) -> tuple[Batch, tuple[Entry, ...]]:
    """A batch with all its steps done a little off their time, and its record."""
    batch = planned
    for turn, step in enumerate(planned.plan):
        due = next(one.due for one in batch.plan if one.id == step.id)
        # A few minutes late here and there, as it goes in a kitchen.
        batch = mark_done(batch, step.id, _moment(plus(due, (0, 4, 11, 2)[turn % 4]), offset_min))
    begun: dict[Stage, Moment] = {
        step.stage: step.done for step in batch.plan if step.done and step.stage != "turn"
    }
    names = _names(batch.id.removeprefix(PREFIX).split("-")[0] + "-line")
    lines = []
    for stage, after_min, body in said:
        at = begun[stage]
        at = evolve(at, utc_s=at.utc_s + 60.0 * after_min)
        lines.append(Entry(names(), batch.id, at, stage, body, changed=at))
    tasted = evolve(begun["slice"], utc_s=begun["slice"].utc_s + 1800.0)
    batch = evolve(
        batch,
        outcome=evolve(outcome, at=tasted),
        cover_photo_id=cover,
        demonstration=True,
        changed=tasted,
    )
    return batch, tuple(lines)


def _moment(wall: str, offset_min: int) -> Moment:
    return Moment(instant_s(wall) - 60.0 * offset_min, offset_min)


def _begin(now: Moment, days_ago: int) -> tuple[str, Moment]:
    wall = days_later(wall_of(now), -days_ago)[:10] + "T09:00"
    return wall, _moment(wall, now.offset_min)


def _good(now: Moment) -> tuple[Batch, tuple[Entry, ...]]:
    start, begun = _begin(now, 33)
    planned = new_batch(
        MixRequest(
            3180.0,
            cut="flat",
            thickness_mm=44.0,
            water_g=2600.0,
            salt_percent=2.2,
            sugar_percent=1.0,
            nitrite_ppm=150.0,
            days=10.0,
        ),
        "Brisket flat",
        "Invented: peppery flat",
        begun,
        ids=_names("good"),
        start=start,
        thickness_mm=44.0,
        own_lengths={"cure": Length(10 * 1440), "smoke": Length(330), "finish": Length(225)},
    )
    said: tuple[Say, ...] = (
        ("buy", 0, paid(54.20, "$", what="brisket flat")),
        ("trim", -20, weighed(3560, "green")),
        ("trim", 0, weighed(3180, "trimmed")),
        ("cure", 5, measured(3.2, "brine")),
        ("end", 10, weighed(3270, "cured")),
        ("smoke", 20, measured(121, "pit")),
        ("smoke", 120, measured(46.0, "flat")),
        ("smoke", 240, measured(63.5, "flat")),
        ("smoke", 320, measured(69.0, "flat")),
        ("wrap", 0, pictured("demo-good-bark", "Bark set, rub does not come off")),
        ("wrap", 2, decided("wrapped", 124, 71)),
        ("finish", 120, measured(86.0, "flat")),
        ("tender", 0, felt("nearly", "flat", 93.0)),
        ("tender", 4, felt("soft", "point", 95.0)),
        ("tender", 8, decided("pulled", 122, 94)),
        ("rest", 115, measured(66.5, "flat")),
        ("slice", 0, weighed(2260, "rested")),
        ("slice", 4, pictured("demo-good-slice", "Pink right through")),
        ("slice", 6, noted("Pencil thick across the grain. Holds when lifted, gives when pulled.")),
    )
    outcome = SliceOutcome(
        begun,
        bend="bends",
        grey_percent=0.0,
        pale_percent=0.0,
        thickness_mm=44.0,
        salt=3,
        smoke=3,
        pepper=4,
        tenderness=5,
        moisture=4,
        again=True,
        rating=5,
        notes="The one to repeat. A little less pepper for the children.",
    )
    return _carried_out(planned, said, outcome, "demo-good-slice", now.offset_min)


def _grey(now: Moment) -> tuple[Batch, tuple[Entry, ...]]:
    start, begun = _begin(now, 75)
    planned = new_batch(
        MixRequest(
            4020.0,
            cut="point",
            thickness_mm=66.0,
            water_g=4200.0,
            salt_percent=3.0,
            sugar_percent=1.0,
            nitrite_ppm=120.0,
            days=5.0,
        ),
        "Brisket point",
        "Invented: thick point, too few days",
        begun,
        ids=_names("grey"),
        start=start,
        thickness_mm=66.0,
        own_lengths={"cure": Length(5 * 1440), "smoke": Length(300), "finish": Length(210)},
    )
    said: tuple[Say, ...] = (
        ("buy", 0, paid(61.80, "$", what="brisket point")),
        ("trim", -15, weighed(4390, "green")),
        ("trim", 0, weighed(4020, "trimmed")),
        ("cure", 5, measured(3.8, "brine")),
        ("end", 10, weighed(4100, "cured")),
        ("end", 12, noted("Only five days, the weekend would not wait.")),
        ("smoke", 30, measured(135, "pit")),
        ("smoke", 150, measured(55.0, "point")),
        ("smoke", 285, measured(66.0, "point")),
        ("wrap", 0, pictured("demo-grey-bark", "Still red, rub smears")),
        ("wrap", 1, decided("wrapped", 138, 67)),
        ("tender", 0, felt("firm", "flat", 88.0)),
        ("tender", 5, felt("nearly", "point", 90.0)),
        ("tender", 9, decided("pulled", 130, 90)),
        ("slice", 0, weighed(2790, "rested")),
        ("slice", 3, pictured("demo-grey-slice", "Grey in the middle, about a finger wide")),
    )
    outcome = SliceOutcome(
        begun,
        bend="cracks",
        grey_percent=26.0,
        pale_percent=12.0,
        thickness_mm=66.0,
        salt=4,
        smoke=3,
        pepper=3,
        tenderness=2,
        moisture=3,
        again=True,
        rating=2,
        notes="Salty at the rim, roast beef in the middle. More days, and leave it on longer.",
    )
    return _carried_out(planned, said, outcome, "demo-grey-slice", now.offset_min)
