"""Killed, no room, no leave, two at once: every file is the old one or a whole new one, and nothing is left behind."""

import errno
import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

import pytest

from cardgen.cli import main
from cardgen.paper.parts import new_part, remove_strays
from cardgen.paper.whole_folder import write_folder
from tests.hostile import kills
from tests.hostile.kills import RUNS, faults, finish, held, killed, start, strays, workplace

TURNS = 5  # of each kind; `python -m tests.hostile --kills 100` does more


@pytest.mark.parametrize("kind", RUNS)
def test_a_killed_run_leaves_whole_files(kind: str) -> None:
    found = list(killed(kind, TURNS, Random(kind)))
    assert not [one for one in found if one.faults]
    assert any(one.was_killed for one in found)


@pytest.mark.parametrize("kind", RUNS)
def test_two_runs_at_once(kind: str) -> None:
    with workplace(kind) as folder:
        before = held(folder)
        both = [start(kind, folder, turn) for turn in (2, 3)]
        ends = [finish(run) for run in both]
        assert [code for code, _ in ends] == [0, 0], ends
        assert faults(before, held(folder), may_grow=kind == "pages") == []
        assert strays(folder) == []


def test_a_part_in_use_is_no_stray(tmp_path: Path) -> None:
    goal = tmp_path / "a.pdf"
    with new_part(goal, Path.touch) as part:
        remove_strays(goal)
        assert part.exists()
    remove_strays(goal)
    assert not part.exists()


def test_a_lesson_with_more_sheets_that_was_killed_can_be_made_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """New files stand in the folder then which the old run did not have."""
    monkeypatch.setitem(RUNS, "week", "lesson m s --class 2 --out out --seed {turn}")
    monkeypatch.setitem(RUNS, "full week", "lesson m s --class 2 --out out --seed {turn} --full")
    assert finish(start("week", tmp_path, 1))[0] == 0
    before = held(tmp_path)
    _, said = finish(start("full week", tmp_path, 1, kill_at=-1))
    steps = int(said.split()[-1])
    shutil.rmtree(tmp_path / "out")
    assert finish(start("week", tmp_path, 1))[0] == 0
    finish(start("full week", tmp_path, 2, kill_at=steps - 4))
    assert faults(before, held(tmp_path), may_grow=True) == []
    assert len(held(tmp_path)) > len(before), "it was killed too early to tell"
    code, said = finish(start("full week", tmp_path, 2))
    assert code == 0, said
    assert strays(tmp_path) == []


@contextmanager
def small_disk(folder: Path) -> Iterator[Path]:
    """Yield a folder on a disk of its own with a quarter of a megabyte; skip where none can be had."""
    disk = folder / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=256k", "none", str(disk)]
    if shutil.which("mount") is None or subprocess.run(mount, check=False, capture_output=True).returncode:
        pytest.skip("a disk can be mounted by root only; the two other tests of a full disk stand in")
    try:
        yield disk
    finally:
        subprocess.run(["umount", "-l", str(disk)], check=True)


@pytest.mark.parametrize("kind", ["file", "pieces", "lesson"])
def test_a_full_disk(kind: str, tmp_path: Path) -> None:
    with small_disk(tmp_path) as disk:
        for old in ("out.pdf", "out.json"):
            (disk / old).write_text("old")
        (disk / "filler").write_bytes(bytes(180_000))
        before = held(disk)
        code, said = finish(start(kind, disk, 1))
        assert code == 1
        assert said.splitlines()[-2].startswith("Error: There is no room left on the disk"), said
        assert faults(before, held(disk)) == []
        assert strays(disk) == []


@pytest.mark.parametrize("kind", ["file", "pieces", "lesson"])
def test_files_may_grow_no_more(kind: str, tmp_path: Path) -> None:
    """The same with a limit of the process, where no disk can be mounted."""
    (tmp_path / "out.pdf").write_text("old")
    limit = f"import resource; resource.setrlimit(resource.RLIMIT_FSIZE, ({20_000}, {resource.RLIM_INFINITY})); "
    run = subprocess.run(
        [sys.executable, "-c", limit + kills.RUN, *RUNS[kind].format(turn=1, less=1).split()],
        cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(kills.ROOT)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == 1
    assert run.stderr.startswith("Error: There is no room left on the disk"), run.stderr
    assert held(tmp_path) == {"out.pdf": b"old"}
    assert strays(tmp_path) == []


def test_room_that_ends_at_any_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk fills up in the middle of a folder: at each file in turn."""
    files = {f"{number}.html": b"new" for number in range(4)}
    real, left = os.fsync, 0

    def no_room(handle: int) -> None:
        nonlocal left
        left -= 1
        if left < 0:
            raise OSError(errno.ENOSPC, "full")
        real(handle)

    write_folder(tmp_path / "a", dict.fromkeys(files, b"old"))
    monkeypatch.setattr(os, "fsync", no_room)
    for left in range(len(files)):  # noqa: B007
        with pytest.raises(Exception, match="no room left"):
            write_folder(tmp_path / "a", files, files)
        assert held(tmp_path) == {f"a/{name}": b"old" for name in files}


@pytest.mark.parametrize("kind", ["file", "pieces", "lesson"])
def test_a_folder_that_is_closed_in_the_middle(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Root may write everywhere, so the refusal is planted: from some moment on nothing may be renamed or made."""
    args = RUNS[kind].format(turn=1, less=1).split()
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as left:
        main(args)
    assert left.value.code == 0
    before = held(tmp_path)
    real, closed = Path.replace, False

    def replace(path: Path, goal: Path) -> Path:
        nonlocal closed
        if closed:
            raise PermissionError(errno.EACCES, "closed")
        closed = kind != "file"  # of several files one gets through
        return real(path, goal) if closed else replace_closed()

    def replace_closed() -> Path:
        raise PermissionError(errno.EACCES, "closed")

    monkeypatch.setattr(Path, "replace", replace)
    capsys.readouterr()
    with pytest.raises(SystemExit) as left:
        main([*args[:-1], "2"])
    said = capsys.readouterr().err
    assert left.value.code == 1
    assert said.startswith("Error: ")
    assert faults(before, held(tmp_path)) == []
    assert strays(tmp_path) == []


@pytest.mark.skipif(
    os.geteuid() != 0 or sys.platform == "win32", reason="another user is needed, whom only root can be"
)
def test_a_folder_that_others_may_not_write_to(tmp_path: Path) -> None:
    """The same with a real one, as a user who is not root."""
    (tmp_path / "out.pdf").write_text("old")
    for folder in (tmp_path, *list(tmp_path.parents)[:2]):
        folder.chmod(0o555)
    env = {
        "PYTHONPATH": f"{kills.ROOT}:{os.pathsep.join(path for path in sys.path if path)}",
        "PATH": os.environ["PATH"],
    }
    try:
        args = RUNS["file"].format(turn=1).split()
        command = [sys.executable, "-c", kills.RUN, *args]
        run = subprocess.run(command, cwd=tmp_path, env=env, user=65534, capture_output=True, text=True, check=False)
    except PermissionError:
        pytest.skip("Python itself lies where no other user may go")
    finally:
        for folder in (tmp_path, *list(tmp_path.parents)[:2]):
            folder.chmod(0o700)
    if "Error: " not in run.stderr and "whole_file" not in run.stderr:
        pytest.skip(f"no other user can run this: {run.stderr[-200:]}")
    assert run.returncode == 1
    assert "nothing may be saved in that folder" in run.stderr
    assert held(tmp_path) == {"out.pdf": b"old"}
