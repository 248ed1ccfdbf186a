"""How one bingo is played: what is shown, what is called, what wins, settled before any board is dealt."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.games.shape import Shape
from cardgen.request import BingoRequest, Call, Face, Goal, Grid
from cardgen.words.contrast import check_by_ear
from cardgen.words.sounds import Sound, SoundTable

LETTERS_FOR_LETTER_BOARDS = 9  # common practice, no source: fewer make dull letter boards

# What may be called over which boards. Over pictures a called sound lets the child choose the cell.
_CALLS = {
    Face.PICTURE: (Call.WORD, Call.SOUND, Call.CARD),
    Face.PICTURE_WORD: (Call.WORD, Call.SOUND, Call.CARD),
    Face.WORD: (Call.WORD, Call.SOUND, Call.CARD),
    Face.LOWERCASE: (Call.WORD, Call.SOUND, Call.NAME),
    Face.CAPITAL: (Call.WORD, Call.SOUND, Call.NAME),
    Face.LETTERS: (Call.WORD, Call.SOUND, Call.NAME),
}


@dataclass(frozen=True, slots=True)
class BingoRules:
    """One settled game. `faces` has one entry a board; `copies` is how often each letter is in play (0: words are).

    `by_counts` means that a call fits several cells and each child covers one of them, so that only counts decide.
    """

    shape: Shape
    grid: Grid
    faces: tuple[Face, ...]
    call: Call
    goal: Goal
    copies: int
    by_counts: bool

    @property
    def on_letters(self) -> bool:
        """Whether the boards show letters."""
        return self.faces[0].is_letter


def settle(request: BingoRequest, table: SoundTable) -> BingoRules:
    """Return the game to play for these sounds; TeacherError where what was asked does not go together."""
    sounds = table.several(request.all_keys)
    grid = request.grid
    shape = Shape(grid.rows, grid.columns, request.free)
    faces = _faces(request, sounds)
    call = request.call or _default_call(request, faces, sounds)
    for face in dict.fromkeys(faces):
        if call not in _CALLS[face]:
            allowed = ", ".join(option.value for option in _CALLS[face])
            raise TeacherError(
                f"--call {call.value} does not go with boards that show {face.value}.", f"Use --call with {allowed}."
            )
    if call is not Call.NAME:
        check_by_ear(table, request.all_keys)
    goal = request.goal or Goal.BOARD
    copies = _copies(request, sounds, shape, faces[0], goal) if faces[0].is_letter else 0
    chosen_by_child = not faces[0].is_letter and call in (Call.SOUND, Call.CARD)
    if goal is Goal.LINE and chosen_by_child:
        raise TeacherError(
            f"With --call {call.value} over pictures each child chooses its cell, so nobody can know who has a line.",
            "Play for the full board (--goal board), or call words (--call word).",
        )
    return BingoRules(shape, grid, faces, call, goal, copies, chosen_by_child or copies > 1)


def _faces(request: BingoRequest, sounds: Sequence[Sound]) -> tuple[Face, ...]:
    """Return the face of every board, the kinds one after the other."""
    if not request.show:
        letters = {sound.letter for sound in sounds}
        on_letters = request.call is Call.NAME or (
            request.call is not Call.SOUND
            and request.call is not Call.CARD
            and len(letters) >= LETTERS_FOR_LETTER_BOARDS
            and not request.pool
        )
        return (Face.LOWERCASE if on_letters else Face.PICTURE,) * request.boards
    faces: list[Face] = []
    for show in request.show:
        faces += [show.face] * (request.boards if show.boards is None else show.boards)
    if len(faces) != request.boards:
        raise TeacherError(
            f"--show names {len(faces)} boards, but --boards is {request.boards}.",
            "Change one of the two; they must agree.",
        )
    return tuple(faces)


def _default_call(request: BingoRequest, faces: Sequence[Face], sounds: Sequence[Sound]) -> Call:
    words_needed = (
        Face.WORD in faces or faces[0].is_letter or len(sounds) < 2 or request.goal is Goal.LINE or request.winners
    )
    return Call.WORD if words_needed or request.first_win else Call.SOUND


def symbols_of(sounds: Sequence[Sound], face: Face) -> list[tuple[str, Sound]]:
    """Return the letters as printed on letter boards of that face, each with its sound, every letter once."""
    printed: list[tuple[str, Sound]] = []
    for sound in sounds:
        if face is not Face.CAPITAL:
            printed.append((sound.letter, sound))
        if face in (Face.CAPITAL, Face.LETTERS):
            printed.append((sound.capital, sound))
    return printed


def _copies(request: BingoRequest, sounds: Sequence[Sound], shape: Shape, face: Face, goal: Goal) -> int:
    """Return how often each letter is in play: once where there are enough of them, else as often as boards need."""
    if request.pool is not None:
        raise TeacherError(
            "--pool counts words; on letter boards the letters you name are the pool.",
            "Leave --pool out, or name more or fewer letters.",
        )
    letters = [letter for letter, _ in symbols_of(sounds, face)]
    double = next((letter for letter in letters if letters.count(letter) > 1), None)
    if double:
        raise TeacherError(
            f"Two of these sounds are written {double}: on letter boards they look the same.",
            "Leave one of them out, or show pictures: --show picture",
        )
    if len(letters) < 2:
        raise TeacherError(
            "Letter boards need at least two different letters.",
            "Name more sounds (or older ones with --review), or show pictures: --show picture",
        )
    cells = shape.cells
    if 4 * len(letters) >= 5 * cells or (goal is Goal.LINE and len(letters) >= cells):
        return 1
    if goal is Goal.LINE:
        raise TeacherError(
            f"With {len(letters)} letters on {cells} cells letters repeat and each child chooses which to cover, "
            "so a line game cannot be checked.",
            f"Play for the full board (--goal board), choose a smaller grid, or name {cells} letters or more.",
        )
    return -(-5 * cells // (4 * len(letters)))
