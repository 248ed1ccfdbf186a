"""Flashcards: letter cards and picture cards, what is on their fronts and backs."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

from cardgen.games.pieces import BLANK, Card, CardFace, Link, SayLine
from cardgen.request.common import Face
from cardgen.request.flashcards import BackFace, CardCase, FlashcardsRequest
from cardgen.words.bank import Word
from cardgen.words.sounds import Sound


class Lesson(NamedTuple):
    """One sound with how it is said and the words of its cards; the first is its key picture where it has one."""

    sound: Sound
    say: SayLine
    words: tuple[Word, ...]


# The link to the recording of a sound (by its key) or of one of its words; None where there is none.
LinkOf = Callable[[str, str | None], Link | None]


def flashcards(
    lessons: Sequence[Lesson], request: FlashcardsRequest, *, large: bool, link_of: LinkOf = lambda _key, _word: None
) -> tuple[Card, ...]:
    """Return the cards sound by sound, letters first; a letter that two sounds share has its cards once.

    Backs of letter cards tell the teacher who holds them up how the sound is said, if they are `large` enough. Where
    there is a link, a code on the back goes before all else that would stand there.
    """
    cards: dict[str, Card] = {}
    for lesson in lessons:
        if request.letters:
            for card in _letter_cards(lesson, request, large=large):
                cards.setdefault(card.id, _coded(card, lesson.sound, link_of(lesson.sound.key, None)))
        for word in lesson.words:
            card = _picture_card(lesson.sound, word, request)
            cards.setdefault(card.id, _coded(card, lesson.sound, link_of(lesson.sound.key, word.word)))
    return tuple(cards.values())


def _coded(card: Card, sound: Sound, link: Link | None) -> Card:
    """Return a card with a code on its back and the letter beside it; what is told to the teacher stays."""
    if link is None:
        return card
    if card.back.say:
        return replace(card, back=replace(card.back, code=link))
    return replace(card, back=CardFace(code=link, letter=sound.letter))


def _letter_cards(lesson: Lesson, request: FlashcardsRequest, *, large: bool) -> list[Card]:
    sound = lesson.sound
    pair = (sound.capital, sound.letter)
    back = _letter_back(lesson, request.back, large=large)
    if request.case is CardCase.BOTH:
        return [Card(sound.key, CardFace(pair=pair), back)]
    fronts = {
        CardCase.CAPITAL: (sound.capital,),
        CardCase.SMALL: (sound.letter,),
        CardCase.APART: (sound.letter, sound.capital),
    }[request.case]
    return [Card(letter, CardFace(letter=letter), back) for letter in fronts]


def _letter_back(lesson: Lesson, back: BackFace, *, large: bool) -> CardFace:
    if back is BackFace.BLANK:
        return BLANK
    pair = (lesson.sound.capital, lesson.sound.letter)
    if back is BackFace.LETTER:
        return CardFace(pair=pair)
    word = lesson.sound.key_picture
    if large:
        return CardFace(say=lesson.say, pair=pair, word=word)
    return CardFace(word=word, note=f"for the letter {lesson.sound.letter}") if word else BLANK


def _picture_card(sound: Sound, word: Word, request: FlashcardsRequest) -> Card:
    shown = {
        Face.PICTURE: CardFace(picture=word.picture, alt=word.alt),
        Face.PICTURE_WORD: CardFace(picture=word.picture, alt=word.alt, word=word.word),
        Face.WORD: CardFace(word=word.word),
    }[request.face]
    backs = {
        BackFace.WORD: CardFace(word=word.word),
        BackFace.LETTER: CardFace(letter=sound.letter),
        BackFace.BLANK: BLANK,
    }
    return Card(f"{sound.key}-{word.word}", shown, backs[request.back])


def letter_height(distance: float) -> float:
    """Return how high a letter must be, in mm, to be read from so many metres away.

    ADA Standards 2010, 703.5.5: 16 mm up to 1830 mm, then 3.2 mm more for every 305 mm.
    """
    return 16.0 + 3.2 * max(0.0, distance * 1000 - 1830) / 305


def readable_from(height: float) -> float:
    """Return from how many metres a letter so many mm high can be read, by the same rule; at least 1.83."""
    return (1830 + max(0.0, height - 16.0) * 305 / 3.2) / 1000
