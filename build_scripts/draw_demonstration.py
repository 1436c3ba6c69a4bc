"""Draw the demonstration's pictures from their parameters: bark close up, and a cut slice.

Run by hand when a parameter changes: python build_scripts/draw_demonstration.py
The pictures are kept in assets/demonstration; nothing in them is a photograph.
"""

import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from app.journal.demonstration import PICTURES, BarkPicture, Picture, SlicePicture

Grid = NDArray[np.float64]
MOST_BYTES = 58_000


def cloud(
    rng: np.random.Generator, shape: tuple[int, int], size: float, stretch: float = 1.0
) -> Grid:
    """Smooth random ground from 0 to 1, its blots about `size` px, drawn out sideways."""
    high, wide = shape
    small = rng.random((max(2, round(high / size) + 2), max(2, round(wide / (size * stretch)) + 2)))
    image = Image.fromarray((small * 255).astype(np.uint8)).resize(
        (wide, high), Image.Resampling.BICUBIC
    )
    return np.asarray(image, dtype=float) / 255.0


def ground(
    rng: np.random.Generator, shape: tuple[int, int], sizes: Sequence[float], stretch: float = 1.0
) -> Grid:
    """Several clouds together, finer ones weaker, spread over 0 to 1."""
    total = np.zeros(shape)
    for turn, size in enumerate(sizes):
        total += cloud(rng, shape, size, stretch) * 0.62**turn
    low, high = np.percentile(total, (1, 99))
    spread: Grid = np.clip((total - low) / (high - low), 0.0, 1.0)
    return spread


def mixed(one: Sequence[float], other: Sequence[float], part: Grid) -> Grid:
    """A colour between two, place by place."""
    part = part[..., None]
    return np.asarray(one) * (1.0 - part) + np.asarray(other) * part


def lit(height: Grid, steep: float) -> tuple[Grid, Grid]:
    """Light from the upper left on a rough surface: dull light, and gloss."""
    dy, dx = np.gradient(height * steep)
    norm = np.sqrt(dx**2 + dy**2 + 1.0)
    facing = (0.5 * dx + 0.62 * dy + 0.75) / norm
    dull = np.clip(facing, 0.0, 1.4)
    return dull, np.clip(facing - 0.86, 0.0, 1.0) ** 2


def soft(part: Grid, low: float | Grid, high: float | Grid) -> Grid:
    """0 below low, 1 above high, smooth between."""
    x = np.clip((part - low) / (high - low), 0.0, 1.0)
    return x * x * (3.0 - 2.0 * x)


def blurred(grid: Grid, radius: float) -> Grid:
    image = Image.fromarray((np.clip(grid, 0, 1) * 255).astype(np.uint8))
    return np.asarray(image.filter(ImageFilter.GaussianBlur(radius)), dtype=float) / 255.0


def bark(drawn: BarkPicture, wide: int, high: int) -> Grid:
    """A crust: cracked and bumpy, mahogany where it is thin, nearly black where it is thick."""
    rng = np.random.default_rng(drawn.seed)
    shape = (high, wide)
    crust = ground(rng, shape, (150, 70, 30, 14, 7))
    grain = ground(rng, shape, (60, 24, 10), stretch=3.5)
    fine = ground(rng, shape, (9, 5, 3))
    lumps = ground(rng, shape, (26, 15))
    height = 0.65 * crust + 0.4 * grain + 0.5 * lumps + 0.16 * fine
    thick = soft(0.6 * crust + 0.4 * grain, 0.85 - drawn.darkness, 1.15 - 0.6 * drawn.darkness)
    mahogany = (88 + 40 * drawn.redness, 44 + 10 * drawn.redness, 32)
    colour = mixed(mahogany, (34, 24, 21), thick)
    spots = soft(ground(rng, shape, (34, 15, 7)), 0.55, 0.95) * (1 - thick)
    colour = (
        colour * (1 - 0.45 * spots[..., None]) + np.array((58, 33, 26)) * 0.45 * spots[..., None]
    )
    colour = colour * (0.82 + 0.36 * ground(rng, shape, (22, 11, 5)))[..., None]
    # Fat that came through: tan patches, smooth and shiny.
    fat = soft(ground(rng, shape, (120, 50, 22)), 0.80 - 0.1 * drawn.wetness, 0.97)
    colour = colour * (1 - 0.55 * fat[..., None]) + np.array((168, 112, 62)) * 0.55 * fat[..., None]
    pepper, bumps, tint = peppercorns(rng, shape, drawn.pepper)
    height = height + 0.34 * bumps
    colour = colour * (1 - pepper[..., None]) + tint * pepper[..., None]
    dull, gloss = lit(blurred(height / 1.6, 1.1) * 1.6, 15.0)
    wet = soft(ground(rng, shape, (80, 30, 12)), 0.75 - 0.5 * drawn.wetness, 1.1)
    picture = colour * (0.28 + 0.92 * dull)[..., None]
    shine: Grid = (gloss * (60 + 1000 * drawn.wetness * wet))[..., None] * np.array((1, 0.93, 0.82))
    return picture + shine


