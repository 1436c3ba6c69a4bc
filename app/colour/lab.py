"""sRGB, CIE XYZ, CIELAB and the CIEDE2000 colour difference."""

from math import atan2, cos, degrees, exp, hypot, isfinite, radians, sin, sqrt

Triple = tuple[float, float, float]

D65_WHITE: Triple = (0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290)
"""XYZ of the white of sRGB, Y = 1; from x = 0.3127, y = 0.3290 (IEC 61966-2-1)."""

# Linear sRGB to XYZ, worked out from the primaries (0.64, 0.33), (0.30, 0.60), (0.15, 0.06) and
# the white above (IEC 61966-2-1, from memory; the standard prints four of these digits).
_TO_XYZ: tuple[Triple, Triple, Triple] = (
    (0.41239079926595934, 0.357584339383878, 0.1804807884018343),
    (0.21263900587151027, 0.715168678767756, 0.07219231536073371),
    (0.01933081871559182, 0.11919477979462598, 0.9505321522496607),
)
_FROM_XYZ: tuple[Triple, Triple, Triple] = (
    (3.2409699419045226, -1.537383177570094, -0.4986107602930034),
    (-0.9692436362808796, 1.8759675015077202, 0.04155505740717559),
    (0.05563007969699366, -0.20397695888897652, 1.0569715142428786),
)
_EPSILON = 216.0 / 24389.0  # (6/29)³, CIE 15
_KAPPA = 24389.0 / 27.0  # (29/3)³, CIE 15


def to_linear(value: float) -> float:
    """Linear light of one sRGB channel.

    c ≤ 0.04045: c / 12.92, otherwise ((c + 0.055) / 1.055)^2.4, with c = value / 255

    Parameters
    ----------
    value : sRGB channel [0-255]

    Returns
    -------
    Linear light [0-1]

    Raises
    ------
    ValueError : the value is not a number from 0 to 255

    Examples
    --------
    >>> round(to_linear(188), 4)
    0.5029

    References
    ----------
    IEC 61966-2-1:1999.
    """
    if not 0.0 <= value <= 255.0:
        raise ValueError(f"A colour channel goes from 0 to 255; {value} was given.")
    c = value / 255.0
    return c / 12.92 if c <= 0.04045 else float(((c + 0.055) / 1.055) ** 2.4)


LINEAR: tuple[float, ...] = tuple(to_linear(level) for level in range(256))
"""Linear light of each of the 256 levels, for work on many pixels."""


def from_linear(light: float) -> float:
    """sRGB channel of a linear light: the inverse of `to_linear`.

    Parameters
    ----------
    light : linear light [0-1]; what lies outside is clipped, as a screen would

    Returns
    -------
    sRGB channel [0-255], not rounded

    Raises
    ------
    ValueError : the light is not a finite number

    Examples
    --------
    >>> round(from_linear(to_linear(77)), 9)
    77.0

    References
    ----------
    IEC 61966-2-1:1999.
    """
    if not isfinite(light):
        raise ValueError(f"A light must be a finite number; {light} was given.")
    if light <= 0.0031308:
        return max(0.0, light * 12.92 * 255.0)
    return min(255.0, (1.055 * float(light ** (1.0 / 2.4)) - 0.055) * 255.0)


def xyz_from_linear(red: float, green: float, blue: float) -> Triple:
    """XYZ (white at Y = 1) of linear sRGB, by the matrix of IEC 61966-2-1.

    Examples
    --------
    >>> round(xyz_from_linear(1.0, 1.0, 1.0)[1], 9)
    1.0
    """
    x, y, z = (m[0] * red + m[1] * green + m[2] * blue for m in _TO_XYZ)
    return x, y, z


def linear_from_xyz(x: float, y: float, z: float) -> Triple:
    """Linear sRGB of XYZ (white at Y = 1): the inverse of `xyz_from_linear`.

    Examples
    --------
    >>> [round(c, 6) + 0.0 for c in linear_from_xyz(*D65_WHITE)]
    [1.0, 1.0, 1.0]
    """
    red, green, blue = (m[0] * x + m[1] * y + m[2] * z for m in _FROM_XYZ)
    return red, green, blue


def _f(t: float) -> float:
    return float(t ** (1.0 / 3.0)) if t > _EPSILON else (_KAPPA * t + 16.0) / 116.0


def lab_from_xyz(x: float, y: float, z: float) -> Triple:
    """CIELAB of XYZ seen under D65.

    L* = 116 f(Y/Yn) − 16, a* = 500 (f(X/Xn) − f(Y/Yn)), b* = 200 (f(Y/Yn) − f(Z/Zn));
    f(t) = t^(1/3) above (6/29)³, otherwise (κ t + 16)/116 with κ = (29/3)³

    Parameters
    ----------
    x, y, z : tristimulus values, white at Y = 1 [1]

    Returns
    -------
    L*, a*, b* [1]

    Examples
    --------
    >>> [round(c, 9) + 0.0 for c in lab_from_xyz(*D65_WHITE)]
    [100.0, 0.0, 0.0]

    References
    ----------
    CIE 15:2004, section 8.2.1.
    """
    fx, fy, fz = _f(x / D65_WHITE[0]), _f(y), _f(z / D65_WHITE[2])
    return 116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)


