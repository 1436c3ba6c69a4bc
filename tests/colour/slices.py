"""Slices of beef drawn with known truth, on all sorts of boards. For tests only.

Nothing here is taken from the code that measures, nor the other way round.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from tests.colour.camera import Array, Shot, as_rgba, decode, encode

BARK, FAT, GREY, PALE, CURED, RING = 1, 2, 3, 4, 5, 6
NAMES = {"bark": BARK, "fat": FAT, "grey": GREY, "pale": PALE, "cured": CURED}


@dataclass(frozen=True)
class Drawn:
    rgba: bytes
    picture: NDArray[np.uint8]
    classes: NDArray[np.uint8]
    neutral_rgb: tuple[int, int, int] | None
    shot: Shot
    about: str

    @property
    def size(self) -> tuple[int, int]:
        return self.picture.shape[1], self.picture.shape[0]

    def face_truth(self) -> dict[str, float]:
        inside = self.classes[self.classes > 0]
        ringed = np.where(inside == RING, CURED, inside)
        return {name: 100 * float((ringed == k).mean()) for name, k in NAMES.items()}

    def blown(self, start: tuple[float, float], end: tuple[float, float]) -> float:
        """Share of the lean on a line whose red or green is at its end: colour lost for good."""
        along = np.linspace(0, 1, 1000)
        x = (start[0] + along * (end[0] - start[0])).astype(int)
        y = (start[1] + along * (end[1] - start[1])).astype(int)
        lean = (self.classes[y, x] >= GREY) & (self.classes[y, x] <= CURED)
        ended = (self.picture[y, x][:, :2] >= 253).any(1)
        return float(ended[lean].mean()) if lean.any() else 1.0

    def line_truth(self, start: tuple[float, float], end: tuple[float, float]) -> dict[str, float]:
        """Shares of the lean on a line; fat, bark and smoke ring left out."""
        along = np.linspace(0, 1, 4000)
        x = start[0] + along * (end[0] - start[0])
        y = start[1] + along * (end[1] - start[1])
        inside = (x >= 0) & (y >= 0) & (x < self.size[0]) & (y < self.size[1])
        met = self.classes[y[inside].astype(int), x[inside].astype(int)]
        lean = met[(met >= GREY) & (met <= CURED)]
        shares = {"grey": GREY, "pale": PALE, "cured": CURED}
        if not lean.size:
            return dict.fromkeys(shares, 0.0)
        return {name: 100 * float((lean == k).mean()) for name, k in shares.items()}


def _field(rng: np.random.Generator, shape: tuple[int, int], across: float, along: float) -> Array:
    """Smooth noise, mean 0 and deviation 1, with the two lengths given in pixels."""
    step = max(1, int(min(across, along) / 2))
    small = (shape[0] // step + 8, shape[1] // step + 8)
    noise = ndimage.gaussian_filter(rng.standard_normal(small), (across / step, along / step))
    grown = ndimage.zoom(noise, step, order=1) if step > 1 else noise
    grown = grown[: shape[0], : shape[1]]
    return (grown - grown.mean()) / (grown.std() + 1e-9)


def _turned(rng: np.random.Generator, shape: tuple[int, int], across: float, along: float) -> Array:
    """The same, with its grain at any angle."""
    angle = rng.uniform(0, 180)
    side = int(np.hypot(*shape)) + 4
    field = ndimage.rotate(_field(rng, (side, side), across, along), angle, reshape=False, order=1)
    top, left = (side - shape[0]) // 2, (side - shape[1]) // 2
    return field[top : top + shape[0], left : left + shape[1]]


def _lab_to_light(lightness: float, a: float, b: float) -> Array:
    fy = (lightness + 16) / 116
    f = np.array([fy + a / 500, fy, fy - b / 200])
    xyz = np.where(f > 6 / 29, f**3, (f - 4 / 29) * 3 * (6 / 29) ** 2) * [0.9505, 1.0, 1.089]
    to_rgb = np.linalg.inv(
        np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
    )
    return np.clip(to_rgb @ xyz, 0.001, 1)


Span = tuple[float, float]


def _lch(rng: np.random.Generator, light: Span, chroma: Span, hue: Span) -> Array:
    h, c = np.radians(rng.uniform(*hue)), rng.uniform(*chroma)
    return _lab_to_light(rng.uniform(*light), c * np.cos(h), c * np.sin(h))


def _board(rng: np.random.Generator, shape: tuple[int, int]) -> tuple[Array, str]:
    kinds = ["paper", "white", "grey", "wood", "slate", "plate", "butcher", "any", "steel"]
    kind = kinds[rng.integers(len(kinds))]
    texture = 1 + rng.uniform(0, 0.06) * _field(rng, shape, 6, 6)
    if kind in ("paper", "white", "plate"):
        tone = decode(rng.uniform(205, 250) + rng.uniform(-6, 6, 3))
    elif kind in ("grey", "steel"):
        tone = decode(rng.uniform(90, 190) + rng.uniform(-5, 5, 3))
    elif kind == "slate":
        tone = decode(rng.uniform(28, 65) + rng.uniform(-5, 5, 3))
        texture = 1 + rng.uniform(0.05, 0.25) * _field(rng, shape, 9, 9)
    elif kind == "butcher":
        tone = _lch(rng, (62, 80), (16, 30), (65, 80))
    elif kind == "wood":
        tone = _lch(rng, (32, 76), (18, 36), (56, 76))
        grain = _turned(rng, shape, 0.006 * shape[1] + 1, 0.3 * shape[1])
        texture = 1 + rng.uniform(0.04, 0.16) * grain
    else:
        tone = _lch(rng, (25, 85), (8, 45), (90, 330))
    ground = np.clip(tone * texture[..., None], 0.001, 1)
    if kind == "plate":
        h, w = shape
        yy, xx = np.mgrid[:h, :w]
        away = np.hypot((xx - w / 2) / (0.56 * w), (yy - h / 2) / (0.60 * h))
        table = _lch(rng, (20, 70), (5, 35), (20, 300))
        ground = np.where((away > 1)[..., None], table * texture[..., None], ground)
        ground = ground * (1 - 0.25 * np.exp(-(((away - 0.93) / 0.02) ** 2)))[..., None]
    return ground, kind


def _shape(rng: np.random.Generator, shape: tuple[int, int]) -> tuple[Array, Array, Array]:
    """Level (below 1 inside), and the slice's own coordinates along and across (-1 to 1)."""
    h, w = shape
    yy, xx = np.mgrid[:h, :w]
    turn = np.radians(rng.uniform(-25, 25))
    cx = w * rng.uniform(0.45, 0.55)
    cy = h * rng.uniform(0.45, 0.55)
    half_w, half_h = w * rng.uniform(0.27, 0.42), h * rng.uniform(0.22, 0.40)
    x, y = xx - cx, yy - cy
    u = (x * np.cos(turn) + y * np.sin(turn)) / half_w
    v = (-x * np.sin(turn) + y * np.cos(turn)) / half_h
    power = rng.uniform(1.9, 5)
    level = (np.abs(u) ** power + np.abs(v) ** power) ** (1 / power)
    angle = np.arctan2(v, u)
    for wave in range(2, 7):
        level = level * (1 + rng.uniform(0, 0.05) / wave * np.cos(wave * angle + rng.uniform(0, 6)))
    return level, u, v


