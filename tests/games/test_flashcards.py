import pytest

from cardgen.errors import TeacherError
from cardgen.games.flashcards import Lesson, flashcards, letter_height, readable_from
from cardgen.games.pieces import BLANK, Card
from cardgen.games.saying import say_lines
from cardgen.request import Face, FlashcardsRequest
from cardgen.request.flashcards import BackFace, CardCase
from cardgen.sources.bank_file import read_bank, read_sounds

BANK, SOUNDS = read_bank(), read_sounds()


def made(*keys: str, large: bool = False, **more: object) -> tuple[Card, ...]:
    sounds = SOUNDS.several(keys)
    words = {"m": ("moon", "map"), "i": ("igloo",), "long-i": ("ice",)}
    lessons = [
        Lesson(sound, say, tuple(word for name in words[sound.key] if (word := BANK.get(name))))
        for sound, say in zip(sounds, say_lines(sounds), strict=True)
    ]
    return flashcards(lessons, FlashcardsRequest(keys=keys, seed=1, **more), large=large)  # type: ignore[arg-type]


# ADA Standards 2010, 703.5.5, the least height of letters on a sign: 17.8, 28.3 and 49.3 mm at 2, 3 and 5 m.
@pytest.mark.parametrize(("metres", "height"), [(1, 16.0), (2, 17.8), (3, 28.3), (5, 49.3)])
def test_letters_are_as_high_as_the_rule_for_signs_asks(metres: float, height: float) -> None:
    assert letter_height(metres) == pytest.approx(height, abs=0.05)
    assert readable_from(height) == pytest.approx(max(metres, 1.83), abs=0.01)


def test_letters_stand_together_apart_or_alone() -> None:
    assert [card.id for card in made("m", case=CardCase.BOTH)] == ["m", "m-moon", "m-map"]
    assert [card.front.letter for card in made("m", case=CardCase.APART)][:2] == ["m", "M"]
    assert [card.front.letter for card in made("m", case=CardCase.CAPITAL)][:1] == ["M"]
    assert [card.front.letter for card in made("m", case=CardCase.SMALL)][:1] == ["m"]
    assert [card.id for card in made("m", letters=False)] == ["m-moon", "m-map"]


def test_a_letter_that_two_sounds_share_has_one_card() -> None:
    ids = [card.id for card in made("i", "long-i", case=CardCase.APART)]
    assert ids == ["i", "I", "i-igloo", "long-i-ice"]


@pytest.mark.parametrize("face", [Face.PICTURE, Face.PICTURE_WORD, Face.WORD])
def test_fronts_show_what_was_asked(face: Face) -> None:
    front = next(card.front for card in made("m", face=face) if card.id == "m-moon")
    assert (front.picture == "moon", front.word == "moon") == (face is not Face.WORD, face is not Face.PICTURE)


def test_backs_tell_the_word_the_letter_or_nothing() -> None:
    assert next(card.back.word for card in made("m") if card.id == "m-moon") == "moon"
    assert next(card.back.letter for card in made("m", back=BackFace.LETTER) if card.id == "m-moon") == "m"
    assert all(card.back == BLANK for card in made("m", back=BackFace.BLANK))


def test_large_letter_cards_tell_the_teacher_what_to_say() -> None:
    assert made("m")[0].back.say is None
    say = made("m", large=True)[0].back.say
    assert say
    assert say.say == "mmm"


@pytest.mark.parametrize(
    "wrong",
    [
        {"distance": 0},
        {"distance": 31},
        {"distance": float("nan")},
        {"words": -1},
        {"words": 1000},
        {"words": 0, "letters": False},
        {"face": Face.CAPITAL},
        {"distance": 3, "layout": "cards"},
        {"sets": 0},
        {"sets": 5000},
        {"margin": -1},
        {"gap": float("inf")},
        {"gap": 2.0, "laminate": True},
    ],
)
def test_what_cannot_be_is_refused_with_what_can(wrong: dict[str, object]) -> None:
    with pytest.raises(TeacherError) as caught:
        FlashcardsRequest(keys=("m",), seed=1, **wrong)  # type: ignore[arg-type]
    assert caught.value.hint
