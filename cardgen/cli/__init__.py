"""The command line: the only room that prints. Each command's module is loaded when it is called, not before."""

import sys
from collections.abc import Mapping, Sequence
from importlib import import_module
from typing import TYPE_CHECKING, Any

import click

from cardgen import __version__
from cardgen.cli.manners import Group, say_error, say_usage_error, spare_signs
from cardgen.errors import TeacherError

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

# Command, the module below cardgen.cli that holds it, and its line in the overview. The order is the teacher's day.
COMMANDS: dict[str, tuple[str, str]] = {
    "sounds": ("words", "Every sound: its letter, how many picture words it has."),
    "words": ("words", "The picture words for some sounds, with what to look out for."),
    "word": ("words", "The first sound of any words, and whether they suit a sound."),
    "bingo": ("bingo", "Fair bingo boards, caller's list, calling cards, teacher's page."),
    "match": ("match", "Pairs of letters, pictures, words: cards, halves, pages to draw lines on."),
    "sort": ("sort", "Sorting mats, cards to sort by first sound, and the answers."),
    "trace": ("trace", "Writing sheets: letters to trace and to write, one sheet a sound."),
    "lesson": ("lesson", "A whole week in one folder, from a few sounds or a lesson file."),
    "cards": ("cards", "Flashcards: letter cards and picture cards, fronts and backs."),
    "check": ("check", "Quick checks: half a sheet a child, your script, the answers, a class grid."),
    "pack": ("pack", "Take-home packs: one sheet, one child, with your voice behind a code."),
    "layouts": ("layouts", "Formats of cards and boards, and how many go on a sheet."),
    "pictures": ("pictures", "Your own pictures: `pictures test FOLDER` looks them through."),
    "clips": ("clips", "Your voice: what to record, names for the files, a test, pages to listen to."),
    "ruler": ("ruler", "A test sheet for the printer: true size, margins, backs on fronts."),
    "demo": ("demo", "Sample sheets of everything, in the folder out_demo."),
    "completion": ("completion", "Words that complete themselves at the Tab key, in bash, zsh or fish."),
}

# The overview goes by her day.
DAY: Mapping[str, tuple[str, ...]] = {
    "Before the lesson": ("lesson", "sounds", "words", "word", "pictures", "clips", "layouts", "ruler"),
    "In the lesson": ("cards", "bingo", "match", "sort", "trace"),
    "After the lesson": ("check", "pack"),
    "The program itself": ("demo", "completion"),
}


def load(name: str) -> click.Command:
    """Return a command by its name, loading its module now; `clips list` is a command of the group `clips`."""
    group, _, inner = name.partition(" ")
    command = getattr(import_module(f"cardgen.cli.{COMMANDS[group][0]}"), group)
    if inner:
        command = command.commands[inner]
    if not isinstance(command, click.Command):
        raise TypeError(f"{name} is not a command")
    return command


class Overview(Group):
    """The `cardgen` command: finds its commands by name and turns what a teacher can mend into one clear sentence."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order of use."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the command, loading its module now; None if there is no such command."""
        return load(cmd_name) if cmd_name in COMMANDS else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the overview by the teacher's day, without loading any command."""
        wide = max(map(len, COMMANDS))
        for heading, names in DAY.items():
            with formatter.section(heading):
                formatter.write_dl([(name.ljust(wide), COMMANDS[name][1]) for name in names])

    def shell_complete(self, ctx: click.Context, incomplete: str) -> "list[CompletionItem]":
        """Return the commands (and options) that begin so, without loading any command."""
        from click.shell_completion import CompletionItem

        found = [CompletionItem(name, help=line) for name, (_, line) in COMMANDS.items() if name.startswith(incomplete)]
        return found + click.Command.shell_complete(self, ctx, incomplete)

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command; an error the teacher can mend is told in one sentence and a hint, exit 1."""
        try:
            return super().invoke(ctx)
        except TeacherError as error:
            say_error(error.message, error.hint)
            ctx.exit(1)


@click.group(
    cls=Overview,
    context_settings={"max_content_width": 100},
    epilog="\b\nExample:  cardgen bingo m s t b --boards 24\nMore:     cardgen bingo --help",
)
@click.version_option(__version__, "--version", prog_name="cardgen")
def overview() -> None:
    """Print fair phonics games for tomorrow's sounds: boards, cards and the answers that go with them."""


def main(args: Sequence[str] | None = None) -> None:
    """Run the command line and leave the program: 0 done, 1 something to mend, 2 wrong usage, 130 interrupted."""
    spare_signs()
    try:
        code = overview.main(args=list(args) if args is not None else None, prog_name="cardgen", standalone_mode=False)
        sys.exit(code if isinstance(code, int) else 0)
    except click.ClickException as error:
        say_usage_error(error)
        sys.exit(error.exit_code)
    except click.Abort:
        click.echo("Stopped. No file was left half written.", err=True)
        sys.exit(130)
