import pytest

from cardgen.errors import TeacherError
from cardgen.games.bingo_rules import BingoRules, settle, symbols_of
from cardgen.request import BingoRequest, Call, Face, Goal, Grid, Show
from cardgen.sources.bank_file import read_sounds

SOUNDS = read_sounds()


def settled(*keys: str, **more: object) -> BingoRules:
    return settle(BingoRequest(**({"keys": keys, "seed": 1} | more)), SOUNDS)  # type: ignore[arg-type]


def test_with_few_sounds_a_sound_is_called_over_pictures_for_the_full_board() -> None:
    rules = settled("m", "s")
    assert (set(rules.faces), rules.call, rules.goal) == ({Face.PICTURE}, Call.SOUND, Goal.BOARD)
    assert rules.by_counts


def test_from_nine_letters_on_a_word_is_called_over_letters() -> None:
    rules = settled(*"msatpinhd")
    assert (set(rules.faces), rules.call, rules.goal) == ({Face.LOWERCASE}, Call.WORD, Goal.BOARD)
    assert settled(*"msatpinh").faces[0] is Face.PICTURE


def test_one_sound_alone_is_played_by_words() -> None:
    assert settled("m").call is Call.WORD


@pytest.mark.parametrize(
    ("more", "call"),
    [
        ({"goal": Goal.LINE}, Call.WORD),
        ({"winners": 1}, Call.WORD),
        ({"show": (Show(Face.WORD),)}, Call.WORD),
        ({"show": (Show(Face.PICTURE, 20), Show(Face.WORD, 4))}, Call.WORD),
        ({"show": (Show(Face.CAPITAL),)}, Call.WORD),
        ({"call": Call.CARD}, Call.CARD),
    ],
)
def test_the_call_follows_what_is_shown(more: dict[str, object], call: Call) -> None:
    assert settled("m", "s", **more).call is call


@pytest.mark.parametrize(
    ("keys", "more", "message"),
    [
        ("m s", {"call": Call.SOUND, "goal": Goal.LINE}, "nobody can know who has a line"),
        ("m s", {"call": Call.NAME, "show": (Show(Face.PICTURE),)}, "does not go with"),
        ("m s", {"call": Call.CARD, "show": (Show(Face.CAPITAL),)}, "does not go with"),
        ("m s", {"show": (Show(Face.LOWERCASE),), "goal": Goal.LINE}, "letters repeat"),
        ("m s", {"show": (Show(Face.LOWERCASE),), "pool": 12}, "--pool counts words"),
        ("m", {"show": (Show(Face.LOWERCASE),)}, "two different letters"),
        ("i long-i", {"show": (Show(Face.LOWERCASE),)}, "written i"),
        ("c k", {}, "sound the same"),
        ("m x", {}, "at the end of words"),
        ("x ng m", {}, "at the end of words"),
    ],
)
def test_what_does_not_go_together_is_refused_with_a_remedy(keys: str, more: dict[str, object], message: str) -> None:
    with pytest.raises(TeacherError, match=message) as caught:
        settled(*keys.split(), **more)
    assert caught.value.hint


def test_letter_names_can_be_called_for_two_spellings_of_one_sound() -> None:
    assert settled("c", "k", call=Call.NAME).faces[0] is Face.LOWERCASE


@pytest.mark.parametrize(("letters", "copies"), [(2, 6), (4, 3), (6, 2), (9, 2), (11, 2), (12, 1)])
def test_letters_repeat_until_boards_can_differ(letters: int, copies: int) -> None:
    keys = tuple("msatpinhdfbg")[:letters]
    rules = settled(*keys, show=(Show(Face.LOWERCASE),))
    assert rules.copies == copies
    assert rules.by_counts == (copies > 1)


def test_a_line_game_takes_each_letter_once() -> None:
    assert settled(*"msatpinhd", goal=Goal.LINE).copies == 1


def test_symbols_are_printed_letters() -> None:
    sounds = SOUNDS.several(("m", "qu", "sh"))
    assert [letter for letter, _ in symbols_of(sounds, Face.LOWERCASE)] == ["m", "qu", "sh"]
    assert [letter for letter, _ in symbols_of(sounds, Face.CAPITAL)] == ["M", "Qu", "Sh"]
    assert [letter for letter, _ in symbols_of(sounds, Face.LETTERS)] == ["m", "M", "qu", "Qu", "sh", "Sh"]


def test_mixed_kinds_stand_one_after_the_other() -> None:
    rules = settled("m", "s", grid=Grid(3, 3), show=(Show(Face.PICTURE, 21), Show(Face.WORD, 3)))
    assert rules.faces == (Face.PICTURE,) * 21 + (Face.WORD,) * 3
