"""The commands `sounds`, `words` and `word`: answers on the screen, or as JSON, one object a line."""

import json
from collections.abc import Iterable, Sequence
from textwrap import wrap
from typing import Any

import click

from cardgen import ask
from cardgen.cli import complete
from cardgen.cli.manners import Command, Spelled, look_out
from cardgen.request import Accent, CatalogueRequest, Ink, Paper

WIDTH = 100  # columns of a line on the screen
NARROWEST = 20  # columns of what is wrapped, however much stands before it

accent_option = click.option(
    "--accent",
    type=Spelled([accent.value for accent in Accent]),
    default=Accent.US.value,
    show_default=True,
    help="Whose English is spoken.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="One JSON object a line.")


def table(rows: Iterable[Sequence[str]], indent: str = "") -> str:
    """Return rows as aligned columns, the last one wrapped at 100 columns."""
    lines = [list(row) for row in rows]
    widths = [max((len(row[column]) for row in lines), default=0) for column in range(len(lines[0]) - 1)]
    left = len(indent) + sum(width + 2 for width in widths)
    shown = []
    for row in lines:
        start = indent + "".join(f"{cell:{width}}  " for cell, width in zip(row, widths, strict=False))
        tail = wrap(row[-1], max(NARROWEST, WIDTH - left)) or [""]
        shown += [(start + tail[0]).rstrip(), *(" " * left + line for line in tail[1:])]
    return "\n".join(shown)


def write_json(record: dict[str, Any]) -> None:
    """Print one record as a line of JSON."""
    click.echo(json.dumps(record, ensure_ascii=False))


@click.command(
    "sounds", cls=Command, epilog="\b\nExamples:  cardgen sounds\n           cardgen sounds m s --sheet pictures.pdf"
)
@click.argument("keys", nargs=-1, metavar="[SOUNDS]...", shell_complete=complete.sounds)
@click.option(
    "--sheet",
    metavar="FILE.pdf",
    shell_complete=complete.files,
    help="Print the pictures by sound, and sheets to have them named.",
)
@click.option(
    "--paper",
    type=Spelled([paper.value for paper in Paper]),
    default="a4",
    show_default=True,
    help="For --sheet: what lies in the printer.",
)
@click.option(
    "--ink",
    type=Spelled([ink.value for ink in Ink]),
    default="colour",
    show_default=True,
    help="For --sheet: in colour, in greys, or in lines.",
)
@accent_option
@json_option
def sounds(keys: tuple[str, ...], sheet: str | None, paper: str, ink: str, accent: str, as_json: bool) -> None:
    """List every sound (or some): its letter, how it is said, how many picture words it has, what stands in its way."""
    lines = ask.sounds(Accent(accent), tuple(key.lower() for key in keys))
    if sheet:
        from cardgen.cli.common import send

        keys = tuple(line.sound.key for line in lines if line.words)
        request = CatalogueRequest(keys=keys, paper=Paper(paper), ink=Ink(ink), accent=Accent(accent))
        send(request, "sounds", out=sheet)
        return
    if as_json:
        for line in lines:
            sound = line.sound
            write_json(
                {
                    "key": sound.key,
                    "letter": sound.letter,
                    "capital": sound.capital,
                    "say": sound.say,
                    "mouth": sound.mouth,
                    "avoid": list(sound.avoid),
                    "held": sound.held,
                    "at": "end" if sound.end else "start",
                    "key_picture": sound.key_picture,
                    "words": line.words,
                    "good": line.good,
                    "in_the_way": list(line.in_the_way),
                }
            )
        return
    rows = [("sound", "letter", "words", "good", "say", "in the way")]
    for line in lines:
        letters = f"{line.sound.capital} {line.sound.letter}"
        way = "; ".join(line.in_the_way)
        rows.append((line.sound.key, letters, f"{line.words:5}", f"{line.good:4}", line.sound.say, way))
    click.echo(table(rows))


@click.command("words", cls=Command, epilog="\b\nExample:  cardgen words m s")
@click.argument("keys", nargs=-1, required=True, metavar="SOUNDS...", shell_complete=complete.sounds)
@click.option("--all", "everything", is_flag=True, help="Also the words that were left out, and why.")
@click.option("--home-language", metavar="NAME", help="Add what speakers of this first language find hard.")
@accent_option
@json_option
def words(keys: tuple[str, ...], everything: bool, home_language: str | None, accent: str, as_json: bool) -> None:
    """List the picture words for some sounds taught together, each with what to look out for."""
    answer = ask.words(keys, Accent(accent), home_language=home_language)
    lines = [line for line in answer.words if everything or not line.left_out]
    if as_json:
        for line in lines:
            write_json(
                {
                    "word": line.word,
                    "key": line.key,
                    "verdict": line.verdict.verdict.value,
                    "reasons": list(line.verdict.reasons),
                    "picture": line.picture,
                    "key_picture": line.is_key_picture,
                    "left_out": list(line.left_out),
                }
            )
        return
    for sound in answer.sounds:
        click.echo(f"{sound.key}  {sound.say_line}")
        rows = [_word_row(line) for line in lines if line.key == sound.key]
        click.echo(table(rows, "  ") if rows else "  no picture words yet")
        click.echo()
    for text in answer.look_out:
        look_out(text)
    out = len(answer.words) - len(lines)
    if out:
        click.echo(f"{out} more {'words were' if out > 1 else 'word was'} left out: --all shows why.")


def _word_row(line: ask.WordLine) -> tuple[str, str, str]:
    name = f"{line.word} (key picture)" if line.is_key_picture else line.word
    if line.left_out:
        return name, "left out", " ".join(line.left_out)
    return name, line.verdict.verdict.value, " ".join(line.verdict.reasons)


@click.command("word", cls=Command, epilog="\b\nExample:  cardgen word giraffe gem --for g")
@click.argument("names", nargs=-1, required=True, metavar="WORDS...")
@click.option(
    "--for",
    "key",
    metavar="SOUND",
    shell_complete=complete.sounds,
    help="The sound to judge for.  [default: that of the first letters]",
)
@click.option("--any-spelling", is_flag=True, help="Judge by ear alone: giraffe is then a word for j.")
@accent_option
@json_option
@click.pass_context
def word(
    context: click.Context, names: tuple[str, ...], key: str | None, any_spelling: bool, accent: str, as_json: bool
) -> None:
    """Tell the first sound of any words, and whether they suit a sound: good, caution or wrong, and why.

    Leaves with exit code 1 when a word is not known.
    """
    answers = ask.word(names, key, Accent(accent), any_spelling=any_spelling)
    if as_json:
        for answer in answers:
            write_json(_as_record(answer))
    else:
        click.echo(table(map(_answer_row, answers)))
    if any(answer.verdict is None for answer in answers):
        context.exit(1)


def _as_record(answer: ask.WordAnswer) -> dict[str, Any]:
    verdict = answer.verdict
    return {
        "word": answer.word,
        "key": answer.key,
        "verdict": verdict.verdict.value if verdict else None,
        "first_sound": verdict.first_sound if verdict else None,
        "readings": [" ".join(phones) for phones in verdict.readings] if verdict else [],
        "reasons": list(verdict.reasons) if verdict else [answer.why],
    }


def _answer_row(answer: ask.WordAnswer) -> tuple[str, str, str, str]:
    verdict = answer.verdict
    if verdict is None:
        return answer.word, "", "not known", answer.why
    judged = f"{verdict.verdict.value} for {verdict.key}{' at its end' if answer.at_end else ''}"
    return answer.word, f"begins with {verdict.first_sound}", judged, " ".join(verdict.reasons)
