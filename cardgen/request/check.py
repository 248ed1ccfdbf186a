"""What a teacher asks for in a quick check."""

from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.request.common import SheetRequest

LEAST_ITEMS, MOST_ITEMS = 3, 10
MOST_VERSIONS = 2


class PartKind(Enum):
    """One part of a check: what is heard or seen, and what is ringed. The order is that of a lesson."""

    HEAR_LETTER = "hear-letter"
    SEE_CAPITAL = "see-capital"
    SEE_SMALL = "see-small"
    HEAR_PICTURE = "hear-picture"
    SOUND_PICTURE = "sound-picture"

    @property
    def is_seen(self) -> bool:
        """Whether a picture is asked about; else the child listens."""
        return self in (PartKind.SEE_CAPITAL, PartKind.SEE_SMALL)

    @property
    def rings_pictures(self) -> bool:
        """Whether pictures are to choose from; else letters."""
        return self in (PartKind.HEAR_PICTURE, PartKind.SOUND_PICTURE)

    @property
    def names_a_word(self) -> bool:
        """Whether a word is said that the child only hears."""
        return self in (PartKind.HEAR_LETTER, PartKind.HEAR_PICTURE)


DEFAULT_PARTS = (PartKind.HEAR_LETTER, PartKind.SEE_SMALL)


@dataclass(frozen=True, kw_only=True, slots=True)
class CheckRequest(SheetRequest):
    """Quick checks of a lesson's sounds; empty `parts` are the default two, or none beside `say` and `show_me`.

    `full` takes every part and prints pages with the answers ringed; `items` is the number of rows of a part (None: as
    many as its choices need); `versions` are one or two letters for sheets that differ in the order of the choices;
    `say` is the oral check, `show_me` the one with lifted cards; `silent` leaves the pictures unnamed.
    """

    parts: tuple[PartKind, ...] = ()
    full: bool = False
    items: int | None = None
    versions: tuple[str, ...] = ()
    say: bool = False
    show_me: bool = False
    silent: bool = False

    def __post_init__(self) -> None:
        # The zero-argument super() does not work in a dataclass with slots: the class is made anew.
        SheetRequest.__post_init__(self)
        if len(self.all_keys) < 2:
            raise TeacherError(
                "A check needs at least two sounds to choose between.",
                f"Name another one, or an older one beside it: cardgen check {self.keys[0]} --review t",
            )
        if self.layout is not None:
            raise TeacherError("A check has one layout only.", "Leave out --layout.")
        self._check_parts()
        self._check_versions()

    def _check_parts(self) -> None:
        if self.full and self.parts:
            raise TeacherError("--full takes every part, so --parts has nothing to choose.", "Leave one of them out.")
        double = next((part for part in self.parts if self.parts.count(part) > 1), None)
        if double:
            raise TeacherError(f"The part {double.value} is named twice.", "Name every part once.")
        if self.items is not None and not LEAST_ITEMS <= self.items <= MOST_ITEMS:
            raise TeacherError(
                f"A part of {self.items} items is not possible.",
                f"Choose {LEAST_ITEMS} to {MOST_ITEMS}, for example --items 5.",
            )

    def _check_versions(self) -> None:
        for name in self.versions:
            if not (len(name) == 1 and "A" <= name <= "Z"):
                raise TeacherError(f'A version cannot be called "{name}".', "Versions are letters: --versions A,B")
        if len(set(self.versions)) < len(self.versions):
            raise TeacherError("A version is named twice.", "Name two letters: --versions A,B")
        if len(self.versions) > MOST_VERSIONS:
            raise TeacherError(
                f"{len(self.versions)} versions are more than neighbours need.", "Two do: --versions A,B"
            )
        if (self.versions or self.only) and not self.wanted_parts:
            raise TeacherError(
                "The oral check and the check with cards have no versions.",
                "Leave out --versions and --only, or ask for parts too: --parts hear-letter,see-small",
            )
        unknown = [name for name in self.only if name not in self.versions]
        if unknown and self.versions:
            raise TeacherError(
                f"There is no version {unknown[0]} in this check.", f"It has {' and '.join(self.versions)}."
            )
        if unknown:
            raise TeacherError(
                "This check has one version only, so --only has nothing to choose.",
                "Give the same --versions A,B as before, or leave --only out.",
            )

    @property
    def wanted_parts(self) -> tuple[PartKind, ...]:
        """The parts to print, in the order asked for; all of them stand in the lesson's order."""
        if self.full:
            return tuple(PartKind)
        if self.parts:
            return self.parts
        return () if self.say or self.show_me else DEFAULT_PARTS
