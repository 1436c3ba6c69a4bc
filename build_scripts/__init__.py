"""Serving, checking, building and measuring the program, from a bare Python upwards.

The scripts of this folder are started by whichever `python3` is at hand, so this file and
`environment.py` stay readable to an old one, which then gets a sentence and not a trace.
"""

import sys

OLDEST = (3, 11)


def refuse_old_python(version: "tuple[int, int]") -> None:
    """Stop with a sentence when Python is older than the program can use."""
    if version < OLDEST:
        sys.exit(
            "Brinewright needs Python {}.{} or newer; this is {}.{}. Start it with a newer one, "
            "for example: python3.12 {}".format(*OLDEST, *version, sys.argv[0])
        )


refuse_old_python((sys.version_info[0], sys.version_info[1]))
