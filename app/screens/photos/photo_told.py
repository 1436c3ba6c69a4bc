"""A photo's figures in words: the same on its screen and on the copy that is handed out."""

from app import quantities
from app.colour.bark import in_words
from app.colour.cure_line import CureLine
from app.colour.light import WORDS
from app.journal.records import Batch, Kit, Photo
from app.journal.wall import say_wall, wall_of

STAGES: dict[str, str] = {
    "buy": "The cut",
    "thaw": "Thawing",
    "trim": "Trimmed",
    "mix": "The cure",
    "chill": "Brine",
    "cure": "In the cure",
    "turn": "Turned",
    "end": "Out of the cure",
    "soak": "Soaking",
    "dry": "Drying",
    "rub": "Rubbed",
    "smoke": "In the smoke",
    "wrap": "Bark at the wrap",
    "finish": "Finish",
    "tender": "At the probe",
    "rest": "Resting",
    "slice": "The slice",
    "store": "Stored",
}
"""What a photo of a stage shows."""


LONG_AGO = "1970-01-01T00:00"
"""Seen from here every time is told with its date and year."""


def sure(confidence: float) -> str:
    """How sure a measurement is; the bounds are judgement.

    >>> sure(0.9), sure(0.6), sure(0.2)
    ('sure', 'fairly sure', 'a guess')
    """
    return "sure" if confidence >= 0.75 else "fairly sure" if confidence >= 0.5 else "a guess"


def white_doubted(photo: Photo) -> bool:
    """Whether what was tapped as its white looks like none."""
    return "white in doubt" in (photo.light or ())


def how_sure(photo: Photo, confidence: float) -> str:
    """How sure a measurement in a photo is: no more than a guess where its white is in doubt."""
    return sure(0.0 if white_doubted(photo) else confidence)


def lab_told(lab: tuple[float, float, float]) -> str:
    """L*, a* and b* in one line."""
    return f"L* {lab[0]:.0f}  a* {lab[1]:.0f}  b* {lab[2]:.0f}"


LEFT_OUT: dict[str, str] = {
    "fat": "fat or glare",
    "bark": "bark or shadow",
    "gap": "gaps",
    "ring": "smoke ring",
}
"""What is no part of the shares on a line."""


def left_out_told(line: CureLine) -> str:
    """What the shares on a line are of.

    >>> left_out_told(CureLine(60, 10, 30, 0, 1, 0.9, left_out=(("fat", 7.2), ("ring", 0.4))))
    'Parts of the lean, 92 % of the way from edge to edge. Left out: 7 % fat or glare.'
    """
    out = [f"{share:.0f} % {LEFT_OUT[kind]}" for kind, share in line.left_out if share > 0.5]
    if not out:
        return "Parts of the lean, which is all of the way from edge to edge."
    lean = f"{100.0 - line.left_out_percent:.0f} % of the way from edge to edge"
    return f"Parts of the lean, {lean}. Left out: {', '.join(out)}."


def mm_told(part_percent: float, thickness_mm: float | None, kit: Kit) -> str:
    """A part of the thickness in % and, where the thickness is known, as a length."""
    percent = f"{part_percent:.0f} %"
    if thickness_mm is None:
        return percent
    mm = part_percent * thickness_mm / 100.0
    if kit.system == "metric":
        return f"{percent} · {mm:.0f} mm"
    inches = f"{mm / quantities.MM_PER_IN:.2f} in"
    return f"{percent} · {inches}" if kit.system == "us" else f"{percent} · {mm:.0f} mm ({inches})"


def figures(photo: Photo, kit: Kit) -> list[tuple[str, str]]:
    """What was measured in a photo, line by line."""
    told: list[tuple[str, str]] = []
    if photo.bark is not None:
        told.append(("Bark", f"{in_words(photo.bark.lab)}, {lab_told(photo.bark.lab)}"))
    line = photo.line
    if line is not None and line.grey_percent is not None:
        for name, part in (
            ("Cured", line.cured_percent),
            ("Pale", line.pale_percent),
            ("Grey", line.grey_percent),
        ):
            if part is not None:
                told.append((f"{name}, on the line", mm_told(part, line.thickness_mm, kit)))
        if line.left_out_percent is not None and line.left_out_percent >= 0.5:
            # The parts are of the lean: they and this are what lies between the edges.
            out = f"{line.left_out_percent:.0f} % of the way from edge to edge"
            told.append(("Left out: fat, bark, ring", out))
        told.append(("The line is", how_sure(photo, line.confidence)))
    face = photo.face
    if face is not None:
        told.append(
            (
                "Whole face",
                f"cured {face.cured_percent:.0f} %, pale {face.pale_percent:.0f} %, "
                f"grey {face.grey_percent:.0f} %",
            )
        )
        told.append(("Beside it", f"fat {face.fat_percent:.0f} %, bark {face.bark_percent:.0f} %"))
    return told


def in_short(photo: Photo) -> list[str]:
    """What was measured in a photo, a few words each."""
    told: list[str] = []
    if photo.bark is not None:
        told.append(f"bark {in_words(photo.bark.lab)}")
    if photo.line is not None and photo.line.grey_percent is not None:
        told.append(f"{photo.line.grey_percent:.0f} % grey on the line")
    if photo.face is not None:
        told.append(
            f"of the face {photo.face.cured_percent:.0f} % cured, "
            f"{photo.face.grey_percent:.0f} % grey"
        )
    return told


def light_says(photo: Photo) -> list[str]:
    """What is wrong with a photo's light, each with what to do about it."""
    found = photo.light or ()
    return [WORDS[mark] for mark in WORDS if mark in found and mark != "no white patch"]


def lacks_white(photo: Photo) -> bool:
    """Whether no fit white patch was tapped in it."""
    return photo.neutral_rgb is None if photo.light is None else "no white patch" in photo.light


def marks_told(photo: Photo) -> list[str]:
    """In a word or two each: what is wrong with the light, and whether white was given.

    A missing white patch matters only where something was measured.
    """
    found = [mark for mark in WORDS if mark in (photo.light or ()) and mark != "no white patch"]
    measured = photo.bark is not None or photo.line is not None or photo.face is not None
    return [*(["no white patch"] if measured and lacks_white(photo) else []), *found]


def caption(batch: Batch, photo: Photo, kit: Kit) -> list[str]:
    """The words on the strip below a photo that is handed out."""
    when = say_wall(wall_of(photo.taken), LONG_AGO)
    head = f"{batch.name} · {STAGES[photo.stage]} · {when}"
    lines = [head, *(f"{name}: {value}" for name, value in figures(photo, kit))]
    if marked := marks_told(photo):
        lines.append(f"Colours may lean with the light: {', '.join(marked)}.")
    return lines
