"""What is said of packs: on the teacher's page, and what can be said to the family in her own words."""

from collections import Counter
from collections.abc import Sequence
from unicodedata import bidirectional, category, normalize

from cardgen.errors import TeacherError
from cardgen.games.paper_text import CARE, count, printing_line, sheets_line
from cardgen.games.pieces import Block, Link, PaperUse, SayLine
from cardgen.games.take_home import Makeup
from cardgen.request import PackRequest, ReviewMode
from cardgen.request.pack import USUAL_CARDS
from cardgen.units import Typeface, Widths
from cardgen.words.pool import PoolWord

_FROM_THE_RIGHT = frozenset({"R", "AL", "AN"})


def title(says: Sequence[SayLine]) -> str:
    """Return the title of the teacher's page."""
    return "Packs for " + " ".join(say.key for say in says)


def summary(request: PackRequest, made: Makeup) -> str:
    """Return how many packs there are and how many cards each has."""
    return f"{count(request.children, 'pack')} of {made.cards} cards"


def family_text(text: str, face: Typeface, widths: Widths) -> str:
    """Return the teacher's text ready to be set: in one line, letters put together with their accents.

    TeacherError for letters that the typeface does not have, and for scripts that are written from the right or whose
    letters change with their neighbours: set letter by letter they would be wrong.
    """
    text = normalize("NFC", " ".join(text.split()))
    for letter in text:
        if bidirectional(letter) in _FROM_THE_RIGHT or category(letter) in ("Mn", "Mc", "Me", "Cf", "Cc", "Cs", "Co"):
            shown = f'"{letter}"' if category(letter)[0] in "LN" else f"the sign U+{ord(letter):04X}"
            raise TeacherError(
                f"This text cannot be set: {shown} belongs to a script that is written from right to left or joins "
                "its letters.",
                "Leave out --text and write it by hand on the cover's line, or let the code tell it: --family XX",
            )
    missing = widths.missing(text, face)
    if missing:
        listed = " ".join(missing[:20])
        raise TeacherError(
            f"The typeface does not have these letters of your text: {listed}",
            "Take another one that does: --font FILE.ttf"
            if face is Typeface.OWN
            else "Add a typeface that does, a TrueType file of yours: --font FILE.ttf",
        )
    return text


def blocks(
    request: PackRequest,
    made: Makeup,
    packs: Sequence[Sequence[PoolWord]],
    link: Link | None,
    paper: Sequence[str],
    look_out: Sequence[str],
    again: Sequence[str],
    *,
    apart: bool,
    strip: bool,
    letter: bool,
) -> tuple[Block, ...]:
    """Return the blocks of the teacher's page.

    `apart` packs have sheets of their own; `strip` tells of the sorting strip, `letter` of a page for the family.
    """
    made_of = [
        Block("In each pack", tuple(_contents(request, made, strip=strip, letter=letter))),
        Block("Handing out", _handing_out(made, apart=apart)),
        Block("At home", _at_home(made, link, strip=strip)),
        Block("It practises", ("First sound of a word, and its letter; little and often: a few cards each evening.",)),
        Block("In play", _words(request, packs)),
    ]
    if link:
        made_of.append(Block("Your voice", _voice()))
    made_of.append(Block("Paper, hands", tuple(paper)))
    if look_out:
        made_of.append(Block("Look out", tuple(look_out)))
    return (*made_of, Block("Once more", tuple(again)), Block("Care", CARE))


def _contents(request: PackRequest, made: Makeup, *, strip: bool, letter: bool) -> list[str]:
    letters = len(request.keys) * (2 if made.capitals else 1)
    parts = ["the cover", count(letters, "letter"), count(made.pictures, "picture")]
    lines = [f"{', '.join(parts[:-1])} and {parts[-1]}.".capitalize()]
    if request.is_large and made.capitals:
        lines.append("Small letters and capitals are pairs: lay them face down for a game of memory.")
    if strip:
        lines.append("One sorting strip each: lay it on the table, and each picture below its letters.")
    if made.comebacks:
        how = "at growing gaps" if request.review_mode is ReviewMode.GROWING else "evenly"
        lines.append(
            f"Earlier sounds come back {how}: {', '.join(made.comebacks)}. "
            "Their letters are in the packs of their week."
        )
    if letter:
        lines.append("Your text is too long for the cover: it has a page of its own. Copy it for every family.")
    return lines


def _handing_out(made: Makeup, *, apart: bool) -> tuple[str, ...]:
    names = "Names are written by hand only, on the back. The line on the cover is for a word of yours or the family's."
    if made.cards <= 9 and apart:
        return ("One sheet is one child's pack: nothing to collate. The absent child's sheet waits in the tray.", names)
    if apart:
        return (f"A child's pack is {-(-made.cards // 9)} sheets in a row: clip them. The absent child's wait.", names)
    whose = "The small number on every piece is its pack: a card found on the floor goes home."
    return (whose, "An absent child's pack waits, with its band round it.", names)


def _at_home(made: Makeup, link: Link | None, *, strip: bool) -> tuple[str, ...]:
    """Return the three steps on the cover in words, to be shown once in class."""
    below = "below its letters on the strip" if strip else "beside its letter"
    play = "hear the code, " if link else ""
    return (
        (
            f"The cover tells it without words: {play}look at a picture, say its first sound, lay it {below}. "
            "Play it once in class first."
        ),
        "Colouring the pictures is part of it." if made.cards <= 9 else "Colouring the pictures may be part of it.",
    )


def _words(request: PackRequest, packs: Sequence[Sequence[PoolWord]]) -> tuple[str, ...]:
    often = Counter(entry.word.word for pack in packs for entry in pack)
    keys = dict.fromkeys(entry.key for pack in packs for entry in pack)
    ordered = dict.fromkeys((entry.key, entry.word.word) for pack in packs for entry in pack)
    lines = [f"{key}: " + ", ".join(word for its_key, word in ordered if its_key == key) for key in keys]
    if request.vary and often:
        low, high = min(often.values()), max(often.values())
        times = str(low) if low == high else f"{low} to {high}"
        lines.append(f"The packs differ; each word is in {times} of the {len(packs)}.")
    return tuple(lines)


def sheets_apart(use: PaperUse, cuts: int) -> tuple[str, ...]:
    """Return what there is to know of packs on sheets of their own, which take so many cuts each."""
    return (f"{sheets_line(use)} {cuts} cuts a pack with scissors along the thin lines, in class or at home.",
            printing_line(use))  # fmt: skip


def at_home(use: PaperUse) -> str:
    """Return paper and cuts in a few words, for packs that families or children cut."""
    return f"{count(use.sheets, 'sheet')}, to be cut with scissors by children or families"


def thin(made: Makeup, sounds: int) -> list[str]:
    """Return a warning where one sheet leaves a sound with a single picture."""
    if made.cards <= USUAL_CARDS and made.new < 2 * sounds:
        return ["Some sounds have only one picture on this sheet; --cards 18 makes packs of two sheets."]
    return []


def _voice() -> tuple[str, ...]:
    return (
        "The code plays what you recorded. Record yourself, never children: a child's voice is personal.",
        "Who has the link can hear it; put nothing there that names a child.",
    )
