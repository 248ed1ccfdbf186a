"""What the script and the teacher's page of a check say, in plain English, from the check itself."""

from collections.abc import Sequence
from fractions import Fraction

from cardgen.games.checking_marks import in_1000
from cardgen.games.paper_text import count
from cardgen.games.pieces import Block, CheckPart, CheckTask, PartKind, QuickCheck, ShowMe

CARE = (
    "A grown-up cuts with blades. The papers carry children's names: keep them safe, by your school's rules.",
    "A check shows where to go on. One bad day counts for nothing: ask again next week.",
)
SECONDS_A_ROW = 25  # common practice, no source


def _ring(kind: PartKind, *, ends: bool) -> str:
    """Return what the children are told to ring."""
    does = "ends" if ends else "begins"
    if kind is PartKind.SEE_CAPITAL:
        return f"Ring the capital letter it {does} with."
    if kind is PartKind.HEAR_PICTURE:
        return f"Ring the picture that {does} the same."
    return f"Ring the letter it {does} with."


def head(part: CheckPart, *, ends: bool) -> str:
    """Return the head of a part on the script."""
    order = _ring(part.kind, ends=ends)
    if part.kind is PartKind.SOUND_PICTURE:
        order = f"Ring the picture that {'ends' if ends else 'begins'} so."
    return f"Part {part.number}   {'Look' if part.kind.is_seen else 'Listen'}. {order}"


def line(kind: PartKind, task: CheckTask, *, ends: bool, silent: bool) -> str:
    """Return what the teacher says for one row; `silent` leaves the picture unnamed."""
    if kind.is_seen:
        return _ring(kind, ends=ends) if silent else f"{task.named} {_ring(kind, ends=ends)}"
    if kind is PartKind.SOUND_PICTURE:
        does = "ends" if ends else "begins"
        return f"{task.said}. {task.said}. Ring the picture that {does} with {task.said}."
    said = task.said[0].upper() + task.said[1:]
    return f"{said}. {said}. {_ring(kind, ends=ends)}"


def names(kind: PartKind, task: CheckTask, *, silent: bool) -> str:
    """Return the names of the pictures to choose from, in alphabetical order: it must not tell which is right."""
    if silent or not kind.rings_pictures:
        return ""
    return f"The pictures: {', '.join(sorted(choice.text for choice in task.choices))}."


def passed(parts: Sequence[CheckPart]) -> tuple[str, ...]:
    """Return what counts as passed and how often guessing gets there, in one line where all parts agree."""
    marks = {(part.pass_mark, len(part.tasks), part.guess) for part in parts}
    if len(marks) == 1:
        (mark, items, guess) = marks.pop()
        return (f"Passed: {mark} of {items} in a part. {_guessing(guess)}",)
    return tuple(
        f"Part {part.number} passed: {part.pass_mark} of {len(part.tasks)}. {_guessing(part.guess)}" for part in parts
    )


def _guessing(guess: Fraction) -> str:
    return f"A child who only guesses gets there {in_1000(guess)}."


def lifted(game: ShowMe) -> str:
    """Return what counts as passed in the check with cards."""
    wrong = len(game.calls) - game.pass_mark
    return f"Passed: at most {'one' if wrong == 1 else wrong} wrong. {_guessing(game.guess)}"


def title(check: QuickCheck, keys: Sequence[str]) -> str:
    """Return the title of the teacher's page."""
    what = "Quick check" if check.parts else "Oral check" if check.oral else "Check with cards"
    return f"{what} of {' '.join(keys)}"


def summary(check: QuickCheck) -> str:
    """Return what stands at the top right of the teacher's page."""
    parts = []
    if check.parts:
        items = sorted({len(part.tasks) for part in check.parts})
        parts.append(f"{count(len(check.parts), 'part')} of {' or '.join(map(str, items))}")
    parts += ["letters to say"] * bool(check.oral) + ["cards to lift"] * bool(check.show_me)
    return ", ".join(parts)


