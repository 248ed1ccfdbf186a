"""What the teacher's page says of writing sheets, in plain English."""

from collections.abc import Sequence

from cardgen.games.pieces import Block, SayLine, WritingSheet
from cardgen.request import LetterCase, TraceRequest
from cardgen.request.trace import X_HEIGHTS

CARE = (
    "Your school's own way of writing and its rules come first.",
    "A short thick pencil or a crayon is easier to hold; let the child choose the hand.",
)


def title(says: Sequence[SayLine]) -> str:
    """Return the title of the teacher's page."""
    return "Writing " + " ".join(say.key for say in says)


def summary(request: TraceRequest, sheets: Sequence[WritingSheet]) -> str:
    """Return what stands at the top right: how many sheets, and how high the lines are."""
    number = "1 sheet" if len(sheets) == 1 else f"{len(sheets)} sheets"
    return f"{number}, small letters {request.row_x_height:g} mm high"


def one_line(request: TraceRequest, sheets: Sequence[WritingSheet], for_you: int) -> str:
    """Return the line a teacher reads before anything is written: what, how much paper, nothing to cut."""
    backs = ", words on the back" if any(sheet.words for sheet in sheets) else ""
    each = f"{len(sheets)} sheets of paper" if len(sheets) > 1 else "1 sheet of paper"
    pages = "1 page" if for_you == 1 else f"{for_you} pages"
    return f"Writing: {summary(request, sheets)}{backs}. {each} a child, nothing to cut, and {pages} for you."


def blocks(
    request: TraceRequest,
    sheets: Sequence[WritingSheet],
    says: Sequence[SayLine],
    look_out: Sequence[str],
    again: Sequence[str],
) -> tuple[Block, ...]:
    """Return the blocks of the teacher's page, in reading order."""
    made = [
        Block("How to use", how_to_use(says[0].say)),
        Block("It practises", practises(request, sheets)),
        Block("Stroke order", stroke_order(request)),
        Block("Paper, hands", paper_lines(request, sheets)),
    ]
    if look_out:
        made.append(Block("Look out", tuple(look_out)))
    made.append(Block("Once more", tuple(again)))
    made.append(Block("Care", CARE))
    return tuple(made)


def how_to_use(say: str) -> tuple[str, ...]:
    """Return four lines: the finger first, then dots, then alone, and when to stop."""
    return (
        f'Say "{say}". A finger follows the arrows on the big letter, then a crayon.',
        "In each row: look at the model, then write over the dots.",
        "Then only the starts are left: begin on the dot. At the end the child writes alone.",
        "Stop while the letters are good. The child rings its best one.",
    )


def practises(request: TraceRequest, sheets: Sequence[WritingSheet]) -> tuple[str, ...]:
    """Return what the sheets train, what they do not, and what can wait."""
    lines = [
        "Forming the letter: where it starts, which way it goes, how high it is.",
        "A page of letters does not teach the sound: let the child say it with each one.",
    ]
    if request.case is LetterCase.BOTH:
        lines.append("The small letter comes first; the capital can wait for another day.")
    if any(sheet.words for sheet in sheets):
        lines.append("The words on the back are for children who know all their letters.")
    return tuple(lines)


def stroke_order(request: TraceRequest) -> tuple[str, ...]:
    """Return where the order of the strokes comes from, and how to change what the school does otherwise."""
    other = (
        "The pen is lifted between strokes (--lift); without it, it goes back over the line."
        if request.lift
        else "The pen goes back over the line where it can; for schools that lift it: --lift."
    )
    return ("Order and direction of the strokes are common practice, without a source.", other)


def paper_lines(request: TraceRequest, sheets: Sequence[WritingSheet]) -> tuple[str, ...]:
    """Return how to print, and which other forms there are."""
    backs = any(sheet.words for sheet in sheets)
    both = "Print the children's pages on both sides: words on the back; this page apart."
    sides = both if backs else "Print the sheets on one side."
    sizes = ", ".join(f"{size:g}" for size in X_HEIGHTS[:-1])
    lines = [
        f"{sides} One sheet a sound and child; nothing to cut.",
        "Print at 100 %. The bar below is 100 mm long.",
        f"Other lines: --x-height {sizes} or {X_HEIGHTS[-1]:g} (mm).",
    ]
    if not request.big:
        lines.append("A road wide enough for a finger: --big.")
    if request.left_handed:
        lines.append("The models stand at the right end, where a left hand does not cover them.")
    else:
        lines.append("For left-handed children: --left-handed (the models at the right end).")
    return tuple(lines)
