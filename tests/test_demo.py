"""`out_demo/` is what `cardgen demo` makes today: plans to the letter, pages pixel for pixel."""

import json
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest

from cardgen.cli import main

COMMITTED = Path(__file__).parent.parent / "out_demo"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "out_demo"
    with pytest.raises(SystemExit) as left:
        main(["demo", "--out", str(folder)])
    assert left.value.code == 0
    return folder


def test_the_demo_makes_the_files_that_lie_there(made: Path) -> None:
    assert {path.name for path in made.iterdir()} == {path.name for path in COMMITTED.iterdir()}


def test_the_plans_are_the_same(made: Path) -> None:
    plans = sorted(COMMITTED.glob("*.json"))
    assert plans
    for plan in plans:
        assert json.loads((made / plan.name).read_text("utf-8")) == json.loads(plan.read_text("utf-8")), plan.name


def test_the_reference_says_what_the_commands_say(made: Path) -> None:
    # Words alone: versions of click break lines in their own way.
    assert (made / "commands.md").read_text("utf-8").split() == (COMMITTED / "commands.md").read_text("utf-8").split()


def test_the_pages_look_the_same(made: Path) -> None:
    # Bytes may differ between versions of the libraries that compress them; what is seen may not.
    for path in sorted(COMMITTED.glob("*.pdf")):
        old, new = pdfium.PdfDocument(path), pdfium.PdfDocument(made / path.name)
        assert len(old) == len(new), path.name
        for number in range(len(old)):
            before, after = (file[number].render(scale=0.7).to_numpy() for file in (old, new))
            assert np.array_equal(before, after), f"{path.name}, page {number + 1}"
        old.close()
        new.close()
