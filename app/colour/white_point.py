"""The white of the light a photo was taken in, and what the photo is good for."""

from math import exp, hypot, isfinite, log
from typing import Literal

from attrs import frozen

from app.colour.lab import (
    D65_WHITE,
    Triple,
    lab_from_xyz,
    linear_from_xyz,
    to_linear,
    xyz_from_linear,
)

Rgb = tuple[float, float, float]
Trouble = Literal["too dark", "clipped", "coloured"]

# Bradford cone responses (Lam 1985, as in CIE 159 and ICC.1; from memory) and their inverse.
_CONES: tuple[Triple, Triple, Triple] = (
    (0.8951, 0.2664, -0.1614),
    (-0.7502, 1.7135, 0.0367),
    (0.0389, -0.0685, 1.0296),
)
_FROM_CONES: tuple[Triple, Triple, Triple] = (
    (0.9869929054667123, -0.14705425642099013, 0.15996265166373125),
    (0.43230526972339456, 0.5183602715367776, 0.049291228212855594),
    (-0.008528664575177328, 0.04004282165408487, 0.9684866957875502),
)

# Lamps of 2700-7500 K by green and blue alone; worked out from Planck's law.
_LAMP_LINE = (0.631, -0.060)

# Bounds of judgement, not published: what still gave steady colours on drawn test pictures.
_AT_ITS_END = 250.5
_DARKEST_NEUTRAL = 0.02  # linear green; below it sensor noise and JPEG steps outweigh the colour
_MIXED_CHROMA = 6.0  # C*ab between two neutral patches of one photo
_NOT_NEUTRAL_RATIO = 14.0  # red to blue, linear; a 2700 K lamp gives about 11


@frozen
class WhitePoint:
    """What a patch known to be neutral says about the light.

    `gains` bring linear red, green and blue to what daylight would have given, green kept;
    `trouble` names what makes the patch unfit, in which case the gains are all 1; `sure` is
    false where part of the white had to be reckoned, `by_fat` true where fat was taken for it.
    """

    gains: Triple
    neutral: Triple
    trouble: Trouble | None
    says: str
    sure: bool = True
    by_fat: bool = False

    @property
    def known(self) -> bool:
        return self.trouble is None


def _times(matrix: tuple[Triple, Triple, Triple], v: Triple) -> Triple:
    a, b, c = (m[0] * v[0] + m[1] * v[1] + m[2] * v[2] for m in matrix)
    return a, b, c


def bradford(xyz: Triple, white: Triple) -> Triple:
    """XYZ as it would look under D65, of a colour seen under another white.

    XYZ' = M⁻¹ diag(ρ_D65/ρ_w, γ_D65/γ_w, β_D65/β_w) M XYZ, with (ρ, γ, β) = M · white

    Parameters
    ----------
    xyz : the colour as recorded, sRGB white at Y = 1 [1]
    white : the white it was seen under, scaled as the colour [1]

    Returns
    -------
    Adapted XYZ [1]

    Raises
    ------
    ValueError : the white has a cone response that is not above zero

    Examples
    --------
    The white itself becomes D65:

    >>> [round(c, 6) for c in bradford((1.1, 1.0, 0.35), (1.1, 1.0, 0.35))]
    [0.950456, 1.0, 1.089058]

    References
    ----------
    K. M. Lam, doctoral thesis, University of Bradford, 1985; CIE 159:2004 (both from memory).
    """
    seen, wanted = _times(_CONES, white), _times(_CONES, D65_WHITE)
    if min(seen) <= 0.0:
        raise ValueError("That white has no light in one of its channels: tap a whiter patch.")
    cones = _times(_CONES, xyz)
    adapted = tuple(c * w / s for c, w, s in zip(cones, wanted, seen, strict=True))
    return _times(_FROM_CONES, (adapted[0], adapted[1], adapted[2]))


def from_neutral(neutral_rgb: Rgb) -> WhitePoint:
    """The light, from a patch of paper towel, butcher's paper or grey card.

    Parameters
    ----------
    neutral_rgb : mean sRGB of the patch [0-255]

    Returns
    -------
    WhitePoint; unfit patches come back with their trouble named

    Raises
    ------
    ValueError : not three numbers from 0 to 255

    Examples
    --------
    >>> from_neutral((180, 180, 180)).gains
    (1.0, 1.0, 1.0)
    >>> from_neutral((255, 255, 255)).trouble
    'clipped'
    """
    if len(neutral_rgb) != 3 or not all(isfinite(c) for c in neutral_rgb):
        raise ValueError(f"A neutral patch is three numbers 0 to 255; {neutral_rgb} was given.")
    red, green, blue = (to_linear(c) for c in neutral_rgb)
    plain = (1.0, 1.0, 1.0)
    if neutral_rgb[0] >= _AT_ITS_END > max(neutral_rgb[1:]):
        return _from_green_and_blue(green, max(blue, 1e-4))
    if neutral_rgb[2] >= _AT_ITS_END > max(neutral_rgb[:2]):
        return _from_red_and_green(red, green)
    if max(neutral_rgb) >= _AT_ITS_END:
        return WhitePoint(
            plain, plain, "clipped", "The neutral patch is blown out: tap one in the shade."
        )
    if green < _DARKEST_NEUTRAL:
        return WhitePoint(plain, plain, "too dark", "The neutral patch is too dark to read.")
    if (
        red / max(blue, 1e-6) > _NOT_NEUTRAL_RATIO
        or blue > 2.5 * red
        or green > 1.6 * max(red, blue)
    ):
        return WhitePoint(
            plain, plain, "coloured", "That patch is no neutral: tap white paper or a grey card."
        )
    return from_light((red, green, blue))