def _cured(rng: np.random.Generator, depth: Array, u: Array, v: Array) -> tuple[Array, float, str]:
    """Where on its way inward the cure has stopped: below 0 is the grey core, its width is 1
    for the pale band; and the half thickness as it is counted in."""
    kind = ["round", "slab", "one side", "off centre", "full", "none", "corner"][
        rng.choice(7, p=[0.27, 0.2, 0.14, 0.17, 0.1, 0.07, 0.05])
    ]
    reach = depth.max()
    wobble = 0.06 * _field(rng, depth.shape, depth.shape[0] / 8, depth.shape[0] / 8)
    far = rng.uniform(0.15, 0.95)
    if kind == "round":
        left = far - depth / reach
    elif kind == "slab":
        left = np.abs(v) - (1 - far)
    elif kind == "one side":
        left = (v if rng.random() < 0.5 else -v) / 2 + rng.uniform(-0.3, 0.3)
    elif kind == "off centre":
        a, b = rng.uniform(-0.35, 0.35, 2)
        left = np.hypot((u - a) / rng.uniform(0.7, 1.2), v - b) - rng.uniform(0.15, 0.7)
    elif kind == "corner":
        left = np.hypot(u - 0.6, v - 0.5) - rng.uniform(0.3, 1.2)
    else:
        left = np.full_like(depth, 9.0 if kind == "full" else -9.0)
        wobble = 0 * wobble
    return left + wobble, reach, kind


