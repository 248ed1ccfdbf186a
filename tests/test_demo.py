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


def files(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_the_demo_makes_the_files_that_lie_there(made: Path) -> None:
    assert files(made) == files(COMMITTED)


def test_the_plans_are_the_same(made: Path) -> None:
    plans = [name for name in files(COMMITTED) if name.endswith(".json")]
    assert plans
    for plan in plans:
        old, new = (json.loads((folder / plan).read_text("utf-8")) for folder in (COMMITTED, made))
        assert new == old, plan


def test_the_reference_says_what_the_commands_say(made: Path) -> None:
    # Words alone: versions of click break lines in their own way.
    assert (made / "commands.md").read_text("utf-8").split() == (COMMITTED / "commands.md").read_text("utf-8").split()


def test_the_pages_look_the_same(made: Path) -> None:
    # Bytes may differ between versions of the libraries that compress them; what is seen may not.
    for name in (name for name in files(COMMITTED) if name.endswith(".pdf")):
        old, new = pdfium.PdfDocument(COMMITTED / name), pdfium.PdfDocument(made / name)
        assert len(old) == len(new), name
        for number in range(len(old)):
            before, after = (file[number].render(scale=0.7).to_numpy() for file in (old, new))
            assert np.array_equal(before, after), f"{name}, page {number + 1}"
        old.close()
        new.close()
