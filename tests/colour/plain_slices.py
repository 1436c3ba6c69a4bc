"""A second, plain way to draw slices: flat sRGB colours and sharp bounds. For tests only.

Shares no colour, shape, lamp or noise with `slices`, nor anything with the code that measures.
"""

import io
import math

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy.ndimage import gaussian_filter

from tests.colour.camera import Array, Shot, as_rgba
from tests.colour.slices import BARK, CURED, FAT, GREY, PALE, Drawn

Colour = tuple[int, int, int]
CURED_RGB: list[Colour] = [(186, 92, 96), (178, 84, 84), (196, 104, 104), (170, 82, 78)]
GREY_RGB: list[Colour] = [(142, 124, 108), (136, 118, 104), (150, 132, 116), (128, 112, 98)]
FAT_RGB: list[Colour] = [(232, 218, 196), (226, 212, 186), (238, 226, 208), (220, 205, 182)]
BARK_RGB: list[Colour] = [(52, 36, 28), (44, 30, 24), (62, 42, 32), (38, 28, 24)]
BOARDS: dict[str, Colour] = {
    "white": (238, 238, 236),
    "off-white": (225, 222, 214),
    "grey": (118, 118, 118),
    "maple": (206, 176, 134),
    "dark": (58, 50, 44),
    "blue": (52, 92, 122),
    "green": (70, 120, 84),
    "black": (22, 22, 24),
}
WIDTHS = [300, 400, 480, 640, 800, 1024, 1600]


def to_light(levels: Array) -> Array:
    v = np.asarray(levels, dtype=float) / 255
    light: Array = np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)
    return light


def to_levels(light: Array) -> Array:
    v = np.clip(light, 0, 1)
    levels: Array = 255 * np.where(v <= 0.0031308, v * 12.92, 1.055 * v ** (1 / 2.4) - 0.055)
    return levels


def household_lamp(kelvin: float) -> Array:
    """sRGB of a lamp by the logarithmic fit that drawing programs use (from memory)."""
    t = kelvin / 100
    red = 255.0 if t <= 66 else 329.7 * (t - 60) ** -0.1332
    green = 99.47 * math.log(t) - 161.12 if t <= 66 else 288.12 * (t - 60) ** -0.07551
    blue = 255.0 if t >= 66 else 138.52 * math.log(t - 10) - 305.04
    return np.clip([red, green, blue], 0, 255)


def _near(rng: np.random.Generator, pool: list[Colour]) -> Array:
    jitter = rng.normal(0, 3, 3) + rng.normal(0, 5)
    return np.array(pool[rng.integers(len(pool))], dtype=float) + jitter


def _classes(
    rng: np.random.Generator, w: int, h: int, core: str, pale: bool, barked: bool, fat: float
) -> NDArray[np.uint8]:
    """The slice's map: an ellipse or a rounded block with a core of its own shape."""
    power = float(rng.choice([2.0, 3.5, 8.0]))
    a, b = w * rng.uniform(0.31, 0.42), h * rng.uniform(0.28, 0.42)
    cx, cy = w * rng.uniform(0.46, 0.54), h * rng.uniform(0.47, 0.53)
    tilt = math.radians(rng.uniform(-8, 8))
    y, x = np.mgrid[0:h, 0:w].astype(np.float32)
    u = ((x - cx) * math.cos(tilt) + (y - cy) * math.sin(tilt)) / a
    v = ((y - cy) * math.cos(tilt) - (x - cx) * math.sin(tilt)) / b
    rho = (np.abs(u) ** power + np.abs(v) ** power) ** (1 / power)
    k = np.zeros((h, w), np.uint8)
    k[rho < 1] = GREY if core == "all grey" else CURED
    if core in ("centre", "off"):
        reach = rng.uniform(0.15, 0.8)
        ox, oy = rng.uniform(-0.3, 0.3, 2) if core == "off" else (0.0, 0.0)
        q = (np.abs(u - ox) ** power + np.abs(v - oy) ** power) ** (1 / power)
        if pale:
            k[(rho < 1) & (q < reach + rng.uniform(0.05, 0.16))] = PALE
        k[(rho < 1) & (q < reach)] = GREY
    if barked:
        k[(rho < 1) & (rho > 1 - rng.uniform(0.02, 0.06))] = BARK
    area = int((k > 0).sum())
    for _ in range(400):
        if (k == FAT).sum() >= fat * area:
            break
        turn, away = rng.uniform(0, 2 * math.pi), math.sqrt(rng.uniform(0, 0.95))
        px, py = cx + away * a * math.cos(turn), cy + away * b * math.sin(turn)
        long, short = max(4.5, rng.uniform(0.01, 0.05) * w), max(3.5, rng.uniform(0.01, 0.025) * w)
        way = rng.uniform(0, math.pi)
        dx, dy = x - px, y - py
        along = (dx * math.cos(way) + dy * math.sin(way)) / long
        over = (dy * math.cos(way) - dx * math.sin(way)) / short
        k[(along**2 + over**2 < 1) & (k >= GREY)] = FAT
    return k


