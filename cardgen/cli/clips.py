"""The `clips` commands: the teacher's own voice, from what to record to the pages behind the codes."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from cardgen.cli import complete
from cardgen.cli.common import Asked, names, send, shared
from cardgen.cli.file_names import checked
from cardgen.cli.manners import Group, Spelled, look_out, quiet_option, tell
from cardgen.cli.words import json_option, table, write_json
from cardgen.errors import TeacherError
from cardgen.request import Accent, ClipListRequest, Paper

Command = TypeVar("Command", bound=Callable[..., Any])


def which(command: Command) -> Command:
    """Add the options that say which recordings are meant; they must be the same from the list to the pages."""
    options = [
        click.option("--words", type=int, default=6, show_default=True, metavar="N", help="Words for each sound."),
        click.option("--family", multiple=True, metavar="XX", help='Also "how to play" in these home languages: es,uk'),
        click.option("--careful", is_flag=True, help="Take no word that has a caution."),
        click.option(
            "--accent",
            type=Spelled([a.value for a in Accent]),
            default="us",
            show_default=True,
            help="Whose English is spoken.",
        ),
        click.option("--seed", type=int, default=1, show_default=True, metavar="N", help="Another seed, other words."),
        click.option(
            "--pictures",
            metavar="FOLDER",
            shell_complete=complete.folders,
            help="Your own pictures: their words count too.",
        ),
        click.option("--open-pictures", is_flag=True, help="Words of the openly licensed set count too."),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def request_of(keys: tuple[str, ...], options: dict[str, Any]) -> ClipListRequest:
    """Return the request that the options of `which` make; the paper is A4 unless it is among them."""
    family = tuple(language.lower() for language in names(options.pop("family")))
    fields = shared(keys, {"paper": "a4", "ink": "colour", "review": (), "only": ()} | options)
    own = {name: options[name] for name in ("words", "careful", "pictures", "open_pictures")}
    return ClipListRequest(**fields, **own, family=family)


@click.group("clips", cls=Group, epilog="\b\nExample:  cardgen clips list m s --family es --csv clips-m-s.csv")
def clips() -> None:
    """Your voice behind the codes: what to record, names for the files, a test, pages to listen to.

    Give list, name, test and pages the same sounds and options: they speak of the same words then.
    """


@clips.command(
    "list",
    short_help="What to record, on paper or as a table.",
    epilog="\b\nExample:  cardgen clips list m s --family es --csv clips-m-s.csv",
)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@which
@click.option(
    "--paper",
    type=Spelled([paper.value for paper in Paper]),
    default="a4",
    show_default=True,
    help="What lies in the printer.",
)
@click.option(
    "--out",
    metavar="FILE.pdf",
    shell_complete=complete.files,
    help="Where to write.  [default: clips-list and sounds, here]",
)
@click.option(
    "--csv", "table_file", metavar="FILE.csv", shell_complete=complete.files, help="Also write the list as a table."
)
@click.option(
    "--plan", metavar="FILE.json", shell_complete=complete.files, help="Write everything that was decided, as data."
)
@click.option("--preview", is_flag=True, help="Also write every page as a PNG picture.")
@click.option("--dry-run", is_flag=True, help="Say what would be printed, and write nothing.")
@click.option("--quiet-warnings", is_flag=True, help="Say nothing of words with a caution.")
@quiet_option
def list_(keys: tuple[str, ...], table_file: str | None, **options: Any) -> None:
    """Print what to record for the sounds SOUND..., in which order, and how each file is to be called."""
    output = {name: options.pop(name) for name in ("out", "plan", "preview", "dry_run", "quiet_warnings")}
    request = request_of(keys, options)
    if table_file and Path(checked(table_file)).suffix.lower() != ".csv":
        raise TeacherError(f'"{table_file}" does not end in .csv.', "Name it like clips.csv")
    lesson = click.get_current_context().find_object(Asked)
    if lesson is not None:
        lesson.requests.append(request)  # the lesson prints it
        return
    send(request, "clips-list", **output)
    if table_file and not output["dry_run"]:
        from cardgen import clip_folder

        clip_folder.write_csv(request, table_file)
        tell(f"Written: {table_file}")


@clips.command(
    "name",
    short_help="Give recordings the names of the list.",
    epilog="\b\nExample:  cardgen clips name my-voice --in-order m s",
)
@click.argument("folder", metavar="FOLDER", shell_complete=complete.folders)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option("--in-order", is_flag=True, help="They were recorded in the order of the list: the first is its first.")
@which
@click.option("--yes", is_flag=True, help="Do not ask before the files are renamed.")
def name(folder: str, keys: tuple[str, ...], in_order: bool, yes: bool, **options: Any) -> None:
    """Give recordings that the phone named (New Recording 3) the names of the list, after showing which gets which.

    Nothing is overwritten, and if one file cannot be renamed, none is.
    """
    from cardgen import clip_folder

    if not in_order:
        raise TeacherError(
            "Only the order tells which recording is which.",
            "Record in the order of `cardgen clips list`, and say so with --in-order.",
        )
    naming = clip_folder.naming(folder, request_of(keys, options))
    rows = [(file.name, name, say) for (file, name), say in zip(naming.renames, naming.say, strict=True)]
    click.echo(table([("recording", "new name", "says"), *rows]))
    if naming.mixed:
        look_out("these are not all named in the same way. Listen to some, or rename them by hand.")
    if not yes and not click.confirm(f"Rename {len(rows)} files?"):
        click.echo("Nothing was changed.")
        return
    naming.carry_out()
    click.echo(f"Renamed: {len(rows)} files. `cardgen clips test {folder} {' '.join(keys)}` looks them through.")


@clips.command(
    "test",
    short_help="Look recordings through: missing, silent, too quiet, …",
    epilog="\b\nExample:  cardgen clips test my-voice m s",
)
@click.argument("folder", metavar="FOLDER", shell_complete=complete.folders)
@click.argument("keys", nargs=-1, metavar="[SOUND]...", shell_complete=complete.sounds)
@which
@json_option
@click.pass_context
def test(context: click.Context, /, folder: str, keys: tuple[str, ...], as_json: bool, **options: Any) -> None:
    """Look recordings through: missing, unreadable, silent, too short or long, too quiet or loud, with a name in them.

    With SOUND... also what the list of these sounds wants. Leaves with exit code 1 when something is to be mended.
    """
    from cardgen import clip_folder

    lines = clip_folder.test(folder, request_of(keys, options) if keys else None)
    if as_json:
        for line in lines:
            clip = line.clip
            write_json(
                {
                    "file": line.file or None,
                    "name": line.name,
                    "listed": line.listed,
                    "state": line.state.value,
                    "wrong": line.state.is_wrong,
                    "text": line.text,
                    "format": clip.format if clip else None,
                    "seconds": round(clip.seconds, 2) if clip else None,
                    "loudest_db": round(clip.loudest_db, 1) if clip else None,
                    "names_in_tags": list(clip.tags.names) if clip else [],
                    "places_in_tags": list(clip.tags.places) if clip else [],
                }
            )
    else:
        rows = [("recording", "is", "seconds", "", "what to know")]
        for line in lines:
            form, seconds = (line.clip.format, f"{line.clip.seconds:7.1f}") if line.clip else ("", "")
            rows.append((line.file or line.name, form, seconds, line.state.value, line.text))
        click.echo(table(rows))
    wrong = sum(line.state.is_wrong for line in lines)
    if not as_json:
        if any(line.clip and line.clip.tags.found for line in lines):
            click.echo(
                "Hand on no file whose tags tell a name or a place: `cardgen clips pages` copies the sound alone."
            )
        click.echo(
            f"{len(lines)} recordings, {wrong} to mend." if wrong else f"All {len(lines)} recordings are usable."
        )
    if wrong:
        context.exit(1)


@clips.command(
    "pages",
    short_help="Make the pages to listen to.",
    epilog="\b\nExample:  cardgen clips pages my-voice --out site m s",
)
@click.argument("folder", metavar="FOLDER", shell_complete=complete.folders)
@click.argument("keys", nargs=-1, required=True, metavar="SOUND...", shell_complete=complete.sounds)
@click.option(
    "--out",
    required=True,
    metavar="FOLDER",
    shell_complete=complete.folders,
    help="Where the pages go: a new folder, or one of such pages.",
)
@which
@quiet_option
def pages(folder: str, keys: tuple[str, ...], out: str, **options: Any) -> None:
    """Make pages to listen to: one a recording, one for the lesson; put the folder on any web space or USB stick.

    The sound alone is copied, without names or places. Lessons that were written there before stay.
    """
    from cardgen import clip_folder

    written = clip_folder.write_pages(folder, request_of(keys, options), checked(out))
    for line in written.look_out:
        look_out(line)
    count = "1 recording" if written.pages == 1 else f"{written.pages} recordings"
    tell(f"Written: {written.lesson}, with a page for {count}.")
