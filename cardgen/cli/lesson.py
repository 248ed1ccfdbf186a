"""The `lesson` command: a whole week in one folder, from a few sounds or from a lesson file."""

from collections.abc import Sequence
from math import ceil
from pathlib import Path
from typing import Any

import click

from cardgen import ask
from cardgen.cli import complete, load
from cardgen.cli.common import Asked, names, seed_or_new, told_first
from cardgen.cli.file_names import checked, joined
from cardgen.cli.manners import Command, Spelled, did_you_mean, quiet_option, tell
from cardgen.cli.progress import progress_bar
from cardgen.errors import TeacherError
from cardgen.request import Accent, Ink, LessonPart, LessonRequest, Paper

# What a lesson may print, in the order of use; a lean week, and what --full adds.
SHEETS = ("clips list", "cards", "trace", "match", "sort", "bingo", "check", "pack")
LEAN = ("trace", "sort", "bingo", "check", "pack")
FULL = ("cards", "trace", "match", "sort", "bingo", "check", "pack")
# Said once for all sheets.
COMMON = ("review", "careful", "paper", "ink", "accent", "seed", "home-language", "pictures", "open-pictures", "prefer",
          "avoid", "punch", "link", "links", "clips", "codes-anyway")  # fmt: skip
# Sheets of the new sounds alone: older ones do not stand on a mat, and are not written again.
NEW_ONLY = ("clips list", "trace", "sort")
HEAD = ("title", "sounds", "class", "out", *COMMON)

STARTER = """# A lesson for cardgen: `cardgen lesson {file}` makes all its sheets in one folder.
# Every option of a command can stand in its table, without the two dashes: `cardgen bingo --help` lists them.
title = "{title}"
sounds = [{sounds}]      # the lesson's sounds
{review}
class = {children}               # children
seed = {seed}              # same seed, same sheets
# paper = "letter"       # or "a4"
# ink = "line"           # or "colour", "grey"
# accent = "gb"          # or "us"
# home-language = "Spanish"
# pictures = "my-pictures"
# prefer = ["word"]      # words to take first
# avoid = ["word"]       # words never to take
# link = "https://example.org/week"   # where your recordings are; codes lead there

# The sheets, in this order. Take out what you do not need.
[trace]
words = 0

[sort]
cards = 6

[bingo]
# grid = "3x3"

[check]

[pack]

# [cards]
# distance = 3

# [match]
# form = "halves"
"""


