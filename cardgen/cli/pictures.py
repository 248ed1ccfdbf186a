"""The `pictures` commands: a teacher's own pictures, looked through before they are printed."""

import click

from cardgen import ask
from cardgen.cli import complete
from cardgen.cli.manners import Group
from cardgen.cli.words import accent_option, json_option, table, write_json
from cardgen.request import Accent


@click.group("pictures", cls=Group, epilog="\b\nExample:  cardgen pictures test my-pictures")
def pictures() -> None:
    """Your own pictures: PNG, JPEG, WebP or SVG files named after their words, in one folder."""


@pictures.command(
    "test",
    short_help="Look every picture of a folder through.",
    epilog="\b\nExample:  cardgen pictures test my-pictures --for m",
)
@click.argument("folder", metavar="FOLDER", shell_complete=complete.folders)
@click.option(
    "--for",
    "key",
    metavar="SOUND",
    shell_complete=complete.sounds,
    help="Only the pictures that are used for this sound, or look like it.",
)
@accent_option
@json_option
@click.pass_context
def test(context: click.Context, folder: str, key: str | None, accent: str, as_json: bool) -> None:
    """Look every picture of a folder through: whether it can be read, is large enough, begins with its sound.

    Leaves with exit code 1 when something is to be mended before a picture can be used.
    """
    lines = ask.own_pictures(folder, key, Accent(accent))
    if as_json:
        for line in lines:
            write_json(
                {
                    "file": line.file,
                    "word": line.word,
                    "key": line.key,
                    "state": line.state.value,
                    "wrong": line.state.is_wrong,
                    "text": line.text,
                    "size_px": line.size_px,
                    "sharp_mm": line.sharp_mm,
                }
            )
    elif lines:
        head = ("file", "word", "for", "", "what to know")
        rows = [(line.file, line.word, line.key or "", line.state.value, line.text) for line in lines]
        click.echo(table([head, *rows]))
    else:
        click.echo(f"There is no picture for {key} in {folder}.")
    if any(line.state.is_wrong for line in lines):
        context.exit(1)
