"""The `pack` command."""

from typing import Any

import click

from cardgen.cli import complete
from cardgen.cli.common import back_options, link_options, make, sheet_options
from cardgen.cli.manners import Command, Spelled
from cardgen.request import Face, PackRequest, ReviewMode


@click.command(
    cls=Command,
    short_help="Take-home packs: one sheet, one child.",
    context_settings={"default_map": {"ink": "line"}},
    epilog="\b\nExamples:  cardgen pack m s --children 24\n"
    "           cardgen pack m s --children 24 --link https://clips.example.org/year1\n"
    "           cardgen pack m s --cards 18 --vary --review t,p,n --backs fold",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option(
    "--children",
    "--class",
    "children",
    type=int,
    default=24,
    show_default=True,
    metavar="N",
    help="How many packs, one a child.",
)
@click.option("--cards", type=int, metavar="N", help="Cards in a pack, the cover counted; more than 9: with pairs of "
              "letters, backs and a sorting strip.  [default: as many as one sheet takes]")  # fmt: skip
@click.option("--show", type=Spelled(["picture", "picture-word"]), default="picture-word", show_default=True,
              help="With or without the word in small print, for the grown-up.")  # fmt: skip
@click.option("--vary", is_flag=True, help="Another choice of words for each child, each word equally often.")
@click.option("--review-mode", type=Spelled([mode.value for mode in ReviewMode]), default="even", show_default=True,
              help="How the --review sounds (in the order they were taught) come back: all evenly, or those of "
              "the last lesson and of 2, 4, 8 … lessons ago.")  # fmt: skip
@click.option("--text", metavar="TEXT", help="Your own words for the family, on the cover or a page of its own.")
@click.option(
    "--font",
    metavar="FILE.ttf",
    shell_complete=complete.files,
    help="A typeface for --text, where ours does not have its letters.",
)
@click.option("--family", metavar="XX", help="The cover's code tells how to play in this language: es for Spanish.")
@click.option("--split", is_flag=True, help="One PDF a pack, in a folder named like --out, for families who print.")
@link_options
@back_options
@sheet_options
def pack(keys: tuple[str, ...], show: str, review_mode: str, **options: Any) -> None:
    """Print packs of cards for the sounds SOUND..., one a child, to cut, colour and play with at home."""
    own = {"show": Face(show), "review_mode": ReviewMode(review_mode)}
    make(PackRequest, "pack", keys, options, **own)
