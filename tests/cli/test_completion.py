"""What the Tab key completes, through the same classes of click that the shells ask."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.shell_completion import BashComplete, CompletionItem, ShellComplete, get_completion_class

from cardgen import names
from cardgen.cli import COMMANDS, main, overview
from cardgen.sources import layouts
from cardgen.sources.bank_file import read_sounds

ROOT = Path(__file__).parent.parent.parent


def items(typed: str) -> list[CompletionItem]:
    """What is offered for the last word of a line, "cardgen" left out; a space at its end begins a new word."""
    *before, last = typed.split(" ")
    return ShellComplete(overview, {}, "cardgen", "_CARDGEN_COMPLETE").get_completions(before, last)


def offered(typed: str) -> list[str]:
    return [item.value for item in items(typed)]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_commands() -> None:
    assert offered("") == list(COMMANDS)
    assert offered("bi") == ["bingo"]
    assert items("bi")[0].help == COMMANDS["bingo"][1]
    assert offered("clips ") == ["list", "name", "test", "pages"]
    assert offered("pictures t") == ["test"]
    assert "--version" in offered("--")


def test_options_and_choices() -> None:
    assert offered("bingo m --bo") == ["--boards"]
    assert offered("bingo m --ink ") == ["colour", "grey", "line"]
    assert offered("bingo m --paper l") == ["letter"]
    assert offered("completion z") == ["zsh"]


def test_sounds() -> None:
    assert offered("bingo ") == list(names.sounds())
    assert offered("bingo sh m long-") == [key for key in names.sounds() if key.startswith("long-")]
    assert "m" not in offered("bingo m ")
    assert items("trace m")[0].help == "mmm"
    assert "sh" in offered("words s")
    assert "g" in offered("word giraffe --for ")


def test_sounds_of_a_list() -> None:
    assert offered("bingo m s --review q") == ["qu"]
    assert "t,p" in offered("bingo m s --review t,")
    assert "t,t" not in offered("bingo m s --review t,")


def test_layouts_and_files_of_her_own(folder: Path) -> None:
    (folder / "bingo mine.toml").touch()
    (folder / "other.txt").touch()
    (folder / "own").mkdir()
    (folder / "own" / "Übung.toml").touch()
    assert offered("bingo m --layout bingo") == ["bingo-half", "bingo-page", "bingo-quarter", "bingo mine.toml"]
    assert offered("layouts own/") == ["own/Übung.toml"]
    assert offered("cards m --layout nowhere/") == []
    assert offered(f"cards m --layout {folder}/own/") == [f"{folder}/own/Übung.toml"]
    assert offered("lesson bingo") == ["bingo mine.toml"]


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("bingo m --pictures ", "dir"),
        ("bingo m --out ", "file"),
        ("bingo m --plan ", "file"),
        ("clips test ", "dir"),
        ("pictures test ", "dir"),
        ("lesson m --out ", "dir"),
    ],
)
def test_the_shell_itself_completes_paths(typed: str, kind: str) -> None:
    assert [item.type for item in items(typed)] == [kind]


def test_the_names_are_those_of_the_rooms() -> None:
    assert list(names.sounds()) == [sound.key for sound in read_sounds().sounds]
    assert names.layouts() == layouts.names()


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_script_asks_us_in_the_way_of_click(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["completion", shell])
    assert not left.value.code
    script = capsys.readouterr().out
    assert f"_CARDGEN_COMPLETE={shell}_complete" in script
    kind = get_completion_class(shell)
    assert kind is not None
    assert (
        script.strip()
        == (kind.source_template % kind(overview, {}, "cardgen", "_CARDGEN_COMPLETE").source_vars()).strip()
    )


def asked(words: str, number: int) -> tuple[list[str], set[str]]:
    """What a shell is told by the program itself, and the packages that were loaded for it."""
    code = (
        "import sys, atexit\n"
        "atexit.register(lambda: print('|'.join(sorted(sys.modules)), file=sys.stderr))\n"
        "from cardgen.cli import main; main()"
    )
    environment = {"_CARDGEN_COMPLETE": "bash_complete", "COMP_WORDS": words, "COMP_CWORD": str(number)}
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
        check=False,
    )
    return done.stdout.split(), set(done.stderr.strip().splitlines()[-1].split("|"))


@pytest.mark.parametrize(
    ("words", "number", "told"),
    [
        ("cardgen ruu", 1, []),
        ("cardgen ru", 1, ["plain,ruler"]),
        ("cardgen bingo sh", 2, ["plain,sh"]),
        ("cardgen pack m --layout week", 4, ["plain,week-deck"]),
        ("cardgen lesson qu", 2, ["plain,qu"]),
        ("cardgen clips list qu", 3, ["plain,qu"]),
    ],
)
def test_nothing_that_writes_is_loaded_for_it(words: str, number: int, told: list[str]) -> None:
    offered, loaded = asked(words, number)
    assert offered == told
    assert not loaded & {"reportlab", "pikepdf", "pypdfium2", "zxingcpp", "qrcode", "cardgen.build", "cardgen.paper"}
    if words.startswith("cardgen bingo"):
        assert not loaded & {"PIL", "fontTools", "cardgen.ask"}


def test_bash_runs_the_script(tmp_path: Path) -> None:
    program = tmp_path / "cardgen"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -c "from cardgen.cli import main; main()" "$@"\n')
    program.chmod(0o755)
    script = BashComplete(overview, {}, "cardgen", "_CARDGEN_COMPLETE")
    source = script.source_template % script.source_vars()
    ask = 'COMP_WORDS=(cardgen bingo qu); COMP_CWORD=2; _cardgen_completion cardgen; echo "${COMPREPLY[@]}"'
    done = subprocess.run(
        ["bash", "--norc", "-c", f"{source}\n{ask}"],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PATH": f"{tmp_path}:{os.environ['PATH']}"},
        check=False,
    )
    assert done.stdout.split() == ["qu"], done.stderr
