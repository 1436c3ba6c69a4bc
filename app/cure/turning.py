"""How often meat is turned in its cure: said by the mix, and what a plan is made by."""

TURN_EVERY_DAYS = 2
"""Days between turnings, by whatever method; common practice, no source."""

_IN_WORDS = {1: "every day", 2: "every second day", 3: "every third day"}


def turn_it() -> str:
    """The turning in words, as a sentence of the mix has it.

    >>> turn_it()
    'turn it every second day'
    """
    return f"turn it {_IN_WORDS.get(TURN_EVERY_DAYS, f'every {TURN_EVERY_DAYS} days')}"
