"""Options that every command with sheets shares, and the one way from a request to files."""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

import click

from cardgen.cli import complete
from cardgen.cli.file_names import checked, joined
from cardgen.cli.manners import Spelled, look_out, quiet_option, tell
from cardgen.cli.progress import progress_bar
from cardgen.errors import TeacherError
from cardgen.request import Accent, Backs, Codes, Cut, Ink, Paper, SheetRequest, Shift

Command = TypeVar("Command", bound=Callable[..., Any])
MOST_NAMED = 6
LARGEST_DRAWN_SEED = 9999  # short enough to copy from a sheet by hand


@dataclass
class Asked:
    """What a lesson asks for: the requests of its commands, in place of sheets."""

    requests: list[SheetRequest] = field(default_factory=list)


def names(values: tuple[str, ...]) -> tuple[str, ...]:
    """Return a list option's values: repeated or comma-separated, blanks dropped."""
    return tuple(part.strip() for value in values for part in value.split(",") if part.strip())


def sheet_options(command: Command) -> Command:
    """Add the options that every command with sheets has."""
    options = [
        click.option("--review", multiple=True, metavar="SOUNDS", shell_complete=complete.sounds,
                     help="Older sounds that play along: --review t,p"),
        click.option("--careful", is_flag=True, help="Take no word that has a caution."),
        click.option("--prefer", multiple=True, metavar="WORDS", help="Words to take first: --prefer hat,horse"),
        click.option("--avoid", multiple=True, metavar="WORDS", help="Words never to take."),
        click.option("--out", metavar="FILE.pdf", shell_complete=complete.files,
                     help="Where to write.  [default: command and sounds, here]"),
        click.option("--paper", type=Spelled([paper.value for paper in Paper]), default="a4", show_default=True,
                     help="What lies in the printer."),
        click.option("--ink", type=Spelled([ink.value for ink in Ink]), default="colour", show_default=True,
                     help="In colour, in greys, or in lines to colour in."),
        click.option("--accent", type=Spelled([a.value for a in Accent]), default="us", show_default=True,
                     help="Whose English is spoken."),
        click.option("--cut", type=Spelled([cut.value for cut in Cut]), help="Marks for a guillotine, or lines "
                     "for scissors.  [default: guillotine; scissors with --split]"),
        click.option("--seed", type=int, metavar="N", help="Same seed, same sheets: the number at each sheet's foot."),
        click.option("--only", multiple=True, metavar="WHICH", help="Print again only these: the number of a board, "
                     "pack or set, the name of a card, or both: 3,m-moon is that card of set 3. Give the same sounds, "
                     "options and --seed."),
        click.option("--layout", metavar="NAME|FILE.toml", shell_complete=complete.layouts,
                     help="Another size of boards or cards; see `layouts`."),
        click.option("--punch", is_flag=True, help="Leave 20 mm free for holes, on pages that are not cut."),
        click.option("--home-language", metavar="NAME", help="Add what speakers of this first language find hard."),
        click.option("--pictures", metavar="FOLDER", shell_complete=complete.folders,
                     help="Your own pictures, named after their words: moon.jpg. They go before ours."),
        click.option("--open-pictures", is_flag=True, help="For words we have not drawn, take pictures of an openly "
                     "licensed set; their credit is printed."),
        click.option("--plan", metavar="FILE.json", shell_complete=complete.files,
                     help="Write everything that was decided, as data."),
        click.option("--preview", is_flag=True, help="Also write every page as a PNG picture."),
        click.option("--dry-run", is_flag=True, help="Say what would be printed, and write nothing."),
        click.option("--quiet-warnings", is_flag=True, help="Say nothing of close sounds and words with a caution."),
        quiet_option,
    ]  # fmt: skip
    for option in reversed(options):
        command = option(command)
    return command


def card_options(command: Command) -> Command:
    """Add the options that every command with loose cards has; they go with `sheet_options`."""
    sets = click.option("--sets", type=int, default=1, metavar="N", help="Print the deck N times, each pile one set.")
    return sets(back_options(command))


def back_options(command: Command) -> Command:
    """Add the options that say how cards and their backs lie on the paper."""
    options = [
        click.option("--backs", type=Spelled([backs.value for backs in Backs]), help="How the backs get onto the "
                     "paper: on the other side, turned on its long or short edge; beside the fronts, to fold; none."),
        click.option("--back-shift", metavar="X,Y", help="Where this printer puts the backs wrong: the two numbers "
                     "that `cardgen ruler` shows, in mm."),
        click.option("--margin", type=float, metavar="MM", help="What stays free round the cards."),
        click.option("--gap", type=float, metavar="MM", help="What stays free between the cards."),
        click.option("--laminate", is_flag=True, help="Room for film between the cards (6 mm), round corners."),
    ]  # fmt: skip
    for option in reversed(options):
        command = option(command)
    return command


