"""From sounds and words to a whole class set of bingo: boards, call order and length, as plain data."""

import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games import bingo_cards as deck
from cardgen.games.bingo_rules import BingoRules, symbols_of
from cardgen.games.calls import Order, choose_order, default_order
from cardgen.games.count_calls import order_by_counts
from cardgen.games.counts import length_by_counts
from cardgen.games.deal import Dealt, deal
from cardgen.games.length import length
from cardgen.games.pieces import Balance, BingoGame, Board, Call, CallStep, Card, Goal, Item, Length
from cardgen.request import BingoRequest
from cardgen.words.bank import Word
from cardgen.words.pool import Pool
from cardgen.words.sounds import Sound


@dataclass(frozen=True, slots=True)
class InPlay:
    """What is in play: pool item i looks like symbol `symbols[i]`, and `said[i]` is the word said when it is called.

    `items` are the symbols as they stand on boards. `groups[i]` is the sound of pool item i where sounds have shares.
    """

    items: tuple[Item, ...]
    symbols: tuple[int, ...]
    groups: tuple[int, ...] | None
    said: tuple[Word | None, ...]
    sounds: tuple[Sound, ...]

    def sound(self, key: str) -> int:
        """Return the place of a sound among the game's sounds."""
        return next(place for place, sound in enumerate(self.sounds) if sound.key == key)


def words_in_play(sounds: Sequence[Sound], pool: Pool) -> InPlay:
    """Return the pool's words as items of picture and word boards; each sound has its share of every board."""
    letters = {sound.key: sound.letter for sound in sounds}
    keys = [sound.key for sound in sounds]
    items = tuple(Item(e.word.word, e.key, letters[e.key], e.word.word, e.word.alt) for e in pool.entries)
    return InPlay(
        items,
        tuple(range(len(items))),
        tuple(keys.index(entry.key) for entry in pool.entries),
        tuple(entry.word for entry in pool.entries),
        tuple(sounds),
    )


def letters_in_play(rules: BingoRules, sounds: Sequence[Sound], pool: Pool | None) -> InPlay:
    """Return the letters of letter boards, each `rules.copies` times, every copy with a word to say for it.

    A sound with fewer words than copies says its words again, in turn.
    """
    symbols = symbols_of(sounds, rules.faces[0])
    items = tuple(Item(letter, sound.key, letter, None, letter) for letter, sound in symbols)
    words = {
        sound.key: [entry.word for entry in pool.entries if entry.key == sound.key] if pool else [] for sound in sounds
    }
    used = dict.fromkeys(words, 0)
    looks: list[int] = []
    said: list[Word | None] = []
    for place, (_, sound) in enumerate(symbols):
        for _ in range(rules.copies):
            choice = words[sound.key]
            said.append(choice[used[sound.key] % len(choice)] if choice else None)
            used[sound.key] += 1
            looks.append(place)
    return InPlay(items, tuple(looks), None, tuple(said), tuple(sounds))


def play(request: BingoRequest, rules: BingoRules, game: InPlay, rng: random.Random) -> BingoGame:
    """Return the class set for a settled game; TeacherError if what was asked of the order cannot be had."""
    dealt = deal(rules.shape, request.boards, game.symbols, rng, groups=game.groups)
    boards = _boards(rules, game, dealt)
    if rules.by_counts:
        calls, lasts, notes = _called_by_counts(request, rules, game, dealt, rng)
    else:
        calls, lasts, notes = _called_one_by_one(request, rules, game, dealt, rng)
    balance = Balance(
        dealt.measures.frequency,
        _frequency_by_key(game, dealt),
        dealt.measures.positions,
        dealt.measures.q,
        dealt.measures.q_bound,
        dealt.measures.equal_lines,
    )
    return BingoGame(game.items, boards, calls, rules.call, rules.goal, request.free, balance, lasts, notes)


def _frequency_by_key(game: InPlay, dealt: Dealt) -> tuple[tuple[str, tuple[int, int]], ...]:
    """Return for every sound how often its rarest and its commonest item stand on the whole set."""
    places = Counter(symbol for board in dealt.boards for symbol in board)
    spreads = []
    for sound in game.sounds:
        own = [places[symbol] for symbol, item in enumerate(game.items) if item.key == sound.key]
        spreads.append((sound.key, (min(own), max(own))))
    return tuple(spreads)


