import random
import re
from collections import Counter
from itertools import pairwise
from typing import Any

import pytest

from cardgen.errors import TeacherError
from cardgen.games.check_text import lifted, line, names, passed
from cardgen.games.checking_choices import Bar, FoilKeys, bar, bar_as_foil
from cardgen.games.checking_oral import oral_check
from cardgen.games.checking_signs import SignName, signs_for
from cardgen.games.checking_words import Picker, Terms, open_stock
from cardgen.games.naming import this_is
from cardgen.recipes.check import Asked, asked
from cardgen.recipes.library import Library, open_library
from cardgen.request import Accent, CheckRequest, PartKind
from cardgen.sheets.row_signs import SIGNS
from cardgen.words.sounds import Sound


@pytest.fixture(scope="module")
def library() -> Library:
    return open_library()


@pytest.fixture(scope="module")
def sound(library: Library) -> Any:
    return library.sounds.get


def a_check(library: Library, *keys: str, seed: int = 3, **options: Any) -> Asked:
    request = CheckRequest(keys=keys, seed=seed, **options)
    return asked(request, library, random.Random(seed))


@pytest.mark.parametrize(
    ("one", "two", "why"),
    [
        ("c", "k", Bar.SOUND),
        ("qu", "k", Bar.SOUND),
        ("soft-g", "j", Bar.SOUND),
        ("long-u", "y", Bar.SOUND),
        ("a", "long-a", Bar.LETTER),
        ("c", "soft-c", Bar.LETTER),
        ("o", "or", None),
        ("s", "sh", None),
        ("m", "s", None),
    ],
)
def test_what_sounds_or_looks_the_same_never_stands_together(sound: Any, one: str, two: str, why: Bar | None) -> None:
    assert bar(sound(one), sound(two)) is why
    assert bar(sound(two), sound(one)) is why


def test_a_letter_a_word_is_spelled_with_is_no_wrong_letter(sound: Any) -> None:
    # Ship does begin with the letter s; sun does not begin with sh.
    assert bar_as_foil(sound("s"), sound("sh"), by_letter=True) is Bar.SPELLING
    assert bar_as_foil(sound("sh"), sound("s"), by_letter=True) is None
    assert bar_as_foil(sound("s"), sound("sh"), by_letter=False) is None


def test_three_choices_where_there_are_three_sounds_and_two_of_two(sound: Any) -> None:
    def choices(*keys: str) -> int:
        sounds = [sound(key) for key in keys]
        return FoilKeys(sounds, True, {}).choices(sounds)

    assert choices("m", "s") == 2
    assert choices("m", "s", "t") == 3
    assert choices("c", "k", "m") == 2
    assert choices("c", "k", "m", "t") == 3
    assert choices("c", "k") == 1


def test_a_hard_pair_is_always_tested_and_the_rest_takes_turns(sound: Any) -> None:
    sounds = [sound(key) for key in ("b", "v", "m", "s", "t")]
    foils = FoilKeys(sounds, True, {frozenset("bv"): 3})
    picked = [foils.pick(sounds[0], 2, random.Random(seed)) for seed in range(6)]
    assert all("v" in keys for keys in picked)
    others = Counter(key for keys in picked for key in keys if key != "v")
    assert others == {"m": 2, "s": 2, "t": 2}


def test_close_sounds_and_home_languages_decide_the_wrong_choices(library: Library) -> None:
    found = a_check(library, "b", "l", review=("v", "m", "t", "s"), home_language="Spanish", versions=("A", "B"))
    for version in found.check.versions:
        rows = [task for part in version.parts for task in part.tasks if task.key == "b"]
        assert all("v" in {choice.key for choice in task.choices} for task in rows)
    assert any("b – v (hard for these learners)" in note for note in found.check.notes)


def test_only_taught_letters_are_choices_and_an_older_one_is_asked_too(library: Library) -> None:
    found = a_check(library, "m", "s", review=("t",), full=True)
    for part in found.check.parts:
        assert {choice.key for task in part.tasks for choice in task.choices} <= {"m", "s", "t"}
        assert Counter(task.key for task in part.tasks) == {"m": 2, "s": 2, "t": 1}


def test_one_new_sound_is_asked_beside_older_ones(library: Library) -> None:
    found = a_check(library, "m", review=("s", "t"))
    for part in found.check.parts:
        counts = Counter(task.key for task in part.tasks)
        assert counts["m"] == 3
        assert counts.total() == 5