def link_options(command: Command) -> Command:
    """Add the options of sheets that carry codes to hear recordings by; they go with `sheet_options`."""
    options = [
        click.option("--link", metavar="ADDRESS", help="Where the pages of `clips pages` lie: codes lead to them."),
        click.option("--links", metavar="FILE.csv", shell_complete=complete.files,
                     help="A table with a link of its own for every word: moon,https://…"),
        click.option("--codes", type=Spelled([codes.value for codes in Codes]), help="Where codes stand: on the back "
                     "of each card, one for the pack or lesson, or nowhere."),
        click.option("--clips", metavar="FOLDER", shell_complete=complete.folders,
                     help="Your recordings: no code is printed for one that is missing."),
        click.option("--codes-anyway", is_flag=True, help="Print codes also for recordings that are missing."),
    ]  # fmt: skip
    for option in reversed(options):
        command = option(command)
    return command


def shift(text: str | None) -> Shift:
    """Return the shift written as `X,Y` in mm; TeacherError if it cannot be read."""
    if text is None:
        return Shift()
    try:
        x, y = (float(part) for part in text.split(","))
    except ValueError:
        raise TeacherError(
            f'"{text}" is not a shift.', "Write mm to the right and down: --back-shift 1.5,-0.5"
        ) from None
    return Shift(x, y)


def seed_or_new(seed: int | None) -> int:
    """Return the seed that was asked for, or a new one, short enough to copy from a sheet."""
    return random.SystemRandom().randint(1, LARGEST_DRAWN_SEED) if seed is None else seed


def shared(keys: tuple[str, ...], options: dict[str, Any]) -> dict[str, Any]:
    """Take the fields that every request has out of `options` and return them, read as far as they can be."""
    cut = options.pop("cut", None)
    if "backs" in options:
        backs = options["backs"]
        options |= {"backs": None if backs is None else Backs(backs), "back_shift": shift(options["back_shift"])}
    if "codes" in options:
        options |= {"codes": None if options["codes"] is None else Codes(options["codes"])}
    return {
        "keys": tuple(key.lower() for key in names(keys)),
        "review": tuple(key.lower() for key in names(options.pop("review"))),
        "paper": Paper(options.pop("paper")),
        "ink": Ink(options.pop("ink")),
        "accent": Accent(options.pop("accent")),
        "cut": None if cut is None else Cut(cut),
        "only": names(options.pop("only")),
        "prefer": names(options.pop("prefer", ())),
        "avoid": names(options.pop("avoid", ())),
        "seed": seed_or_new(options.pop("seed")),
    }


def told_first(*, dry_run: bool, quiet_warnings: bool) -> Callable[[Sequence[str], Sequence[str]], bool]:
    """Return what tells the teacher what is coming, before anything is written, and whether to go on."""

    def agree(lines: Sequence[str], warnings: Sequence[str]) -> bool:
        for line in lines:
            tell(line)
        for warning in () if quiet_warnings else warnings:
            look_out(warning)
        return not dry_run

    return agree


def make(kind: type[SheetRequest], command: str, keys: tuple[str, ...], options: dict[str, Any], **own: Any) -> None:
    """Make the request from the options as click read them, with the command's `own` fields, and print its sheets."""
    options = dict(options)
    output = {name: options.pop(name) for name in ("out", "plan", "preview", "dry_run", "quiet_warnings")}
    split = options.pop("split", False)
    seeded = options["seed"] is not None
    lesson = click.get_current_context().find_object(Asked)
    if lesson is not None:
        # The command stands in a lesson, which prints it together with the others.
        lesson.requests.append(kind(**shared(keys, options), **(options | own)))
        return
    send(kind(**shared(keys, options), **(options | own)), command, split=split, seeded=seeded, **output)


def send(
    request: SheetRequest,
    command: str,
    *,
    out: str | None,
    plan: str | None = None,
    preview: bool = False,
    dry_run: bool = False,
    quiet_warnings: bool = False,
    split: bool = False,
    seeded: bool = True,
) -> None:
    """Build the sheets, telling the teacher first what is coming and at the end what was written.

    A lost piece needs the seed of its game to be `seeded`, or it would be one of another game.
    """
    # Loaded here: help and completion do without all that draws and writes.
    from cardgen.build import Output, build

    if request.only and split:
        raise TeacherError("--only and --split do not go together.", "Leave one of them out.")
    # A part printed again must not take the place of the whole set.
    part = ("only", *request.only) if request.only else ()
    name = joined(command, *request.keys, *part)
    path = Path(checked(out)) if out else Path(f"{name}.pdf")
    if path.suffix.lower() != ".pdf" and not split:
        raise TeacherError(f'"{out}" does not end in .pdf.', f"Name it like {name}.pdf")
    if plan and Path(checked(plan)).suffix.lower() != ".json":
        # A plan named like the sheets would take their place.
        raise TeacherError(f'"{plan}" does not end in .json.', f"Name it like {name}.json")
    output = Output(path, split, Path(plan) if plan else None, preview)

    told = told_first(dry_run=dry_run, quiet_warnings=quiet_warnings)

    def agree(lines: Sequence[str], warnings: Sequence[str]) -> bool:
        if request.only and not seeded:
            raise TeacherError(
                "Without the seed of the sheet this would be a piece of another game.",
                "The seed stands at the foot of every sheet: add --seed N",
            )
        return told(lines, warnings)

    with progress_bar() as progress:
        written = build(request, output, agree, progress=progress)
    if len(written) <= MOST_NAMED:
        for file in written:
            tell(f"Written: {file}")
    else:
        tell(f"Written: {len(written)} files, {written[0]} to {written[-1]}")
