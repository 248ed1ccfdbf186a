"""What the teacher's page and the caller's list say of a bingo, in plain English, from the game's own figures."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games.paper_text import CARE as CUTTING_CARE
from cardgen.games.paper_text import count, cuts_line, in_short, printing_line, sheets_line
from cardgen.games.pieces import BingoGame, Block, Call, Cut, Face, Goal, PaperUse, SayLine

COUNTERS_A_SHEET = 24
SECONDS_A_CALL = 25  # common practice, no source

CARE = (
    CUTTING_CARE[0],
    "Counters can choke a child under 3: use counters of 35 mm or more, or keep them away.",
    CUTTING_CARE[1],
)


@dataclass(frozen=True, slots=True)
class Saying:
    """The words that change with the game: what is covered, what it begins (or ends) with."""

    ends: bool
    on_letters: bool
    repeats: bool

    @property
    def sound(self) -> str:
        """Which sound of the word counts."""
        return "last sound" if self.ends else "first sound"

    @property
    def begins(self) -> str:
        """How a word is tied to its sound."""
        return "ends with" if self.ends else "begins with"


def saying(game: BingoGame, *, ends: bool) -> Saying:
    """Return the words that fit this game."""
    repeats = any(len(set(board.cells)) < len(board.cells) for board in game.boards)
    return Saying(ends, game.boards[0].face.is_letter, repeats)


def title(says: Sequence[SayLine]) -> str:
    """Return the title of the teacher's page."""
    return "Bingo with " + " ".join(say.key for say in says)


def summary(game: BingoGame) -> str:
    """Return what stands at the top right of the sheets: how many boards, which grid, what wins."""
    board = game.boards[0]
    wins = "the full board wins" if game.goal is Goal.BOARD else "one line wins"
    return f"{len(game.boards)} boards, {board.rows} × {board.columns}, {wins}"


def how_to_call(game: BingoGame, words: Saying, example: str) -> str:
    """Return one or two sentences: what the caller does and what the children do."""
    cover = _cover(game, words)
    if game.call is Call.CARD:
        return f"Show the letter card and say nothing. The children say its sound, then {cover}."
    if game.call is Call.SOUND:
        return f'Say the sound twice: "{example} … {example}". The children {cover}.'
    if game.call is Call.NAME:
        return f'Say the letter\'s name twice: "{example} … {example}". The children {cover}.'
    if game.boards[0].face is Face.WORD and all(board.face is Face.WORD for board in game.boards):
        return f'Say each word twice: "{example} … {example}". The children find it and cover it.'
    return f'Say each word twice: "{example} … {example}". The children say its {words.sound}, then {cover}.'


def _cover(game: BingoGame, words: Saying) -> str:
    if words.on_letters:
        each = ", one each time" if words.repeats else ""
        if game.boards[0].face is Face.LETTERS:
            return f"cover that letter, small or capital as the list says{each}"
        return f"cover that letter{each}"
    if game.call is Call.WORD:
        if len({board.face for board in game.boards}) > 1:
            return "cover it"
        return "cover its picture" if game.boards[0].face is not Face.WORD else "cover that word"
    thing = "word" if game.boards[0].face is Face.WORD else "picture"
    return f"cover one {thing} that {words.begins} it"


def how_it_ends(game: BingoGame) -> str:
    """Return one sentence: on which calls of the printed order the first and the last board win."""
    won = [call.number for call in game.calls if call.winners]
    first = len(next(call for call in game.calls if call.winners).winners)
    what = "full board" if game.goal is Goal.BOARD else "line"
    if won[0] == won[-1]:
        return f"In this order every {what} comes on call {won[0]}. {_about(won[0])}"
    begins = f"the first {what} comes" if first == 1 else f"{first} boards have their {what} together"
    return f"In this order {begins} on call {won[0]}, the last on call {won[-1]}. {_about(won[-1])}"


def _about(calls: int) -> str:
    return f"About {count(max(1, round(calls * SECONDS_A_CALL / 60)), 'minute')}."


