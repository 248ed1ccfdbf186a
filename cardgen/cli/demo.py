"""The `demo` command."""

from pathlib import Path

import click

from cardgen.cli import complete
from cardgen.cli.file_names import checked
from cardgen.cli.manners import Command, quiet_option, tell
from cardgen.errors import TeacherError
from cardgen.request import BingoRequest, Call, Face, Goal, Grid, Ink, Paper, Show

FOLDER = Path("out_demo")
PREVIEWED = "bingo-pictures"
REFERENCE = "commands.md"

# A made-up week in a made-up school: four sounds by picture, twelve letters by ear, a set for readers and non-readers.
DEMOS = {
    "bingo-pictures": BingoRequest(keys=("h", "f"), review=("n", "d"), seed=11, boards=6),
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
    from cardgen.build import Output, build, write_text
    from cardgen.cli.reference import reference

    folder = Path(checked(out))
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise TeacherError(f"The folder {out} cannot be made.", "Choose another with --out.") from error
    for name, request in DEMOS.items():
        tell(f"{name} …")
        output = Output(folder / f"{name}.pdf", plan=folder / f"{name}.json", preview=name == PREVIEWED)
        for path in build(request, output):
            if path.suffix == ".pdf":
                tell(f"Written: {path}")
    write_text(reference(), folder / REFERENCE)
    tell(f"Written: {folder / REFERENCE}")