def peppercorns(
    rng: np.random.Generator, shape: tuple[int, int], amount: float
) -> tuple[Grid, Grid, Grid]:
    """Broken corns of pepper and coriander: where they lie, how high, of what colour."""
    high, wide = shape
    there, bumps = np.zeros(shape), np.zeros(shape)
    tint = np.zeros((high, wide, 3))
    shades = np.array([(36, 31, 27), (58, 49, 40), (88, 72, 52), (120, 90, 55), (150, 124, 88)])
    for _ in range(int(1500 * amount)):
        radius = rng.uniform(2.0, 8.5) * rng.uniform(0.6, 1.1)
        cy, cx = rng.uniform(0, high), rng.uniform(0, wide)
        reach = int(radius * 1.8) + 2
        y0, y1 = max(0, int(cy) - reach), min(high, int(cy) + reach)
        x0, x1 = max(0, int(cx) - reach), min(wide, int(cx) + reach)
        if y0 >= y1 or x0 >= x1:
            continue
        yy, xx = np.mgrid[y0:y1, x0:x1]
        angle = np.arctan2(yy - cy, xx - cx)
        turn = rng.uniform(0, 7)
        edge = radius * (
            1
            + 0.28 * np.sin(2 * angle + turn)
            + 0.16 * np.sin(3 * angle + 2 * turn)
            + 0.08 * np.sin(7 * angle + 5 * turn)
        )
        inside = 1.0 - soft(np.hypot(yy - cy, xx - cx) / edge, 0.8, 1.08)
        shade = shades[rng.choice(5, p=(0.34, 0.3, 0.16, 0.12, 0.08))] * rng.uniform(0.8, 1.15)
        facet = 0.75 + 0.25 * np.cos(angle * rng.integers(1, 4) + turn)
        window = (slice(y0, y1), slice(x0, x1))
        keep = inside[..., None]
        tint[window] = tint[window] * (1 - keep) + shade * keep
        there[window] = np.maximum(there[window], inside * 0.92)
        bumps[window] = np.maximum(bumps[window], inside * facet * min(1.0, radius / 6))
    return there, bumps, tint


CURED, PALE, GREY = (170, 86, 80), (174, 120, 104), (141, 118, 98)


def cut_face(drawn: SlicePicture, wide: int, high: int) -> Grid:
    """A slice on butcher's paper with a white card beside it: bark, fat cap, meat and its bands."""
    rng = np.random.default_rng(drawn.seed)
    shape = (high, wide)
    yy, xx = np.mgrid[0:high, 0:wide].astype(float)
    paper = mixed((196, 168, 132), (212, 187, 152), ground(rng, shape, (90, 7, 3), stretch=2.0))
    # The outline: a long, uneven loaf, thicker at one end.
    middle = high * 0.55 + 14 * np.sin(xx / wide * 2.6 + 0.4)
    along = (xx - wide * 0.5) / (wide * 0.455)
    end = np.clip(1 - np.abs(along) ** 5.5, 0, None) ** 0.42
    wave = 11 * (cloud(rng, (1, wide), 130.0)[0] - 0.5) + 7 * (cloud(rng, (1, wide), 37.0)[0] - 0.5)
    half = (high * 0.292) * end * (1 + 0.07 * along) + wave * end
    upper, lower = middle - half, middle + half * 0.99
    rough = 5.0 * (ground(rng, shape, (18, 8, 4)) - 0.5)
    from_top, from_bottom = yy - upper + rough, lower - yy + rough
    depth = np.minimum(from_top, from_bottom)
    side = (1 - np.abs(along)) * wide * 0.455
    depth = np.minimum(depth, side + rough * 1.2)
    face = soft(depth, -1.5, 1.5)
    thickness = np.maximum(lower - upper, 1.0)
    part = np.clip((yy - upper) / thickness, 0, 1)

    meat = bands(rng, drawn, part, along, shape)
    meat = fibres(rng, meat, shape)
    meat = marbled(rng, drawn, meat, part, along, shape)
    crust_px = 8 + 7 * ground(rng, shape, (60, 22))
    crust = 1 - soft(depth, crust_px * 0.55, crust_px * 1.25)
    crumb = ground(rng, shape, (9, 5, 3))
    bark_colour = mixed((34, 21, 17), (92, 46, 30), crumb * 0.8)
    ring = soft(depth, 0, 12) * (1 - soft(depth, 18, 46))
    meat = meat * (1 - 0.34 * ring[..., None]) + np.array((168, 58, 60)) * 0.34 * ring[..., None]
    meat = meat * (1 - crust[..., None]) + bark_colour * crust[..., None]
    dull, gloss = lit(0.5 * ground(rng, shape, (16, 8, 4), stretch=1.3) + 0.06 * crumb, 3.4)
    meat = meat * (0.55 + 0.60 * dull)[..., None] + (gloss * 900)[..., None] * (
        1 - crust[..., None]
    )

    shadow = blurred(np.roll(face, (13, 9), (0, 1)), 15)
    picture = paper * (1 - 0.55 * shadow[..., None] * (1 - face[..., None]))
    picture = crumbs(rng, picture, face, lower, middle)
    picture = picture * (1 - face[..., None]) + meat * face[..., None]
    return with_card(rng, picture)


