"""What a run of the diffusion model is told and what it answers: plain data.

Concentrations are told in the meat's water and in the bath alike, so that at rest both are
equal. Their unit is the caller's own (grams of salt per gram of water, mg of nitrite per kg of
water); `app.transport.brining` turns weights into them and back.
"""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import inf
from typing import Literal

from attrs import field, frozen

from app.transport.checks import bath_ratio, between, not_negative, positive
from app.transport.diffusivity import ACTIVATION_KJ_MOL

Shape = Literal["slab", "round"]
"""A slab is far wider than thick; a round one is long, its thickness its diameter."""


@frozen
class Piece:
    """The meat as the model sees it.

    `thickness_mm` is the whole thickness at the place asked about; `faces` how many of a slab's
    two faces the brine gets at. Fat conducts several times slower than lean (from memory), so a
    fat cap left on nearly closes its face and the path doubles.
    """

    thickness_mm: float
    faces: int = 2
    shape: Shape = "slab"

    def __attrs_post_init__(self) -> None:
        positive("thickness", self.thickness_mm, "mm")
        if self.faces not in (1, 2):
            raise ValueError(f"A slab has 1 or 2 open faces; {self.faces} was given.")
        if self.shape not in ("slab", "round"):
            raise ValueError(f"The shape must be slab or round; {self.shape!r} was given.")

    @property
    def path_mm(self) -> float:
        """The way from an open face to the place the brine reaches last [mm]."""
        one_sided = self.shape == "slab" and self.faces == 1
        return self.thickness_mm if one_sided else self.thickness_mm / 2.0


def open_faces(fat_cap_on: bool) -> int:
    """Faces the brine gets at: one where a fat cap covers the other, otherwise two."""
    return 1 if fat_cap_on else 2


@frozen
class Solute:
    """Something that moves: its name and its diffusivity at 4 °C [m²/s]."""

    name: str
    diffusivity_m2_s: float
    activation_kj_mol: float = ACTIVATION_KJ_MOL

    def __attrs_post_init__(self) -> None:
        positive(f"diffusivity of {self.name}", self.diffusivity_m2_s, "m²/s")
        between(
            f"energy of activation of {self.name}", self.activation_kj_mol, 0.0, 200.0, "kJ/mol"
        )


@frozen
class Bath:
    """Stirred liquid round the meat.

    `ratio` is α, the water of the bath over the water of the meat; infinite for a bath that
    never runs down. A solute not named in `concentrations` is not in the bath at first.
    """

    ratio: float = inf
    concentrations: Mapping[str, float] = field(factory=dict)

    def __attrs_post_init__(self) -> None:
        bath_ratio(self.ratio)
        for name, value in self.concentrations.items():
            not_negative(f"concentration of {name} in the bath", value)


@frozen
class Stage:
    """A stretch of time at one temperature, in a fresh bath or, with none, sealed."""

    name: str
    hours: float
    bath: Bath | None = None
    temperature_c: float = 4.0

    def __attrs_post_init__(self) -> None:
        not_negative(f"time of the stage {self.name!r}", self.hours, "h")


@frozen
class Profile:
    """One solute across the thickness: cell edges from the open face inward, and cell means.

    For a round piece the depth runs from the surface to its axis. `face` is the concentration
    of the bath that touches the open faces, None when the meat is sealed.
    """

    piece: Piece
    edges_mm: tuple[float, ...]
    means: tuple[float, ...]
    face: float | None = None

    def __attrs_post_init__(self) -> None:
        if len(self.edges_mm) != len(self.means) + 1 or not self.means:
            raise ValueError("A profile needs one more edge than it has values, and a value.")
        if any(not a < b for a, b in pairwise(self.edges_mm)):
            raise ValueError("The edges of a profile must rise.")
        for value in self.means:
            not_negative("concentration in a profile", value)

    @property
    def depth_mm(self) -> float:
        """How far the profile reaches: the whole slab, or the radius of a round piece."""
        return self.edges_mm[-1]

    @property
    def average(self) -> float:
        """Mean over the meat, by volume."""
        weights = [volume(self.piece, low, high) for low, high in pairwise(self.edges_mm)]
        return sum(w * c for w, c in zip(weights, self.means, strict=True)) / sum(weights)

    @property
    def surface(self) -> float:
        """At the first open face."""
        return self.at(0.0)

    @property
    def core(self) -> float:
        """At the place the brine reaches last: the middle, or a slab's closed face."""
        return self.at(self.piece.path_mm)

    def at(self, depth_mm: float) -> float:
        """At a depth below the first open face, straight between the middles of cells."""
        return self.along([depth_mm])[0]

    def along(self, depths_mm: Sequence[float]) -> list[float]:
        """At several depths, as `at`."""
        places, values = self.points()
        found = []
        for depth_mm in depths_mm:
            if not 0.0 <= depth_mm <= self.depth_mm * (1.0 + 1e-12):
                raise ValueError(
                    f"The depth must be from 0 to {self.depth_mm:g} mm; {depth_mm} was given."
                )
            i = min(max(bisect_right(places, depth_mm), 1), len(places) - 1)
            x0, x1, y0, y1 = places[i - 1], places[i], values[i - 1], values[i]
            found.append(y0 + (y1 - y0) * min((depth_mm - x0) / (x1 - x0), 1.0))
        return found

    def points(self) -> tuple[list[float], list[float]]:
        """Depths and concentrations to draw a line through: cell middles and the two ends."""
        places = [(a + b) / 2.0 for a, b in pairwise(self.edges_mm)]
        values = list(self.means)
        both = self.piece.shape == "slab" and self.piece.faces == 2
        start = values[0] if self.face is None else self.face
        end = self.face if both and self.face is not None else values[-1]
        return [self.edges_mm[0], *places, self.edges_mm[-1]], [start, *values, end]


@frozen
class Snapshot:
    """The state at one moment of a run."""

    stage: str
    hours: float
    profiles: Mapping[str, Profile]
    bath: Mapping[str, float]
    bath_ratio: float | None

    def held(self, solute: str) -> float:
        """Of a solute, what meat and bath hold together, per unit of the meat's water."""
        meat = self.profiles[solute].average
        if self.bath_ratio is None or self.bath_ratio == inf:
            return meat
        return meat + self.bath_ratio * self.bath[solute]


@frozen
class Course:
    """A whole run: the moments asked for and the end of every stage, in order of time."""

    snapshots: tuple[Snapshot, ...]

    @property
    def end(self) -> Snapshot:
        return self.snapshots[-1]


def volume(piece: Piece, shallow_mm: float, deep_mm: float) -> float:
    """Volume between two depths, per unit of face (slab) or per 2π of length (round)."""
    if piece.shape == "slab":
        return deep_mm - shallow_mm
    radius = piece.path_mm
    # The product form keeps its digits at the axis.
    return (deep_mm - shallow_mm) * (2.0 * radius - shallow_mm - deep_mm) / 2.0
