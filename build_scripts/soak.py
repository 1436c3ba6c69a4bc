"""Use the built app at random, with kills and mostly offline, and see that nothing is lost.

python3 build_scripts/soak.py --minutes 120 --seed 7

The seed decides what is done in which order; the machine decides how fast. A model of what the
screen called saved is kept beside the program (soak_model.py) and held against its own copy of
everything after each restart and at the end.
"""

import argparse
import sys
import tempfile
from pathlib import Path

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).resolve().parents[1])

from build_scripts import environment


def read_arguments(words: "list[str]") -> argparse.Namespace:
    """Read the command line."""
    parser = argparse.ArgumentParser(prog="soak.py", description="Use the built app at random.")
    parser.add_argument("--minutes", type=float, default=10.0, help="how long (default 10)")
    parser.add_argument("--seed", type=int, default=1, help="what is done (default 1)")
    parser.add_argument("--site", type=Path, help="a built site; default: built when needed")
    parser.add_argument("--pictures", type=Path, help="where to keep pictures of what went wrong")
    arguments = parser.parse_args(words)
    if not 0 < arguments.minutes <= 24 * 60:
        parser.error(f"minutes from 0 to a day were expected; {arguments.minutes:g} was given")
    return arguments


def main() -> int:
    """Run the command line."""
    arguments = read_arguments(sys.argv[1:])
    environment.enter("check")
    from build_scripts import chromium, soak_run
    from build_scripts.site_cache import fresh_site
    from build_scripts.trouble import Trouble

    try:
        program = chromium.find_or_install()
        if program is None:
            raise Trouble(chromium.MISSING)
        site = arguments.site.resolve() if arguments.site else fresh_site()
        with tempfile.TemporaryDirectory(prefix="brinewright-soak-") as folder:
            outcome = soak_run.run(
                site,
                Path(folder),
                program,
                seconds=60.0 * arguments.minutes,
                seed=arguments.seed,
                pictures=arguments.pictures,
                tell=lambda line: print(line, flush=True),
            )
    except Trouble as problem:
        sys.exit(str(problem))
    except KeyboardInterrupt:
        sys.exit("\nStopped.")
    print("\n".join(outcome.told()))
    return 1 if outcome.faults() else 0


if __name__ == "__main__":
    sys.exit(main())
