"""The command that a sheet prints of itself makes the same request again."""

from collections.abc import Sequence
from dataclasses import replace

import pytest
from click.testing import CliRunner

from cardgen.cli import overview
from cardgen.cli.common import Asked
from cardgen.recipes.again import command
from cardgen.request import (
    Accent,
    Backs,
    BingoRequest,
    Call,
    CheckRequest,
    Cut,
    Face,
    FlashcardsRequest,
    Goal,
    Grid,
    Ink,
    Mat,
    MatchForm,
    MatchRequest,
    PackRequest,
    PairKind,
    Paper,
    PartKind,
    SheetRequest,
    Shift,
    Show,
    SortRequest,
    TraceRequest,
)
from cardgen.request.flashcards import BackFace, CardCase

BINGO = BingoRequest(keys=("m", "s"), seed=7)
CARDS = FlashcardsRequest(keys=("m", "sh"), seed=7)
REQUESTS: Sequence[tuple[str, SheetRequest]] = [
    ("bingo", BINGO),
    ("bingo", replace(BINGO, review=("t", "p"), boards=30, grid=Grid(4, 4), call=Call.WORD, goal=Goal.LINE)),
    ("bingo", replace(BINGO, boards=5, show=(Show(Face.PICTURE, 2), Show(Face.WORD, 3)), accent=Accent.GB)),
    ("bingo", replace(BINGO, call=Call.WORD, winners=2, first_win=(5, 8), pool=14, big=True, careful=True)),
    ("bingo", replace(BINGO, paper=Paper.LETTER, ink=Ink.LINE, free=True, together=3, cut=Cut.SCISSORS, punch=True)),
    ("bingo", replace(BINGO, home_language="Spanish", layout="bingo-quarter", open_pictures=True)),
    ("cards", CARDS),
    ("cards", replace(CARDS, sets=3, backs=Backs.DUPLEX_SHORT, back_shift=Shift(1.5, -0.5), margin=8.0, gap=2.5)),
    ("cards", replace(CARDS, laminate=True, letters=False, words=3, face=Face.WORD, back=BackFace.LETTER)),
    ("cards", replace(CARDS, case=CardCase.APART, distance=3.5, link="https://example.org/m-sh")),
    ("sort", SortRequest(keys=("m", "s"), seed=7)),
    ("sort", SortRequest(keys=("m", "s"), seed=7, cards=4, foils=2, mat=Mat.BLANK, key=True, sets=3)),
    ("match", MatchRequest(keys=("m", "s"), seed=7)),
    ("match", MatchRequest(keys=("m", "s"), seed=7, pairs=PairKind.WORDS, form=MatchForm.HALVES, pairs_per=2)),
    ("match", MatchRequest(keys=("m", "s"), seed=7, form=MatchForm.PAGE, pages=3, avoid=("moon", "sun"))),
    ("match", MatchRequest(keys=("m", "s"), seed=7, self_check=True, big=True, count=6, backs=Backs.FOLD)),
    ("check", CheckRequest(keys=("m", "s"), seed=7, review=("t",), versions=("A", "B"), items=6, silent=True)),
    ("check", CheckRequest(keys=("m", "s"), seed=7, parts=(PartKind.SEE_CAPITAL, PartKind.HEAR_LETTER), say=True)),
    ("trace", TraceRequest(keys=("m", "s"), seed=7, words=2, x_height=15.0, lift=True, left_handed=True)),
    ("pack", PackRequest(keys=("m", "s"), seed=7, children=5, cards=18, vary=True, backs=Backs.FOLD, sets=1)),
]


@pytest.mark.parametrize(("name", "request_"), REQUESTS, ids=[command(r, n)[8:50] for n, r in REQUESTS])
def test_the_printed_command_asks_for_the_same(name: str, request_: SheetRequest) -> None:
    words = command(request_, name).split()
    assert words[:2] == ["cardgen", name]
    asked = Asked()
    done = CliRunner().invoke(overview, words[1:], obj=asked)
    assert done.exit_code == 0, done.output
    assert asked.requests == [request_]


def test_files_and_folders_of_hers_are_not_printed() -> None:
    shown = command(replace(BINGO, pictures="/home/ann/pictures", layout="/home/ann/mine.toml"), "bingo")
    assert "ann" not in shown
    assert "--pictures FOLDER" in shown
    assert "--layout FILE.toml" in shown


def test_which_pieces_are_printed_is_asked_anew() -> None:
    assert "--only" not in command(replace(BINGO, only=("7",)), "bingo")
