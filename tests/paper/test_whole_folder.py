import errno
from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.paper import whole_folder
from cardgen.paper.parts import prefix
from cardgen.paper.whole_folder import write_folder

FILES = {"a.html": b"new a", "b.html": b"new b", "index.html": b"new index"}


def held(path: Path) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in path.iterdir() if p.is_file()}


def inside(path: Path) -> list[str]:
    return sorted(p.name for p in path.iterdir())


def test_a_new_folder_holds_the_files_and_nothing_else_is_left(tmp_path: Path) -> None:
    write_folder(tmp_path / "site", FILES)
    assert held(tmp_path / "site") == FILES
    assert inside(tmp_path) == ["site"]


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    write_folder(tmp_path / "site", FILES)
    assert held(tmp_path / "site") == FILES


def test_what_others_put_there_stays_as_it_is(tmp_path: Path) -> None:
    site = tmp_path / "site"
    site.mkdir()
    (site / "index.html").write_bytes(b"old index")
    (site / "holiday.jpg").write_bytes(b"theirs")
    (site / "album").mkdir()
    write_folder(site, FILES, {"index.html"})
    assert held(site) == FILES | {"holiday.jpg": b"theirs"}
    assert (site / "album").is_dir()
    assert inside(tmp_path) == ["site"]


@pytest.mark.parametrize("name", ["b.html", "B.HTML"])
def test_a_file_of_others_is_not_overwritten(tmp_path: Path, name: str) -> None:
    site = tmp_path / "site"
    site.mkdir()
    (site / name).write_bytes(b"theirs")
    (site / "index.html").write_bytes(b"old")
    with pytest.raises(TeacherError, match=r"b\.html is there already"):
        write_folder(site, FILES, {"index.html", "a.html"})
    assert held(site) == {name: b"theirs", "index.html": b"old"}


def test_neither_is_a_folder_of_that_name(tmp_path: Path) -> None:
    (tmp_path / "site" / "a.html").mkdir(parents=True)
    with pytest.raises(TeacherError, match="there already"):
        write_folder(tmp_path / "site", FILES)
    assert inside(tmp_path / "site") == ["a.html"]


@pytest.mark.parametrize("there", [False, True])
@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "full"), OSError(errno.EACCES, "no"), KeyboardInterrupt()])
@pytest.mark.parametrize("at", range(7))
def test_whatever_goes_wrong_leaves_it_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, there: bool, error: BaseException, at: int
) -> None:
    """Every step of writing and of moving into place fails once; with a folder there are old files to put back."""
    site = tmp_path / "site"
    if there:
        site.mkdir()
        (site / "a.html").write_bytes(b"old a")
        (site / "index.html").write_bytes(b"old index")
    before = held(site) if there else None
    steps: list[str] = []
    real_write, real_replace = whole_folder._write, Path.replace

    def step(name: str) -> None:
        steps.append(name)
        if len(steps) == at + 1:
            raise error

    def write(path: Path, data: bytes) -> None:
        step(path.name)
        real_write(path, data)

    def replace(self: Path, target: Path) -> Path:
        step(self.name)
        return real_replace(self, target)

    monkeypatch.setattr(whole_folder, "_write", write)
    monkeypatch.setattr(Path, "replace", replace)
    last = 6 if there else 4  # three files written; then a move each, or the folder's one
    if at >= last:
        write_folder(site, FILES, {"a.html", "index.html"})
        assert held(site) == FILES
        return
    with pytest.raises((TeacherError, KeyboardInterrupt)):
        write_folder(site, FILES, {"a.html", "index.html"})
    assert (held(site) if there else None) == before
    assert inside(tmp_path) == (["site"] if there else [])


def test_what_a_killed_run_left_is_removed_and_nothing_else(tmp_path: Path) -> None:
    start = prefix(tmp_path / "site")
    (tmp_path / f"{start}1234.part").mkdir()
    (tmp_path / f"{start}1234.part" / "a.html").write_bytes(b"half")
    (tmp_path / ".cardgen-other.part").mkdir()
    write_folder(tmp_path / "site", FILES)
    assert inside(tmp_path) == [".cardgen-other.part", "site"]


def test_goals_that_cannot_be_are_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"x")
    for goal in (tmp_path / "file", tmp_path / "none" / "site", tmp_path / ("x" * 300), "a\0b"):
        with pytest.raises(TeacherError) as found:
            write_folder(goal, FILES)
        assert found.value.hint
    assert held(tmp_path) == {"file": b"x"}
