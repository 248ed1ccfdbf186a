"""The `bingo` command."""

import re
from typing import Any

import click

from cardgen.cli import complete
from cardgen.cli.common import link_options, make, sheet_options
from cardgen.cli.manners import Command, Spelled, did_you_mean
from cardgen.errors import TeacherError
from cardgen.request import BingoRequest, Call, Face, Goal, Grid, Show

SHOW_EXAMPLE = "For example --show picture:19,picture-word:2,word:3."


def shows(text: str | None) -> tuple[Show, ...]:
    """Return what `--show` asks for: one face, or several with their numbers; TeacherError if it cannot be read."""
    if text is None:
        return ()
    found = []
    for part in text.strip().removeprefix("mixed:").split(","):
        name, _, number = (piece.strip() for piece in part.partition(":"))
        if name not in {face.value for face in Face}:
            faces = ", ".join(face.value for face in Face)
            near = did_you_mean(name, [face.value for face in Face])
            raise TeacherError(f'"{name}" is nothing a board can show.', f"{near} --show takes {faces}.".lstrip())
        if number and not re.fullmatch(r"[0-9]{1,4}", number):
            raise TeacherError(f'"{number}" is not a number of boards.', SHOW_EXAMPLE)
        found.append(Show(Face(name), int(number) if number else None))
    return tuple(found)


def span(text: str | None) -> tuple[int, int] | None:
    """Return the calls A and B of `--first-win A-B` (one number is both); TeacherError if it cannot be read."""
    if text is None:
        return None
    found = re.fullmatch(r"\s*([0-9]{1,4})\s*(?:[-–]\s*([0-9]{1,4})\s*)?", text)
    if not found:
        raise TeacherError(f'"{text}" is not a span of calls.', "Write two calls, for example --first-win 5-8.")
    return int(found[1]), int(found[2] or found[1])


@click.command(
    cls=Command,
    short_help="Fair bingo boards for some sounds.",
    epilog="\b\nExamples:  cardgen bingo m s t b --boards 24\n"
    "           cardgen bingo m s --review t,p --grid 4x4 --call word --goal line",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option(
    "--boards",
    "--class",
    "boards",
    type=int,
    metavar="N",
    help="How many boards, one a child.  [default: 24, or as --show says]",
)
@click.option("--grid", metavar="RxC", help="Rows and columns, 2 to 5 each.  [default: 3x3; 2x2 with --big]")
@click.option("--free", is_flag=True, help="Leave the middle cell free (odd rows and columns).")
@click.option(
    "--show",
    metavar="WHAT",
    help="picture, picture-word, word, lowercase, capital, letters; or a mixed set: picture:19,picture-word:2,word:3."
    "  [default: picture; lowercase from nine letters on]",
)
@click.option(
    "--call",
    type=Spelled([call.value for call in Call]),
    help="What the caller says or shows.  [default: sound over pictures, word over letters]",
)
@click.option(
    "--goal",
    type=Spelled([goal.value for goal in Goal]),
    help="What wins: a line, or the full board.  [default: board]",
)
@click.option("--winners", type=int, metavar="J", help="Choose an order in which exactly J boards win first.")
@click.option("--first-win", metavar="A-B", help="Choose an order in which the first win comes on calls A to B.")
@click.option("--together", type=int, metavar="H", help="Choose an order in which all boards win within H calls.")
@click.option("--pool", type=int, metavar="N", help="How many different words are in play.  [default: 1.5 × the cells]")
@click.option("--big", is_flag=True, help="For small hands: boxes of 58 mm, and counters to print.")
@click.option("--split", is_flag=True, help="One PDF a board, in a folder named like --out.")
@link_options
@sheet_options
def bingo(
    keys: tuple[str, ...],
    boards: int | None,
    grid: str | None,
    show: str | None,
    call: str | None,
    goal: str | None,
    first_win: str | None,
    **options: Any,
) -> None:
    """Print a class set of bingo boards for the sounds SOUND..., with all that the caller needs."""
    kinds = shows(show)
    counted = sum(kind.boards or 0 for kind in kinds)
    make(
        BingoRequest,
        "bingo",
        keys,
        options,
        boards=boards if boards is not None else counted or 24,
        grid=Grid.parse(grid) if grid else Grid(2, 2) if options["big"] else Grid(3, 3),
        show=kinds,
        call=None if call is None else Call(call),
        goal=None if goal is None else Goal(goal),
        first_win=span(first_win),
    )
