"""The `sort` command."""

from typing import Any

import click

from cardgen.cli import complete
from cardgen.cli.common import card_options, make, sheet_options
from cardgen.cli.manners import Command, Spelled
from cardgen.request import Mat, SortRequest


@click.command(
    cls=Command,
    short_help="Sorting mats for two or three sounds, and the cards to sort.",
    epilog="\b\nExamples:  cardgen sort m s\n"
    "           cardgen sort m s --sets 12 --foils 4\n"
    "           cardgen sort b d --mat blank --key",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option("--cards", type=int, metavar="N", help="How many cards a sound.  [default: 6, or as many as there are]")
@click.option(
    "--foils",
    type=int,
    default=0,
    show_default=True,
    metavar="N",
    help="Cards for a place of their own: neither sound.",
)
@click.option(
    "--mat",
    type=Spelled([mat.value for mat in Mat]),
    default="printed",
    show_default=True,
    help="Mats with letters and key pictures; blank ones to laminate once; or none, because you have them.",
)
@click.option("--key", is_flag=True, help="Also a page with every card in its place.")
@click.option("--split", is_flag=True, help="One PDF a set, and one for you, in a folder named like --out.")
@sheet_options
@card_options
def sort(keys: tuple[str, ...], mat: str, **options: Any) -> None:
    """Print mats for the sounds SOUND... (two, or three at most), and cards to sort by what they begin with."""
    make(SortRequest, "sort", keys, options, mat=Mat(mat))