def practises(game: BingoGame, words: Saying) -> tuple[str, ...]:
    """Return what the game trains, and what to change to train something else."""
    face = game.boards[0].face
    if words.on_letters:
        if game.call is Call.WORD:
            return (f"Hearing the {words.sound} of a word and finding its letter.",)
        if game.call is Call.SOUND:
            return ("Knowing the letter for a sound.",)
        return ("Knowing the letters' names. For their sounds: --call sound or --call word.",)
    if game.call is Call.WORD:
        if face is Face.WORD:
            return ("Reading words.",)
        return (
            f"Knowing the words and hearing their {words.sound}; a warm-up for new learners of English.",
            "To practise letters and sounds: --call card (show a letter) or --show lowercase.",
        )
    if game.call is Call.SOUND:
        return (f"Hearing the {words.sound} of words, by ear alone. For the letters: --call card.",)
    return (f"From the letter to the sound, and hearing the {words.sound} of words.",)


def how_long(game: BingoGame) -> tuple[str, ...]:
    """Return how long the game lasts in the printed order, and how long when cards are drawn from a bag."""
    first, last = game.length.first, game.length.last
    what = "full board" if game.goal is Goal.BOARD else "line"
    found = "" if first.games is None else f" (found by playing {first.games} games)"
    between = f"on call {first.p50}" if first.p10 == first.p90 else f"between calls {first.p10} and {first.p90}"
    end = f"call {last.p50}" if last.p10 == last.p90 else f"calls {last.p10} to {last.p90}"
    lines = [
        how_it_ends(game),
        f"With the calling cards from a bag the first {what} mostly comes {between}, the last on {end}{found}.",
    ]
    first_winners = next(call.winners for call in game.calls if call.winners)
    if len(game.boards) > 1 and len(first_winners) > len(game.boards) / 2:
        other = "words are called (--call word)" if game.call is not Call.WORD else "more words are in play (--pool)"
        lines.append(f"Most boards win at once. There is a first winner when {other}, or with a larger grid.")
    if game.goal is Goal.LINE and first.p50 <= 4:
        more = "letters" if game.boards[0].face.is_letter else "words (--pool)"
        lines.append(f"That is short: play for the full board (--goal board), or with more {more}.")
    return tuple(lines)


def how_fair(game: BingoGame, words: Saying) -> tuple[str, ...]:
    """Return how evenly the boards are made, from the counted figures."""
    balance, boards = game.balance, len(game.boards)
    thing = "letter" if words.on_letters else "word" if game.boards[0].face is Face.WORD else "picture"
    low, high = balance.frequency
    if words.repeats:
        stands = f"Each {thing} stands {_times(low, high)} on the {boards} boards together"
    else:
        stands = f"Each {thing} stands on {_range(low, high)} of the {boards} boards"
    low, high = balance.positions
    lines = [f"{stands}, {_times(low, high)} in each place."]
    alike = len({board.cells for board in game.boards}) < boards
    if game.goal is Goal.LINE:
        lines.append(
            "No two boards have a line in common."
            if balance.equal_lines == 0
            else f"{balance.equal_lines} pairs of lines are alike: with so few {thing}s that cannot be helped."
        )
    else:
        lines.append("Some boards are alike." if alike else "No two boards are alike.")
    lines.append(_behind(game))
    return tuple(line for line in lines if line)


def _range(low: int, high: int) -> str:
    return str(low) if low == high else f"{low} or {high}" if high == low + 1 else f"{low} to {high}"


def _times(low: int, high: int) -> str:
    names = {0: "never", 1: "once", 2: "twice"}
    if low == high:
        return names.get(low, f"{low} times")
    if high <= 2:
        return f"{names[low]} or {names[high]}"
    return f"{_range(low, high)} times"


def _behind(game: BingoGame) -> str:
    """Return how many calls lie between the first winner and the last one."""
    won = [call.number for call in game.calls if call.winners]
    gap = won[-1] - won[0]
    if gap == 0 or game.goal is Goal.LINE:
        return ""
    return f"Nobody falls far behind: the last board is full {count(gap, 'call')} after the first."


