"""What lamp, exposure, sensor and JPEG do to a scene of known colours. For tests only.

Nothing here is taken from the code that measures, nor the other way round.
"""

import io
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Array = NDArray[np.float64]

# sRGB primaries as XYZ columns, and the Bradford matrix, for casts made the long way round.
_RGB_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
_CONES = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])


def encode(light: Array) -> Array:
    light = np.clip(light, 0.0, 1.0)
    return np.where(light < 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055) * 255


def decode(levels: Array) -> Array:
    c = np.asarray(levels, dtype=float) / 255
    return np.where(c < 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)


def lamp_xyz(kelvin: float) -> Array:
    """XYZ (Y = 1) of a black body: Planck's law over the Gaussian fits to the colour matching
    functions of Wyman, Sloan & Shirley, J. Comput. Graph. Tech. 2(2) (2013) 1 (from memory)."""
    nm = np.arange(380.0, 781.0, 5.0)
    power = nm**-5 / (np.exp(1.4388e7 / (nm * kelvin)) - 1)

    def bump(mid: float, low: float, high: float) -> Array:
        return np.exp(-0.5 * ((nm - mid) * np.where(nm < mid, low, high)) ** 2)

    x = 0.362 * bump(442.0, 0.0624, 0.0374) + 1.056 * bump(599.8, 0.0264, 0.0323)
    x -= 0.065 * bump(501.1, 0.0490, 0.0382)
    y = 0.821 * bump(568.8, 0.0213, 0.0247) + 0.286 * bump(530.9, 0.0613, 0.0322)
    z = 1.217 * bump(437.0, 0.0845, 0.0278) + 0.681 * bump(459.0, 0.0385, 0.0725)
    xyz = np.array([(power * c).sum() for c in (x, y, z)])
    return xyz / xyz[1]


@dataclass(frozen=True)
class Shot:
    """How one picture was taken."""

    kelvin: float = 6500.0
    stops: float = 0.0
    noise: float = 2.0
    shot_noise: float = 0.0
    quality: int = 60
    cast: str = "channels"
    flare: float = 0.0

    def lit(self, light: Array) -> Array:
        """Linear sRGB under this lamp and exposure; last axis is the channel."""
        white = np.linalg.solve(_RGB_XYZ, lamp_xyz(self.kelvin))
        daylight = np.linalg.solve(_RGB_XYZ, lamp_xyz(6500.0))
        gain = np.clip(white / daylight, 0.02, None)
        gain = gain / gain[1]
        if self.cast == "brightest":
            gain = gain / gain.max()
        if self.cast == "cones":
            cones = (_CONES @ lamp_xyz(self.kelvin)) / (_CONES @ lamp_xyz(6500.0))
            adapt = np.linalg.inv(_CONES) @ np.diag(cones) @ _CONES
            whole = np.linalg.inv(_RGB_XYZ) @ adapt @ _RGB_XYZ
            lit = light @ whole.T
        else:
            lit = light * gain
        return np.clip(lit + self.flare, 0.0, None) * 2.0**self.stops

    def take(self, light: Array, rng: np.random.Generator) -> NDArray[np.uint8]:
        """The stored picture, height × width × 3, of a scene in linear light."""
        lit = self.lit(light)
        if self.shot_noise:
            lit = lit + rng.standard_normal(lit.shape) * self.shot_noise * np.sqrt(lit + 0.002)
        levels = encode(lit)
        if self.noise:
            levels = levels + rng.standard_normal(levels.shape) * self.noise
        picture = Image.fromarray(np.clip(np.rint(levels), 0, 255).astype(np.uint8))
        if self.quality < 100:
            held = io.BytesIO()
            picture.save(held, "JPEG", quality=self.quality)
            picture = Image.open(held).convert("RGB")
        return np.asarray(picture, dtype=np.uint8)


def as_rgba(picture: NDArray[np.uint8]) -> bytes:
    opaque = np.full((*picture.shape[:2], 1), 255, dtype=np.uint8)
    return np.concatenate([picture, opaque], axis=2).tobytes()


def light(lab: tuple[float, float, float], kelvin: float = 6500) -> tuple[float, float, float]:
    """Linear light of a CIELAB colour under a lamp."""
    fy = (lab[0] + 16) / 116
    xyz = [
        w * (f**3 if f > 6 / 29 else 3 * (6 / 29) ** 2 * (f - 4 / 29))
        for w, f in zip(
            (0.95047, 1.0, 1.08883), (fy + lab[1] / 500, fy, fy - lab[2] / 200), strict=True
        )
    ]
    red, green, blue = Shot(kelvin=kelvin, stops=-1.0).lit(np.linalg.solve(_RGB_XYZ, xyz)[None])[0]
    return float(red), float(green), float(blue)
