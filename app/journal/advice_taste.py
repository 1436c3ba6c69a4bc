"""What to look at where a salt score gives no sound number: said, so that it is not passed over."""

from app.journal.advised import Advice, Past


def grey_first(this: Past) -> tuple[Advice, ...]:
    """That the taste of a piece with a grey core is no measure; nothing where it was right."""
    score, grey = this.outcome.salt, this.outcome.grey_percent or 0.0
    if score is None or score == 3:
        return ()
    return (
        _taste(
            "Mend the grey core first, and judge the salt by the next slice.",
            f"You called it {called(score)}, but {grey:.0f} % of it was grey: such a piece is "
            "saltier outside than in its middle, so its taste does not tell what salt is right.",
        ),
    )


def look_elsewhere(now_percent: float, least_percent: float, score: int) -> Advice:
    """Too salty, and hardly any salt in it by the model [% of green weight]."""
    return _taste(
        "Look for other salt before you change the cure: the rub, what it was served with, and "
        "what was truly weighed.",
        f"You called it {called(score)}, yet by the model it held only {now_percent:.1f} % salt, "
        f"which is little. Below {least_percent:g} % no less is advised.",
    )


def salt_enough(now_percent: float, most_percent: float, score: int) -> Advice:
    """Too bland, and as much salt in it by the model as is ever advised [% of green weight]."""
    return _taste(
        "Add no salt yet: check what was truly weighed, and taste the middle of the next one.",
        f"You called it {called(score)}, yet by the model it held {now_percent:.1f} % salt, "
        f"which is much. Above {most_percent:g} % no more is advised.",
    )


def leave_it(reason: str) -> Advice:
    """All tastings together do not bear this one out."""
    return _taste("Leave the salt as it is, and taste the next one before you change it.", reason)


def called(score: int) -> str:
    """What a score beside the right one says.

    >>> called(5)
    'too salty (5 of 5)'
    """
    return f"too {'salty' if score > 3 else 'bland'} ({score} of 5)"


def _taste(sentence: str, reason: str) -> Advice:
    return Advice("taste", sentence, reason, "a guess")
