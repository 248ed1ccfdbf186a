"""What the teacher's page and the sorting list say, in plain English, from the game's own figures."""

from collections.abc import Sequence

from cardgen.games.paper_text import CARE, count
from cardgen.games.pieces import Backs, Block, SayLine, SortGame, SortSide
from cardgen.games.sorting_words import Foil
from cardgen.request.sort import Mat, SortRequest

MOST_EXPLAINED = 3  # foil sounds whose difference is told; more would fill the page


def title(says: Sequence[SayLine]) -> str:
    """Return the title of the teacher's page."""
    return "Sorting " + _and([say.key for say in says])


def summary(request: SortRequest, game: SortGame) -> str:
    """Return what stands at the top right: how many sets of how many cards."""
    each = f"{count(game.sides[0].places, 'card')} a sound"
    foils = f", {game.neither.places} for neither" if game.neither else ""
    return f"{each}{foils}" if request.sets == 1 else f"{request.sets} sets, {each}{foils}"


def how_to_play(request: SortRequest, game: SortGame, *, checked: bool) -> tuple[str, ...]:
    """Return the game in four lines or so; `checked` cards have their sign on the back."""
    first = next(item for item in game.items if item.key is not None)
    sound, begin = ("last sound", "end with") if game.ends else ("first sound", "begin with")
    heard = first.sound.partition(",")[0]
    lines = ["Name all pictures together. Lay the cards in a pile, face up."]
    if request.mat is not Mat.PRINTED:
        lines.insert(0, "Lay each sound's letter card and key picture in the dotted squares on top of its side.")
    lines.append(
        f'A child takes a card, says the word and its {sound} ("{first.word}: {heard}"), and lays it on that side.'
    )
    if game.neither:
        lines.append(
            f"Words that {begin} none of these sounds lie on the sheet with the {game.neither.sign.value}: neither."
        )
    if checked:
        lines.append(
            "When all cards lie, turn them over: the sign on the back is the sign of the side. Else try again."
        )
    lines.append("With the whole class: say the words in the order of the list; the children show the side.")
    return tuple(lines)


def practises(game: SortGame) -> tuple[str, ...]:
    """Return what the game trains."""
    where = "last" if game.ends else "first"
    keys = _and([str(side.key) for side in game.sides])
    return (
        f"Hearing the {where} sound of words and telling {keys} apart. The letter over each side ties sound to letter.",
    )


def how_fair(game: SortGame) -> tuple[str, ...]:
    """Return how the order is made, and how far guessing gets."""
    sides = len(game.all_sides)
    chance = {2: "half", 3: "a third", 4: "a quarter"}[sides]
    lines = []
    if len(game.items) > sides:
        lines.append(
            "In the list no side comes more than twice in a row, nor do the sides go by turns from end to end."
        )
    lines.append(f"A child who only guesses gets about {chance} of the cards right.")
    return (" ".join(lines),)


def neither_lines(foils: Sequence[Foil]) -> tuple[str, ...]:
    """Return which of the cards for neither sound are hard on purpose, and what tells them apart."""
    if not foils:
        return ()
    hard = [foil for foil in foils if foil.beside]
    if not hard:
        return ("None of these sounds is close to those of the mat.",)
    pairs = dict.fromkeys((foil.sound.key, foil.beside) for foil in hard)
    told = [
        f"{key} beside {beside} ({', '.join(f.word.word for f in hard if (f.sound.key, f.beside) == (key, beside))})"
        for key, beside in pairs
    ]
    lines = [f"Hard on purpose: {'; '.join(told)}."]
    apart = list(dict.fromkeys(text for foil in hard for text in foil.apart))
    if len(pairs) <= MOST_EXPLAINED:
        lines += apart
    return (" ".join(lines),)


def paper_lines(request: SortRequest, game: SortGame, lines: Sequence[str], *, two_sided: bool) -> tuple[str, ...]:
    """Return what there is to know of paper and hands; `lines` are those of the cards."""
    made: list[str] = []
    if two_sided and request.mat is not Mat.NONE:
        made.append("Print all pages at once.")
    if request.mat is Mat.BLANK:
        made.append("Laminate the blank mats once. Next time print only cards (--mat none).")
    elif request.mat is Mat.PRINTED:
        made.append("A mat to use every week: --mat blank.")
    if game.lay:
        made.append(f"The first {len(game.lay)} cards of each set are not sorted: they lie on top of the sides.")
    return (*lines, *filter(None, [" ".join(made)]))


def is_checked(backs: Backs) -> bool:
    """Return whether the cards have their signs on the back."""
    return backs is not Backs.NONE


def blocks(
    game: SortGame,
    play: Sequence[str],
    foils: Sequence[Foil],
    paper: Sequence[str],
    look_out: Sequence[str],
    again: Sequence[str],
) -> tuple[Block, ...]:
    """Return the blocks of the teacher's page, in reading order."""
    made = [
        Block("How to play", tuple(play)),
        Block("It practises", practises(game)),
        Block("How fair", how_fair(game)),
    ]
    if foils:
        made.append(Block("Neither", neither_lines(foils)))
    made.append(Block("Paper, hands", tuple(paper)))
    if look_out:
        made.append(Block("Look out", tuple(look_out)))
    return (*made, Block("Once more", tuple(again)), Block("Care", CARE))


def list_lines(game: SortGame) -> tuple[str, ...]:
    """Return what stands over the sorting list."""
    sound = "last" if game.ends else "first"
    return (f"Say each word twice. The children say its {sound} sound and show the side. Tick each card.",)


def mouth(pairs: Sequence[tuple[SayLine, SayLine]]) -> tuple[str, ...]:
    """Return how the mouth makes each of two sounds that are taken for one another, a sentence a pair."""
    return tuple(f"In the mouth: {one.key} – {one.mouth}; {other.key} – {other.mouth}." for one, other in pairs)


def side_names(sides: Sequence[SortSide]) -> str:
    """Return the sides with their signs: m square, s triangle."""
    return ", ".join(f"{side.key or 'neither'} {side.sign.value}" for side in sides)


def _and(words: Sequence[str]) -> str:
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))
