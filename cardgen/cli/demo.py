"""The `demo` command."""

from pathlib import Path

import click

from cardgen.cli import complete
from cardgen.cli.file_names import checked
from cardgen.cli.manners import Command, quiet_option, tell
from cardgen.errors import TeacherError
from cardgen.request import (
    BingoRequest,
    Call,
    Face,
    FlashcardsRequest,
    Goal,
    Grid,
    Ink,
    MatchForm,
    MatchRequest,
    Paper,
    RulerRequest,
    Show,
)

FOLDER = Path("out_demo")
REFERENCE = "commands.md"
LESSON = "week"

# A made-up week in a made-up school: every sheet there is, for a class of four.
WEEK = """# The lesson whose sheets lie in the folder `week`: `cardgen lesson week.toml --preview` makes them again.
title = "Week 9: h and f"
sounds = ["h", "f"]
review = ["n", "d"]
class = 4
seed = 11
link = "https://example.org/h-f"

["clips list"]

[cards]
words = 3

[trace]
words = 1

[match]
pairs = "letters"
form = "halves"
sets = 1

[sort]
sets = 2
foils = 2

[bingo]

[check]
versions = ["A", "B"]

[pack]
"""
# Beside it: twelve letters by ear, a set for readers and non-readers, lines to draw, large cards, the printer's test.
DEMOS = {
    "bingo-letters": BingoRequest(
        keys=("h", "f"), review=tuple("nptdcbmseu"), seed=12, boards=4, goal=Goal.LINE, paper=Paper.LETTER
    ),
    "bingo-mixed": BingoRequest(
        keys=("p", "h"),
        review=("n", "d"),
        seed=13,
        boards=6,
        grid=Grid(2, 3),
        show=(Show(Face.PICTURE, 2), Show(Face.PICTURE_WORD, 2), Show(Face.WORD, 2)),
        call=Call.WORD,
        ink=Ink.LINE,
    ),
    "match-lines": MatchRequest(keys=("h", "f"), seed=14, form=MatchForm.PAGE),
    "cards-large": FlashcardsRequest(keys=("h", "f"), seed=15, words=1, distance=4.0),
    "ruler": RulerRequest(),
}


@click.command(cls=Command, short_help="Sample sheets.", epilog="\b\nExample:  cardgen demo")
@click.option(
    "--out",
    metavar="FOLDER",
    shell_complete=complete.folders,
    default=str(FOLDER),
    show_default=True,
    help="Where to write.",
)
@quiet_option
def demo(out: str) -> None:
    """Write sample sheets of everything into a folder, to look at before the first lesson."""
    from cardgen.build import Output, build, build_lesson, write_text
    from cardgen.cli.lesson import from_file
    from cardgen.cli.reference import reference

    folder = Path(checked(out))
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise TeacherError(f"The folder {out} cannot be made.", "Choose another with --out.") from error
    week = folder / f"{LESSON}.toml"
    write_text(WEEK, week)
    tell(f"{LESSON} …")
    lesson, goal = from_file((str(week),), {})
    build_lesson(lesson, Path(goal), preview=True)
    tell(f"Written: the lesson in {goal}")
    for name, request in DEMOS.items():
        tell(f"{name} …")
        build(request, Output(folder / f"{name}.pdf", plan=folder / f"{name}.json"))
        tell(f"Written: {folder / name}.pdf")
    write_text(reference(), folder / REFERENCE)
    tell(f"Written: {folder / REFERENCE}")
