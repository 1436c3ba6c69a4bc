"""The solver against Crank's series, against SciPy on random cases, and its own balance."""

from collections.abc import Callable
from itertools import pairwise
from math import inf, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.special import j0, j1, jn_zeros

from app.transport import crank
from app.transport.diffusion import (
    Bath,
    Piece,
    Profile,
    Solute,
    Stage,
    centre_fraction,
    fourier_number,
    simulate,
    uptake_fraction,
)
from app.transport.solver import advance, grid

D = 4e-10
SALT = Solute("salt", D)


def hours_for(fo: float, piece: Piece) -> float:
    return fo * (piece.path_mm / 1000.0) ** 2 / D / 3600.0


def test_scale_of_the_science_sheet() -> None:
    """Half-thickness 25.4 mm: Fo = 1 at 18.7 days; 38.1 mm: 42 days."""
    assert fourier_number(50.8, 18.7, D) == pytest.approx(1.0, abs=0.005)
    assert fourier_number(76.2, 42.0, D) == pytest.approx(1.0, abs=0.005)


def test_one_open_face_doubles_the_path() -> None:
    for call in (uptake_fraction, centre_fraction):
        assert call(30.0, 5.0, D, faces=1, bath_ratio=2.0) == call(60.0, 5.0, D, bath_ratio=2.0)


@pytest.mark.parametrize("faces", [1, 2])
@pytest.mark.parametrize("alpha", [0.05, 0.3, 1.0, 4.0, inf])
@pytest.mark.parametrize("fo", [0.001, 0.01, 0.05, 0.2, 1.0, 3.0])
def test_solver_agrees_with_the_limited_bath_series(faces: int, alpha: float, fo: float) -> None:
    piece = Piece(50.0, faces)
    bath = Bath(alpha, {"salt": 1.0})
    end = simulate([Stage("cure", hours_for(fo, piece), bath)], piece, [SALT]).end
    final = 1.0 if alpha == inf else alpha / (1.0 + alpha)
    profile = end.profiles["salt"]
    assert profile.average / final == pytest.approx(crank.uptake(fo, alpha), abs=1e-4)
    assert profile.core / final == pytest.approx(crank.concentration(fo, alpha), abs=1e-4)


@pytest.mark.parametrize("fo", [0.02, 0.1, 0.3, 1.0])
def test_round_piece_agrees_with_the_bessel_series(fo: float) -> None:
    """Crank, 2nd ed. (1975), eqs. 5.22 and 5.23 (numbers from memory), roots from SciPy."""
    piece = Piece(60.0, shape="round")
    end = simulate([Stage("cure", hours_for(fo, piece), Bath(inf, {"salt": 1.0}))], piece, [SALT])
    roots = jn_zeros(0, 60)
    uptake = 1.0 - float(np.sum(4.0 / roots**2 * np.exp(-(roots**2) * fo)))
    axis = 1.0 - float(np.sum(2.0 / (roots * j1(roots)) * np.exp(-(roots**2) * fo)))
    assert j0(roots[0]) == pytest.approx(0.0, abs=1e-9)
    assert end.end.profiles["salt"].average == pytest.approx(uptake, abs=1e-4)
    assert end.end.profiles["salt"].core == pytest.approx(axis, abs=3e-4)


def by_scipy(
    piece: Piece,
    edges: tuple[float, ...],
    means: list[float],
    bath: float,
    ratio: float | None,
    travelled: float,
) -> tuple[np.ndarray, float]:
    """The same balances written plainly over the whole piece, given to SciPy's stiff solver."""
    x = np.array(edges)
    is_round = piece.shape == "round"
    radius = piece.path_mm - x if is_round else np.ones_like(x)
    volumes = np.diff(x) if not is_round else (radius[:-1] ** 2 - radius[1:] ** 2) / 2.0
    middles = (x[:-1] + x[1:]) / 2.0
    both = not is_round and piece.faces == 2

    def slope(_: float, u: np.ndarray) -> np.ndarray:
        c, b = u[:-1], u[-1]
        flux = np.zeros(len(x))
        flux[1:-1] = radius[1:-1] * (c[:-1] - c[1:]) / np.diff(middles)
        if ratio is not None:
            flux[0] = radius[0] * (b - c[0]) / (middles[0] - x[0])
            flux[-1] = (c[-1] - b) / (x[-1] - middles[-1]) if both else 0.0
        gone = 0.0
        if ratio is not None and ratio != inf:
            gone = (flux[0] - flux[-1]) / (ratio * volumes.sum())
        return np.append((flux[:-1] - flux[1:]) / volumes, -gone)

    answer = solve_ivp(slope, (0.0, travelled), [*means, bath], method="BDF", rtol=1e-8, atol=1e-10)
    return answer.y[:-1, -1], float(answer.y[-1, -1])


pieces = st.builds(
    Piece, st.floats(20.0, 120.0), st.sampled_from([1, 2]), st.sampled_from(["slab", "round"])
)
ratios = st.none() | st.just(inf) | st.floats(0.2, 20.0)
levels = st.lists(st.floats(0.0, 1.0), min_size=5, max_size=5)