def from_light(neutral: Triple, by_fat: bool = False) -> WhitePoint:
    """The light from the linear light of something neutral.

    Parameters
    ----------
    neutral : linear red, green, blue [0-1]
    by_fat : whether it is only the slice's own fat, its cream taken out

    Returns
    -------
    WhitePoint, too dark when green is below 0.0005

    Examples
    --------
    >>> from_light((0.4, 0.2, 0.1)).gains
    (0.5, 1.0, 2.0)
    """
    red, green, blue = neutral[0], neutral[1], max(neutral[2], 1e-4)
    if green < 0.0005 or red <= 0.0:
        return WhitePoint((1.0, 1.0, 1.0), (1.0, 1.0, 1.0), "too dark", "Too dark to read.")
    return WhitePoint(
        (green / red, 1.0, green / blue), (red, green, blue), None, "", not by_fat, by_fat
    )


def _from_green_and_blue(green: float, blue: float) -> WhitePoint:
    """The light from a patch whose red is blown out: lamps lie on one line of colour.

    ln(R/G) = 0.631 ln(G/B) − 0.060 (ln(G/B))², a fit to black bodies of 2700-7500 K, good to 0.01
    """
    over = log(green / blue)
    red = max(1.0, green * exp(_LAMP_LINE[0] * over + _LAMP_LINE[1] * over * over))
    return WhitePoint(
        (green / red, 1.0, green / blue),
        (red, green, blue),
        None,
        "The patch's red is blown out: taken from its green and blue.",
        sure=False,
    )


def _from_red_and_green(red: float, green: float) -> WhitePoint:
    """The light from a patch whose blue is blown out: the same line, near daylight, where
    ln(G/B) is ln(R/G) / 0.631."""
    blue = max(1.0, green * exp(-log(red / green) / _LAMP_LINE[0]))
    return WhitePoint(
        (green / red, 1.0, green / blue),
        (red, green, blue),
        None,
        "The patch's blue is blown out: taken from its red and green.",
        sure=False,
    )


def adapted_lab(light: Triple, white: WhitePoint, exposure: float = 1.0) -> Triple:
    """L*a*b* of a linear sRGB light, as daylight would show it.

    Parameters
    ----------
    light : linear sRGB as recorded [0-1]
    white : the light it was taken in
    exposure : factor on the adapted light, to bring two photos to one brightness [1]

    Returns
    -------
    L*, a*, b* [1]

    Examples
    --------
    >>> lamp = from_neutral((200, 170, 120))
    >>> [abs(round(c, 6)) for c in adapted_lab(lamp.neutral, lamp)][1:]
    [0.0, 0.0]
    """
    xyz = xyz_from_linear(*light)
    if white.known:
        seen = xyz_from_linear(*white.neutral)
        xyz = bradford(xyz, (seen[0] / seen[1], 1.0, seen[2] / seen[1]))
    return lab_from_xyz(*(max(0.0, c * exposure) for c in xyz))


def adapted_srgb_light(light: Triple, white: WhitePoint) -> Triple:
    """Linear sRGB as daylight would have given it (Bradford); for swatches.

    Examples
    --------
    >>> adapted_srgb_light((0.2, 0.1, 0.1), WhitePoint((1, 1, 1), (1, 1, 1), "clipped", ""))
    (0.2, 0.1, 0.1)
    """
    if not white.known:
        return light
    seen = xyz_from_linear(*white.neutral)
    xyz = bradford(xyz_from_linear(*light), (seen[0] / seen[1], 1.0, seen[2] / seen[1]))
    return linear_from_xyz(*xyz)


def mixed(first: Rgb, second: Rgb) -> bool:
    """Whether two neutral patches of one photo stand in different light.

    Parameters
    ----------
    first, second : mean sRGB of the two patches [0-255]

    Returns
    -------
    True when the second, seen under the first's white, has a C*ab above 6 (judgement)

    Raises
    ------
    ValueError : as `from_neutral`

    Examples
    --------
    >>> mixed((180, 180, 180), (120, 121, 120)), mixed((180, 180, 180), (190, 150, 100))
    (False, True)
    """
    white, other = from_neutral(first), from_neutral(second)
    if not (white.known and other.known):
        return False
    _, a, b = adapted_lab(other.neutral, white, 0.5 / other.neutral[1])
    return hypot(a, b) > _MIXED_CHROMA
