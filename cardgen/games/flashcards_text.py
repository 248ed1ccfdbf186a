"""What the teacher's page says of flashcards."""

from collections.abc import Sequence

from cardgen.games.paper_text import CARE
from cardgen.games.pieces import Block, Card, SayLine
from cardgen.request.flashcards import BackFace, FlashcardsRequest

LETTERS, PICTURES = "letter cards", "picture cards"


def title(says: Sequence[SayLine]) -> str:
    """Return the title of the teacher's page."""
    return "Cards for " + " ".join(say.key for say in says)


def summary(cards: Sequence[Card], request: FlashcardsRequest) -> str:
    """Return how many cards of which kind there are."""
    letters = sum(1 for card in cards if card.front.letter or card.front.pair)
    parts = [(letters, "letter"), (len(cards) - letters, request.face.value.replace("-", " and "))]
    told = ", ".join(f"{number} {kind} {'card' if number == 1 else 'cards'}" for number, kind in parts if number)
    return told if request.sets == 1 else f"{request.sets} sets of {told}"


def blocks(
    request: FlashcardsRequest,
    paper: Sequence[str],
    look_out: Sequence[str],
    again: Sequence[str],
    height: str,
) -> tuple[Block, ...]:
    """Return the blocks of the teacher's page; `height` says how far the letters can be read, or is empty."""
    play = []
    if request.letters:
        play.append("Show a letter card. Say its sound, not its name; the children say it after you.")
    if request.words:
        play.append("Show a picture. The children name it, then say the sound it begins with.")
        play.append("Mix them: show a picture, a child holds up its letter; or name a sound, a child finds a picture.")
    play.append("Keep the cards that were missed apart and show them once more at the end.")
    practises = ["Letter to sound." if request.letters else "", "First sound of a word." if request.words else ""]
    backs = {
        BackFace.WORD: "The backs tell you what to say.",
        BackFace.LETTER: "The backs show the letter: a child can check alone.",
        BackFace.BLANK: "The backs are white.",
    }[request.back]
    made = [
        Block("How to use", tuple(play[:4])),
        Block("It practises", (" ".join(filter(None, practises)), backs)),
        Block("Paper, hands", tuple(paper)),
    ]
    if height:
        made.append(Block("How far", (height,)))
    if look_out:
        made.append(Block("Look out", tuple(look_out)))
    return (*made, Block("Once more", tuple(again)), Block("Care", CARE))
