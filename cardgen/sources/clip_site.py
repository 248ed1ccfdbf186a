"""A folder of listening pages that was written before: which of its files are ours, and which lessons it has."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from html import unescape
from pathlib import Path

from cardgen.errors import TeacherError

_LESSON = re.compile(r"lesson-[a-z0-9-]+\.html")
_TITLE = re.compile(r"<title>([^<]*)</title>")
_PARTS = ".cardgen-"  # what a killed run left behind; the next one removes it
_HEAD = 4096  # bytes in which mark and title stand


@dataclass(frozen=True, slots=True)
class Site:
    """The folder; `page_mark` and `style_mark` are what our pages and our style sheet begin with."""

    path: Path
    page_mark: str
    style_mark: str

    def lessons(self) -> dict[str, str]:
        """Return the title of every lesson's page by its file, in the order of their names."""
        names = sorted(path.name for path in self.path.iterdir() if _LESSON.fullmatch(path.name))
        heads = {name: self._head(name) for name in names if self._is_page(name)}
        titles = {name: _TITLE.search(head) for name, head in heads.items()}
        return {name: unescape(title[1]) for name, title in titles.items() if title}

    def ours(self, names: Iterable[str]) -> frozenset[str]:
        """Return which of some files were written by us: marked ones, and recordings that have a marked page."""
        return frozenset(name for name in names if self._is_ours(name))

    def _is_ours(self, name: str) -> bool:
        if name.endswith(".css"):
            return self.style_mark in self._head(name)
        return self._is_page(name if name.endswith(".html") else f"{Path(name).stem}.html")

    def _is_page(self, name: str) -> bool:
        return self.page_mark in self._head(name)

    def _head(self, name: str) -> str:
        path = self.path / name
        if path.is_symlink() or not path.is_file():
            return ""
        try:
            with path.open("rb") as file:
                return file.read(_HEAD).decode("utf-8", "replace")
        except OSError:  # what cannot be read is not ours
            return ""


def open_site(folder: str, index: str, page_mark: str, style_mark: str) -> Site | None:
    """Return the pages in a folder, None if it is not there yet or empty; TeacherError if others' files are in it."""
    path = Path(folder)
    try:
        if not path.is_dir() or all(entry.name.startswith(_PARTS) for entry in path.iterdir()):
            return None
    except (OSError, ValueError) as error:
        raise TeacherError(f"The folder {folder} cannot be opened.", "Choose another with --out.") from error
    site = Site(path, page_mark, style_mark)
    if not site.ours([index]):
        raise TeacherError(
            f"{folder} holds other files, and none of them is touched.",
            "Choose a new folder with --out, or an empty one.",
        )
    return site
