"""What the teacher's page says of a matching game, in plain English."""

from collections.abc import Sequence

from cardgen.games.paper_text import CARE as CUTTING_CARE
from cardgen.games.paper_text import cards_lines, count, cuts_line, printing_line, sheets_line
from cardgen.games.pieces import Block, Cut, LinePage, Pair, PaperUse, SayLine
from cardgen.request import CutLine, MatchForm, MatchRequest, PairKind

CLIPPED = 3  # sheets that scissors take at once: common practice, no source
MOST_NAMED = 7  # sounds in the title
TITLE = {
    PairKind.LETTERS: "Letters to match",
    PairKind.PICTURES: "Pictures to match",
    PairKind.WORDS: "Words to match",
}
WHAT = {
    PairKind.LETTERS: "small and capital letters",
    PairKind.PICTURES: "letters and pictures",
    PairKind.WORDS: "pictures and words",
}
FOOT = {PairKind.LETTERS: "letter pairs", PairKind.PICTURES: "pictures to letters", PairKind.WORDS: "words to pictures"}
NOT_FOR_MEMORY = "For pairs face up and snap, not for memory: the backs show what belongs together."


def title(kind: PairKind, says: Sequence[SayLine]) -> str:
    """Return the title of the teacher's page; the sounds stand in the lines below it."""
    few = " ".join(say.key for say in says) if len(says) <= MOST_NAMED else count(len(says), "sound")
    return f"{TITLE[kind]}: {few}"


def foot(request: MatchRequest, kind: PairKind) -> str:
    """Return what the foot of every sheet says it is."""
    if request.form is MatchForm.HALVES:
        return f"{FOOT[kind]}, halves"
    return "pairs, not for memory" if request.self_check else FOOT[kind]


def summary(request: MatchRequest, pairs: Sequence[Pair], pages: Sequence[LinePage]) -> str:
    """Return what stands at the top right: how many pairs, in which form."""
    if request.form is MatchForm.PAGE:
        return f"{count(len(pages), 'page')} to draw lines on"
    sets = f"{count(request.sets, 'set')} of " if request.sets > 1 else ""
    if request.form is MatchForm.HALVES:
        return f"{sets}{count(len(pairs), 'pair')} in halves"
    return f"{sets}{count(len(pairs), 'pair')}, {2 * len(pairs)} cards"


def room_line(sets: int, fitting: int) -> str:
    """Return that more sets would take no more paper; empty where they would."""
    if sets > 1 or fitting <= sets:
        return ""
    return f"There is room on the paper for {fitting} sets: --sets {fitting} takes no more sheets."


def how_to_play(request: MatchRequest, kind: PairKind, pairs: Sequence[Pair], say: str) -> tuple[str, ...]:
    """Return the game in about four lines."""
    if request.form is MatchForm.PAGE:
        return _draw(kind, say)
    if request.form is MatchForm.HALVES:
        return _push_together(request, kind, pairs, say)
    said = _said(kind, say)
    snap = (
        "Snap: deal all cards. In turn each lays one in the middle, face up; who first sees that it goes with the card "
        f"before and says {said} takes the pile."
    )
    lines = [f"Pairs: all cards lie face up. A child takes two that belong together and says {said}.", snap]
    if request.self_check:
        lines += ["To check, turn both cards over: those that belong together have the same sign.", NOT_FOR_MEMORY]
    else:
        lines.append(
            "Memory: all lie face down. Turn over two and say them; keep what belongs together, else turn them back."
        )
    several = _several(kind, pairs)
    if several:
        lines.append(several)
    return tuple(lines)


def _said(kind: PairKind, say: str) -> str:
    if kind is PairKind.LETTERS:
        return f'the sound ("{say}")'
    if kind is PairKind.PICTURES:
        return f'the sound and the picture\'s name ("{say}" …)'
    return "the word"