def test_two_sounds_make_two_choices_and_eight_rows_with_one_slip(library: Library) -> None:
    part = a_check(library, "m", "s").check.parts[0]
    assert (part.choices, len(part.tasks), part.pass_mark) == (2, 8, 7)
    part = a_check(library, "m", "s", items=5).check.parts[0]
    assert (len(part.tasks), part.pass_mark) == (5, 5)


def test_versions_ask_the_same_and_differ_in_every_place(library: Library) -> None:
    one, two = a_check(library, "m", "s", review=("t",), full=True, versions=("A", "B")).check.versions
    for first, second in zip(one.parts, two.parts, strict=True):
        for a, b in zip(first.tasks, second.tasks, strict=True):
            assert (a.sign, a.key, a.said, a.shown, a.answer) == (b.sign, b.key, b.said, b.shown, b.answer)
            assert set(a.choices) == set(b.choices)
            assert a.place != b.place
            assert b.choices[b.place] == a.answer


def test_fresh_words_are_asked_and_told(library: Library) -> None:
    found = a_check(library, "m", "s")
    told = re.findall(r"([ms]) (\d) of 8", found.check.notes[0])
    assert {key for key, _ in told} == {"m", "s"}
    assert all(int(new) >= 6 for _, new in told)
    # Few words end in x: all of them are in the bingo.
    scarce = a_check(library, "x", "ng")
    assert any("no more fresh words" in note for note in scarce.check.notes)


def test_pictures_that_are_mixed_up_never_share_a_row(library: Library) -> None:
    sounds = library.sounds.several(("m", "r"))
    terms = Terms(accent=Accent.US, careful=False, drawable=library.is_drawn, never=frozenset(), lesson=frozenset())
    stock = open_stock(library.bank, library.sounds, sounds, terms)
    mop, rake = library.bank.get("mop"), library.bank.get("rake")
    assert mop
    assert rake
    assert not stock.goes_with(rake, [mop])
    assert not stock.goes_with(mop, [mop])
    picker = Picker(stock, random.Random(1), set())
    shown = Counter[str]()
    foils = [picker.foil("r", [mop], shown, "sound-picture").word.word for _ in range(8)]
    assert "rake" not in foils
    # None comes again before all others have come.
    assert len(set(foils)) == 8


def test_many_children_hear_ch_in_tree(library: Library) -> None:
    for keys, there in ((("t", "m"), True), (("t", "ch"), False)):
        sounds = library.sounds.several(keys)
        terms = Terms(accent=Accent.US, careful=False, drawable=library.is_drawn, never=frozenset(), lesson=frozenset())
        said = open_stock(library.bank, library.sounds, sounds, terms).said["t"]
        assert ("tree" in {entry.word.word for entry in said}) is there


def test_two_letters_with_one_sound_are_told_apart_from_no_ear(library: Library) -> None:
    found = a_check(library, "c", "k", review=("m", "t"), full=True)
    assert any("c – k (they begin with the same sound)" in note for note in found.check.notes)


@pytest.mark.parametrize(
    ("keys", "options", "said"),
    [
        (("c", "k"), {}, "no wrong choice for c: not k (they begin with the same sound)"),
        (("s", "sh"), {}, "no wrong choice for sh: not s"),
        (("s",), {"review": ("sh",)}, "every answer would be s"),
        (("m", "s"), {"items": 4}, "4 items with two choices show nothing"),
        (("m", "x"), {}, "end of words"),
        (("m", "oy"), {"items": 5, "parts": (PartKind.SEE_SMALL,)}, "too few picture words for oy"),
        (("x", "ng"), {"parts": (PartKind.HEAR_PICTURE,)}, "too few words for"),
        (("c", "k"), {"show_me": True}, "no second card can be told from c"),
        (("a", "long-a"), {"say": True}, "all written a"),
    ],
)
def test_what_cannot_be_checked_is_refused(
    library: Library, keys: tuple[str, ...], options: dict[str, Any], said: str
) -> None:
    with pytest.raises(TeacherError) as caught:
        a_check(library, *keys, **options)
    assert said in caught.value.message
    assert caught.value.hint