def draw_plain(seed: int) -> Drawn:
    """A slice of its own for every seed."""
    rng = np.random.default_rng((7, seed))
    w = int(rng.choice(WIDTHS))
    h = int(w * rng.uniform(0.75, 0.9)) if w < 400 else int(w * rng.uniform(0.6, 0.9))
    core = str(rng.choice(["centre", "centre", "off", "off", "no grey", "all grey"]))
    pale, barked = bool(rng.random() < 0.65), bool(rng.random() < 0.45)
    fat = float(rng.choice([0.0, rng.uniform(0.02, 0.25)], p=[0.3, 0.7]))
    k = _classes(rng, w, h, core, pale, barked, fat)
    board = str(rng.choice(list(BOARDS)))
    cured, grey = _near(rng, CURED_RGB), _near(rng, GREY_RGB)
    mid = rng.uniform(0.42, 0.58)
    between = cured * mid + grey * (1 - mid) + (rng.uniform(5, 22) if rng.random() < 0.4 else 0)
    table = np.zeros((6, 3))
    table[0], table[BARK], table[FAT] = BOARDS[board], _near(rng, BARK_RGB), _near(rng, FAT_RGB)
    table[GREY], table[PALE], table[CURED] = grey, between, cured
    light = to_light(table)[k]
    soft = rng.uniform(0.5, 1.35) * max(1.0, w / 1000)
    light = np.stack([gaussian_filter(light[..., c], soft) for c in range(3)], -1)
    kelvin = float(rng.choice([2700, 3000, 3500, 4000, 5000, 5600, 6500, 7000, 7500]))
    stops = float(rng.choice([-1.5, -1, -0.5, 0, 0, 0.5, 1, 1.5]))
    gain = to_light(household_lamp(kelvin)) * 2.0**stops
    noise = rng.uniform(1.5, 6)
    levels = to_levels(light * gain) + rng.normal(0, noise, (h, w, 3))
    quality = int(rng.choice([60, 60, 75, 90, 95]))
    held = io.BytesIO()
    pixels = np.clip(np.rint(levels), 0, 255).astype(np.uint8)
    Image.fromarray(pixels).save(held, "JPEG", quality=quality)
    picture = np.asarray(Image.open(held).convert("RGB"), dtype=np.uint8)
    card = to_levels(to_light(np.array([180.0] * 3)) * gain)
    neutral = tuple(int(c) for c in card.round()) if rng.random() < 0.8 else None
    shot = Shot(kelvin, stops, noise, 0.0, quality)
    about = f"plain {core} {board} pale={pale} bark={barked} fat={fat:.2f} {w}x{h} "
    about += f"{kelvin:.0f}K {stops:+.1f} noise={noise:.1f} quality={quality}"
    return Drawn(as_rgba(picture), picture, k, neutral, shot, about)  # type: ignore[arg-type]
