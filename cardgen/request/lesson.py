"""What a teacher asks for in a lesson: several commands at once, for one class, in one folder."""

import unicodedata
from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.request.common import SheetRequest

MOST_CHILDREN = 500
LONGEST_TITLE = 80


@dataclass(frozen=True, slots=True)
class LessonPart:
    """One command of the lesson with its request."""

    command: str
    request: SheetRequest


@dataclass(frozen=True, slots=True)
class LessonRequest:
    """A lesson: its title, how many children, and the sheets in the order of the lesson.

    With `where_possible`, sheets that the sounds cannot have are left out, and named.
    """

    title: str
    children: int
    parts: tuple[LessonPart, ...]
    where_possible: bool = False

    def __post_init__(self) -> None:
        check_children(self.children)
        if not self.parts:
            raise TeacherError("The lesson has no sheets.", "Name some, for example bingo or sort.")
        if len(self.title) > LONGEST_TITLE or any(unicodedata.category(letter)[0] == "C" for letter in self.title):
            raise TeacherError("The title cannot be printed.", f"At most {LONGEST_TITLE} letters, all on one line.")


def check_children(children: int) -> None:
    """Raise TeacherError for a class that is no class."""
    if not 1 <= children <= MOST_CHILDREN:
        raise TeacherError(
            f"A class of {children} children is not possible.", f"Give 1 to {MOST_CHILDREN}, for example --class 24."
        )