def test_no_sign_begins_with_a_sound_of_the_check_and_parts_differ(library: Library) -> None:
    signs = tuple(SignName(sign.name, sign.begins) for sign in SIGNS)
    by_name = {sign.name: sign for sign in signs}
    keys: tuple[Sound, ...] = library.sounds.several(("b", "t", "h", "k"))
    one, two = signs_for((5, 5), signs, keys[:2], keys[2:])
    assert not set(one) & set(two)
    for name in one + two:
        assert not any(by_name[name].begins_with(sound) for sound in keys)
    usual = signs_for((5, 5), signs, library.sounds.several(("z",)), ())
    assert usual == [["cup", "leaf", "house", "bell", "tree"], ["hat", "boat", "apple", "flag", "kite"]]


def test_where_all_signs_are_in_the_way_the_asked_sounds_still_are_not(library: Library) -> None:
    signs = tuple(SignName(sign.name, sign.begins) for sign in SIGNS)
    starts = tuple(sound for sound in library.sounds.sounds if not sound.end and sound.key not in ("m", "s"))
    (row,) = signs_for((5,), signs, library.sounds.several(("m", "s")), starts)
    assert len(set(row)) == 5
    assert not {"mushroom", "star", "rocket"} & set(row)


@pytest.mark.parametrize("keys", ["ms", "mst", "msati", "msatip", "msatipnd", "msatipndgoc"])
def test_the_oral_check_has_every_letter_and_more_small_ones(library: Library, keys: str) -> None:
    sounds = library.sounds.several(tuple(keys))
    letters = oral_check(sounds, random.Random(1)).letters
    small = [letter for letter in letters if letter.islower()]
    assert len(letters) == (12 if len(keys) <= 8 else 20)
    assert set(keys) <= set(small)
    assert len(small) > len(letters) - len(small)
    if len(keys) > 2:
        assert all(a.lower() != b.lower() for a, b in pairwise(letters))


def test_the_check_with_cards_calls_ten_words(library: Library) -> None:
    game = a_check(library, "m", "s", show_me=True).check.show_me
    assert game
    assert [len(game.calls), game.pass_mark, game.cards] == [10, 9, ("m", "s")]
    assert len({call.word for call in game.calls}) == 10
    assert Counter(call.letter for call in game.calls) == {"m": 5, "s": 5}
    assert lifted(game) == "Passed: at most one wrong. A child who only guesses gets there 11 times in 1000."


def test_scarce_sounds_are_called_less_often(library: Library) -> None:
    game = a_check(library, "x", "ng", show_me=True).check.show_me
    assert game
    assert len(game.calls) == 9
    assert game.pass_mark == 8
    assert len({call.word for call in game.calls}) == 9


def test_the_script_says_what_to_ring(library: Library) -> None:
    found = a_check(library, "m", "s", review=("t",), full=True)
    said = {part.kind: (part.kind, part.tasks[0]) for part in found.check.parts}
    kind, task = said[PartKind.HEAR_LETTER]
    word = task.said.capitalize()
    assert line(kind, task, ends=False, silent=False) == f"{word}. {word}. Ring the letter it begins with."
    kind, task = said[PartKind.SEE_CAPITAL]
    assert line(kind, task, ends=False, silent=False).endswith("Ring the capital letter it begins with.")
    assert line(kind, task, ends=False, silent=False).startswith(("This is", "These are"))
    assert line(kind, task, ends=False, silent=True) == "Ring the capital letter it begins with."
    kind, task = said[PartKind.SOUND_PICTURE]
    assert f"Ring the picture that ends with {task.said}." in line(kind, task, ends=True, silent=False)
    shown = [choice.text for choice in task.choices]
    assert names(kind, task, silent=False) == f"The pictures: {', '.join(sorted(shown))}."
    assert names(kind, task, silent=True) == ""
    assert passed(found.check.parts) == (
        "Passed: 4 of 5 in a part. A child who only guesses gets there 45 times in 1000.",
    )


@pytest.mark.parametrize(
    ("word", "sentence"),
    [
        ("mouse", "This is a mouse."),
        ("apple", "This is an apple."),
        ("unicorn", "This is a unicorn."),
        ("soup", "This is soup."),
        ("sunglasses", "These are sunglasses."),
        ("seven", "This is seven."),
        ("chess", "This is chess."),
    ],
)
def test_a_picture_is_named_in_good_english(library: Library, word: str, sentence: str) -> None:
    found = library.bank.get(word)
    assert found
    assert this_is(found) == sentence
