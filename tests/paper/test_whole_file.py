import errno
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.paper.whole_file import whole_file


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_the_file_appears_when_the_block_ends(tmp_path: Path) -> None:
    goal = tmp_path / "bingo.pdf"
    goal.write_text("old")
    with whole_file(goal) as part:
        part.write_text("new")
        assert part.parent == tmp_path
        assert goal.read_text() == "old"
    assert goal.read_text() == "new"
    assert names(tmp_path) == ["bingo.pdf"]


@pytest.mark.parametrize("fault", [ValueError, KeyboardInterrupt, SystemExit, TeacherError])
def test_whatever_goes_wrong_leaves_the_old_file(tmp_path: Path, fault: Callable[[str], BaseException]) -> None:
    goal = tmp_path / "bingo.pdf"
    goal.write_text("old")
    error = fault("x")

    def fail() -> None:
        with whole_file(goal) as part:
            part.write_text("half")
            raise error

    with pytest.raises(type(error)):
        fail()
    assert goal.read_text() == "old"
    assert names(tmp_path) == ["bingo.pdf"]


def test_a_first_attempt_that_fails_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), whole_file(tmp_path / "bingo.pdf"):
        _ = 1 / 0
    assert names(tmp_path) == []


def test_what_a_killed_run_left_behind_is_removed_by_the_next(tmp_path: Path) -> None:
    goal = tmp_path / "bingo [m, s].pdf"
    script = (
        "import os, sys\nfrom cardgen.paper.whole_file import whole_file\n"
        "with whole_file(sys.argv[1]) as part:\n    part.write_text('half')\n    os._exit(9)"
    )
    assert subprocess.run([sys.executable, "-c", script, goal], check=False).returncode == 9
    (stray,) = names(tmp_path)
    (tmp_path / "holiday.part").write_text("hers")
    with whole_file(tmp_path / "other.pdf"):
        assert stray in names(tmp_path), "another goal's part may still be in use"
    with whole_file(goal):
        pass
    assert names(tmp_path) == ["bingo [m, s].pdf", "holiday.part", "other.pdf"]


def test_a_link_is_followed(tmp_path: Path) -> None:
    (tmp_path / "sheets").mkdir()
    (tmp_path / "link.pdf").symlink_to(tmp_path / "sheets" / "real.pdf")
    with whole_file(tmp_path / "link.pdf") as part:
        part.write_text("new")
    assert (tmp_path / "link.pdf").is_symlink()
    assert (tmp_path / "sheets" / "real.pdf").read_text() == "new"


def test_a_long_name_is_fine_until_the_disk_cannot_take_it(tmp_path: Path) -> None:
    with whole_file(tmp_path / ("m" * 251 + ".pdf")) as part:
        part.write_text("new")
    with pytest.raises(TeacherError, match="too long"), whole_file(tmp_path / ("m" * 252 + ".pdf")):
        pass


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(TeacherError, match="is a folder") as refusal, whole_file(tmp_path):
        pass
    assert str(tmp_path) in refusal.value.message
    assert "--out" in refusal.value.hint


def test_a_missing_folder_is_named_as_the_teacher_wrote_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(TeacherError, match="there is no folder week 3") as refusal, whole_file("week 3/bingo.pdf"):
        pass
    assert refusal.value.message.startswith("week 3/bingo.pdf")
    assert refusal.value.hint


@pytest.mark.skipif(sys.platform == "win32", reason="devices are not files there")
def test_a_device_is_no_file() -> None:
    with pytest.raises(TeacherError, match="is not a file"), whole_file("/dev/null"):
        pass


def refuse(number: int) -> Callable[..., None]:
    def call(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    return call


def test_a_folder_that_may_not_be_written_to(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # Root may write everywhere, so the refusal itself is planted.
    monkeypatch.setattr(Path, "touch", refuse(errno.EACCES))
    with pytest.raises(TeacherError, match="nothing may be saved") as refusal, whole_file(tmp_path / "bingo.pdf"):
        pass
    assert str(tmp_path / "bingo.pdf") in refusal.value.message


def test_a_file_that_another_program_holds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "bingo.pdf").write_text("old")
    monkeypatch.setattr(Path, "replace", refuse(errno.EACCES))
    with pytest.raises(TeacherError, match="open in another program"), whole_file(tmp_path / "bingo.pdf"):
        pass
    assert names(tmp_path) == ["bingo.pdf"]


@pytest.mark.skipif(sys.platform == "win32", reason="needs a limit on the size of files")
def test_a_full_disk(tmp_path: Path) -> None:
    goal = tmp_path / "bingo.pdf"
    goal.write_text("old")
    script = (
        "import resource, sys\nfrom cardgen.paper.whole_file import whole_file\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))\n"
        "with whole_file(sys.argv[1]) as part:\n    part.write_bytes(bytes(5000))"
    )
    run = subprocess.run([sys.executable, "-c", script, goal], check=False, capture_output=True, text=True)
    assert "TeacherError: There is no room left on the disk" in run.stderr
    assert goal.read_text() == "old"
    assert names(tmp_path) == ["bingo.pdf"]


def test_other_errors_inside_the_block_are_not_disguised(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError), whole_file(tmp_path / "bingo.pdf"):
        (tmp_path / "missing").read_bytes()


def test_the_content_is_on_the_disk_before_the_move(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    steps: list[str] = []
    replace = Path.replace

    def move(part: Path, goal: Path) -> Path:
        steps.append("move")
        return replace(part, goal)

    monkeypatch.setattr(os, "fsync", lambda _: steps.append("flush"))
    monkeypatch.setattr(Path, "replace", move)
    with whole_file(tmp_path / "bingo.pdf"):
        pass
    assert steps[:2] == ["flush", "move"]


def test_a_folder_that_may_not_even_be_looked_into(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(self: Path) -> bool:
        raise PermissionError(errno.EACCES, "Permission denied", str(self))

    monkeypatch.setattr(Path, "is_dir", closed)
    with pytest.raises(TeacherError, match="nothing may be saved in that folder"), whole_file(tmp_path / "a.pdf"):
        pass
