"""What the journal keeps: plain data, one class a thing, no behaviour.

Instants are UTC seconds with the local offset beside them (`Moment`); times a person
agreed with the clock on the wall ("Saturday 18:00") are wall-clock text without a zone
(`"2027-03-06T18:00"`), so that travel or a clock change does not move them.
"""

from typing import Literal

from attrs import field, frozen

from app.cure.blends import Blend
from app.cure.request import MixRequest

Stage = Literal[
    "buy",
    "thaw",
    "trim",
    "mix",
    "chill",
    "cure",
    "turn",
    "end",
    "soak",
    "dry",
    "rub",
    "smoke",
    "wrap",
    "finish",
    "tender",
    "rest",
    "slice",
    "store",
]
"""The stages of the work, in the order they come; the keys of every plan and entry."""

Spot = Literal["flat", "point", "middle", "edge", "pit", "fridge", "brine", "other"]
"""Where a thermometer or a probe was put."""


@frozen
class Moment:
    """An instant: seconds since 1970-01-01 UTC, and the local offset in force then [min]."""

    utc_s: float
    offset_min: int = 0


@frozen
class Weight:
    """A weighing. `of` says what lay on the scale."""

    grams: float
    of: Literal["green", "trimmed", "cured", "soaked", "smoked", "rested", "trimmings"] = "green"


@frozen
class Temperature:
    celsius: float
    spot: Spot = "flat"


@frozen
class Feel:
    """How the probe went in: four plain steps, with the reading taken there, if any."""

    step: Literal["hard", "firm", "nearly", "soft"]
    spot: Spot = "flat"
    celsius: float | None = None


@frozen
class Decision:
    """A choice at a turning point, so that it can be compared with later ones."""

    choice: Literal["wrapped", "not_yet", "pulled", "keep_going"]
    pit_c: float | None = None
    core_c: float | None = None


@frozen
class Note:
    text: str


@frozen
class PhotoTaken:
    """A photo in its place in the record; the picture itself lies in the photo store."""

    photo_id: str
    caption: str = ""


@frozen
class Cost:
    amount: float
    currency: str = ""
    what: str = ""


EntryBody = Weight | Temperature | Feel | Decision | Note | PhotoTaken | Cost


@frozen
class Entry:
    """One line of a batch's record."""

    id: str
    batch_id: str
    at: Moment
    stage: Stage
    body: EntryBody
    changed: Moment
    schema: int = 1


@frozen
class Step:
    """One step of a plan: when it falls due by the wall clock, and what became of it.

    why : where its length comes from, in words
    """

    id: str
    stage: Stage
    due: str
    title: str = ""
    minutes: float = 0.0
    done: Moment | None = None
    skipped: bool = False
    moved_by_hand: bool = False
    reminder: bool = True
    why: str = ""


@frozen
class Bought:
    """A bought one tasted beside it, by the same scores."""

    salt: int | None = None
    smoke: int | None = None
    pepper: int | None = None
    tenderness: int | None = None
    moisture: int | None = None


@frozen
class SliceOutcome:
    """What the cut face and the tasting said. Scores run from 1 to 5; None is not scored.

    `grey_percent` is the part of the thickness the cure never reached, `pale_percent` the part it
    only just did; of the lean alone, bark and fat left out.
    `thickness_mm` is the piece's, at the thickest; `cut_mm` how thick the slice was cut.
    For salt, smoke and pepper 3 is right, 1 far too little, 5 far too much;
    for tenderness and moisture 5 is best. `pull` is a strip pulled lengthwise by its ends.
    """

    at: Moment
    bend: Literal["cracks", "bends", "falls_apart"] | None = None
    grey_percent: float | None = None
    pale_percent: float | None = None
    thickness_mm: float | None = None
    salt: int | None = None
    smoke: int | None = None
    pepper: int | None = None
    tenderness: int | None = None
    moisture: int | None = None
    again: bool | None = None
    rating: int | None = None
    notes: str = ""
    cut_mm: float | None = None
    across_grain: bool | None = None
    pull: Literal["holds", "parts", "crumbles"] | None = None
    beside_bought: Literal["worse", "alike", "better"] | None = None
    bought_notes: str = ""
    bought: Bought | None = None


@frozen
class Batch:
    """One piece of meat from purchase to plate."""

    id: str
    name: str
    cut: str
    created: Moment
    changed: Moment
    mix: MixRequest
    thickness_mm: float | None = None
    fat_cap_on: bool = False
    serve: str | None = None
    plan: tuple[Step, ...] = ()
    outcome: SliceOutcome | None = None
    cover_photo_id: str | None = None
    repeated_from: str | None = None
    advice_taken: tuple[str, ...] = ()
    demonstration: bool = False
    finished: bool = False
    schema: int = 1