def bands(
    rng: np.random.Generator, drawn: SlicePicture, part: Grid, along: Grid, shape: tuple[int, int]
) -> Grid:
    """Cured, pale and grey across the thickness, the borders uneven as meat has them."""
    from_middle = np.abs(part - 0.5) * 2.0
    # Toward the ends the cure came in from the side too.
    from_middle = np.hypot(from_middle, soft(np.abs(along), 0.52, 1.0) ** 1.3)
    wobble = 0.13 * (ground(rng, shape, (120, 45, 18)) - 0.5)
    place = from_middle + wobble
    grey_to = drawn.grey_percent / 100.0
    cured_from = grey_to + drawn.pale_percent / 100.0
    tone = ground(rng, shape, (140, 50, 20, 8))
    meat = mixed(CURED, (186, 106, 96), tone)
    if cured_from > 0:
        pale = mixed(PALE, (186, 130, 116), tone)
        grey = mixed(GREY, (154, 132, 113), tone)
        inner = soft(place, grey_to - 0.035, grey_to + 0.035)[..., None]
        outer = soft(place, cured_from - 0.05, cured_from + 0.05)[..., None]
        core = grey * (1 - inner) + pale * inner
        meat = core * (1 - outer) + meat * outer
    return meat


def fibres(rng: np.random.Generator, meat: Grid, shape: tuple[int, int]) -> Grid:
    """Cut across the grain: bundles of fibres as small cells with pale seams, and their shine."""
    cells = ground(rng, shape, (12, 7), stretch=1.5)
    seams = 1 - soft(np.abs(cells - 0.5), 0.0, 0.07)
    strands = ground(rng, shape, (6, 3.2), stretch=2.6)
    meat = meat * (0.87 + 0.24 * strands)[..., None]
    return (
        meat * (1 - 0.16 * seams[..., None]) + np.array((205, 160, 142)) * 0.16 * seams[..., None]
    )


def marbled(
    rng: np.random.Generator,
    drawn: SlicePicture,
    meat: Grid,
    part: Grid,
    along: Grid,
    shape: tuple[int, int],
) -> Grid:
    """Seams of fat along the muscle, thin and forked, and the fat cap on the underside."""
    folds = ground(rng, shape, (110, 46, 20), stretch=4.5)
    thin = 1 - soft(np.abs(folds - 0.47), 0.004, 0.026 + 0.02 * drawn.marbling)
    other = ground(rng, shape, (60, 26, 11), stretch=4.0)
    flecks = 1 - soft(np.abs(other - 0.62), 0.002, 0.018)
    here = soft(ground(rng, shape, (160, 60)), 0.62 - 0.4 * drawn.marbling, 0.85)
    cap_edge = 0.915 + 0.05 * (ground(rng, shape, (110, 40), stretch=2.5) - 0.5) + 0.03 * along
    cap = soft(part, cap_edge, cap_edge + 0.02) * soft(1 - np.abs(along), 0.02, 0.2)
    fat = np.clip(0.85 * np.maximum(thin, 0.8 * flecks) * here + 0.9 * cap, 0, 0.95)
    fat_colour = mixed((222, 196, 164), (236, 216, 188), ground(rng, shape, (24, 10, 5)))
    return meat * (1 - fat[..., None]) + fat_colour * fat[..., None]


