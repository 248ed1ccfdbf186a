"""The request of `cardgen layouts --sheet`: every format drawn on paper."""

from dataclasses import dataclass

from cardgen.request.common import SheetRequest


@dataclass(frozen=True, kw_only=True, slots=True)
class LayoutsRequest(SheetRequest):
    """All formats, or those `names` (or files) only; there are no sounds and nothing is left to chance."""

    keys: tuple[str, ...] = ()
    seed: int = 0
    names: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        # Unlike most requests it needs no sounds, so what they are checked for does not apply.
        pass
