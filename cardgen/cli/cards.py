"""The `cards` command."""

from typing import Any

import click

from cardgen.cli import complete
from cardgen.cli.common import card_options, link_options, make, sheet_options
from cardgen.cli.manners import Command, Spelled
from cardgen.request import Face, FlashcardsRequest
from cardgen.request.flashcards import BackFace, CardCase


@click.command(
    cls=Command,
    short_help="Flashcards: letters and pictures, fronts and backs.",
    epilog="\b\nExamples:  cardgen cards m s\n           cardgen cards m s --distance 3 --case apart --words 0",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option("--case", type=Spelled([case.value for case in CardCase]), default="both", show_default=True,
              help="On letter cards: capital and small together, apart, or one of them.")  # fmt: skip
@click.option("--letters/--no-letters", default=True, help="With or without letter cards.  [default: with]")
@click.option("--words", type=int, default=6, show_default=True, metavar="N", help="Picture cards a sound; 0 for none.")
@click.option("--face", type=Spelled([face.value for face in Face if not face.is_letter]), default="picture",
              show_default=True, help="What the picture cards show.")  # fmt: skip
@click.option("--back", type=Spelled([back.value for back in BackFace]), default="word", show_default=True,
              help="What stands on the backs; word: on large letter cards how the sound is said.")  # fmt: skip
@click.option("--distance", type=float, metavar="METRES", help="Cards large enough to be read from so far away.")
@click.option("--split", is_flag=True, help="One PDF a set, in a folder named like --out.")
@link_options
@card_options
@sheet_options
def cards(keys: tuple[str, ...], case: str, face: str, back: str, **options: Any) -> None:
    """Print letter cards and picture cards for the sounds SOUND..., 9 a sheet, or large ones for showing."""
    own = {"case": CardCase(case), "face": Face(face), "back": BackFace(back)}
    make(FlashcardsRequest, "cards", keys, options, **own)
