"""What the pictures are called by those who have not seen their names.

Named blind by image-reading software (three runs a picture, each from numbered sheets alone, 25 mm wide, in grey); no
child or adult has tested them yet. Each file `naming/DATE-run-N.csv` holds one run: picture, first word, second word,
sure or not. Don't-knows count as wrong, as is usual with young children (Cannard et al. 2005).
"""

import csv
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

from cardgen.request import Accent
from cardgen.sources.bank_file import read_bank, read_sounds
from cardgen.sources.pictures import exists
from cardgen.words.bank import Word
from cardgen.words.case import Fit
from cardgen.words.cautions import judge_known

FOLDER = Path(__file__).parent / "naming"
RUNS = 3
BANK, SOUNDS = read_bank(), read_sounds()


@cache
def answers() -> dict[str, list[str]]:
    """Every picture's first words, one a run; the latest answers to a picture that was drawn anew."""
    found: dict[str, dict[str, str]] = defaultdict(dict)
    for file in sorted(FOLDER.glob("*-run-*.csv")):
        run = file.stem.rsplit("-", 1)[1]
        with file.open(encoding="utf-8", newline="") as lines:
            for row in csv.DictReader(lines):
                found[row["picture"]][run] = row["first"].strip().lower()
    return {picture: list(runs.values()) for picture, runs in found.items()}


def forms(name: str) -> set[str]:
    """A name without hyphens, as it is and in the singular."""
    plain = name.replace("-", " ").replace("yoyo", "yo yo")
    return {plain, plain.removesuffix("s"), plain.removesuffix("ies") + "y" if plain.endswith("ies") else plain}


def same_start(word: Word, answer: str) -> bool:
    """Whether an answer is the word itself, its plural, or begins with it: thumbs up, teddy bear, question mark."""
    return bool(forms(answer) & forms(word.word)) or bool(forms(answer.split(" ", maxsplit=1)[0]) & forms(word.word))


def listed(word: Word, answer: str, *, same_sound: bool) -> bool:
    """Whether an answer is another name the bank lists for the picture (here: only one with the same sound)."""
    sound = SOUNDS.get(word.keys[0])
    names = [name for accent in Accent for name in (*word.strong_names(accent), *word.weak_names(accent))]
    return any(
        forms(answer) & forms(name.text) and (not same_sound or sound.is_heard_in(name.phones)) for name in names
    )


def agreement(word: Word, *, same_sound: bool = True) -> float:
    """The share of runs in which a picture was called by its word or another name for it with the same sound.

    Without `same_sound` any name counts that the bank lists: one that the sheets tell the teacher of, and that keeps
    the picture out of games where it would mislead.
    """
    given = answers()[str(word.picture)]
    known = [
        bool(answer) and (same_start(word, answer) or listed(word, answer, same_sound=same_sound)) for answer in given
    ]
    return sum(known) / len(given)


def drawn() -> list[Word]:
    return [word for word in BANK if word.picture and exists(word.picture) and not word.is_action]


def test_every_picture_was_named_three_times() -> None:
    missing = [word.word for word in drawn() if len(answers().get(str(word.picture), [])) < RUNS]
    assert not missing


def is_default(word: Word) -> bool:
    """Whether games take the picture without a caution, for one of its sounds."""
    return any(judge_known(word, SOUNDS.get(key), SOUNDS, Accent.US).verdict is Fit.GOOD for key in word.keys)


def test_default_pictures_are_called_by_their_word() -> None:
    shares = [agreement(word) for word in drawn() if is_default(word)]
    assert len(shares) >= 230
    assert sum(shares) / len(shares) >= 0.95


def test_what_pictures_are_called_is_known_to_the_bank() -> None:
    shares = [agreement(word, same_sound=False) for word in drawn()]
    assert len(shares) >= 320
    assert sum(shares) / len(shares) >= 0.95


@pytest.mark.parametrize("word", drawn(), ids=lambda word: word.word)
def test_a_picture_that_is_misnamed_is_no_default(word: Word) -> None:
    if agreement(word) >= 2 / RUNS:
        return
    assert not is_default(word), f"{word.word} was called {answers()[str(word.picture)]}"
