"""The `check` command."""

from typing import Any

import click

from cardgen.cli import complete
from cardgen.cli.common import make, names, sheet_options
from cardgen.cli.manners import Command, did_you_mean
from cardgen.errors import TeacherError
from cardgen.request import CheckRequest, PartKind


def part_kinds(values: tuple[str, ...]) -> tuple[PartKind, ...]:
    """Return the parts named by `--parts`, in their order; TeacherError for one that does not exist."""
    kinds = {kind.value: kind for kind in PartKind}
    found = []
    for name in names(values):
        if name.lower() not in kinds:
            hint = f"{did_you_mean(name, kinds)} The parts are {', '.join(kinds)}.".lstrip()
            raise TeacherError(f'There is no part "{name}" of a check.', hint)
        found.append(kinds[name.lower()])
    return tuple(found)


@click.command(
    cls=Command,
    short_help="Quick checks with the script and the answers.",
    epilog="\b\nExamples:  cardgen check m s --review t --versions A,B\n"
    "           cardgen check m s t --full\n"
    "           cardgen check m s --say --show-me",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option("--parts", multiple=True, metavar="PARTS", help="hear-letter, see-capital, see-small, hear-picture, "
              "sound-picture.  [default: hear-letter,see-small]")  # fmt: skip
@click.option("--full", is_flag=True, help="All parts, and pages with the answers ringed.")
@click.option("--items", type=int, metavar="N", help="Rows of a part.  [default: 5 of three choices, 8 of two]")
@click.option("--versions", multiple=True, metavar="A,B", help="Two versions for neighbours: the same rows, the "
              "choices in another order.")  # fmt: skip
@click.option("--say", is_flag=True, help="The oral check: letters to point at, and a class grid.")
@click.option("--show-me", is_flag=True, help="The check with letter cards that the whole class lifts: ten calls.")
@click.option("--silent", is_flag=True, help="Do not name the pictures in the script.")
@click.option("--split", is_flag=True, help="One PDF a version and one for you, in a folder named like --out.")
@sheet_options
def check(keys: tuple[str, ...], parts: tuple[str, ...], versions: tuple[str, ...], **options: Any) -> None:
    """Print quick checks of the sounds SOUND..., half a sheet a child, with the script and its answers."""
    options["only"] = tuple(name.upper() for name in names(options["only"]))
    make(
        CheckRequest,
        "check",
        keys,
        options,
        parts=part_kinds(parts),
        versions=tuple(name.upper() for name in names(versions)),
    )
