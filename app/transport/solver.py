"""Finite volumes across the meat, carried through time in one implicit step of high order.

In space each cell keeps its own balance, so what leaves one enters the next and nothing is lost.
In time du/dt = A·u has the answer exp(A·t)·u, which is taken as a sum of resolvents
Σ cₖ·(zₖ − A·t)⁻¹·u along a contour round the spectrum: the same tridiagonal solve as an implicit
Euler step, with complex numbers, a dozen times. Any length of time is then one step, nothing
oscillates, and no step size has to be chosen.

A slab open on both sides is folded at its middle: the even part of the profile meets the bath
and never crosses the fold, the odd part is nought at the fold and, both faces cancelling, takes
nothing from the bath. So every case is one chain of cells with the bath at its head.
"""

from cmath import exp as cexp
from collections.abc import Sequence
from itertools import pairwise
from math import cos, inf, pi, sin, tan

from attrs import frozen

from app.transport.course import Piece, Profile, volume

_NODES = 20
CELLS = 160
"""Cells along the path from an open face to the place reached last."""


def _contour() -> tuple[tuple[complex, complex], ...]:
    """Poles z and weights c with exp(x) ≈ 2·Re Σ c/(z − x) for every x ≤ 0.

    z(θ) = N·(0.5017·θ·cot(0.6407·θ) − 0.6122 + 0.2645i·θ), midpoints in θ; error 3.89⁻ᴺ.
    Weideman, SIAM J. Numer. Anal. 44 (2006) 2342 (constants from memory, checked by test against
    SciPy's expm). The weights are scaled so that exp(0) is 1 to the last digit: that, with cells
    that balance, is what conserves mass.
    """
    pairs = []
    for k in range(_NODES // 2):
        t = (2 * k + 1) * pi / _NODES
        z = _NODES * (0.5017 * t / tan(0.6407 * t) - 0.6122 + 0.2645j * t)
        slope = _NODES * (
            0.5017 / tan(0.6407 * t) - 0.5017 * 0.6407 * t / sin(0.6407 * t) ** 2 + 0.2645j
        )
        pairs.append((z, cexp(z) * slope / (1j * _NODES)))
    whole = 2.0 * sum((c / z).real for z, c in pairs)
    return tuple((z, c / whole) for z, c in pairs)


_CONTOUR = _contour()


@frozen
class Grid:
    """A chain of cells along the path, and what passes between them per unit of diffusivity.

    `outward[i]` and `inward[i]` are what cell i trades with its shallower and its deeper
    neighbour, per volume of its own; `outward[0]` is with the bath. `folded` says that the
    piece is twice this path; `to_fold` is what the last cell would lose to a fold held at nought.
    """

    piece: Piece
    folded: bool
    edges_mm: tuple[float, ...]
    volumes: tuple[float, ...]
    outward: tuple[float, ...]
    inward: tuple[float, ...]
    to_fold: float

    @property
    def whole_edges_mm(self) -> tuple[float, ...]:
        """Edges across the whole piece, both halves of a folded one."""
        if not self.folded:
            return self.edges_mm
        far = [self.piece.thickness_mm - x for x in reversed(self.edges_mm[:-1])]
        return (*self.edges_mm, *far)


def grid(piece: Piece, cells: int = CELLS) -> Grid:
    """Cells for a piece, narrow at the open face where the profile is steep."""
    if cells < 2:
        raise ValueError(f"The meat must be cut into 2 cells or more; {cells} was given.")
    path = piece.path_mm
    slab = piece.shape == "slab"
    edges = [path * (1.0 - cos(pi * i / (2 * cells))) for i in range(cells)] + [path]
    half = Piece(path, 1) if slab else piece
    volumes = [volume(half, a, b) for a, b in pairwise(edges)]
    # Between the outermost middle and the face lies half a cell.
    middles = [edges[0], *((a + b) / 2.0 for a, b in pairwise(edges))]
    passing = [
        (1.0 if slab else path - edge) / (deep - shallow)
        for edge, (shallow, deep) in zip(edges, pairwise(middles), strict=False)
    ]
    return Grid(
        piece,
        slab and piece.faces == 2,
        tuple(edges),
        tuple(volumes),
        tuple(p / v for p, v in zip(passing, volumes, strict=True)),
        tuple(p / v for p, v in zip([*passing[1:], 0.0], volumes, strict=True)),
        1.0 / ((path - middles[-1]) * volumes[-1]),
    )


def advance(
    cells: Grid, means: list[float], bath: float, ratio: float | None, travelled_mm2: float
) -> tuple[list[float], float]:
    """Cell means and bath after a time, in one step.

    du/dt = A·u over cells and bath; u(t) = 2·Re Σ cₖ·(zₖ − A·t)⁻¹·u(0)

    Parameters
    ----------
    cells : the grid
    means : concentration in each cell of the whole piece at the start
    bath : concentration in the bath at the start
    ratio : bath over meat capacity [-]; None when the meat is sealed, infinite when the bath
        never runs down
    travelled_mm2 : diffusivity times time [mm²]

    Returns
    -------
    Cell means of the whole piece and bath at the end

    References
    ----------
    Trefethen, Weideman & Schmelzer, BIT 46 (2006) 653 (from memory).
    """
    # So short a way moves nothing that a float could show, and 1/t would overflow.
    if travelled_mm2 < 1e-18 * cells.piece.path_mm**2:
        return list(means), bath
    if not cells.folded:
        return _with_bath(cells, means, bath, ratio, travelled_mm2)
    n = len(cells.volumes)
    near, far = means[:n], means[: n - 1 : -1]
    odd = [(a - b) / 2.0 for a, b in zip(near, far, strict=True)]
    if max(map(abs, odd)) <= 1e-15 * max(map(abs, means)):
        near, bath = _with_bath(cells, near, bath, ratio, travelled_mm2)
        return near + near[::-1], bath
    even = [(a + b) / 2.0 for a, b in zip(near, far, strict=True)]
    even, bath = _with_bath(cells, even, bath, ratio, travelled_mm2)
    # The odd part loses to a bath, and to a fold, both held at nought.
    lost = [0.0] * n
    lost[-1] += cells.to_fold
    if ratio is not None:
        lost[0] += cells.outward[0]
    odd = _chain([0.0, *cells.outward[1:]], cells.inward, lost, odd, travelled_mm2)
    near = [e + o for e, o in zip(even, odd, strict=True)]
    far = [e - o for e, o in zip(even, odd, strict=True)]
    return near + far[::-1], bath


def _with_bath(
    cells: Grid, means: list[float], bath: float, ratio: float | None, travelled_mm2: float
) -> tuple[list[float], float]:
    """One chain whose head, when there is one, is the bath."""
    nothing = [0.0] * (len(means) + 1)
    if ratio is None:
        sealed = [0.0, *cells.outward[1:]]
        return _chain(sealed, cells.inward, nothing[1:], means, travelled_mm2), bath
    into_bath = 0.0
    if ratio != inf:
        into_bath = cells.outward[0] * cells.volumes[0] / (ratio * sum(cells.volumes))
    whole = _chain(
        [0.0, *cells.outward], [into_bath, *cells.inward], nothing, [bath, *means], travelled_mm2
    )
    return whole[1:], whole[0]


def _chain(
    outward: Sequence[float],
    inward: Sequence[float],
    lost: Sequence[float],
    state: Sequence[float],
    travelled_mm2: float,
) -> list[float]:
    """The contour sum over a tridiagonal system, each resolvent by elimination.

    Each cell trades `outward` and `inward` with its neighbours and loses `lost` for good. The
    elimination carries 1 − c beside c, so that a balance is never a small difference of large
    numbers: that keeps mass however long the time (Grassmann, Taksar & Heyman, Oper. Res. 33
    (1985) 1107, from memory).
    """
    total = [0.0] * len(state)
    rows = list(zip(outward, inward, lost, state, strict=True))
    for pole, weight in _CONTOUR:
        z = pole / travelled_mm2
        w = 2.0 * weight / travelled_mm2
        eliminated = []
        p, rest = 0j, 1.0 + 0j
        for out, inn, loss, value in rows:
            own = z + loss + out * rest
            scale = 1.0 / (own + inn)
            p = (value + out * p) * scale
            rest = own * scale
            eliminated.append((inn * scale, p))
        solved = []
        x = 0j
        for c, p in reversed(eliminated):
            x = p + c * x
            solved.append((w * x).real)
        solved.reverse()
        total = [t + s for t, s in zip(total, solved, strict=True)]
    return total


def spread(profile: Profile, cells: Grid) -> list[float]:
    """A profile laid onto a grid, each cell getting its share by volume; nothing is lost."""
    edges = cells.whole_edges_mm
    if abs(profile.depth_mm - edges[-1]) > 1e-9 * edges[-1]:
        raise ValueError(
            f"The starting profile is {profile.depth_mm:g} mm deep, the meat "
            f"{edges[-1]:g} mm; they must be the same."
        )
    means = []
    source = list(zip(pairwise(profile.edges_mm), profile.means, strict=True))
    start = 0
    for low, high in pairwise(edges):
        amount = 0.0
        for j in range(start, len(source)):
            (a, b), value = source[j]
            shallow, deep = max(a, low), min(b, high)
            if deep > shallow:
                amount += value * volume(cells.piece, shallow, deep)
            if b > high:
                break
            start = j
        means.append(amount / volume(cells.piece, low, high))
    return means
