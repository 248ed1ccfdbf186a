"""No command opens a connection: all of them work where there is no network to be had."""

import os
import shlex
import shutil
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from cardgen.clip_folder import listed
from cardgen.request import ClipListRequest
from tests.hostile import commands, corpus
from tests.hostile.campaign import playground
from tests.hostile.kills import ROOT
from tests.hostile.watch import fenced

ALL = (
    "sounds m s --sheet sounds.pdf", "words m s", "word moon giraffe", "bingo m s --boards 2 --preview --plan a.json",
    "match m s", "sort m s --sets 1", "trace m s --words 0 --pictures pictures", "lesson m s --class 2",
    "lesson week.toml", "cards m s --link https://clips.example.org/a", "check m s", "pack m s --children 1",
    "layouts --sheet layouts.pdf",
    "pictures test pictures", "clips list m s --csv clips.csv", "clips name new m --in-order --yes --words 1",
    "clips test named m --words 1", "clips pages named m --out site --words 1", "ruler", "demo --out demo",
    "completion bash",
)  # fmt: skip


@pytest.fixture
def folder() -> Iterator[Path]:
    with playground() as found:
        commands.furnish(found)
        for number, clip in enumerate(listed(ClipListRequest(keys=("m",), seed=1, words=1))):
            for place, name in (("new", f"New Recording {number}"), ("named", clip.name)):
                (found / place).mkdir(exist_ok=True)
                (found / place / f"{name}.wav").write_bytes(corpus.recordings()[".wav"])
        yield found


def refused(*_: object, **__: object) -> None:
    raise AssertionError("a connection was asked for")


def test_every_command_is_tried() -> None:
    typed = {" ".join(line.split()[:2]) for line in ALL} | {line.split()[0] for line in ALL}
    assert set(commands.commands()) <= typed


@pytest.mark.parametrize("line", ALL)
def test_no_command_opens_a_connection(line: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("socket", "create_connection", "getaddrinfo", "gethostbyname", "gethostname"):
        monkeypatch.setattr(socket, name, refused)
    with fenced(folder):
        code = commands.run(shlex.split(line))
    told = line.startswith(("pictures test", "clips test"))  # that something is to be mended is an answer too
    assert code == 0 or (told and code == 1)


@pytest.mark.skipif(shutil.which("unshare") is None, reason="util-linux is needed for a process without network")
def test_a_lesson_without_any_network(folder: Path) -> None:
    alone = ["unshare", "--net"]
    if subprocess.run([*alone, "true"], check=False, capture_output=True).returncode:
        pytest.skip("a process without network is not allowed here")
    code = "from cardgen.cli import main; main()"
    run = subprocess.run(
        [*alone, sys.executable, "-c", code, "lesson", "m", "s", "--class", "2"],
        cwd=folder, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    assert (folder / "lesson-m-s" / "contents.json").is_file()
