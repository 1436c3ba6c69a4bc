"""How a number was worked out, in a form a screen can open and a test can read."""

from attrs import frozen


@frozen
class Working:
    """One result with all that a reader needs to check it by hand.

    `inputs` are name and value pairs as a person would write them, unit included;
    `limits` says where the formula stops holding and what it does not know.
    """

    title: str
    formula: str
    inputs: tuple[tuple[str, str], ...]
    result: str
    source: str
    limits: str = ""