def draw(seed: int, longest: int | None = None, shot: Shot | None = None) -> Drawn:
    """A slice of its own for every seed."""
    rng = np.random.default_rng(seed)
    # The shorter side is then 300 px at least.
    sizes, often = [400, 520, 700, 900, 1300, 2048], [0.15, 0.2, 0.27, 0.22, 0.12, 0.04]
    long_side = longest or int(rng.choice(sizes, p=often))
    ratio = rng.choice([0.75, 0.75, 1.0])
    h, w = int(long_side * ratio), long_side
    if rng.random() < 0.3:
        h, w = w, h
    scene, board = _board(rng, (h, w))
    level, u, v = _shape(rng, (h, w))
    inside = level < 1
    depth = ndimage.distance_transform_edt(inside)
    left, reach, kind = _cured(rng, depth, u, v)
    band = rng.choice([0.0, rng.uniform(0.02, 0.14)])
    step = rng.choice(["flat", "ramp", "smooth"])
    # How far the colour has turned: 1 cured, 0 grey; the truth's bounds go with the kind of step.
    if band == 0:
        turned = (left > 0).astype(float)
        grey, cured = turned < 0.5, turned >= 0.5
    else:
        along = left / band
        grey, cured = along < 0, along > 1
        if step == "flat":
            turned = np.where(cured, 1.0, np.where(grey, 0.0, rng.uniform(0.4, 0.6)))
        elif step == "ramp":
            turned = np.clip(along, 0, 1)
        else:
            turned = 1 / (1 + np.exp(-np.clip((along - 0.5) * 6, -30, 30)))
            bound = rng.uniform(0.12, 0.35)
            grey, cured = turned < bound, turned > 1 - bound
    turned = ndimage.gaussian_filter(turned, rng.choice([0.0, rng.uniform(0, 0.004)]) * w)
    classes = np.where(grey, GREY, np.where(cured, CURED, PALE)).astype(np.uint8)

    if rng.random() < 0.5:
        light = rng.uniform(47, 62)
        pink = _lch(rng, (light, light), (16, 26), (22, 40))
        dull = _lch(rng, (light - 6, light + 6), (8, 12.5), (57, 72))
    else:
        pink = decode(np.array([190, 110, 105]) + rng.uniform(-10, 10) + rng.uniform(-7, 7, 3))
        dull = decode(np.array([140, 121, 106]) + rng.uniform(-7, 7) + rng.uniform(-4, 4, 3))
    lean = dull + (pink - dull) * turned[..., None]
    grain = _turned(rng, (h, w), 1.5, 12)
    lean = lean * (1 + rng.uniform(0, 0.1) * grain)[..., None]
    lean = lean * (1 + rng.uniform(0, 0.05) * _field(rng, (h, w), w / 30, w / 30))[..., None]
    ring = 0.0
    if rng.random() < 0.35:
        ring = rng.uniform(0.02, 0.05) * 2 * reach
        ringed = (depth < ring) & cured
        redder = pink * np.array([1.0, rng.uniform(0.72, 0.85), rng.uniform(0.75, 0.88)])
        lean = np.where(ringed[..., None], redder * (lean / np.maximum(pink, 1e-3)), lean)
        classes[ringed] = RING
    wanted = rng.choice([0.0, rng.uniform(0.01, 0.25)], p=[0.2, 0.8])
    if wanted:
        streaks = _turned(rng, (h, w), max(1.5, w * rng.uniform(0.003, 0.02)), w * 0.05)
        fat = inside & (streaks > np.quantile(streaks[inside], 1 - wanted))
        tone = _lch(rng, (76, 90), (6, 18), (65, 92))
        soft = ndimage.gaussian_filter(fat.astype(float), rng.uniform(0, 0.8))
        lean = lean + (tone - lean) * soft[..., None]
        classes[fat] = FAT
    rim = rng.choice([0.0, rng.uniform(0.012, 0.045)], p=[0.3, 0.7]) * 2 * reach
    if rim:
        ragged = depth + 0.25 * rim * _field(rng, (h, w), w / 90 + 1, w / 90 + 1)
        bark = inside & (ragged < rim)
        tone = _lch(rng, (9, 24), (3, 12), (30, 75))
        rough = np.clip(1 + 0.3 * _field(rng, (h, w), 2, 2), 0.2, 3)
        lean = np.where(bark[..., None], tone * rough[..., None], lean)
        classes[bark] = BARK
    classes[~inside] = 0

    if rng.random() < 0.6:
        shift = rng.uniform(-0.03, 0.03, 2) * w
        shade = ndimage.shift(inside.astype(float), shift, order=0)
        shade = ndimage.gaussian_filter(shade, w * rng.uniform(0.004, 0.03))
        scene = scene * (1 - rng.uniform(0.2, 0.6) * shade)[..., None]
    cover = ndimage.gaussian_filter(inside.astype(float), rng.uniform(0, 0.9))
    scene = scene + (lean - scene) * cover[..., None]
    if rng.random() < 0.25:
        spots = _field(rng, (h, w), w / 60, w / 60) > 2.6
        scene = np.where((spots & inside)[..., None], 0.75 + 0.25 * scene, scene)

    patch = None
    if rng.random() < 0.5:
        side = int(0.09 * min(h, w))
        patch = (slice(2, 2 + side), slice(2, 2 + side))
        scene[patch] = rng.choice([0.18, 0.5, 0.85])
        classes[patch] = 0
    yy, xx = np.mgrid[:h, :w]
    slope = rng.uniform(0, 0.35)
    way = rng.uniform(0, 2 * np.pi)
    scene = (
        scene
        * (1 + slope * ((xx / w - 0.5) * np.cos(way) + (yy / h - 0.5) * np.sin(way)) * 2)[..., None]
    )
    shot = shot or Shot(
        kelvin=rng.uniform(2700, 7500),
        stops=rng.uniform(-1.5, 1.5),
        noise=rng.uniform(0, 5),
        shot_noise=rng.choice([0.0, 0.02]),
        quality=int(rng.choice([60, 60, 80])),
        cast=str(rng.choice(["channels", "brightest", "cones"])),
        flare=float(rng.choice([0.0, 0.004])),
    )
    picture = shot.take(scene, rng)
    if patch is not None:
        neutral = tuple(int(c) for c in picture[patch][2:-2, 2:-2].reshape(-1, 3).mean(0).round())
    else:
        grey_card = shot.lit(np.full((1, 3), rng.choice([0.18, 0.4, 0.6])))[0]
        neutral = tuple(int(c) for c in encode(grey_card).round())
    about = f"{kind} {board} {step} band={band:.2f} fat={wanted:.2f} rim={rim:.0f} ring={ring:.0f} "
    about += f"{w}x{h} {shot.kelvin:.0f}K {shot.stops:+.1f} noise={shot.noise:.1f}"
    return Drawn(as_rgba(picture), picture, classes, neutral, shot, about)  # type: ignore[arg-type]