def kinds(game: BingoGame) -> tuple[tuple[Face, str], ...]:
    """Return, for a set of several kinds of board, each kind with the numbers of its boards; empty for one kind."""
    faces = list(dict.fromkeys(board.face for board in game.boards))
    if len(faces) < 2:
        return ()
    names = {
        Face.PICTURE: "pictures",
        Face.PICTURE_WORD: "pictures with words",
        Face.WORD: "words",
        Face.LOWERCASE: "small letters",
        Face.CAPITAL: "capitals",
        Face.LETTERS: "small letters and capitals",
    }
    lines = []
    for face in faces:
        numbers = [board.number for board in game.boards if board.face is face]
        span = str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]} to {numbers[-1]}"
        lines.append((face, f"{span}: {names[face]}"))
    return tuple(lines)


def blocks(
    game: BingoGame, words: Saying, example: str, paper: Sequence[str], look_out: Sequence[str], again: Sequence[str]
) -> tuple[Block, ...]:
    """Return the teacher's page, block by block; the block without paragraphs is filled with the kinds of board.

    `paper` are the lines on paper and cuts, `again` how the same sheets are printed once more.
    """
    what = "a full board" if game.goal is Goal.BOARD else "a line (row, column or diagonal)"
    wins = f"Who has {what} calls out: it counts if the board's number stands in the list at this call or above."
    play = (
        how_to_call(game, words, example),
        "Cover with counters, or cross out with a crayon.",
        wins,
        "Go on until every board has won: nobody is left over. For another round draw the calling cards from a bag.",
    )
    made = [
        Block("How to play", play),
        Block("How long", how_long(game)),
        Block("How fair", how_fair(game, words)),
        Block("It practises", practises(game, words)),
    ]
    if kinds(game):
        made.append(Block("On the boards", ()))
    if not words.on_letters:
        made.append(Block("In play", in_play(game)))
    made.append(Block("Paper, hands", tuple(paper)))
    if look_out:
        made.append(Block("Look out", tuple(look_out)))
    made.append(Block("Once more", tuple(again)))
    made.append(Block("Care", CARE))
    return tuple(made)


def in_play(game: BingoGame) -> tuple[str, ...]:
    """Return the words of every sound, one line a sound: to name the pictures first, and to check a claim."""
    keys = dict.fromkeys(item.key for item in game.items)
    return tuple(f"{key}: " + ", ".join(item.id for item in game.items if item.key == key) for key in keys)


def paper_lines(use: PaperUse, cut: Cut, calls: int, counters: int) -> tuple[str, ...]:
    """Return what printing and cutting takes, and what the loose cards are; the minutes are a rule of thumb.

    `calls` is how many cards are calls, `counters` how many counters the boards need (0: none are printed).
    """
    lines = [f"{sheets_line(use)} {cuts_line(use, cut)}", printing_line(use)]
    lines.append(
        f"The first {count(calls, 'card')} are the calls, for a bag; the others are for the wall, or to draw on."
    )
    if counters:
        copies = -(-counters // COUNTERS_A_SHEET)
        lines.append(f"All boards together need {counters} counters: print the last page {count(copies, 'time')}.")
    return tuple(lines)


def one_line(game: BingoGame, use: PaperUse, pages: int) -> str:
    """Return the line a teacher reads before anything is written: which game, how much paper, how long it lasts."""
    faces = list(dict.fromkeys(board.face for board in game.boards))
    shown = {Face.LOWERCASE: "small letters", Face.CAPITAL: "capitals", Face.LETTERS: "small letters and capitals"}
    what = " and ".join(shown.get(face, f"{face.value}s".replace("-words", "s with words")) for face in faces)
    called = {Call.WORD: "words", Call.SOUND: "sounds", Call.CARD: "letter cards", Call.NAME: "letter names"}
    won = [call.number for call in game.calls if call.winners]
    goal = "full board" if game.goal is Goal.BOARD else "line"
    last = "" if won[0] == won[-1] else f", the last on call {won[-1]}"
    return (
        f"{summary(game)}; they show {what}, you call {called[game.call]}. {in_short(use)}, "
        f"and {count(pages - use.sheets, 'page')} for you. First {goal} on call {won[0]}{last}."
    )
