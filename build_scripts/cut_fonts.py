"""Cut the program's fonts out of the full ones: run by hand when the wanted signs change.

python3 build_scripts/cut_fonts.py FOLDER     (needs `pip install fonttools`)

FOLDER holds Lato-Regular.ttf, Lato-Semibold.ttf and Lato-Bold.ttf (Debian: fonts-lato; Łukasz
Dziedzic, SIL Open Font License 1.1, see assets/fonts/OFL.txt).
"""

import subprocess
import sys
from pathlib import Path

OUT = Path(__file__).resolve().parents[1] / "assets" / "fonts"
WEIGHTS = {"Regular": 400, "Semibold": 600, "Bold": 700}
# Latin, Greek for formulas, punctuation, sub- and superscripts, fractions, arrows, mathematics.
SIGNS = (
    "U+0020-007E,U+00A0-024F,U+02BC,U+02C6,U+02DA,U+02DC,U+0300-0308,U+0370-03FF,U+1E00-1EFF,"
    "U+2010-2027,U+2030,U+2032,U+2033,U+2039,U+203A,U+2044,U+2070-209C,U+20AC,U+2113,U+2122,"
    "U+212B,U+2150-215E,U+2190-2193,U+2202,U+2206,U+220F,U+2211,U+2212,U+221A,U+221E,U+222B,"
    "U+2248,U+2260,U+2264,U+2265"
)


def main(folder: Path) -> None:
    """Write the three weights into assets/fonts."""
    for name, weight in WEIGHTS.items():
        subprocess.run(
            (
                sys.executable,
                "-m",
                "fontTools.subset",
                str(folder / f"Lato-{name}.ttf"),
                f"--unicodes={SIGNS}",
                "--layout-features=kern,liga,tnum,lnum,frac,mark,mkmk",
                "--no-hinting",
                f"--output-file={OUT / f'brinewright-text-{weight}.ttf'}",
            ),
            check=True,
        )
        rename(OUT / f"brinewright-text-{weight}.ttf", name)


def rename(file: Path, style: str) -> None:
    """The licence reserves the name of the original for the original."""
    from fontTools.ttLib import TTFont

    font = TTFont(file)
    for record in font["name"].names:
        if record.nameID in (1, 3, 4, 6, 16, 18, 21, 25):
            record.string = f"Brinewright Text {style}".replace(
                " ", "" if record.nameID == 6 else " "
            )
    font.save(file)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
