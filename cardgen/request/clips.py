"""What a teacher asks for when she records her voice: which sounds, how many words of each, which home languages."""

from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.request.common import SheetRequest

MOST_WORDS = 20


@dataclass(frozen=True, kw_only=True, slots=True)
class ClipListRequest(SheetRequest):
    """Which recordings: every sound, `words` picture words of each, and "how to play" in the languages of `family`.

    The seed is fixed unless another is asked for: list, names, test and pages must speak of the same words.
    """

    seed: int = 1
    words: int = 6
    family: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        SheetRequest.__post_init__(self)
        if not 0 <= self.words <= MOST_WORDS:
            raise TeacherError(
                f"{self.words} words for each sound cannot be chosen.",
                f"--words takes 0 to {MOST_WORDS}; with 0 only the sounds are recorded.",
            )
        for language in self.family:
            if self.family.count(language) > 1:
                raise TeacherError(f"The language {language} is named twice.", "Name every language once.")