def from_srgb(r: float, g: float, b: float) -> Triple:
    """CIELAB (D65, 2° observer) of an sRGB colour.

    Parameters
    ----------
    r, g, b : sRGB channels [0-255]

    Returns
    -------
    L*, a*, b* [1]

    Raises
    ------
    ValueError : a channel is not a number from 0 to 255

    Notes
    -----
    Takes the colour as it stands in the file: under a warm lamp adapt it first
    (`app.colour.white_point`).

    Examples
    --------
    >>> [round(c, 2) for c in from_srgb(190, 110, 105)]
    [55.2, 31.12, 16.6]

    References
    ----------
    IEC 61966-2-1:1999; CIE 15:2004.
    """
    return lab_from_xyz(*xyz_from_linear(to_linear(r), to_linear(g), to_linear(b)))


def to_srgb(lightness: float, a: float, b: float) -> Triple:
    """sRGB of a CIELAB colour (D65): the inverse of `from_srgb`.

    Parameters
    ----------
    lightness, a, b : L*, a*, b* [1]

    Returns
    -------
    sRGB channels [0-255], not rounded; a colour outside sRGB is clipped channel by channel

    Raises
    ------
    ValueError : a value is not a finite number

    Examples
    --------
    >>> [round(c, 6) for c in to_srgb(*from_srgb(12, 200, 99))]
    [12.0, 200.0, 99.0]

    References
    ----------
    IEC 61966-2-1:1999; CIE 15:2004.
    """
    fy = (lightness + 16.0) / 116.0
    xyz = []
    for f, white in zip((fy + a / 500.0, fy, fy - b / 200.0), D65_WHITE, strict=True):
        cube = f * f * f
        xyz.append(white * (cube if cube > _EPSILON else (116.0 * f - 16.0) / _KAPPA))
    red, green, blue = linear_from_xyz(xyz[0], xyz[1], xyz[2])
    return from_linear(red), from_linear(green), from_linear(blue)


def chroma(a: float, b: float) -> float:
    """C*ab = √(a*² + b*²) [1] (CIE 15:2004).

    Examples
    --------
    >>> chroma(3.0, 4.0)
    5.0
    """
    return hypot(a, b)


def hue_deg(a: float, b: float) -> float:
    """Hue angle h_ab = atan2(b*, a*) [°], 0 to 360 (CIE 15:2004); 0 for a grey.

    Examples
    --------
    >>> hue_deg(0.0, 5.0)
    90.0
    """
    return degrees(atan2(b, a)) % 360.0


def delta_e_2000(lab1: Triple, lab2: Triple) -> float:
    """CIEDE2000 colour difference, with kL = kC = kH = 1.

    ΔE00 = √((ΔL'/S_L)² + (ΔC'/S_C)² + (ΔH'/S_H)² + R_T (ΔC'/S_C)(ΔH'/S_H))

    Parameters
    ----------
    lab1, lab2 : L*, a*, b* [1]

    Returns
    -------
    Difference [1]; about 1 is just visible side by side

    Raises
    ------
    ValueError : a value is not a finite number

    Notes
    -----
    Made for small differences, up to about 5; larger ones still order sensibly.

    Examples
    --------
    >>> round(delta_e_2000((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)), 4)
    2.0425

    References
    ----------
    Sharma, Wu & Dalal, Color Res. Appl. 30 (2005) 21, equations 2-22.
    """
    if not all(map(isfinite, (*lab1, *lab2))):
        raise ValueError(f"L*, a*, b* must be finite numbers; {lab1} and {lab2} were given.")
    (l1, a1, b1), (l2, a2, b2) = lab1, lab2
    mean_c7 = ((hypot(a1, b1) + hypot(a2, b2)) / 2.0) ** 7
    stretch = 1.0 + 0.5 * (1.0 - sqrt(mean_c7 / (mean_c7 + 25.0**7)))
    a1, a2 = a1 * stretch, a2 * stretch
    c1, c2 = hypot(a1, b1), hypot(a2, b2)
    h1, h2 = hue_deg(a1, b1), hue_deg(a2, b2)
    coloured = c1 * c2 > 0.0
    dh = (h2 - h1 + 180.0) % 360.0 - 180.0 if coloured else 0.0
    # The paper keeps +180 where the hues lie opposite; only the sign of ΔH' hangs on it.
    if coloured and h2 - h1 == 180.0:
        dh = 180.0
    delta_h = 2.0 * sqrt(c1 * c2) * sin(radians(dh / 2.0))
    mean_h = (h1 + h2) / 2.0 if coloured else h1 + h2
    if coloured and abs(h1 - h2) > 180.0:
        mean_h += 180.0 if h1 + h2 < 360.0 else -180.0
    mean_l, mean_c = (l1 + l2) / 2.0, (c1 + c2) / 2.0
    t = (
        1.0
        - 0.17 * cos(radians(mean_h - 30.0))
        + 0.24 * cos(radians(2.0 * mean_h))
        + 0.32 * cos(radians(3.0 * mean_h + 6.0))
        - 0.20 * cos(radians(4.0 * mean_h - 63.0))
    )
    off50 = (mean_l - 50.0) ** 2
    dl = (l2 - l1) / (1.0 + 0.015 * off50 / sqrt(20.0 + off50))
    dc = (c2 - c1) / (1.0 + 0.045 * mean_c)
    dhs = delta_h / (1.0 + 0.015 * mean_c * t)
    turn = 30.0 * exp(-(((mean_h - 275.0) / 25.0) ** 2))
    rt = -2.0 * sqrt(mean_c**7 / (mean_c**7 + 25.0**7)) * sin(radians(2.0 * turn))
    return sqrt(max(0.0, dl * dl + dc * dc + dhs * dhs + rt * dc * dhs))
