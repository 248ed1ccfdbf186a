"""The `trace` command."""

from typing import Any

import click

from cardgen.cli import complete
from cardgen.cli.common import make, sheet_options
from cardgen.cli.manners import Command, Spelled
from cardgen.request import LetterCase, TraceRequest


@click.command(
    cls=Command,
    short_help="Writing sheets: letters to trace and to write, one sheet a sound.",
    epilog="\b\nExamples:  cardgen trace m s\n           cardgen trace sh th --x-height 10 --words 2 --lift",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option(
    "--case",
    type=Spelled([case.value for case in LetterCase]),
    default="both",
    show_default=True,
    help="Write the small letter and the capital, or one of them.",
)
@click.option(
    "--words", type=int, default=0, show_default=True, metavar="N", help="Words to write on the back: 0 to 2."
)
@click.option(
    "--x-height",
    type=float,
    metavar="MM",
    help="How high the small letters of the rows are: 20, 15, 12, 10, 8 or 6 mm.  [default: 12; 20 with --big]",
)
@click.option("--big", is_flag=True, help="For small hands: one big letter as a road for the finger, and high rows.")
@click.option("--lift", is_flag=True, help="Lift the pen where some schools do, instead of going back over the line.")
@click.option("--left-handed", is_flag=True, help="The models stand at the right end, where the hand is not on them.")
@click.option("--split", is_flag=True, help="One PDF a sound, in a folder named like --out.")
@sheet_options
def trace(keys: tuple[str, ...], case: str, **options: Any) -> None:
    """Print a writing sheet for each of the sounds SOUND...: big numbered letters, then rows to write."""
    make(TraceRequest, "trace", keys, options, case=LetterCase(case))
