"""The sheets of every command, one request of each, as programs that are not ours see them."""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

import page as page_validation
import pypdf
import pytest

from cardgen.build import RECIPES, Output, build
from cardgen.request import (
    BingoRequest,
    CatalogueRequest,
    CheckRequest,
    ClipListRequest,
    FlashcardsRequest,
    LayoutsRequest,
    MatchRequest,
    PackRequest,
    RulerRequest,
    SheetRequest,
    SortRequest,
    TraceRequest,
)

KEYS = ("m", "s")
EXAMPLES: dict[type[SheetRequest], SheetRequest] = {
    BingoRequest: BingoRequest(keys=("m", "s", "t", "b"), seed=7),
    CatalogueRequest: CatalogueRequest(keys=KEYS, seed=7),
    CheckRequest: CheckRequest(keys=("m", "s", "t", "b"), seed=7),
    ClipListRequest: ClipListRequest(keys=KEYS),
    FlashcardsRequest: FlashcardsRequest(keys=KEYS, seed=7),
    LayoutsRequest: LayoutsRequest(),
    MatchRequest: MatchRequest(keys=("m", "s", "t", "b"), seed=7),
    PackRequest: PackRequest(keys=KEYS, seed=7),
    RulerRequest: RulerRequest(),
    SortRequest: SortRequest(keys=KEYS, seed=7),
    TraceRequest: TraceRequest(keys=KEYS, seed=7),
}
# Two machines: another order of sets, another clock, another language, another folder.
SETTINGS = (
    {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "4711", "TZ": "Pacific/Auckland", "LC_ALL": "de_DE.UTF-8"},
)
every_command = pytest.mark.parametrize("kind", list(RECIPES), ids=lambda kind: kind.__name__)


def digests() -> str:
    """What is printed of every example, as JSON: its file's digest by the name of the request."""
    found = {}
    for kind in RECIPES:
        file = Path(f"{kind.__name__}.pdf")
        build(EXAMPLES[kind], Output(file), proof=None)
        found[kind.__name__] = hashlib.sha256(file.read_bytes()).hexdigest()
    return json.dumps(found)


@cache
def _folder(base: Path) -> Path:
    folder = base / "sheets"
    folder.mkdir(exist_ok=True)
    return folder


@pytest.fixture
def sheets(kind: type[SheetRequest], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of a command, made once."""
    file = _folder(tmp_path_factory.getbasetemp()) / f"{kind.__name__}.pdf"
    if not file.exists():
        build(EXAMPLES[kind], Output(file))
    return file


@every_command
def test_every_command_has_an_example(kind: type[SheetRequest]) -> None:
    assert type(EXAMPLES[kind]) is kind, "a new command: give an example of its request"


@every_command
def test_the_rules_of_accessible_pdf_hold(sheets: Path) -> None:
    # ISO 14289-1, as an independent validator counts its rules.
    report = page_validation.validate_pdf_bytes(sheets.read_bytes(), profile="ua1")
    assert report.rules.total >= 100
    assert [f"{failure.rule_id}: {failure.message}" for failure in report.failures] == []


@every_command
def test_the_structure_of_the_file_is_sound(sheets: Path) -> None:
    if not shutil.which("qpdf"):
        pytest.fail("qpdf is missing: apt-get install qpdf")
    told = subprocess.run(["qpdf", "--check", sheets], check=True, capture_output=True, text=True)
    assert "No syntax or stream encoding errors found" in told.stdout
    assert told.stderr == ""


@every_command
def test_every_font_is_embedded(sheets: Path) -> None:
    fonts = {}
    for page in pypdf.PdfReader(sheets).pages:
        for name, font in page["/Resources"]["/Font"].items():  # type: ignore[index]
            fonts[name] = font.get_object()
    assert fonts
    for font in fonts.values():
        assert "/FontFile2" in font["/FontDescriptor"]
        assert "/ToUnicode" in font


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, str]]:
    """The digests of all examples under each of the settings."""
    script = "from tests.outside.test_every_command import digests; print(digests())"
    root = Path(__file__).parents[2]
    found = []
    for settings in SETTINGS:
        settings = {**os.environ, **settings, "PYTHONPATH": os.pathsep.join([str(root), *sys.path])}
        folder = tmp_path_factory.mktemp("machine")
        run = subprocess.run(
            [sys.executable, "-c", script], env=settings, cwd=folder, check=True, capture_output=True, text=True
        )
        found.append(json.loads(run.stdout))
    return found


def test_the_same_request_is_the_same_bytes_on_every_machine(printed: list[dict[str, str]]) -> None:
    one, other = printed
    assert set(one) == {kind.__name__ for kind in RECIPES}
    assert [name for name in one if one[name] != other[name]] == []
