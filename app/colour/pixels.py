"""Reading a picture's pixels: along a line, in a patch, or as a coarse grid of cells."""

from math import ceil, hypot, isfinite

from attrs import frozen

from app.colour.lab import LINEAR, Triple, to_linear

Bytes = bytes | bytearray | memoryview
Point = tuple[float, float]

CLIPPED_LEVEL = 253
"""From this level of 255 up a channel tells no more how bright it was (JPEG rounds 255 down)."""

# A pixel of the wide bar is of the same stuff when its green is between these times the mean
# (judgement: noise and grain, but no fat).
_DIMMER, _BRIGHTER = 0.72, 1.35

# Sums of nine, four or one level to linear light; made when first wanted, to start quickly.
_OF_SUM: dict[int, tuple[float, ...]] = {}


@frozen
class Sample:
    """Mean linear light of a few pixels; what part of them had red or green at its end,
    what part had green there; and how many times the mean green the brightest had.

    `wide` is the mean over more pixels to both sides, of those about as bright as these.
    """

    light: Triple
    wide: Triple
    clipped: float
    white: float
    peak: float


@frozen
class Grid:
    """A picture in square cells of `step` pixels, row by row: mean linear light by channel.

    `clipped` holds 1 where a cell's red or green is at its end, otherwise 0.
    """

    columns: int
    rows: int
    step: int
    red: list[float]
    green: list[float]
    blue: list[float]
    clipped: list[int]


def check(rgba: Bytes, width: int, height: int) -> None:
    """Refuse what is no RGBA picture of that size.

    Raises
    ------
    ValueError : a side is not a whole number above zero, or the bytes do not fill the picture

    Examples
    --------
    >>> check(bytes(16), 2, 2)
    >>> check(bytes(15), 2, 2)
    Traceback (most recent call last):
    ...
    ValueError: A picture of 2 by 2 needs 16 bytes of RGBA; 15 were given.
    """
    for side in (width, height):
        if isinstance(side, bool) or not isinstance(side, int) or side <= 0:
            raise ValueError(f"A picture's sides are whole numbers of pixels; {side} was given.")
    size = rgba.nbytes if isinstance(rgba, memoryview) else len(rgba)
    if size != 4 * width * height:
        raise ValueError(
            f"A picture of {width} by {height} needs {4 * width * height} bytes of RGBA; "
            f"{size} were given."
        )


def check_point(point: Point, name: str) -> None:
    """Refuse a point that is not two finite numbers.

    Raises
    ------
    ValueError : not a pair, or not finite

    Examples
    --------
    >>> check_point((1.0, 2.0), "start")
    """
    if len(point) != 2 or not all(isfinite(c) for c in point):
        raise ValueError(f"The {name} of the line must be two finite numbers; {point} was given.")


def _table(count: int) -> tuple[float, ...]:
    if count not in _OF_SUM:
        _OF_SUM[count] = tuple(to_linear(total / count) for total in range(255 * count + 1))
    return _OF_SUM[count]