def crumbs(rng: np.random.Generator, picture: Grid, face: Grid, lower: Grid, middle: Grid) -> Grid:
    """Bits of bark and a wet stain of fat on the paper round the slice."""
    high, wide = face.shape
    stain = soft(blurred(face, 26) + 0.3 * (ground(rng, face.shape, (60, 25)) - 0.5), 0.30, 0.62)
    picture = picture * (1 - 0.20 * stain[..., None] * np.array((0.75, 0.95, 1.25)))
    for _ in range(150):
        cx = rng.uniform(0.06, 0.94) * wide
        cy = lower[0, int(cx)] + abs(rng.normal(0, 42)) + 4
        radius = rng.uniform(0.8, 3.4)
        y0, y1 = max(0, int(cy) - 6), min(high, int(cy) + 7)
        x0, x1 = max(0, int(cx) - 6), min(wide, int(cx) + 7)
        if y0 >= y1 or x0 >= x1:
            continue
        yy, xx = np.mgrid[y0:y1, x0:x1]
        away = np.hypot(yy - cy, (xx - cx) * rng.uniform(0.7, 1.3))
        dot = (1 - soft(away / radius, 0.7, 1.2))[..., None] * 0.85
        shade = np.array((52, 34, 25)) * rng.uniform(0.7, 1.5)
        picture[y0:y1, x0:x1] = picture[y0:y1, x0:x1] * (1 - dot) + shade * dot
    return picture


CARD = (0.035, 0.045, 0.155, 0.155)
"""The white card: left, top, right, bottom as parts of the picture."""
CARD_RGB = (226, 221, 212)


def with_card(rng: np.random.Generator, picture: Grid) -> Grid:
    """A piece of white card in the corner, so that the light can be told."""
    high, wide = picture.shape[:2]
    yy, xx = np.mgrid[0:high, 0:wide]
    left, top, right, bottom = CARD[0] * wide, CARD[1] * high, CARD[2] * wide, CARD[3] * high
    # Laid down a little askew.
    u, v = xx + 0.045 * yy, yy - 0.03 * xx
    inside = (
        soft(u, left, left + 1.6)
        * (1 - soft(u, right, right + 1.6))
        * soft(v, top, top + 1.6)
        * (1 - soft(v, bottom, bottom + 1.6))
    )
    shadow = blurred(np.roll(inside, (4, 3), (0, 1)), 4)
    picture = picture * (1 - 0.35 * (shadow * (1 - inside))[..., None])
    card = np.asarray(CARD_RGB) + rng.normal(0, 0.6, (high, wide, 1))
    return picture * (1 - inside[..., None]) + card * inside[..., None]


def as_taken(picture: Grid, seed: int, card: bool) -> Image.Image:
    """What a phone makes of it: a little unsharp, darker to the corners, some noise."""
    rng = np.random.default_rng(seed + 1000)
    high, wide = picture.shape[:2]
    yy, xx = np.mgrid[-1 : 1 : high * 1j, -1 : 1 : wide * 1j]
    if not card:
        picture = picture * (1.03 - 0.20 * (xx**2 + yy**2) / 2)[..., None]
    picture = picture + rng.normal(0, 2.0, (high, wide, 1)) + rng.normal(0, 0.8, (high, wide, 3))
    image = Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8))
    return image.filter(ImageFilter.GaussianBlur(0.75))


def draw(picture: Picture) -> Image.Image:
    if isinstance(picture.drawn, BarkPicture):
        return as_taken(
            bark(picture.drawn, picture.width, picture.height), picture.drawn.seed, False
        )
    return as_taken(
        cut_face(picture.drawn, picture.width, picture.height), picture.drawn.seed, True
    )


def main() -> None:
    folder = ROOT / "assets" / "demonstration"
    folder.mkdir(parents=True, exist_ok=True)
    for picture in PICTURES:
        file = folder / picture.file
        image = draw(picture)
        for quality in range(82, 30, -2):
            image.save(file, quality=quality, optimize=True, progressive=True)
            if file.stat().st_size <= MOST_BYTES:
                break
        print(f"{picture.file}: {file.stat().st_size} bytes at quality {quality}")


if __name__ == "__main__":
    main()
