"""The `ruler` command."""

import click

from cardgen.cli import complete
from cardgen.cli.common import send
from cardgen.cli.manners import Command, Spelled, quiet_option
from cardgen.request import Ink, Paper, RulerRequest


@click.command(
    cls=Command, short_help="A test sheet for the printer.", epilog="\b\nExample:  cardgen ruler --paper letter"
)
@click.option(
    "--out", metavar="FILE.pdf", shell_complete=complete.files, help="Where to write.  [default: ruler.pdf, here]"
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
    help="For the pictures; lines and greys are what the sheet tests, and stay.",
)
@click.option("--preview", is_flag=True, help="Also write both pages as PNG pictures.")
@quiet_option
def ruler(out: str | None, paper: str, ink: str, preview: bool) -> None:
    """Print a sheet that tests the printer: true size, sharpness, greys, codes, margins, and whether backs meet fronts.

    Each of its seven questions says which option to set for the answer.
    """
    send(RulerRequest(paper=Paper(paper), ink=Ink(ink)), "ruler", out=out, preview=preview)
