"""Hostile command lines: every option of every command, as the commands themselves tell them, with nasty values."""

import io
import shlex
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from functools import cache
from pathlib import Path
from random import Random

import click

from cardgen.cli import COMMANDS, load, main
from tests.hostile import corpus, nasty
from tests.hostile.watch import Trial
from tests.sources import own_samples

# What a command needs besides options; for all others, sounds.
ARGUMENTS = {"word": "WORD", "words": "KEYS", "layouts": "", "demo": "", "ruler": "", "pictures test": "PICTURES",
             "clips name": "SOUNDS KEYS", "clips test": "SOUNDS KEYS", "clips pages": "SOUNDS KEYS"}  # fmt: skip
NEEDED = {"clips name": ["--in-order", "--yes"], "clips pages": ["--out", "site"]}
FILES = {"pictures": "pictures", "clips": "sounds", "links": "links.csv", "layout": "mine.toml", "font": "mine.ttf"}
LONGEST_MESSAGE = 2000


@cache
def commands() -> dict[str, click.Command]:
    """Return every command by what is typed for it."""
    found: dict[str, click.Command] = {}
    for name in COMMANDS:
        command = load(name)
        inner = command.commands if isinstance(command, click.Group) else {"": command}
        found |= {f"{name} {part}".strip(): one for part, one in inner.items()}
    return found


def options() -> Iterator[tuple[str, click.Option]]:
    """Yield every option of every command."""
    for name, command in commands().items():
        for param in command.params:
            if isinstance(param, click.Option):
                yield name, param


def furnish(folder: Path) -> None:
    """Put valid files into a folder, for options that want one."""
    own_samples.folder(folder / "pictures", moon_svg=corpus.SVG[0], mum_png=corpus.pictures()[".png"][0])
    (folder / "sounds").mkdir(exist_ok=True)
    (folder / "sounds" / "sn-m-moon.wav").write_bytes(corpus.recordings()[".wav"])
    (folder / "links.csv").write_text(corpus.LINKS.replace(";", ","), "utf-8")
    (folder / "mine.toml").write_text(corpus.LAYOUTS[0], "utf-8")
    (folder / "mine.ttf").write_bytes(corpus.font())
    (folder / "week.toml").write_text(corpus.LESSON, "utf-8")


def command_line(rng: Random, _folder: Path) -> Trial:
    """A command with one to four options whose values are seldom right."""
    name = rng.choice([name for name in commands() if name != "demo" or rng.random() < 0.1])
    args = [*name.split(), *NEEDED.get(name, [])]
    choices = [param for param in commands()[name].params if isinstance(param, click.Option)]
    dry = any(param.name == "dry_run" for param in choices) and rng.random() < 0.9
    for place, option in enumerate(rng.sample(choices, min(len(choices), rng.choice((1, 2, 3, 5))))):
        args += _option(option, rng, nasty_share=1.0 if place == 0 else 0.1)
    if dry:
        args.append("--dry-run")
    what = ARGUMENTS.get(name, "KEYS")
    for part in what.split():
        args += _argument(part, rng)
    return Trial(f"$ {name}", shlex.join(args)[:300], lambda: run(args))


def _option(option: click.Option, rng: Random, nasty_share: float) -> list[str]:
    name = rng.choice([*option.opts, *option.secondary_opts])
    if option.is_flag:
        return [name]
    value = _value(option, rng) if rng.random() < nasty_share else _good(option, rng)
    return [f"{name}={value}" if name.startswith("--") else f"{name}{value}"]


def _good(option: click.Option, rng: Random) -> str:
    """Return a value that may well be right."""
    if isinstance(option.type, click.Choice):
        return str(rng.choice(option.type.choices))
    if option.name in FILES:
        return FILES[option.name]
    good = {"out": "out.pdf", "sheet": "out.pdf", "plan": "plan.json", "review": "t", "grid": "3x3", "avoid": "moon",
            "back_shift": "1,-1", "link": "https://clips.example.org/a", "csv": "a.csv", "first_win": "5"}  # fmt: skip
    return good.get(option.name or "", str(rng.randint(1, 9)))


def _value(option: click.Option, rng: Random) -> str:
    if isinstance(option.type, click.Choice):
        return str(rng.choice(option.type.choices)) if rng.random() < 0.5 else nasty.text(rng)
    if option.type in (click.INT, click.FLOAT):
        return nasty.number(rng)
    if option.name in FILES and rng.random() < 0.4:
        return rng.choice(("", "./", "../out/")) + FILES[option.name]
    kind = rng.random()
    if kind < 0.3:
        return rng.choice(nasty.PAIRS)
    suffix = Path(option.metavar or "").suffix if rng.random() < 0.4 else ""
    return nasty.number(rng) if kind < 0.4 else nasty.text(rng) + suffix


def _argument(part: str, rng: Random) -> list[str]:
    if rng.random() < 0.15:
        return [nasty.text(rng)]
    match part:
        case "KEYS":
            return rng.choice(
                (["m"], ["m", "s"], ["m", "s", "t", "b"], ["a", "long-i"], ["sh", "ch"], ["week.toml"], ["m"] * 2)
            )
        case "WORD":
            return [rng.choice(("moon", "giraffe", "ice-cream"))]
        case "PICTURES":
            return ["pictures"]
    return ["sounds"]


class WrongEndError(Exception):
    """A command left in a way that it must not."""


def run(args: list[str]) -> int:
    """Return the code with which a command line leaves; WrongEndError for what must not be."""
    with _terminal() as (out, err):
        try:
            main(args)
        except SystemExit as left:
            code = left.code
    said, told = (stream.buffer.getvalue().decode("utf-8", "replace") for stream in (out, err))  # type: ignore[attr-defined]
    if code not in (0, 1, 2):
        raise WrongEndError(f"leaves with {code!r}")
    if code and not told and not said:
        raise WrongEndError("says nothing")
    if any(not letter.isprintable() and letter not in "\n\u00a0" for letter in told):
        raise WrongEndError(f"prints what moves the cursor: {told!r:.150}")
    if len(told) > LONGEST_MESSAGE:
        raise WrongEndError(f"says {len(told)} letters: {told[:60]!r}")
    if code == 1 and told and not told.startswith("Error: "):
        raise WrongEndError(f"no sentence: {told!r:.150}")
    return int(code)


@contextmanager
def _terminal() -> Iterator[tuple[io.TextIOWrapper, io.TextIOWrapper]]:
    """Yield streams for output and errors that are as strict as those of a terminal; there is nothing to read."""
    out = io.TextIOWrapper(io.BytesIO(), "utf-8", "strict", write_through=True)
    err = io.TextIOWrapper(io.BytesIO(), "utf-8", "backslashreplace", write_through=True)
    old, sys.stdin = sys.stdin, io.StringIO()
    try:
        with redirect_stdout(out), redirect_stderr(err):
            yield out, err
    finally:
        sys.stdin = old
