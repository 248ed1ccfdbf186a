"""Reads the teacher's own text files: a lesson, a layout, a table of links."""

from pathlib import Path

from cardgen.errors import TeacherError


def read_own_text(path: Path, what: str, most: int) -> str:
    """Return what a text file holds, UTF-8 with or without a mark at its start.

    TeacherError naming the file if it is no `what` (a lesson, a layout), not there, not text or over `most` bytes.
    """
    try:
        if not path.is_file():  # a pipe or a device would never end
            raise FileNotFoundError(path)
        if path.stat().st_size > most:
            raise TeacherError(f"{path.name} is too large to be a {what}.", f"At most {most // 1000} kB are read.")
        return path.read_text("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TeacherError(f"{path.name} is not a text file in UTF-8.", "Save it again as UTF-8 text.") from error
    except (OSError, ValueError) as error:
        raise TeacherError(
            f"The {what} {path.name} cannot be read.", "Check its name, and that you may read it."
        ) from error
