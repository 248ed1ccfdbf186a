from collections.abc import Collection
from dataclasses import replace

import pytest

from cardgen.errors import TeacherError
from cardgen.sources import pictures
from cardgen.words.bank import Bank, Word
from cardgen.words.contrast import Contrasts, HomeNote
from cardgen.words.key_pictures import Game, is_good, key_picture, key_pictures
from cardgen.words.sounds import SoundTable

UNSURE = "from memory"


def with_usual(sounds: SoundTable, **usual: str) -> SoundTable:
    """The table of sounds with other usual key pictures."""
    own = tuple(replace(sound, key_picture=usual.get(sound.key, sound.key_picture)) for sound in sounds.sounds)
    return replace(sounds, sounds=own)


def with_note(known: Contrasts, *keys: str) -> Contrasts:
    """The contrasts with one first language, in which some sounds are hard."""
    return replace(known, home=(HomeNote("Ours", keys, "may be mixed up", UNSURE),))


def of(
    table: SoundTable,
    key: str,
    bank: Bank,
    known: Contrasts,
    language: str | None,
    drawn: Collection[str] | None = None,
) -> tuple[str | None, str]:
    game = Game(table, table.several((key,)))
    word, note = key_picture(table.get(key), bank, known, language, lambda name: drawn is None or name in drawn, game)
    return word.word if word else None, note


def test_without_a_first_language_the_usual_one_stands(sounds: SoundTable, bank: Bank, known: Contrasts) -> None:
    assert of(with_usual(sounds, b="bear"), "b", bank, known, None) == ("bear", "")
    assert of(sounds, "m", bank, known, None) == ("mouse", "")
    assert of(sounds, "aw", bank, known, None) == (None, "")
    assert of(sounds, "m", bank, known, None, drawn=["moon"]) == (None, "")


def test_one_that_may_be_taken_for_another_word_is_passed_over(
    sounds: SoundTable, bank: Bank, known: Contrasts
) -> None:
    name, note = of(with_usual(sounds, b="bear"), "b", bank, known, "arabic")
    assert name not in (None, "bear")
    assert note == (
        f"Key picture for b: {name} instead of bear, for bear may be taken for pear. "
        "Often hard for speakers of Arabic: p and b: p may come out as b "
        "(Al Zahrani 2015, Sino-US English Teaching 12:6)."
    )


def test_the_shipped_goat_may_be_taken_for_a_coat(sounds: SoundTable, bank: Bank, known: Contrasts) -> None:
    name, note = of(sounds, "g", bank, known, "Mandarin")
    assert name == "gate"
    assert "goat may be taken for coat" in note
    assert note.endswith(f"({UNSURE}).")
    assert of(sounds, "g", bank, known, "French") == ("goat", "")


@pytest.mark.parametrize(
    ("key", "usual", "hard", "why"),
    [
        ("l", "lizard", "l r", "lizard has the sound of r in it too"),
        ("l", "leopard", "l r", "leopard has the sound of r in it too"),  # er ends in r
        ("r", "ruler", "r l", "ruler has the sound of l in it too"),
        ("c", "cat", "k t", "cat has the sound of t in it too"),  # c is heard as k
        ("f", "fan", "f v", "fan may be taken for van"),
        ("i", "ink", "i e", ""),
        ("a", "apple", "a u", ""),  # its second vowel is a schwa, no short u
        ("b", "bed", "b", ""),  # hard by itself, mixed up with nothing
        ("b", "bed", "s z", ""),
    ],
)
def test_what_passes_a_word_over(
    sounds: SoundTable, bank: Bank, known: Contrasts, key: str, usual: str, hard: str, why: str
) -> None:
    name, note = of(with_usual(sounds, **{key: usual}), key, bank, with_note(known, *hard.split()), "Ours")
    assert (name == usual) == (not why)
    assert why in note
    assert bool(note) == bool(why)


def test_the_end_of_a_word_is_swapped_for_a_sound_at_the_end(sounds: SoundTable, bank: Bank, known: Contrasts) -> None:
    ring = bank.get("ring")
    assert ring
    rim = replace(ring, word="rim", phones=("R", "IH1", "M"))
    _, note = of(sounds, "ng", Bank((*bank.words, rim)), with_note(known, "ng", "m"), "Ours")
    assert "ring may be taken for rim" in note


