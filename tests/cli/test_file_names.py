"""Names that Windows cannot hold are refused when they are typed, and never made by us."""

import ntpath
import sys
import warnings
from pathlib import Path, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.cli import main
from cardgen.cli.file_names import RESERVED, checked, is_reserved, joined
from cardgen.errors import TeacherError


def reserved_by_python(path: str) -> bool:
    """What Python's own Windows paths say, in the way of its version."""
    if sys.version_info >= (3, 13):
        return bool(ntpath.isreserved(path))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return any(PureWindowsPath(part).is_reserved() for part in PureWindowsPath(path).parts)


@pytest.mark.parametrize(
    "path", [*sorted(RESERVED), "nul.pdf", "con.tar.gz", "Aux .pdf", "a/nul.pdf", r"C:\sheets\COM1.pdf"]
)
def test_reserved_names_are_those_that_python_knows(path: str) -> None:
    assert is_reserved(path)
    assert reserved_by_python(path)


@pytest.mark.parametrize(
    "path",
    [
        "bingo-m-s.pdf",
        "console.pdf",
        "nul-m.pdf",
        "com.pdf",
        "COM10.pdf",
        r"C:\Users\é è\a.pdf",
        "//server/share/a.pdf",
    ],
)
def test_other_names_are_free(path: str) -> None:
    assert not is_reserved(path)
    assert not reserved_by_python(path)
    assert checked(path) == path


@pytest.mark.parametrize(
    "typed",
    [
        "bingo m s --out nul.pdf",
        "bingo m s --out a/CON.pdf",
        r"bingo m s --out C:\sheets\aux.pdf",
        "bingo m s --plan prn.json",
        "ruler --out com1.pdf",
        "lesson m s --out lpt1",
        "demo --out con",
        "clips list m s --csv nul.csv",
    ],
)
def test_they_are_refused_with_a_sentence(
    typed: str, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as left:
        main(typed.split())
    assert left.value.code == 1
    assert "Windows keeps it for itself." in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_the_error_says_what_to_do() -> None:
    with pytest.raises(TeacherError) as caught:
        checked("NUL")
    assert caught.value.hint == "Choose another name."


@given(st.lists(st.text(max_size=12), min_size=1, max_size=4))
def test_what_we_make_can_be_held_anywhere(words: list[str]) -> None:
    name = joined(*words)
    assert not set('<>:"/\\|?*') & set(name)
    assert not any(ord(sign) < 32 for sign in name)
    assert not name.endswith((".", " "))
    assert not is_reserved(name)
    if name:
        assert not reserved_by_python(f"{name}.pdf")


def test_usual_names_stay_as_they_are() -> None:
    assert joined("bingo", "m", "long-i", "only", "m-moon") == "bingo-m-long-i-only-m-moon"
    assert joined("cards", "only", "w-what?") == "cards-only-w-what_"
    assert joined("con") == "_con"
    assert joined("cards", "etc. .") == "cards-etc"