def a_line(
    drawn: Drawn, rng: np.random.Generator
) -> tuple[tuple[float, float], tuple[float, float]]:
    """A line across the slice, through near its middle, from edge to edge or a bit beyond."""
    where = np.argwhere(drawn.classes > 0)
    middle = where.mean(0)[::-1] + rng.uniform(-0.05, 0.05, 2) * drawn.size
    way = rng.choice([np.pi / 2, 0.0, rng.uniform(0, np.pi)], p=[0.5, 0.2, 0.3])
    step = np.array([np.cos(way), np.sin(way)])
    reach = np.arange(0, 4000)
    ends = []
    for sign in (-1, 1):
        at = (middle + sign * reach[:, None] * step).astype(int)
        ok = (at >= 0).all(1) & (at[:, 0] < drawn.size[0]) & (at[:, 1] < drawn.size[1])
        met = np.zeros(len(at), bool)
        met[ok] = drawn.classes[at[ok][:, 1], at[ok][:, 0]] > 0
        ends.append(float(np.flatnonzero(met).max(initial=0)))
    beyond = rng.choice([0.0, rng.uniform(0, 0.06), rng.uniform(0, 0.03)]) * sum(ends)
    points = []
    for sign, end in zip((-1, 1), ends, strict=True):
        point = middle + sign * (end + beyond) * step
        points.append(
            (
                float(np.clip(point[0], 0, drawn.size[0] - 1)),
                float(np.clip(point[1], 0, drawn.size[1] - 1)),
            )
        )
    return points[0], points[1]
