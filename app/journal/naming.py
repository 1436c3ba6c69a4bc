"""What a batch is called while nobody gave it a name: its cut and its weight."""

from typing import get_args

from app import quantities
from app.journal.records import Batch
from app.quantities import System


def usual_name(cut: str, meat_g: float, system: System) -> str:
    """The name offered for a new batch.

    >>> usual_name("Brisket flat", 3345.0, "us")
    'Brisket flat, 7 lb 6 oz'
    """
    return f"{cut}, {quantities.format(meat_g, 'mass', system)}"


def name_for(batch: Batch, meat_g: float) -> str:
    """The batch's name once its mix is for another weight [g].

    The name that was offered follows the weight, in the units it was offered in; one given by
    hand stays as it is.
    """
    for system in get_args(System):
        if batch.name == usual_name(batch.cut, batch.mix.meat_g, system):
            return usual_name(batch.cut, meat_g, system)
    return batch.name