@click.command(
    cls=Command,
    short_help="A whole week in one folder.",
    epilog="\b\nExamples:  cardgen lesson m s --class 24\n"
    "           cardgen lesson m s --class 24 --full\n"
    "           cardgen lesson --new m s > week.toml\n"
    "           cardgen lesson week.toml",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND... | LESSON.toml", shell_complete=complete.lessons)
@click.option("--class", "--children", "children", type=int, metavar="N", help="How many children.  [default: 24]")
@click.option("--full", is_flag=True, help="More than a lean week: cards to show, pairs, all parts of the check.")
@click.option("--new", is_flag=True, help="Print a lesson file to start from, and nothing else.")
@click.option("--title", metavar="TEXT", help="What stands on the running order.")
@click.option(
    "--out",
    metavar="FOLDER",
    shell_complete=complete.folders,
    help="Where to write.  [default: lesson and sounds, here]",
)
@click.option(
    "--review",
    multiple=True,
    metavar="SOUNDS",
    shell_complete=complete.sounds,
    help="Older sounds that play along: --review t,p",
)
@click.option("--careful", is_flag=True, help="Take no word that has a caution.")
@click.option(
    "--paper", type=Spelled([paper.value for paper in Paper]), help="What lies in the printer.  [default: a4]"
)
@click.option(
    "--ink",
    type=Spelled([ink.value for ink in Ink]),
    help="In colour, in greys, or in lines to colour in.  [default: colour; line for packs]",
)
@click.option(
    "--accent", type=Spelled([accent.value for accent in Accent]), help="Whose English is spoken.  [default: us]"
)
@click.option("--seed", type=int, metavar="N", help="Same seed, same sheets.")
@click.option("--prefer", multiple=True, metavar="WORDS", help="Words to take first.")
@click.option("--avoid", multiple=True, metavar="WORDS", help="Words never to take.")
@click.option("--home-language", metavar="NAME", help="Add what speakers of this first language find hard.")
@click.option(
    "--pictures", metavar="FOLDER", shell_complete=complete.folders, help="Your own pictures, named after their words."
)
@click.option("--open-pictures", is_flag=True, help="An openly licensed set for words we have not drawn.")
@click.option("--punch", is_flag=True, help="Leave 20 mm free for holes, on pages that are not cut.")
@click.option("--link", metavar="ADDRESS", help="Where your recordings are: codes lead there.")
@click.option("--clips", metavar="FOLDER", shell_complete=complete.folders, help="Your recordings: those words first.")
@click.option("--preview", is_flag=True, help="Also a picture of each file, all its pages at a glance.")
@click.option("--dry-run", is_flag=True, help="Say what would be printed, and write nothing.")
@click.option("--quiet-warnings", is_flag=True, help="Say nothing of close sounds and words with a caution.")
@quiet_option
def lesson(
    keys: tuple[str, ...], new: bool, preview: bool, dry_run: bool, quiet_warnings: bool, **options: Any
) -> None:
    """Print a lean week for the sounds SOUND...: writing, sorting, bingo, a check, packs to take home.

    Or what a lesson file asks for. First you read the sum: paper, cuts, minutes. Options of one sheet alone (--backs,
    --grid, …) stand in a lesson file, in the table of its command.
    """
    keys = names(keys)
    if new:
        click.echo(starter(keys, options), nl=False)
        return
    if any(key.lower().endswith(".toml") for key in keys):
        asked, folder = from_file(keys, options)
    else:
        asked, folder = from_sounds(tuple(key.lower() for key in keys), options)
    checked(folder)

    agree = told_first(dry_run=dry_run, quiet_warnings=quiet_warnings)
    from cardgen.build import build_lesson

    with progress_bar() as progress:
        written = build_lesson(asked, Path(folder), agree, progress=progress, preview=preview)
    if written:
        tell(f"Written: {len(written)} files in {folder}")


def starter(keys: tuple[str, ...], options: dict[str, Any]) -> str:
    """Return a lesson file to start from; TeacherError for a sound that is not known."""
    older = names(options["review"])
    ask.sounds(Accent.US, tuple(key.lower() for key in (*keys, *older)))

    def listed(sounds: tuple[str, ...]) -> str:
        return ", ".join(f'"{key.lower()}"' for key in sounds)

    review = f"review = [{listed(older)}]" if older else '# review = ["t", "p"]   '
    return STARTER.format(
        file="week.toml",
        title=options["title"] or f"Sounds {' '.join(keys)}",
        sounds=listed(keys),
        review=f"{review} # older sounds that play along",
        children=options["children"] or 24,
        seed=seed_or_new(options["seed"]),
    )


def from_sounds(keys: tuple[str, ...], options: dict[str, Any]) -> tuple[LessonRequest, str]:
    """Return a lean (or full) week, and its folder; sheets that these sounds cannot have are left out, and named."""
    children = options.pop("children") or 24
    full = options.pop("full")
    title = options.pop("title") or f"Sounds {' '.join(keys)}"
    folder = options.pop("out") or joined("lesson", *keys)
    options["seed"] = seed_or_new(options["seed"])
    common = flat(options)
    parts = []
    for name in FULL if full else LEAN:
        try:
            parts.append(LessonPart(name, request(name, keys, [*common, *own(name, children, full=full)])))
        except TeacherError as error:
            if name == (FULL if full else LEAN)[-1] and not parts:
                raise
            tell(f"Without {name}: {error.message}")
    return LessonRequest(title, children, tuple(parts), where_possible=True), folder


def own(name: str, children: int, *, full: bool) -> list[str]:
    """Return the options by which a sheet fits a class."""
    return {
        "bingo": [f"--boards={children}"],
        "sort": [f"--sets={ceil(children / 2)}"],
        "match": [f"--sets={ceil(children / 4)}"],
        "check": ["--full"] if full else [],
        "pack": [f"--children={children}"],
    }.get(name, [])


def from_file(keys: tuple[str, ...], options: dict[str, Any]) -> tuple[LessonRequest, str]:
    """Return what a lesson file asks for, and its folder; options of the command line go before those of its head."""
    if len(keys) > 1:
        raise TeacherError("A lesson file names its sounds itself.", f"Give it alone: cardgen lesson {keys[0]}")
    path = keys[0]
    file = Path(path).name
    head, *tables = ask.lesson_file(path)
    values = dict(head.options)
    for key in values:
        if key not in HEAD:
            raise unknown(f"{file}, line {head.lines.get(key, 1)}", key, HEAD)
    for name in ("children", "title", "out"):
        if options.get(name):
            values["class" if name == "children" else name] = (options[name],)
    sounds = tuple(str(key).lower() for key in values.pop("sounds", ()))
    if not sounds:
        raise TeacherError(f"{file} names no sounds.", 'Write a line like: sounds = ["m", "s"]')
    for name in ("class", "title", "out"):
        if len(values.get(name, (name,))) != 1:
            raise TeacherError(
                f"{file}, line {head.lines.get(name, 1)}: {name} is one, not a list.", "Write one value."
            )
    (children,) = values.pop("class", (24,))
    if not isinstance(children, int) or isinstance(children, bool):
        line = head.lines.get("class", 1)
        raise TeacherError(f"{file}, line {line}: class cannot be {children!r}.", "Write a number: class = 24")
    (title,) = values.pop("title", (f"Sounds {' '.join(sounds)}",))
    (folder,) = values.pop("out", (str(Path(path).with_suffix("")),))
    typed = flat({name: value for name, value in options.items() if name.replace("_", "-") in COMMON})
    seeded = "seed" in values or options.get("seed") is not None
    common = [*as_options(values), *typed, *([] if seeded else ["--seed", str(seed_or_new(None))])]
    parts = []
    for table in tables or ask.empty_tables(LEAN):
        name = table.name
        if name not in SHEETS:
            raise unknown(f"{file}, line {table.line}", f"[{name}]", SHEETS)
        place = f"{file}, line {table.line}, [{name}]"
        if "help" in dict(table.options):
            raise TeacherError(f"{place}: help is no option of a sheet.", f"Type `cardgen {name} --help`.")
        try:
            args = [*common, *own(name, children, full=False), *as_options(dict(table.options))]
            parts.append(LessonPart(name, request(name, sounds, args)))
        except click.UsageError as error:
            raise TeacherError(f"{place}: {error.format_message()}", f"`cardgen {name} --help` lists them.") from error
        except TeacherError as error:
            raise TeacherError(f"{place}: {error.message}", error.hint) from error
    return LessonRequest(str(title), children, tuple(parts)), str(folder)


def unknown(where: str, key: str, there: Sequence[str]) -> TeacherError:
    """Return the error for a word that a lesson file does not have, with the nearest it has."""
    hint = did_you_mean(key.strip("[]"), there) or f"There are {', '.join(there)}."
    return TeacherError(f"{where}: {key[:60]} is not known.", hint)


def request(name: str, keys: Sequence[str], args: Sequence[str]) -> Any:
    """Return the request that a command makes of sounds and options; UsageError or TeacherError where it cannot."""
    command = load(name)
    known = {option for param in command.params for option in param.opts}
    asked = Asked()
    context = command.make_context(name, [*_taken(name, args, known), "--", *keys], obj=asked)
    with context:
        command.invoke(context)
    return asked.requests[-1]


def _taken(name: str, args: Sequence[str], known: set[str]) -> list[str]:
    """Return the options that a command takes: its own ones in any case, of those said for all what it knows."""

    def is_taken(option: str) -> bool:
        if option == "--review" and name in NEW_ONLY:
            return False
        return option in known or option[2:] not in COMMON

    return [arg for arg in args if not arg.startswith("--") or is_taken(arg.split("=", 1)[0])]


def flat(options: dict[str, Any]) -> list[str]:
    """Return options as click read them, as they are typed: each one word, `--name=value`."""
    return as_options(
        {
            name.replace("_", "-"): value if isinstance(value, tuple) else (value,)
            for name, value in options.items()
            if value not in (None, False, ())
        }
    )


def as_options(values: dict[str, tuple[Any, ...]]) -> list[str]:
    """Return options as they are typed: several values in one, true as the option alone, false as nothing."""
    typed = []
    for name, every in values.items():
        # 1 equals true, and is not meant here.
        if every and every[0] is True:
            typed.append(f"--{name}")
        elif every and every[0] is not False:
            typed.append(f"--{name}={','.join(map(str, every))}")
    return typed
