"""What to do otherwise next time, and by how much: the models run backwards from the slice.

Each piece of advice has its reason and how sure it is. Where neither a model nor the cook's
own batches bear it, no number is given.
"""

from collections.abc import Iterable, Mapping, Sequence

from attrs import evolve

from app.cure.request import MixRequest
from app.journal import advice_colour, advice_finish, advice_salt, advice_taste
from app.journal.advised import Advice, Past, Sure
from app.journal.lengths import Length
from app.journal.records import Batch, Entry, Stage

__all__ = ["Advice", "Past", "Sure", "advice", "lengths_with", "mix_with"]


def advice(
    batch: Batch,
    others: Iterable[Batch] = (),
    entries: Mapping[str, Sequence[Entry]] | None = None,
) -> tuple[Advice, ...]:
    """What to change when this batch is done again, most telling first.

    Parameters
    ----------
    batch : with its outcome; without one there is nothing to say
    others : the cook's other batches, from which to learn; demonstration ones teach nothing
    entries : the records by batch id

    Returns
    -------
    Pieces of advice; none when there is nothing sound to say

    Notes
    -----
    Never more certain than what was read: a single tasting is called a guess.
    """
    if batch.outcome is None:
        return ()
    records = entries or {}
    this = Past(batch, tuple(records.get(batch.id, ())))
    learned = [
        Past(other, tuple(records.get(other.id, ())))
        for other in others
        if other.id != batch.id and other.outcome is not None and not other.demonstration
    ]
    colour = advice_colour.about_colour(this, learned)
    # A piece salty at the rim and raw in the middle says nothing of the salt it should hold.
    salt = advice_taste.grey_first(this) if colour else advice_salt.about_salt(this, learned)
    return (*colour, *salt, *advice_finish.about_finish(this, learned))


def mix_with(mix: MixRequest, taken: Iterable[Advice]) -> MixRequest:
    """The mix with pieces of advice taken up."""
    for one in taken:
        mix = evolve(mix, **dict(one.mix_changes))  # type: ignore[arg-type]
    return mix


def lengths_with(taken: Iterable[Advice]) -> dict[Stage, Length]:
    """The lengths of stages that pieces of advice ask for."""
    return {
        stage: Length(minutes, one.reason) for one in taken for stage, minutes in one.stage_minutes
    }
