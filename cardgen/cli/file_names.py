"""Names of files that every computer can hold: sheets made on one go to the next on a stick."""

import re
from pathlib import PureWindowsPath

from cardgen.errors import TeacherError

# Windows keeps these for devices, with any ending ("nul.pdf"): Microsoft, "Naming Files, Paths, and Namespaces".
RESERVED = frozenset(
    [
        "CON",
        "PRN",
        "AUX",
        "NUL",
        "CONIN$",
        "CONOUT$",
        *(f"{port}{n}" for port in ("COM", "LPT") for n in "123456789¹²³"),
    ]
)


def is_reserved(path: str) -> bool:
    """Return whether a part of the path, however its folders are divided, is a name that Windows keeps for itself."""
    return any(part.partition(".")[0].rstrip(" ").upper() in RESERVED for part in PureWindowsPath(path).parts)


def checked(path: str) -> str:
    """Return a path as it was typed; TeacherError if Windows keeps a name in it for itself."""
    if is_reserved(path):
        raise TeacherError(f'"{path[:80]}" cannot be a name: Windows keeps it for itself.', "Choose another name.")
    return path


def joined(*words: str) -> str:
    """Return words as one name of a file, divided by hyphens, without what a name may not hold anywhere."""
    name = re.sub(r'[\x00-\x1f<>:"/\\|?*]+', "_", "-".join(words)).rstrip(". ")
    return f"_{name}" if is_reserved(name) else name
