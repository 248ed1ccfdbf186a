from pathlib import Path

import pytest

from cardgen.cli import main


@pytest.fixture(autouse=True)
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*args: str) -> int:
    with pytest.raises(SystemExit) as left:
        main(["ruler", *args])
    return int(left.value.code or 0)


def test_it_needs_no_sounds_and_is_the_same_every_time(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run() == 0
    assert "both sides" in capsys.readouterr().out
    assert [path.name for path in tmp_path.iterdir()] == ["ruler.pdf"]
    assert run("--out", "again.pdf") == 0
    assert Path("again.pdf").read_bytes() == Path("ruler.pdf").read_bytes()


def test_preview_shows_both_pages(tmp_path: Path) -> None:
    assert run("--paper", "Letter", "--ink", "gray", "--out", "test.pdf", "--preview") == 0
    assert {"test.pdf", "test-p01.png", "test-p02.png"} <= {path.name for path in tmp_path.iterdir()}


@pytest.mark.parametrize(
    "typed", ["m", "m s", "--seed 3", "--cut scissors", "--review m", "--only 1", "--paper a3", "--ink red"]
)
def test_there_is_nothing_else_to_set(typed: str, tmp_path: Path) -> None:
    assert run(*typed.split()) == 2
    assert list(tmp_path.iterdir()) == []


def test_a_wrong_name_is_refused_in_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("--out", "ruler.docx") == 1
    assert "does not end in .pdf" in capsys.readouterr().err
    assert run("--out", "nowhere/ruler.pdf") == 1
    assert "no folder nowhere" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []
