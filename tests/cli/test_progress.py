"""The bar of a long print, on a terminal that is only made up, by a clock that is set by hand."""

import sys
from collections.abc import Iterator
from io import StringIO
from pathlib import Path

import pytest

from cardgen.cli.progress import progress_bar
from cardgen.errors import TeacherError


class Terminal(StringIO):
    def isatty(self) -> bool:
        return True


def drawn(monkeypatch: pytest.MonkeyPatch, stream: StringIO, *times: float, total: int = 4) -> str:
    """What is on the stream when a page was done at each of some times."""
    monkeypatch.setattr(sys, "stderr", stream)
    clock: Iterator[float] = iter([times[0], *times])  # read once more, at the first page
    with progress_bar(lambda: next(clock)) as progress:
        for done, _ in enumerate(times, 1):
            progress(done, total)
    return stream.getvalue()


def test_a_long_print_shows_how_far_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    shown = drawn(monkeypatch, Terminal(), 10.0, 10.5, 11.2, 11.4)
    assert "Printing" in shown
    assert " 75%" in shown
    assert "100%" in shown
    assert " 50%" not in shown  # not begun in the first second
    assert "\n" in shown.split("100%")[-1]


def test_a_short_print_shows_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert drawn(monkeypatch, Terminal(), 10.0, 10.2, 10.9, 11.0) == ""


def test_nothing_is_drawn_where_nobody_looks(monkeypatch: pytest.MonkeyPatch) -> None:
    assert drawn(monkeypatch, StringIO(), 10.0, 20.0, 30.0, 40.0) == ""


def test_an_error_begins_on_a_line_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    clock = iter([0.0, 0.0, 5.0])

    def fail() -> None:
        with progress_bar(lambda: next(clock)) as progress:
            progress(1, 4)
            progress(2, 4)
            raise TeacherError("There is no room left on the disk.", "Make room.")

    with pytest.raises(TeacherError):
        fail()
    assert "\n" in terminal.getvalue().split("50%")[-1]


def test_commands_tell_the_bar_how_far_they_are(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    from cardgen.cli import main

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("cardgen.cli.progress.PATIENCE", -1.0)
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    with pytest.raises(SystemExit) as end:
        main(["ruler", "--out", "ruler.pdf"])
    assert not end.value.code
    assert "100%" in terminal.getvalue()
