"""The two checks without rows: letters to point at one by one, and letter cards that the whole class lifts."""

import random
from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.games.checking_choices import bar
from cardgen.games.checking_marks import chance, checked_mark, pass_mark
from cardgen.games.checking_words import Picker
from cardgen.games.orders import count_orders, orders_without_runs
from cardgen.games.pieces import OralCheck, ShowMe, ShowMeCall
from cardgen.words.pool import PoolWord
from cardgen.words.sounds import Sound

# How many sounds, how many letters on the child's page, how many in a row.
ORAL_SIZES = ((8, 12, 3), (16, 20, 4))
CALLS = 10
MOST_CARDS = 4


def oral_check(sounds: Sequence[Sound], rng: random.Random) -> OralCheck:
    """Return the letters of the oral check in mixed order, each letter small and large, small ones more often.

    No letter follows itself where there are three. TeacherError for too many sounds, or for one letter only.
    """
    letters = list(dict.fromkeys(sound.letter for sound in sounds))
    size = next(((places, columns) for most, places, columns in ORAL_SIZES if len(letters) <= most), None)
    if size is None:
        most = ORAL_SIZES[-1][0]
        raise TeacherError(
            f"The oral check has room for {most} letters, and these are {len(letters)}.",
            "Name fewer sounds, and the others another day.",
        )
    if len(letters) < 2:
        raise TeacherError(
            f"These sounds are all written {letters[0]}: nobody can point at the one or the other.",
            "Name a sound with another letter.",
        )
    places, columns = size
    # Every small letter stands there; capitals take a third, or more where every letter can have one.
    large = min(max(places // 3, min(len(letters), (places - 1) // 2)), places - len(letters))
    capitals = _share(letters, large)
    smalls = _share(letters, places - large)
    # Two letters that never follow themselves would come in turn.
    longest_run = 1 if len(letters) > 2 else 2
    counts = [capitals[letter] + smalls[letter] for letter in letters]
    order = [letters[kind] for kind in orders_without_runs(counts, longest_run, rng)]
    for sound in sounds:
        places_of = [place for place, letter in enumerate(order) if letter == sound.letter]
        for place in rng.sample(places_of, capitals.pop(sound.letter, 0)):
            order[place] = sound.capital
    return OralCheck(tuple(order), columns)


def _share(letters: Sequence[str], places: int) -> dict[str, int]:
    """Return how many of the places each letter has when they are dealt in turn."""
    share, more = divmod(places, len(letters))
    return {letter: share + (place < more) for place, letter in enumerate(letters)}


@dataclass(frozen=True, slots=True)
class Lifted:
    """The check with cards, the words that are called, and which sounds had to be left out."""

    game: ShowMe
    words: tuple[PoolWord, ...]
    notes: tuple[str, ...]


def show_me(lesson: Sequence[Sound], review: Sequence[Sound], picker: Picker, rng: random.Random) -> Lifted:
    """Return ten calls (fewer where words are scarce), the sounds as evenly as can be, none more than twice running.

    Two to four cards lie before each child: those of the lesson, an older one beside a single one; of two that sound
    the same only the first. TeacherError where no two can be told apart.
    """
    cards: list[Sound] = []
    left_out: list[str] = []
    for sound in lesson:
        clear = not any(bar(sound, card) for card in cards)
        if clear and len(cards) < MOST_CARDS:
            cards.append(sound)
        else:
            left_out.append(sound.key)
    for sound in review:
        if len(cards) < 2 and not any(bar(sound, card) for card in cards):
            cards.append(sound)
    if len(cards) < 2:
        raise TeacherError(
            f"For the check with cards no second card can be told from {cards[0].key} by ear.",
            "Name another sound that was taught, for example --review m",
        )
    counts = _calls_each([len(picker.stock.said[card.key]) for card in cards])
    if pass_mark(sum(counts), len(cards)) is None:
        names = ", ".join(card.key for card in cards)
        raise TeacherError(
            f"There are too few words for the check with cards: only {sum(counts)} for {names}.",
            "Name another sound that was taught, for example --review m",
        )
    wanted = {card.key: count for card, count in zip(cards, counts, strict=True)}
    found = picker.take(wanted, set(), seen=False, part="--show-me")
    words = tuple(entry for entries in found.values() for entry in entries)
    order = orders_without_runs(counts, 2, rng)
    calls = tuple(
        ShowMeCall(found[cards[kind].key].pop().word.word, cards[kind].key, cards[kind].letter) for kind in order
    )
    mark = checked_mark(len(calls), len(cards))
    game = ShowMe(tuple(card.letter for card in cards), calls, mark, chance(len(calls), len(cards), mark))
    notes = (f"The check with cards leaves out {' and '.join(left_out)}.",) if left_out else ()
    return Lifted(game, words, notes)


def _calls_each(words: Sequence[int]) -> list[int]:
    """Return how often each card is called: ten calls dealt in turn to those that have words left."""
    counts = [0] * len(words)
    for _ in range(CALLS):
        able = [card for card, there in enumerate(words) if counts[card] < there]
        if not able:
            break
        counts[min(able, key=lambda card: counts[card])] += 1
    while count_orders(counts, 2) == 0:
        counts[counts.index(max(counts))] -= 1
    return counts