def _several(kind: PairKind, pairs: Sequence[Pair]) -> str:
    keys = [pair.key for pair in pairs]
    if kind is not PairKind.PICTURES or len(set(keys)) == len(keys):
        return ""
    return "A letter has several pictures: any of them is right with any of its letter cards."


def _draw(kind: PairKind, say: str) -> tuple[str, ...]:
    each = {
        PairKind.LETTERS: f'Put a finger on a small letter, say its sound ("{say}"), find its capital.',
        PairKind.PICTURES: "Name each picture, listen to its sound, find its letter.",
        PairKind.WORDS: "Name each picture, then find its word and read it.",
    }[kind]
    return (
        "Together first: the dotted line joins two squares, because they belong together.",
        each,
        "Draw a line from dot to dot. Lines may cross.",
        "Check it with the key, or let two children compare.",
    )


def _push_together(request: MatchRequest, kind: PairKind, pairs: Sequence[Pair], say: str) -> tuple[str, ...]:
    lines = [f"Mix the halves. A child takes one, says {_said(kind, say)}, and looks for the other."]
    if request.cut_line is CutLine.WAVE:
        lines.append("Say it first, then push together: only the right halves fit without a gap.")
        if _several(kind, pairs):
            lines.append("All halves of one letter have the same curve: any of its pictures is right and fits.")
    else:
        lines.append("Say it first, then push together. The cuts are straight, so all halves fit: a partner checks.")
    lines.append("One set is enough for a table of four.")
    return tuple(lines)


def practises(kind: PairKind, *, ends: bool) -> tuple[str, ...]:
    """Return what the game trains."""
    if kind is PairKind.LETTERS:
        return (
            "Knowing that a small letter and its capital are one; with the sound said, the letter's sound.",
            "For the first sound of words: --pairs pictures.",
        )
    if kind is PairKind.PICTURES:
        return (f"Hearing the {'last' if ends else 'first'} sound of a word and finding its letter.",)
    return ("Reading words. Children who cannot read yet match by the first letter: --pairs pictures.",)


def paper_lines(request: MatchRequest, use: PaperUse, cut: Cut, waves: int, *, apart: bool) -> tuple[str, ...]:
    """Return how to print and cut, for each form."""
    if request.form is MatchForm.PAGE:
        return (f"{sheets_line(use)} Copy them as often as you need; nothing to cut.", printing_line(use))
    if request.form is MatchForm.CARDS:
        lines = cards_lines(use, cut, sets=1 if apart else request.sets)
        if not (use.folded or use.turned_on):
            lines = (*lines, "Thin paper shines through: take thick paper, or --backs fold.")
        return (*lines, "Every set has a file of its own.") if apart and request.sets > 1 else lines
    found = [f"{sheets_line(use)} {cuts_line(use, cut)}"]
    if waves:
        found.append(
            f"Then {count(waves, 'dashed line')} with scissors. Clip {CLIPPED} sheets, cut together: the same piece of "
            f"{CLIPPED} sets has the same curve, which saves two cuts of three."
            if request.sets > 1 and not apart
            else f"Then {count(waves, 'dashed line')} with scissors."
        )
    if request.sets > 1:
        found.append(
            "Each pile then holds one piece of every set: deal the piles out. The small number on both halves is their "
            "set."
        )
    found.append(printing_line(use))
    return tuple(found)


def blocks(
    play: Sequence[str],
    trains: Sequence[str],
    paper: Sequence[str],
    look_out: Sequence[str],
    again: Sequence[str],
    *,
    cutting: bool,
) -> tuple[Block, ...]:
    """Return the blocks of the teacher's page, in reading order."""
    made = [
        Block("How to play", tuple(play)),
        Block("It practises", tuple(trains)),
        Block("Paper, hands", tuple(paper)),
    ]
    if look_out:
        made.append(Block("Look out", tuple(look_out)))
    made.append(Block("Once more", tuple(again)))
    made.append(Block("Care", CUTTING_CARE if cutting else CUTTING_CARE[1:]))
    return tuple(made)
