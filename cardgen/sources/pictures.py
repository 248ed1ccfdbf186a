"""The project's own pictures, `art/pictures/NAME.svg`, by name and ink."""

import re
from functools import cache

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing
from cardgen.sources import shelf
from cardgen.sources.inks import inks
from cardgen.sources.svg import Part, paint, read_svg

# A name never reaches the file system unless it is nothing but a name.
_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def exists(name: str) -> bool:
    """Return whether there is a picture of that name."""
    return bool(_NAME.fullmatch(name)) and shelf.folder("art").joinpath("pictures", f"{name}.svg").is_file()


@cache
def drawing(name: str, ink: Ink) -> Drawing:
    """Return the picture as painted paths in one ink; TeacherError if there is none, or if its file is damaged."""
    return paint(name, _parts(name), ink, inks())


@cache
def _parts(name: str) -> tuple[Part, ...]:
    if not exists(name):
        raise TeacherError(
            f'There is no picture called "{name}".', "Pictures are named by their word, for example moon."
        )
    file = f"art/pictures/{name}.svg"
    return read_svg(shelf.read_text(file), file, inks())
