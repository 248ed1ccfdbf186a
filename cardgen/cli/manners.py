"""How the command line speaks: options under headings, the nearest right word, colour only where it is seen."""

import io
import os
import re
import sys
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

import click

# Where an option stands in the help of every command that has it; the first heading takes all that are not named here.
OWN = "What is on it"
HEADINGS: dict[str, tuple[str, ...]] = {
    OWN: (),
    "Words": (
        "--review", "--careful", "--prefer", "--avoid", "--accent", "--home-language", "--pictures", "--open-pictures",
    ),
    "Codes to hear your voice": ("--link", "--links", "--codes", "--clips", "--codes-anyway"),
    "Paper and cutting": (
        "--paper", "--ink", "--font", "--layout", "--cut", "--cut-line", "--punch", "--sets", "--backs", "--back-shift",
        "--margin", "--gap", "--laminate",
    ),
    "The same again": ("--seed", "--only"),
    "Output": (
        "--out", "--split", "--sheet", "--csv", "--plan", "--preview", "--dry-run", "--json", "--yes",
        "--quiet-warnings", "--quiet", "--version", "--help",
    ),
}  # fmt: skip
LONGEST = 1500  # letters of one sentence on the screen
_SPACES = "\n\u00a0\u2009\u202f"
WIDEST = 30  # columns of the options, before what is said of them
_QUIET = "cardgen.quiet"


def did_you_mean(typed: str, there: Iterable[str]) -> str:
    """Return `Did you mean …?` with the nearest right word, empty if none is near."""
    from difflib import get_close_matches

    near = get_close_matches(typed.lower(), list(there), 1)
    return f"Did you mean {near[0]}?" if near else ""


def wrong(kind: str, typed: str, there: Sequence[str], ctx: click.Context | None) -> click.UsageError:
    """Return the error for an option or command that does not exist, with the nearest that does."""
    return click.UsageError(f'There is no {kind} "{typed}". {did_you_mean(typed, there)}'.rstrip(), ctx)


class Spelled(click.Choice[str]):
    """A choice that minds neither capitals nor the other side's spelling of colour and grey."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return the choice as we spell it; a wrong one is answered with the nearest."""
        typed = str(value).lower()
        typed = {"color": "colour", "gray": "grey"}.get(typed, typed)
        if typed not in self.choices:
            near = f"{did_you_mean(typed, self.choices)} ".lstrip()
            self.fail(f'there is no "{value}". {near}There are {", ".join(self.choices)}.', param, ctx)
        return typed


class Command(click.Command):
    """A command with its options under headings; a wrong option is answered with the nearest right one."""

    def get_help_option_names(self, ctx: click.Context) -> list[str]:
        """Return the options that help, whether the command was typed or stands in a lesson."""
        return ["-h", "--help"]

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Return what is left of the words once they are read; UsageError for an option that is wrong."""
        options = {name: param for param in self.get_params(ctx) for name in (*param.opts, *param.secondary_opts)}
        for option, value in pairwise(args):
            takes = isinstance(param := options.get(option), click.Option) and not param.is_flag and not param.count
            if takes and value in options and value.startswith("-"):
                raise click.UsageError(f'The option "{option}" needs a value, and "{value}" follows.', ctx)
        try:
            return super().parse_args(ctx, args)
        except click.NoSuchOption as error:
            there = [name for name in options if name.startswith("--")]
            raise wrong("option", error.option_name, there, ctx) from error

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the options under their headings, all in the same columns."""
        rows: dict[str, list[tuple[str, str]]] = {heading: [] for heading in HEADINGS}
        for param in self.get_params(ctx):
            if isinstance(param, click.Option) and (record := param.get_help_record(ctx)):
                rows[heading_of(param)].append(record)
        names = [name for section in rows.values() for name, _ in section]
        wide = max((len(name) for name in names if len(name) <= WIDEST), default=0)
        filled = {heading: section for heading, section in rows.items() if section}
        for heading, section in filled.items():
            with formatter.section(heading if len(filled) > 1 else "Options"):
                formatter.write_dl([(name.ljust(wide), text) for name, text in section], col_max=wide)


class Group(Command, click.Group):
    """A command with commands of its own; alone it helps, and a wrong one is answered with the nearest right one."""

    command_class = Command

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order of use."""
        return list(self.commands)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Return what is left of the words; with none the help is shown."""
        return super().parse_args(ctx, args or ["--help"])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that was typed, and what follows it; UsageError if there is none of that name."""
        there = self.list_commands(ctx)
        if args[0] not in there:
            raise wrong("command", args[0], there, ctx)
        return super().resolve_command(ctx, args)

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the commands, then the options."""
        self.format_commands(ctx, formatter)
        super().format_options(ctx, formatter)


def heading_of(param: click.Parameter) -> str:
    """Return the heading under which an option stands."""
    return next((heading for heading, names in HEADINGS.items() if set(names) & set(param.opts)), OWN)


def quiet_option(command: Any) -> Any:
    """Add --quiet, which the command need not know of: what it would `tell` is left unsaid."""

    def keep(ctx: click.Context, _: click.Parameter, value: bool) -> None:
        ctx.meta[_QUIET] = value

    return click.option(
        "-q", "--quiet", is_flag=True, expose_value=False, callback=keep, help="Say nothing but errors, for scripts."
    )(command)


def is_quiet() -> bool:
    """Return whether the command that runs was told to be quiet."""
    context = click.get_current_context(silent=True)
    return context is not None and bool(context.meta.get(_QUIET))


def plain(text: str) -> str:
    """Return a text that a screen shows as it is: what would move its cursor becomes "?", what has no end is cut."""
    seen = "".join(letter if letter.isprintable() or letter in _SPACES else "?" for letter in text)
    return seen if len(seen) <= LONGEST else f"{seen[: LONGEST // 2]} … {seen[-LONGEST // 2 :]}"


def tell(text: object) -> None:
    """Say something on the screen, unless the command is to be quiet."""
    if not is_quiet():
        click.echo(text)


def look_out(text: str) -> None:
    """Say a warning: "Look out:" goes before it, in yellow on a terminal."""
    if not is_quiet():
        click.echo(f"{click.style('Look out:', fg='yellow')} {plain(text)}", color=_colour())


def say_error(message: str, hint: str = "") -> None:
    """Say on the error stream what is wrong: "Error:" goes before it, in bold red on a terminal; then the hint."""
    click.echo(f"{click.style('Error:', fg='red', bold=True)} {plain(message)}", err=True, color=_colour())
    if hint:
        click.echo(plain(hint), err=True)


def say_usage_error(error: click.ClickException) -> None:
    """Say how a command is typed, with its first example, where its help is, and last what was wrong."""
    context = error.ctx if isinstance(error, click.UsageError) else None
    if context is not None:
        example = re.search(r"Examples?:\s+(cardgen .*)", context.command.epilog or "")
        lines = [context.get_usage(), *([f"Example: {example[1]}"] if example else [])]
        click.echo("\n".join((*lines, f"Help: {context.command_path} --help", "")), err=True)
    say_error(error.format_message())


def spare_signs() -> None:
    """Let a screen or pipe that cannot show a sign (×, …) show a question mark, instead of ending in an error."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper) and stream.errors == "strict":
            stream.reconfigure(errors="replace")


def _colour() -> bool | None:
    """Return False where colour is not wanted (no-color.org), None to let the terminal decide: pipes get none."""
    return False if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb" else None
