"""An address behind a square code."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Link:
    """An address behind a square code: the address, how many modules its code has on a side, and how it is printed."""

    address: str
    modules: int
    shown: str