@settings(max_examples=25)
@given(pieces, ratios, levels, st.floats(0.0, 1.0), st.floats(0.002, 2.0))
def test_one_step_agrees_with_scipy(
    piece: Piece, ratio: float | None, level: list[float], bath: float, fo: float
) -> None:
    cells = grid(piece, 10)
    edges = cells.whole_edges_mm
    count = len(edges) - 1
    means = [level[min(i * 5 // count, 4)] for i in range(count)]
    travelled = fo * piece.path_mm**2
    ours, ours_bath = advance(cells, means, bath, ratio, travelled)
    theirs, their_bath = by_scipy(piece, edges, means, bath, ratio, travelled)
    assert ours == pytest.approx(theirs, abs=2e-6)
    assert ours_bath == pytest.approx(their_bath, abs=2e-6)


stages = st.lists(
    st.builds(
        Stage,
        st.just("stage"),
        st.floats(0.0, 400.0),
        st.none()
        | st.builds(
            Bath,
            st.just(inf) | st.floats(0.05, 100.0),
            st.fixed_dictionaries({"salt": st.floats(0.0, 1.0)}),
        ),
        st.floats(-2.0, 20.0),
    ),
    min_size=1,
    max_size=4,
)


@settings(max_examples=40)
@given(pieces, stages, levels)
def test_nothing_is_lost_or_made(piece: Piece, run: list[Stage], level: list[float]) -> None:
    """Meat and bath together hold the same at the beginning and the end of every stage."""
    edges = tuple(i * piece.thickness_mm / 5 for i in range(6))
    if piece.shape == "round":
        edges = tuple(i * piece.path_mm / 5 for i in range(6))
    start = Profile(piece, edges, tuple(level))
    course = simulate(run, piece, [SALT], {"salt": start}, cells=24)
    before = start.average
    for stage, after in zip(run, course.snapshots, strict=True):
        profile = after.profiles["salt"]
        assert min(profile.means) >= 0.0
        if stage.bath is None or stage.bath.ratio < inf:
            brought = 0.0
            if stage.bath is not None:
                brought = stage.bath.ratio * stage.bath.concentrations["salt"]
            assert after.held("salt") == pytest.approx(before + brought, rel=1e-9, abs=1e-12)
        before = profile.average


@settings(max_examples=30)
@given(pieces, st.floats(0.1, 500.0), st.floats(0.1, 500.0), st.floats(0.2, 20.0) | st.just(inf))
def test_more_hours_in_the_cure_never_leave_less_salt(
    piece: Piece, one: float, other: float, ratio: float
) -> None:
    early, late = sorted((one, other))
    cure = Stage("cure", late, Bath(ratio, {"salt": 1.0}))
    course = simulate([cure], piece, [SALT], at_hours=[early], cells=16)
    first, second = course.snapshots[0].profiles["salt"], course.end.profiles["salt"]
    assert first.average <= second.average + 1e-9
    assert first.core <= second.core + 1e-9


def test_moments_asked_for_do_not_change_the_end() -> None:
    piece = Piece(45.0)
    run = [Stage("cure", 120.0, Bath(1.2, {"salt": 0.1})), Stage("stand", 48.0)]
    plain = simulate(run, piece, [SALT]).end.profiles["salt"].means
    course = simulate(run, piece, [SALT], at_hours=[24.0, 120.0, 0.0, 130.0, 168.0])
    assert [s.hours for s in course.snapshots] == [0.0, 24.0, 120.0, 120.0, 130.0, 168.0]
    assert course.end.profiles["salt"].means == pytest.approx(plain, rel=1e-9)


def test_salt_evens_out_while_the_meat_stands() -> None:
    piece = Piece(45.0)
    run = [Stage("cure", 60.0, Bath(inf, {"salt": 0.1})), Stage("stand", 2000.0)]
    cured, stood = (s.profiles["salt"] for s in simulate(run, piece, [SALT]).snapshots)
    assert cured.surface > 2.0 * cured.core
    assert max(stood.means) - min(stood.means) < 1e-4 * stood.average


def test_warm_meat_takes_the_cure_faster_by_arrhenius() -> None:
    piece = Piece(45.0)
    bath = Bath(1.0, {"salt": 1.0})
    warm = simulate([Stage("cure", 10.0, bath, 10.0)], piece, [SALT]).end.profiles["salt"]
    longer = simulate([Stage("cure", 12.584652652935409, bath)], piece, [SALT]).end
    assert warm.average == pytest.approx(longer.profiles["salt"].average, rel=1e-6)


def test_each_solute_goes_its_own_pace() -> None:
    piece = Piece(45.0)
    bath = Bath(1.0, {"salt": 1.0, "nitrite": 1.0})
    slow = Solute("nitrite", 1e-10)
    both = simulate([Stage("cure", 40.0, bath)], piece, [SALT, slow]).end
    alone = simulate([Stage("cure", 40.0, bath)], piece, [slow]).end
    assert both.profiles["nitrite"].means == alone.profiles["nitrite"].means
    assert both.profiles["nitrite"].average < both.profiles["salt"].average


def test_a_one_sided_start_crosses_to_the_other_side() -> None:
    """Sealed, a slab with salt in one half only evens out as cosines do."""
    piece = Piece(40.0)
    start = Profile(piece, (0.0, 20.0, 40.0), (1.0, 0.0))
    fo = 0.1
    end = simulate([Stage("stand", hours_for(fo, piece))], piece, [SALT], {"salt": start}).end
    n = np.arange(1, 60)
    at_10 = 0.5 + np.sum(
        2 / (n * pi) * np.sin(n * pi / 2) * np.cos(n * pi / 4) * np.exp(-(n**2) * pi**2 * fo / 4)
    )
    assert end.profiles["salt"].at(10.0) == pytest.approx(at_10, abs=1e-4)


def test_profile_answers_for_its_faces_and_its_core() -> None:
    one = Profile(Piece(30.0, 1), (0.0, 10.0, 20.0, 30.0), (3.0, 2.0, 1.0), face=5.0)
    assert (one.surface, one.core, one.average) == (5.0, 1.0, 2.0)
    two = Profile(Piece(30.0, 2), (0.0, 10.0, 20.0, 30.0), (3.0, 2.0, 3.0), face=5.0)
    assert (two.surface, two.core, two.at(30.0)) == (5.0, 2.0, 5.0)
    rod = Profile(Piece(20.0, shape="round"), (0.0, 5.0, 10.0), (4.0, 0.0))
    assert rod.average == pytest.approx(3.0)


def a_run(**change: object) -> Callable[[], object]:
    given: dict[str, object] = {
        "stages": [Stage("cure", 10.0)],
        "piece": Piece(40.0),
        "solutes": [SALT],
    }
    return lambda: simulate(**{**given, **change})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: Piece(0.0), "thickness"),
        (lambda: Piece(float("nan")), "thickness"),
        (lambda: Piece(40.0, 3), "open faces"),
        (lambda: Piece(40.0, shape="cube"), "shape"),  # type: ignore[arg-type]
        (lambda: Solute("salt", -1.0), "diffusivity"),
        (lambda: Stage("cure", -1.0), "time"),
        (lambda: Stage("cure", inf), "time"),
        (lambda: Bath(0.0), "bath ratio"),
        (lambda: Bath(1.0, {"salt": -0.1}), "concentration"),
        (lambda: Profile(Piece(10.0), (0.0, 10.0), (1.0, 1.0)), "one more edge"),
        (lambda: Profile(Piece(10.0), (0.0, 0.0), (1.0,)), "must rise"),
        (lambda: uptake_fraction(40.0, -1.0, D), "time"),
        (lambda: uptake_fraction(40.0, 1.0, 0.0), "diffusivity"),
        (lambda: centre_fraction(40.0, 1.0, D, bath_ratio=0.0), "bath ratio"),
        (a_run(stages=[]), "needs a stage"),
        (a_run(solutes=[]), "needs solutes"),
        (a_run(solutes=[SALT, SALT]), "different names"),
        (a_run(start={"sugar": 1.0}), "none of"),
        (a_run(start={"salt": -1.0}), "at the start"),
        (a_run(start={"salt": Profile(Piece(20.0), (0.0, 20.0), (1.0,))}), "must be the same"),
        (
            a_run(start={"salt": Profile(Piece(80.0, 2, "round"), (0.0, 40.0), (1.0,))}),
            "another shape",
        ),
        (a_run(at_hours=[11.0]), "moment"),
        (a_run(cells=1), "2 cells"),
        (a_run(stages=[Stage("cure", 10.0, None, 90.0)]), "temperature"),
    ],
)
def test_impossible_input_is_refused_with_a_sentence(call: Callable[[], object], word: str) -> None:
    with pytest.raises(ValueError, match=word):
        call()


def test_cells_fill_the_piece() -> None:
    for piece in (Piece(50.0), Piece(50.0, 1), Piece(50.0, shape="round")):
        edges = grid(piece, 12).whole_edges_mm
        assert edges[0] == 0.0
        assert all(a < b for a, b in pairwise(edges))
        whole = piece.path_mm if piece.shape == "round" else piece.thickness_mm
        assert edges[-1] == pytest.approx(whole)


@pytest.mark.parametrize(
    "call",
    [
        lambda: uptake_fraction(1e300, 1.0, D),
        lambda: uptake_fraction(50.0, 1e300, D),
        lambda: uptake_fraction(1e-300, 1.0, D),
        lambda: centre_fraction(50.0, 1.0, 1e300),
        lambda: centre_fraction(50.0, 1.0, D, bath_ratio=1e-300),
        lambda: centre_fraction(50.0, 1.0, D, bath_ratio=1e300),
        lambda: Solute("salt", D, 1e6),
        lambda: Stage("cure", 1e300),
    ],
)
def test_numbers_no_kitchen_has_are_refused_before_they_overflow(
    call: Callable[[], object],
) -> None:
    with pytest.raises(ValueError, match=r"must be"):
        call()
