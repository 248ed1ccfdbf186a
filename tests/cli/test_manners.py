"""How the command line speaks: help under headings, the nearest right word, colour, quiet, and how it leaves."""

import os
import pty
import re
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import click
import pytest

from cardgen.cli import COMMANDS, DAY, load, main, overview
from cardgen.cli.manners import HEADINGS, Command, Spelled, did_you_mean

ESCAPE = "\x1b["
RUN = [sys.executable, "-c", "from cardgen.cli import main; main()"]
ROOT = Path(__file__).parent.parent.parent


def leaves(capsys: pytest.CaptureFixture[str], *args: str) -> tuple[int, str, str]:
    """The exit code, and what was said on both streams."""
    with pytest.raises(SystemExit) as left:
        main(list(args))
    said = capsys.readouterr()
    return int(left.value.code or 0), said.out, said.err


def every_command() -> Iterator[tuple[str, click.Command]]:
    for name in COMMANDS:
        command = load(name)
        yield name, command
        if isinstance(command, click.Group):
            yield from ((f"{name} {inner}", sub) for inner, sub in command.commands.items())


def environment(**more: str) -> dict[str, str]:
    plain = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "TERM")}
    return {**plain, "PYTHONPATH": str(ROOT), "TERM": "xterm", **more}


def on_a_terminal(args: Sequence[str], **more: str) -> str:
    """What a command writes when both its streams are a terminal."""
    reader, terminal = pty.openpty()
    with subprocess.Popen([*RUN, *args], stdout=terminal, stderr=terminal, env=environment(**more)) as process:
        os.close(terminal)
        written = b""
        while True:
            try:
                part = os.read(reader, 4096)
            except OSError:  # Linux: the other end is closed
                break
            if not part:
                break
            written += part
        process.wait(60)
    os.close(reader)
    return written.decode("utf-8")


# Help


def test_the_day_holds_every_command_once() -> None:
    assert sorted(name for names in DAY.values() for name in names) == sorted(COMMANDS)


@pytest.mark.parametrize(("name", "command"), list(every_command()), ids=[name for name, _ in every_command()])
def test_every_command_has_an_example_headings_and_a_word_on_every_option(name: str, command: click.Command) -> None:
    assert isinstance(command, Command)
    assert re.search(rf"Examples?:.*cardgen {name}\b", command.epilog or "", re.DOTALL)
    options = [param for param in command.params if isinstance(param, click.Option)]
    assert all(option.help for option in options), [option.name for option in options if not option.help]
    assert not any(type(option.type) is click.Choice for option in options), "use Spelled: it knows the nearest word"


