"""The colour of a neutral patch that was tapped in a photo."""

from math import isfinite
from statistics import median

from app.colour import pixels
from app.colour.pixels import Bytes, Point

_MOST_PIXELS = 2500  # read in a patch; more change nothing


def patch_rgb(
    rgba: Bytes, width: int, height: int, centre_xy: Point, radius_px: float
) -> tuple[int, int, int]:
    """Usual sRGB of a round patch: the median of each channel.

    Parameters
    ----------
    rgba : pixels, four bytes each, row by row
    width, height : size of the picture [px]
    centre_xy : middle of the patch [px]
    radius_px : its radius [px]

    Returns
    -------
    Red, green, blue [0-255]

    Raises
    ------
    ValueError : no RGBA picture of that size, a patch without radius or outside the picture

    Notes
    -----
    The median, so that a crumb, a fold or the patch's edge does not tint the white.

    Examples
    --------
    >>> patch_rgb(bytes((200, 190, 170, 255)) * 100, 10, 10, (5, 5), 3)
    (200, 190, 170)
    """
    pixels.check(rgba, width, height)
    pixels.check_point(centre_xy, "middle")
    if not (isfinite(radius_px) and radius_px > 0.0):
        raise ValueError(f"A patch needs a radius above zero pixels; {radius_px} was given.")
    cx, cy = centre_xy
    if not (0.0 <= cx < width and 0.0 <= cy < height):
        raise ValueError(f"The patch's middle {centre_xy} lies outside the picture.")
    step = max(1, int((3.1416 * radius_px * radius_px / _MOST_PIXELS) ** 0.5))
    found: list[int] = [4 * (int(cy) * width + int(cx))]
    for y in range(max(0, int(cy - radius_px)), min(height, int(cy + radius_px) + 1), step):
        half = max(0.0, radius_px * radius_px - (y - cy) ** 2) ** 0.5
        across = range(max(0, int(cx - half)), min(width, int(cx + half) + 1), step)
        found += [4 * (y * width + x) for x in across]
    red, green, blue = (round(median(rgba[at + k] for at in found)) for k in range(3))
    return red, green, blue