def test_it_stays_where_no_other_word_fits(sounds: SoundTable, bank: Bank, known: Contrasts) -> None:
    table = with_usual(sounds, b="bear")
    name, note = of(table, "b", bank, known, "Arabic", drawn=["bear", "bed", "bee"])
    assert name == "bed"
    name, note = of(table, "b", bank, known, "Arabic", drawn=["bear"])
    assert name == "bear"
    assert "bear may be taken for pear: no other good word of b fits." in note


def test_the_key_picture_of_another_sound_is_not_taken(sounds: SoundTable, bank: Bank, known: Contrasts) -> None:
    # box is that of x
    assert of(with_usual(sounds, b="bear"), "b", bank, known, "Arabic", drawn=["bear", "box"])[0] == "bear"


def test_another_one_is_of_another_group_and_outline(sounds: SoundTable, bank: Bank, known: Contrasts) -> None:
    table = with_usual(sounds, b="bear")

    def beside(*others: Word) -> Word:
        game = Game(table, table.several(("b",)), others)
        word, _ = key_picture(table.get("b"), bank, known, "Arabic", lambda _: True, game)
        assert word
        return word

    first = beside()
    other = replace(first, word="other", also=(), also_weak=(), shows=(), looks_like=())
    assert beside(other).group != first.group
    assert beside(replace(other, group="else")) == first
    assert beside(replace(other, group="else", looks_like=(first.word,))) != first


def test_another_one_has_no_name_that_misleads_and_rather_no_other_name(
    sounds: SoundTable, bank: Bank, known: Contrasts
) -> None:
    def of_g(*keys: str) -> str | None:
        game = Game(sounds, sounds.several(keys))
        word, _ = key_picture(sounds.get("g"), bank, known, "Arabic", lambda name: name in ("goat", "gate"), game)
        return word.word if word else None

    assert of_g("g") == "gate"
    assert of_g("g", "f") == "goat"  # some say fence for gate
    table = with_usual(sounds, b="bear")
    assert of(table, "b", bank, known, "Arabic", drawn=["bear", "bird", "button"])[0] == "button"


def test_the_pictures_of_a_game_are_told_with_the_table_they_stand_in(
    sounds: SoundTable, bank: Bank, known: Contrasts
) -> None:
    found = key_pictures(sounds, ("m", "g", "aw"), bank, known, "Arabic", lambda _: True)
    assert [(key, word.word) for key, word in found.words] == [("m", "mouse"), ("g", "gate")]
    assert found.sounds.get("g").key_picture == "gate"
    assert len(found.notes) == 1
    assert key_pictures(sounds, ("m", "g"), bank, known, None, lambda _: True).sounds is sounds
    with pytest.raises(TeacherError, match="Klingon"):
        key_pictures(sounds, ("m",), bank, known, "Klingon", lambda _: True)


def test_every_sound_has_a_key_picture_for_every_first_language(
    sounds: SoundTable, bank: Bank, known: Contrasts
) -> None:
    for language in known.languages:
        for sound in sounds.sounds:
            found = key_pictures(sounds, (sound.key,), bank, known, language, pictures.exists)
            assert not any("no other good word" in note for note in found.notes), (language, found.notes)
            assert len(found.words) == (sound.key != "aw")
            assert all(is_good(word, sound, sounds) for _, word in found.words)


@pytest.mark.parametrize("name", ["whale", "wheel", "whistle"])
def test_that_wh_sounds_like_w_does_not_stand_in_its_way(sounds: SoundTable, bank: Bank, name: str) -> None:
    word = bank.get(name)
    assert word
    assert is_good(word, sounds.get("wh"), sounds)
    assert not is_good(word, sounds.get("w"), sounds)


def test_an_action_or_a_word_with_a_caution_is_no_key_picture(sounds: SoundTable, bank: Bank) -> None:
    for name, key in (("jump", "j"), ("rabbit", "r")):
        word = bank.get(name)
        assert word
        assert not is_good(word, sounds.get(key), sounds)


def test_one_that_is_avoided_has_another_in_its_place(bank: Bank, known: Contrasts, sounds: SoundTable) -> None:
    usual = str(sounds.get("k").key_picture)
    rest = bank.chosen(frozenset(), frozenset({usual}))
    found = key_pictures(sounds, ("k", "w"), rest, known, None, pictures.exists)
    name = dict(found.words)["k"].word
    assert name != usual
    assert found.notes == (f"Key picture for k: {name} instead of {usual}.",)
    assert found.sounds.get("k").key_picture == name
