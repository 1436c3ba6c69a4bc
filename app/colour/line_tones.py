"""The tones of a line with their light, and the smoke ring at its ends."""

from app.colour.division import Piece, mean_tone
from app.colour.lab import Triple
from app.colour.likeliest import Meaning, Reading, Seen
from app.colour.pixels import Sample
from app.colour.profile import Profile

# Judgements.
_RIM = 0.13  # of the lean from each end: where a smoke ring may lie
_RING_BEYOND = 0.2  # of the way from grey to cured: what is redder at the rim is a ring
_RING_GAP = 4  # places from the edge, or within a ring, that may be less red


def meant(alike: list[list[Piece]], meanings: tuple[Meaning, ...], which: Meaning) -> list[Piece]:
    """The pieces whose tone has that meaning."""
    told = zip(alike, meanings, strict=True)
    return [piece for tone, meaning in told if meaning == which for piece in tone]


def light_of(alike: list[Piece], samples: list[Sample], gains: Triple) -> Triple:
    """Balanced mean light of pieces."""
    return mean_light([samples[i] for p in alike for i in p.pure or p.places], gains)


def mean_light(some: list[Sample], gains: Triple) -> Triple:
    """Balanced mean light of places."""
    red, green, blue = (
        sum(sample.light[k] for sample in some) / len(some) * gains[k] for k in range(3)
    )
    return red, green, blue


def seen_tones(
    alike: list[list[Piece]],
    found: list[Piece],
    samples: list[Sample],
    gains: Triple,
    shape: Profile,
) -> list[Seen]:
    """The tones of the lean with their light; a tone lies at the rim when all its pieces do, and at
    an end where any place is redder than half way from the dullest tone to it."""
    whole = sum(len(p.pure) for tone in alike for p in tone) or 1
    order = [i for piece in found for i in piece.places]
    reach = max(1, int(_RIM * len(order)))
    ends = order[:reach], order[-reach:]
    rim = {*ends[0], *ends[1]}
    reds = [max(shape.tones[i].s for i in end) for end in ends]
    dullest = mean_tone(alike[0])
    return [
        Seen(
            mean_tone(tone),
            light_of(tone, samples, gains),
            sum(len(p.pure) for p in tone) / whole,
            all(i in rim for p in tone for i in p.places),
            sum(red > 0.5 * (mean_tone(tone) + dullest) for red in reds),
        )
        for tone in alike
    ]


def in_order(alike: list[list[Piece]], found: list[Piece]) -> list[int]:
    """Which tones follow each other along the line, by their place in `alike`."""
    tone_of = {piece.places[0]: k for k, tone in enumerate(alike) for piece in tone}
    return [tone_of[piece.places[0]] for piece in found if piece.places[0] in tone_of]


def without_ring(shape: Profile, lean: list[int], told: Reading) -> list[bool]:
    """Which places are no smoke ring: none of the rim from the edge to where it was last as red
    as the middle between cured and ring."""
    keep = [True] * len(lean)
    most = told.cured + _RING_BEYOND * (told.cured - told.grey)
    if told.ring is not None and "cured" in told.meanings:
        most = 0.5 * (told.cured + told.ring)
    for order in (range(len(lean)), range(len(lean) - 1, -1, -1)):
        rim = 0
        for k, j in enumerate(order):
            if shape.tones[lean[j]].s > most:
                rim = k + 1
            elif k - rim >= _RING_GAP:
                break
        if rim <= _RIM * len(lean):
            for j in list(order)[:rim]:
                keep[j] = False
    return keep
