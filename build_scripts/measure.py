"""Measure the built app, and print what was found as ratios of one run on one machine.

python3 build_scripts/measure.py            all of it, some minutes
python3 build_scripts/measure.py --only start save

A time alone says little of another machine; a ratio of two, taken in turns on the same one, does.
"""

import argparse
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).resolve().parents[1])

from build_scripts import environment

if TYPE_CHECKING:
    from build_scripts.measuring import Row

PARTS = ("start", "frames", "photo", "save", "opening", "cure", "model", "slices", "keystroke")


def read_arguments(words: "list[str]") -> argparse.Namespace:
    """Read the command line."""
    parser = argparse.ArgumentParser(prog="measure.py", description="Measure the built app.")
    parser.add_argument("--only", nargs="+", choices=PARTS, default=PARTS, help="parts to measure")
    parser.add_argument("--runs", type=int, default=5, help="runs of each start (default 5)")
    parser.add_argument("--site", type=Path, help="a built site; default: built when needed")
    return parser.parse_args(words)


def table(rows: "list[Row]") -> str:
    """The rows as aligned text."""
    width = max(len(row.what) for row in rows)
    lines = [f"{'':{width}}  {'median':>10}  {'spread':>17}  ratio"]
    for row in rows:
        spread = f"{row.least:.3g} to {row.most:.3g}"
        ratio = "" if row.ratio is None else f"{row.ratio:.2f} of {row.ratio_to}"
        lines.append(f"{row.what:{width}}  {row.median:>7.3g} {row.unit:<2}  {spread:>17}  {ratio}")
    return "\n".join(lines)


def main() -> int:
    """Run the command line."""
    arguments = read_arguments(sys.argv[1:])
    environment.enter("check")
    from build_scripts import chromium, measuring
    from build_scripts.site_cache import fresh_site
    from build_scripts.trouble import Trouble

    try:
        program = chromium.find_or_install()
        if program is None:
            raise Trouble(chromium.MISSING)
        site = arguments.site.resolve() if arguments.site else fresh_site()
        with tempfile.TemporaryDirectory(prefix="brinewright-measure-") as folder:
            rows = measuring.measure(
                site, Path(folder), program, tuple(arguments.only), arguments.runs
            )
    except Trouble as problem:
        sys.exit(str(problem))
    except KeyboardInterrupt:
        sys.exit("\nStopped.")
    print(table(rows))
    return 0


if __name__ == "__main__":
    sys.exit(main())
