"""What a teacher asks for in a bingo."""

import re
from dataclasses import dataclass
from typing import Self

from cardgen.errors import TeacherError
from cardgen.request.common import Call, Codes, Face, Goal, SheetRequest

LEAST_GRID, LARGEST_GRID = 2, 5
MOST_BOARDS = 2000
MOST_POOL = 500  # words


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows and columns of a board, 2 to 5 each."""

    rows: int
    columns: int

    @classmethod
    def parse(cls, text: str) -> Self:
        """Return the grid written as `3x3` (rows by columns); TeacherError if it is not one or out of range."""
        found = re.fullmatch(r"(\d{1,4})\s*[xX×]\s*(\d{1,4})", text.strip())
        if not found:
            raise TeacherError(
                f'"{text}" is not a grid.', "Write rows, x, columns, for example --grid 3x3 or --grid 2x3."
            )
        rows, columns = int(found[1]), int(found[2])
        if not (LEAST_GRID <= rows <= LARGEST_GRID and LEAST_GRID <= columns <= LARGEST_GRID):
            raise TeacherError(
                f"A grid of {rows} × {columns} cannot be a board.",
                f"Boards have {LEAST_GRID} to {LARGEST_GRID} rows and columns, for example --grid 3x3.",
            )
        return cls(rows, columns)

    def __str__(self) -> str:
        return f"{self.rows} × {self.columns}"

    @property
    def typed(self) -> str:
        """The grid as it is typed."""
        return f"{self.rows}x{self.columns}"


@dataclass(frozen=True, slots=True)
class Show:
    """What stands on how many boards; `boards` is None when it is all (the rest) of them."""

    face: Face
    boards: int | None = None

    @property
    def typed(self) -> str:
        """The kind of board as it is typed."""
        return self.face.value + (f":{self.boards}" if self.boards else "")


@dataclass(frozen=True, kw_only=True, slots=True)
class BingoRequest(SheetRequest):
    """A class set of bingo boards; what is None is chosen by how many letters are known and what is shown.

    `winners` and `first_win` (calls A to B) ask for that many boards to win first, between those calls; `together`
    asks that all boards win within that many calls; `pool` is the number of different words (or letters) in play.
    """

    boards: int = 24
    grid: Grid = Grid(3, 3)
    free: bool = False
    show: tuple[Show, ...] = ()
    call: Call | None = None
    goal: Goal | None = None
    winners: int | None = None
    first_win: tuple[int, int] | None = None
    together: int | None = None
    pool: int | None = None
    big: bool = False

    def __post_init__(self) -> None:
        # The zero-argument super() does not work in a dataclass with slots: the class is made anew.
        SheetRequest.__post_init__(self)
        if self.codes is Codes.CARD:
            raise TeacherError("Bingo boards carry no codes.", "--codes pack puts one on the caller's list.")
        if not 1 <= self.boards <= MOST_BOARDS:
            raise TeacherError(
                f"{self.boards} boards cannot be made.",
                f"Choose 1 to {MOST_BOARDS}, for example --boards 24.",
            )
        if self.free and not (self.grid.rows % 2 and self.grid.columns % 2):
            raise TeacherError(
                f"A grid of {self.grid} has no middle cell to leave free.",
                "--free needs an odd number of rows and of columns, for example --grid 3x3 or 5x5.",
            )
        if self.pool is not None and self.pool > MOST_POOL:
            raise TeacherError(f"A game of {self.pool} words cannot be made.", "For example --pool 18.")
        self._check_order()
        self._check_shows()

    def _check_order(self) -> None:
        if self.winners is not None and not 1 <= self.winners <= self.boards:
            raise TeacherError(
                f"{self.winners} winners of {self.boards} boards is not possible.",
                f"--winners takes 1 to {self.boards}.",
            )
        if self.first_win is not None and not 1 <= self.first_win[0] <= self.first_win[1]:
            raise TeacherError(
                f"A first win between calls {self.first_win[0]} and {self.first_win[1]} is not possible.",
                "Write the earlier call first, for example --first-win 5-8.",
            )
        if self.together is not None and self.together < 1:
            raise TeacherError("--together takes a number of calls, 1 or more.", "For example --together 3.")
        if self.together is not None and (self.winners or self.first_win):
            raise TeacherError(
                "--together cannot be combined with --winners or --first-win.",
                "Ask either for one first winner or for all to finish close together.",
            )

    def _check_shows(self) -> None:
        faces = [show.face for show in self.show]
        if len(set(faces)) < len(faces):
            raise TeacherError("--show names one kind of board twice.", "Name every kind once, with its number.")
        if len({face.is_letter for face in faces}) > 1:
            raise TeacherError(
                "Boards with letters and boards with words cannot share one game.",
                "Mix picture, picture-word and word, or lowercase and capital.",
            )
        if Face.LETTERS in faces and len(faces) > 1:
            raise TeacherError("letters already mixes small letters and capitals.", "Use --show letters alone.")
        if len(self.show) < 2:
            return
        counted = sum(show.boards or 0 for show in self.show)
        if any(show.boards is None for show in self.show):
            raise TeacherError(
                "A mixed set needs a number for every kind of board.",
                "For example --show picture:19,picture-word:2,word:3.",
            )
        if counted != self.boards:
            raise TeacherError(
                f"The kinds in --show add up to {counted} boards, but --boards is {self.boards}.",
                "Change one of the two; they must agree.",
            )