def grid(rgba: Bytes, width: int, height: int, cells: int) -> Grid:
    """The whole picture as at most about `cells` cells.

    Parameters
    ----------
    rgba : pixels, four bytes each, row by row
    width, height : size of the picture [px]
    cells : most cells in all [1]

    Returns
    -------
    Grid; up to nine pixels spread over each cell are read, so that the time does not grow
    with the picture

    Raises
    ------
    ValueError : as `check`

    Examples
    --------
    >>> grid(bytes([255]) * 64, 4, 4, 4).green
    [1.0, 1.0, 1.0, 1.0]
    """
    check(rgba, width, height)
    step = max(1, ceil((width * height / cells) ** 0.5))
    columns, rows = max(1, width // step), max(1, height // step)
    step_x, step_y = min(step, width), min(step, height)
    n = min(3, step)
    across = [min(step_x - 1, step * (2 * k + 1) // (2 * n)) for k in range(n)]
    down = [min(step_y - 1, step * (2 * k + 1) // (2 * n)) for k in range(n)]
    table = _table(n * n)
    channels: tuple[list[float], list[float], list[float]] = ([], [], [])
    clipped: list[int] = []
    stride, full = 4 * step, n * n * (CLIPPED_LEVEL - 1)
    reds: list[int] = []
    for row in range(rows):
        starts = [
            4 * ((row * step + dy) * width + dx) for dy in down for dx in across
        ]  # first pixel read in each of the row's rows
        for channel, out in enumerate(channels):
            reads = [
                rgba[at + channel : at + channel + stride * (columns - 1) + 1 : stride]
                for at in starts
            ]
            sums = list(map(sum, zip(*reads, strict=True)))
            out.extend(map(table.__getitem__, sums))
            if channel == 0:
                reds = sums
            elif channel == 1:
                clipped.extend(
                    1 if red >= full or green >= full else 0
                    for red, green in zip(reds, sums, strict=True)
                )
    return Grid(columns, rows, step, *channels, clipped)


def along(
    rgba: Bytes,
    width: int,
    height: int,
    start: Point,
    end: Point,
    places: list[float],
    half: float,
    wide: float,
) -> list[Sample | None]:
    """Mean light at places along a line, each over a short bar across it.

    Parameters
    ----------
    rgba, width, height : the picture, already checked
    start, end : ends of the line [px]
    places : where to read, as fractions of the line; may lie beyond its ends [1]
    half : half length of the bar [px]
    wide : half length of the wide bar, more than `half` [px]

    Returns
    -------
    One sample a place; None where the place lies outside the picture

    Notes
    -----
    The bar's seven pixels are also spread along the line over one step, so that fine grain
    between places is not missed. The wide bar has eight more.
    """
    run = hypot(end[0] - start[0], end[1] - start[1])
    dx, dy = (end[0] - start[0]) / run, (end[1] - start[1]) / run
    step = run * abs(places[1] - places[0]) if len(places) > 1 else 1.0
    near = [(half * k / 3.0, step * ((k * 3 % 7) / 7.0 - 3.0 / 7.0)) for k in range(-3, 4)]
    reach = [half + (wide - half) * k / 4.0 for k in range(1, 5)]
    far = [(side * over, 0.0) for over in reach for side in (-1.0, 1.0)]
    near, far = (
        [(dx * on - dy * over + 0.5, dy * on + dx * over + 0.5) for over, on in bar]
        for bar in (near, far)
    )
    found: list[Sample | None] = []
    for place in places:
        x0, y0 = start[0] + place * run * dx, start[1] + place * run * dy
        red = green = blue = 0.0
        count = clipped = white = peak = 0
        if x0 <= -1.0 or y0 <= -1.0:
            found.append(None)
            continue
        for ox, oy in near:
            x, y = int(x0 + ox), int(y0 + oy)
            if 0 <= x < width and 0 <= y < height:
                at = 4 * (y * width + x)
                r, g = rgba[at], rgba[at + 1]
                red += LINEAR[r]
                green += LINEAR[g]
                blue += LINEAR[rgba[at + 2]]
                count += 1
                if g > peak:
                    peak = g
                white += g >= CLIPPED_LEVEL
                clipped += r >= CLIPPED_LEVEL or g >= CLIPPED_LEVEL
        if count < 4:
            found.append(None)
            continue
        mean = (red / count, green / count, blue / count)
        low, high, n = _DIMMER * mean[1], _BRIGHTER * mean[1] + 0.002, count
        for ox, oy in far:
            x, y = int(x0 + ox), int(y0 + oy)
            if 0 <= x < width and 0 <= y < height:
                at = 4 * (y * width + x)
                own = LINEAR[rgba[at + 1]]
                if low < own < high:
                    red += LINEAR[rgba[at]]
                    green += own
                    blue += LINEAR[rgba[at + 2]]
                    n += 1
        over = LINEAR[peak] / max(mean[1], 1e-6)
        around = (red / n, green / n, blue / n)
        found.append(Sample(mean, around, clipped / count, white / count, over))
    return found
