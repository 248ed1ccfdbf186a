"""The `layouts` command."""

import click

from cardgen import ask
from cardgen.cli import complete
from cardgen.cli.common import send
from cardgen.cli.manners import Command, Spelled
from cardgen.cli.words import json_option, table, write_json
from cardgen.request import Ink, LayoutsRequest, Paper


@click.command(
    cls=Command,
    short_help="Card and board formats.",
    epilog="\b\nExamples:  cardgen layouts\n           cardgen layouts --sheet layouts.pdf\n"
    "           cardgen layouts mine.toml --sheet mine.pdf\n\n"
    '\b\nA file of your own is two lines:  kind = "cards"\n'
    "                                 card_mm = [70.0, 70.0]",
)
@click.argument("names", nargs=-1, metavar="[NAME|FILE.toml]...", shell_complete=complete.layouts)
@click.option(
    "--sheet", metavar="FILE.pdf", shell_complete=complete.files, help="Draw them, empty and at true size, one a page."
)
@click.option(
    "--paper",
    type=Spelled([paper.value for paper in Paper]),
    default="a4",
    show_default=True,
    help="What lies in the printer.",
)
@click.option(
    "--ink",
    type=Spelled([ink.value for ink in Ink]),
    default="colour",
    show_default=True,
    help="In colour, in greys, or in lines.",
)
@json_option
def layouts(names: tuple[str, ...], sheet: str | None, paper: str, ink: str, as_json: bool) -> None:
    """List the formats of cards and boards, and how many pieces go on a sheet of A4 and of Letter.

    Every format is a name for --layout; so is a file of your own, whose name ends in .toml.
    """
    lines = ask.layouts(names)
    if sheet:
        send(LayoutsRequest(names=names, paper=Paper(paper), ink=Ink(ink)), "layouts", out=sheet)
        return
    if as_json:
        for line in lines:
            write_json({"layout": line.name, "for": line.kind, "size": line.size, "a4": line.a4, "letter": line.letter})
        return
    rows = [("layout", "for", "on a4", "on letter", "size")]
    rows += [(line.name, line.kind, f"{line.a4:5}", f"{line.letter:9}", line.size) for line in lines]
    click.echo(table(rows))
