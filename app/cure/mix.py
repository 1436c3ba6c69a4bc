"""Skeleton: the request a cook makes of the mix, and the answer. (Owner fills in.)"""

from typing import Literal

from attrs import frozen

Method = Literal["equilibrium", "cover", "injection", "dry"]


@frozen
class MixRequest:
    """What the cook asked for; kept with the batch, so plain numbers only."""

    meat_g: float
    method: Method = "equilibrium"
