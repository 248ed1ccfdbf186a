from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.sources.clip_site import Site, open_site
from tests.sources.clip_samples import folder

MARK, STYLE = "<!-- ours -->", "/* ours */"
PAGE = f"<html>{MARK}<title>Sounds &amp; m</title>".encode()


def opened(path: Path) -> Site | None:
    return open_site(str(path), "index.html", MARK, STYLE)


def test_a_new_or_empty_folder_holds_nothing_yet(tmp_path: Path) -> None:
    assert opened(tmp_path / "none") is None
    assert opened(tmp_path) is None


@pytest.mark.parametrize(
    "files", [{"photo.jpg": b""}, {"index.html": b"<html>"}, {"m.html": PAGE}, {"index.html": b" " * 9000 + PAGE}]
)
def test_a_folder_of_others_is_refused(tmp_path: Path, files: dict[str, bytes]) -> None:
    with pytest.raises(TeacherError, match="holds other files"):
        opened(folder(tmp_path / "f", files))


def test_lessons_are_known_by_their_marked_pages(tmp_path: Path) -> None:
    files = {"index.html": PAGE, "lesson-m-s.html": PAGE, "lesson-t.html": b"<title>theirs</title>", "m.html": PAGE}
    site = opened(folder(tmp_path / "f", files))
    assert site
    assert site.lessons() == {"lesson-m-s.html": "Sounds & m"}


def test_ours_are_marked_or_lie_beside_a_marked_page(tmp_path: Path) -> None:
    files = {"index.html": PAGE, "m.html": PAGE, "m.m4a": b"a", "s.html": b"theirs", "s.m4a": b"theirs", "t.m4a": b"?"}
    path = folder(tmp_path / "f", files | {"style.css": b"body {}"})
    (path / "u.html").symlink_to("m.html")
    site = opened(path)
    assert site
    names = [*files, "style.css", "u.html", "none.html"]
    assert site.ours(names) == {"index.html", "m.html", "m.m4a"}
    (path / "style.css").write_text(STYLE)
    assert site.ours(["style.css"]) == {"style.css"}
