"""The request of `cardgen ruler`: a test sheet for the printer, with no sounds and nothing left to chance."""

from dataclasses import dataclass

from cardgen.request.common import SheetRequest


@dataclass(frozen=True, kw_only=True, slots=True)
class RulerRequest(SheetRequest):
    """The printer test sheet: it is the same for every lesson, so only paper and ink are asked."""

    keys: tuple[str, ...] = ()
    seed: int = 0

    def __post_init__(self) -> None:
        # Unlike every other request it needs no sounds, so what they are checked for does not apply.
        pass