@frozen
class BarkReading:
    """The bark's colour in a patch of a photo; place and radius as parts of width and width.

    outline : of a patch drawn by hand, as parts of width and height; empty for a round one
    """

    lab: tuple[float, float, float]
    at: tuple[float, float]
    radius: float
    confidence: float = 1.0
    outline: tuple[tuple[float, float], ...] = ()


@frozen
class SliceReading:
    """A line drawn across a slice, its ends as parts of width and height, and what it showed.

    The three parts are per cent of the lean on the line; None where the picture could not tell.
    `edges` are where the slice begins and ends, as parts of the line. `left_out_percent` of the
    way between them is fat, bark, a gap or a smoke ring, and no part of the three; None where
    that was not kept.
    """

    start: tuple[float, float]
    end: tuple[float, float]
    cured_percent: float | None = None
    pale_percent: float | None = None
    grey_percent: float | None = None
    edges: tuple[float, float] = (0.0, 1.0)
    confidence: float = 0.0
    thickness_mm: float | None = None
    left_out_percent: float | None = None


@frozen
class FaceReading:
    """Shares of a whole cut face [%], and its outline as parts of width and height.

    cells : what each cell shows, packed (`app.journal.face_cells`); empty where only the shares
        are kept. There are `columns` times `rows`, each `step` px wide as the photo was measured.
    """

    cured_percent: float
    pale_percent: float
    grey_percent: float
    fat_percent: float
    bark_percent: float
    confidence: float = 0.0
    outline: tuple[tuple[float, float], ...] = ()
    by_hand: bool = False
    """Whether the cook has put cells of it right."""
    cells: str = ""
    columns: int = 0
    rows: int = 0
    step: int = 1
    says: str = ""


@frozen
class Photo:
    """What is known of a stored picture. Pixels are upright, at most 2048 px on a side.

    camera_utc_s : when the camera said it was taken [s since 1970 UTC], None if it did not say
    neutral_rgb, neutral_at : the white patch and where it lies, as parts of width and height
    neutral_again : further white patches, by which mixed light is told
    light : marks of the light (`app.colour.light.Mark`); None when it was not looked at
    """

    id: str
    batch_id: str
    taken: Moment
    stage: Stage
    width: int
    height: int
    stored_bytes: int
    neutral_rgb: tuple[int, int, int] | None = None
    schema: int = 1
    neutral_at: tuple[float, float] | None = None
    neutral_again: tuple[tuple[int, int, int], ...] = ()
    light: tuple[str, ...] | None = None
    camera_utc_s: float | None = None
    bark: BarkReading | None = None
    line: SliceReading | None = None
    face: FaceReading | None = None


@frozen
class InCalendar:
    """A step as the last calendar file had it, so that the next one puts it right.

    uid, sequence : the name it goes by in the phone's calendar, and how often it changed
    lead_min : it rings so many minutes before; None when it is silent
    gone : it was taken out again
    """

    uid: str
    batch_id: str
    title: str
    due: str
    sequence: int
    lead_min: int | None = None
    gone: bool = False


WeighsIn = Literal["kg", "g", "lb", "lb oz"]
"""The units meat is weighed in."""


@frozen
class Kit:
    """The cook's own settings and things: one document.

    weighs_in : the unit the cook's scale shows; empty where it is as the system says
    """

    system: Literal["us", "metric", "both"] = "us"
    rules: str = "us"
    own_limit_ppm: float | None = None
    theme: Literal["auto", "light", "dark", "outdoor"] = "auto"
    salts: tuple["OwnSalt", ...] = ()
    containers: tuple["OwnContainer", ...] = ()
    blends: tuple[Blend, ...] = ()
    thermometer_offset_c: float = 0.0
    last_backup: Moment | None = None
    notices: bool = False
    """Whether the cook asked for notices and the device gave leave."""
    calendar: tuple[InCalendar, ...] = ()
    """What the calendar files handed out put into the phone's own calendar."""
    calendar_lead_min: int = 15
    """Alarms of the calendar file ring so many minutes before a step; our own choice."""
    weighs_in: Literal["", "kg", "g", "lb", "lb oz"] = ""
    schema: int = 1


@frozen
class OwnSalt:
    """A curing salt as its label states it."""

    id: str
    name: str
    nitrite_percent: float
    nitrate_percent: float = 0.0


@frozen
class OwnContainer:
    """A container by its inner shape; a round one has `width_mm` as its diameter and no depth."""

    id: str
    name: str
    shape: Literal["box", "round", "bag"] = "box"
    length_mm: float = field(default=0.0)
    width_mm: float = field(default=0.0)
    height_mm: float = field(default=0.0)