SHOWS = {
    PartKind.HEAR_LETTER: "hearing the {} sound of a word and knowing its small letter",
    PartKind.SEE_CAPITAL: "the {} sound of what is seen, and its capital letter",
    PartKind.SEE_SMALL: "the {} sound of what is seen, and its small letter",
    PartKind.HEAR_PICTURE: "hearing that two words have the same {} sound, by ear alone",
    PartKind.SOUND_PICTURE: "finding a word for a {} sound, by ear alone",
}


def blocks(
    check: QuickCheck, paper: Sequence[str], look_out: Sequence[str], again: Sequence[str], *, ends: bool
) -> tuple[Block, ...]:
    """Return the teacher's page, block by block; `paper` are the lines on paper and cuts."""
    place = "last" if ends else "first"
    made = [Block("How to do it", _how(check))]
    shows = [f"Part {part.number}: {SHOWS[part.kind].format(place)}." for part in check.parts]
    shows += ["Letters to say: from the letter to its sound."] * bool(check.oral)
    shows += [f"Cards to lift: from the {place} sound of a word to its letter."] * bool(check.show_me)
    made.append(Block("It shows", tuple(shows)))
    if check.parts:
        made.append(Block("What counts", (*passed(check.parts), *_fair(check))))
    if check.notes:
        made.append(Block("Words, choices", check.notes))
    made.append(Block("Paper, hands", tuple(paper)))
    if look_out:
        made.append(Block("Look out", tuple(look_out)))
    return (*made, Block("Once more", tuple(again)), Block("Care", CARE))


def _how(check: QuickCheck) -> tuple[str, ...]:
    lines = []
    if check.parts:
        sign = check.parts[0].tasks[0].sign
        lines += [
            "Half a sheet and a pencil each; names first. Ring one thing together.",
            f'Read the script: "Finger on the {sign}." Say the line, wait for all, go on.',
            "Give no help with the sound, and look the same at every answer.",
            "Mark by the script, then note in the class grid how many were right.",
        ]
    if check.oral:
        lines.append("Oral check: one child at a time, away from the others; about a minute each.")
    if check.show_me:
        lines.append("Cards to lift: all at once; note only who is wrong or looks round first.")
    return tuple(lines)


def _fair(check: QuickCheck) -> tuple[str, ...]:
    lines = ["The right answer stands in every place equally often, give or take one, never more than twice running."]
    if len(check.versions) > 1:
        one, two = (version.name for version in check.versions)
        lines.append(
            f"{one} and {two} are for neighbours: the same rows and words, but in every row the right answer "
            "stands in another place. One script serves both."
        )
    return tuple(lines)


def minutes(check: QuickCheck) -> int:
    """Return about how many minutes the parts take; a rule of thumb."""
    rows = sum(len(part.tasks) for part in check.parts)
    return max(1, round(rows * SECONDS_A_ROW / 60))


def paper_lines(check: QuickCheck, sides: int, first_page: int) -> tuple[str, ...]:
    """Return how the pages for the children, from `first_page` on, are printed and cut."""
    if not sides:
        return ("Nothing to cut. Print at 100 %; the bar below is 100 mm long.",)
    sheets = -(-sides // 2)
    last = first_page + sides - 1
    pages = f"page {first_page}"
    if sides > 1:
        pages = f"pages {first_page} {'and' if sides == 2 else 'to'} {last}"
    both = ", printed on both sides, turned on the short edge" if sides > 1 else ""
    copies = f"Take half as many copies of {pages}{both} as there are children: {12 * sheets} sheets for 24."
    return (
        f"Two children share a sheet. {copies}",
        "Cut once between the halves. Print at 100 %; the bar below is 100 mm long.",
        f"About {count(minutes(check), 'minute')} with the class (a rule of thumb).",
    )


def one_line(check: QuickCheck, sides: int, pages: int) -> str:
    """Return the line a teacher reads before anything is written."""
    what = summary(check)
    children = f"{count(sides, 'page')} for the children, two of them on each" if sides else ""
    marks = " ".join(passed(check.parts)) if check.parts else lifted(check.show_me) if check.show_me else ""
    return " ".join(
        filter(None, [f"{what[0].upper()}{what[1:]}.", f"{count(pages, 'page')}: {children}." if children
                      else f"{count(pages, 'page')}.", marks])
    )  # fmt: skip