def _boards(rules: BingoRules, game: InPlay, dealt: Dealt) -> tuple[Board, ...]:
    boards = []
    for number, (face, symbols) in enumerate(zip(rules.faces, dealt.boards, strict=True), 1):
        cells: list[str | None] = [game.items[symbol].id for symbol in symbols]
        if rules.shape.free:
            cells.insert(len(cells) // 2, None)
        boards.append(Board(number, face, rules.grid.rows, rules.grid.columns, tuple(cells)))
    return tuple(boards)


Called = tuple[tuple[CallStep, ...], Length, tuple[str, ...]]


def _called_one_by_one(
    request: BingoRequest, rules: BingoRules, game: InPlay, dealt: Dealt, rng: random.Random
) -> Called:
    """Return the calls where every call is one item and covers one cell: lines and boards are sets of items."""
    whole = tuple(range(rules.shape.cells))
    wins = rules.shape.lines if rules.goal is Goal.LINE else (whole,)
    goals = [tuple(sum(1 << board[cell] for cell in line) for line in wins) for board in dealt.boards]
    pool = len(game.symbols)
    lasts = length(goals, pool, rng)
    order: Order
    if request.winners or request.first_win or request.together:
        order = choose_order(
            goals, pool, rng, winners=request.winners, first_win=request.first_win, together=request.together
        )
    else:
        order = default_order(goals, pool, rng, rules.goal is Goal.LINE, lasts)
    steps = tuple(
        _step(number, game.items[game.symbols[item]], game.said[item], rules, order, game.sounds)
        for number, item in enumerate(order.calls, 1)
    )
    return steps, lasts, order.notes


def _called_by_counts(
    request: BingoRequest, rules: BingoRules, game: InPlay, dealt: Dealt, rng: random.Random
) -> Called:
    """Return the calls where each child covers one of several cells that fit: how often a symbol comes decides."""
    if rules.on_letters:
        called = list(game.items)
        kind = {item.id: place for place, item in enumerate(called)}
        supply = [game.symbols.count(place) for place in range(len(called))]
    else:
        called = [Item(s.key, s.key, s.letter, None, s.letter) for s in game.sounds]
        kind = {item.id: game.sound(item.key) for item in game.items}
        supply = [sum(1 for item in game.items if item.key == s.key) for s in game.sounds]
    needs = []
    for board in dealt.boards:
        need = [0] * len(called)
        for symbol in board:
            need[kind[game.items[symbol].id]] += 1
        needs.append(need)
    lasts = length_by_counts(needs, supply, rng)
    order = order_by_counts(
        needs, supply, rng, winners=request.winners, first_win=request.first_win, together=request.together
    )
    words: dict[int, list[Word | None]] = {place: [] for place in range(len(called))}
    if rules.on_letters:
        for symbol, word in zip(game.symbols, game.said, strict=True):
            words[symbol].append(word)
    steps = tuple(
        _step(number, called[symbol], words[symbol].pop(0) if words[symbol] else None, rules, order, game.sounds)
        for number, symbol in enumerate(order.calls, 1)
    )
    return steps, lasts, order.notes


def _step(
    number: int, item: Item, word: Word | None, rules: BingoRules, order: Order, sounds: Sequence[Sound]
) -> CallStep:
    sound = next(sound for sound in sounds if sound.key == item.key)
    winners = tuple(board for board, call in enumerate(order.won_on, 1) if call == number)
    if rules.call is Call.WORD:
        if word is None:
            raise AssertionError("a word is called that nobody chose")
        return CallStep(number, item.id, word.word, item.key, item.letter, word.picture, word.alt, winners)
    says = {Call.SOUND: sound.say, Call.CARD: f"show {item.letter}", Call.NAME: f"letter {item.letter}"}
    return CallStep(number, item.id, says[rules.call], item.key, item.letter, None, "", winners)


def cards(rules: BingoRules, game: InPlay, key_pictures: Sequence[tuple[str, Word]]) -> tuple[Card, ...]:
    """Return the calling cards, and on the places left over the letters, key pictures and words of the game."""
    words = [
        (game.items[symbol].key, word) for symbol, word in zip(game.symbols, game.said, strict=True) if word is not None
    ]
    pictures = deck.picture_cards(words)
    letters = deck.both_letters(game.sounds)
    keys = deck.picture_cards(key_pictures)
    if rules.call is Call.WORD:
        return deck.calling_cards(pictures, (letters, keys))
    if rules.on_letters:
        core = deck.letter_cards([game.items[symbol].id for symbol in game.symbols])
    else:
        core = deck.letter_cards([item.letter for item in game.items])
    return deck.calling_cards(core, (pictures, letters, keys))