def test_the_headings_stand_in_one_order_and_hold_every_option_once(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = leaves(capsys, "cards", "--help")
    shown = [heading for heading in HEADINGS if f"\n{heading}:\n" in out]
    assert shown == list(HEADINGS)
    assert [out.index(f"\n{heading}:") for heading in shown] == sorted(out.index(f"\n{heading}:") for heading in shown)
    for option in (param for param in load("cards").params if isinstance(param, click.Option)):
        assert len(re.findall(rf"^  (-., )?{option.opts[-1]}(?![\w-])", out, re.MULTILINE)) == 1, option.name
    columns = {
        len(row) - len(row.split("  ", 2)[-1].lstrip()) for row in re.findall(r"^  --.*\w  +\S.*", out, re.MULTILINE)
    }
    assert len(columns) == 1, "what is said of the options stands in one column"
    assert out.index("--paper") > out.index("Paper and cutting:")
    assert out.index("--words") < out.index("\nWords:")


def test_headings_name_no_option_twice_or_in_vain() -> None:
    named = [option for options in HEADINGS.values() for option in options]
    assert len(named) == len(set(named))
    there = {option for _, command in every_command() for param in command.params for option in param.opts}
    assert set(named) - there <= {"--help", "--version"}


@pytest.mark.parametrize("words", [(), ("clips",), ("pictures",)])
def test_a_command_that_only_holds_others_helps(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = leaves(capsys, *words)
    assert (code, err) == (0, "")
    assert out.startswith("Usage: cardgen")


def test_help_is_the_same_after_a_lesson_made_the_command(capsys: pytest.CaptureFixture[str]) -> None:
    leaves(capsys, "lesson", "m", "s", "--class", "2", "--dry-run")
    assert "-h, --help" in leaves(capsys, "sort", "-h")[1]


# The nearest right word


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("bingoo m s", 'There is no command "bingoo". Did you mean bingo?'),
        ("clips lst", 'There is no command "lst". Did you mean list?'),
        ("bingo m s --boads 3", 'There is no option "--boads". Did you mean --boards?'),
        ("word moon --fro m", 'There is no option "--fro". Did you mean --for?'),
        ("--versoin", "Did you mean --version?"),
        ("bingo m s --ink colr", "Did you mean colour? There are colour, grey, line."),
        ("bingo m s --ink xyz", 'there is no "xyz". There are colour, grey, line.'),
        ("match m s --form halfs", "Did you mean halves?"),
        ("ruler --paper lettre", "Did you mean letter?"),
        ("bingo m s --out --preview", 'The option "--out" needs a value, and "--preview" follows.'),
        ("xyzzy", 'There is no command "xyzzy".'),
        ("completion bsh", "Did you mean bash?"),
    ],
)
def test_wrong_usage_is_answered_with_the_nearest(typed: str, told: str, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = leaves(capsys, *typed.split())
    assert (code, out) == (2, "")
    assert err.rstrip().splitlines()[-1].startswith("Error: ")
    assert told in err
    assert "--help" in err


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("bingo sz", "Did you mean z"),
        ("words sz", "Did you mean z"),
        ("bingo m s --layout bingo-haf", "Did you mean bingo-half?"),
        ("bingo m s --prefer mooon", "Did you mean moon?"),
        ("bingo m s --show pictur", "Did you mean picture?"),
        ("check m s --parts hear-leter", "Did you mean hear-letter?"),
    ],
)
def test_a_wrong_name_is_answered_with_the_nearest(typed: str, told: str, capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = leaves(capsys, *typed.split())
    assert code == 1
    assert told in err


def test_wrong_usage_shows_how_it_is_done(capsys: pytest.CaptureFixture[str]) -> None:
    _, _, err = leaves(capsys, "bingo")
    assert err.startswith("Usage: cardgen bingo")
    assert "Example: cardgen bingo m s t b" in err


def test_nothing_near_is_no_guess() -> None:
    assert did_you_mean("xyz", ["colour", "grey"]) == ""
    assert did_you_mean("COLOR", ["colour", "grey"]) == "Did you mean colour?"


def test_capitals_and_the_other_spelling_are_understood() -> None:
    inks = Spelled(["colour", "grey", "line"])
    assert [inks.convert(typed, None, None) for typed in ("Color", "GRAY", "line")] == ["colour", "grey", "line"]


# Colour


def test_on_a_terminal_errors_and_warnings_have_a_colour() -> None:
    assert f"{ESCAPE}31m{ESCAPE}1mError:{ESCAPE}0m There is no sound" in on_a_terminal(["bingo", "zz"])
    assert f"{ESCAPE}33mLook out:{ESCAPE}0m" in on_a_terminal(["bingo", "b", "d", "--dry-run"])


@pytest.mark.parametrize("more", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_colour_can_be_refused(more: Mapping[str, str]) -> None:
    shown = on_a_terminal(["bingo", "zz"], **more)
    assert shown.startswith("Error: There is no sound")
    assert ESCAPE not in shown


def test_pipes_get_no_escape_codes() -> None:
    for args in (["bingo", "zz"], ["bingo", "b", "d", "--dry-run"], ["bingo", "--help"], ["bingoo"]):
        done = subprocess.run([*RUN, *args], capture_output=True, text=True, env=environment(), check=False)
        assert done.stdout + done.stderr
        assert "\x1b" not in done.stdout + done.stderr


def test_a_screen_without_a_sign_gets_a_question_mark() -> None:
    # Code page 437 of older Windows screens has no × for "3 × 3".
    done = subprocess.run(
        [*RUN, "bingo", "b", "d", "--dry-run"], capture_output=True, env=environment(PYTHONIOENCODING="cp437")
    )
    assert done.returncode == 0, done.stderr
    assert b"3 ? 3" in done.stdout


# Quiet


def test_quiet_says_nothing_but_errors(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert leaves(capsys, "bingo", "b", "d", "--boards", "2", "--quiet", "--out", "a.pdf") == (0, "", "")
    assert Path("a.pdf").is_file()
    assert leaves(capsys, "ruler", "-q") == (0, "", "")
    code, out, err = leaves(capsys, "bingo", "zz", "--quiet")
    assert (code, out) == (1, "")
    assert err.startswith("Error: ")


def test_quiet_warnings_still_says_what_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    _, loud, _ = leaves(capsys, "bingo", "b", "d", "--dry-run", "--seed", "1")
    _, calm, _ = leaves(capsys, "bingo", "b", "d", "--dry-run", "--seed", "1", "--quiet-warnings")
    assert "Look out:" in loud
    assert calm == "".join(line for line in loud.splitlines(keepends=True) if not line.startswith("Look out:"))


def test_a_lesson_is_quiet_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert leaves(capsys, "lesson", "m", "s", "--class", "2", "--dry-run", "--quiet") == (0, "", "")


# How it leaves


def test_interrupted_leaves_with_130(tmp_path: Path) -> None:
    code = (
        "import os, signal, cardgen.build\nfrom cardgen.cli import main\n"
        "cardgen.build.prove = None\n"
        "def stop(*_, **__): os.kill(os.getpid(), signal.SIGINT)\n"
        "cardgen.build.build = stop\n"
        "main(['bingo', 'm', 's'])"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=tmp_path, env=environment(), capture_output=True, text=True)
    assert done.returncode == 128 + signal.SIGINT == 130
    assert "Stopped." in done.stderr
    assert "Traceback" not in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_reader_who_has_enough_gets_no_traceback() -> None:
    reader, writer = os.pipe()
    os.close(reader)
    with subprocess.Popen([*RUN, "sounds"], stdout=writer, stderr=subprocess.PIPE, env=environment()) as process:
        os.close(writer)
        assert process.communicate(timeout=60)[1] == b""
    assert process.returncode == 1


def test_a_bug_is_not_hidden(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(overview, "get_command", broken)
    with pytest.raises(ZeroDivisionError):
        main(["bingo"])


def test_the_overview_starts_about_as_fast_as_click() -> None:
    # Counted in modules, not seconds: a busy machine must not fail it.
    def modules(code: str) -> int:
        shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=environment())
        return int(shown.stdout.split()[-1])

    shown = "\nexcept SystemExit: print(len(sys.modules))"
    bare = "@click.group()\ndef group(): pass\n@group.command()\ndef one(): pass\ntry: group(['--help'])"
    ours = modules(f"import sys\nfrom cardgen.cli import main\ntry: main(['--help']){shown}")
    assert ours <= modules(f"import sys, click\n{bare}{shown}") + 6
