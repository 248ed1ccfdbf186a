"""The `match` command."""

from typing import Any

import click

from cardgen.cli import complete
from cardgen.cli.common import card_options, make, sheet_options
from cardgen.cli.manners import Command, Spelled
from cardgen.request import CutLine, MatchForm, MatchRequest, PairKind


@click.command(
    cls=Command,
    short_help="Pairs: letters, pictures or words, as cards, halves or pages.",
    epilog="\b\nExamples:  cardgen match m s t b\n"
    "           cardgen match m s --pairs pictures --sets 12\n"
    "           cardgen match m s t b --form halves --sets 6\n"
    "           cardgen match m s t b --form page --pages 4",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option(
    "--pairs",
    type=Spelled([kind.value for kind in PairKind]),
    help="Small letter and capital, letter and picture, picture and word.  [default: letters from four sounds on, "
    "else pictures]",
)
@click.option(
    "--form",
    type=Spelled([form.value for form in MatchForm]),
    default="cards",
    show_default=True,
    help="Loose cards for pairs, snap and memory; halves that fit together; pages to draw lines on.",
)
@click.option("--pairs-per", type=int, metavar="N", help="How many pairs of every sound.  [default: a sheet full]")
@click.option("--count", type=int, metavar="N", help="How many pairs in all.")
@click.option("--pages", type=int, default=1, show_default=True, metavar="N", help="How many different pages.")
@click.option(
    "--cut-line",
    type=Spelled([line.value for line in CutLine]),
    default="wave",
    show_default=True,
    help="How halves are cut: along curves that only fit where they should, or straight, for small hands.",
)
@click.option("--self-check", is_flag=True, help="A common sign on both backs. Then it is no memory game any more.")
@click.option("--big", is_flag=True, help="For small hands: cards of 60 mm.")
@click.option("--split", is_flag=True, help="One PDF a set or page, in a folder named like --out.")
@sheet_options
@card_options
def match(keys: tuple[str, ...], pairs: str | None, form: str, cut_line: str, **options: Any) -> None:
    """Print things that belong together, for the sounds SOUND...: cards, halves, or pages to draw lines on."""
    make(
        MatchRequest,
        "match",
        keys,
        options,
        pairs=None if pairs is None else PairKind(pairs),
        form=MatchForm(form),
        cut_line=CutLine(cut_line),
    )
