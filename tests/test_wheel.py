"""What a teacher installs holds everything that lies in the folders: absent data is left out silently otherwise."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True)
    (found,) = folder.glob("*.whl")
    return found


def files_below(folder: str) -> set[str]:
    found = (path for path in (ROOT / folder).rglob("*") if path.is_file() and "__pycache__" not in path.parts)
    return {path.relative_to(ROOT).as_posix() for path in found}


def test_the_wheel_built_from_the_sdist_holds_all_code_and_data(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        held = {name for name in archive.namelist() if ".dist-info/" not in name}
    wanted = files_below("cardgen")
    for data in ("art", "layouts"):
        assert files_below(data), f"{data}/ is empty"
        wanted |= {f"cardgen/{name}" for name in files_below(data)}
    assert held == wanted


def test_an_installed_cardgen_prints_without_its_checkout(wheel: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    call = "['bingo', 'h', 'f', '--boards', '2', '--seed', '1', '--out', 'a.pdf']"
    code = (
        f"import sys; sys.path.insert(0, {str(site)!r}); import cardgen; print(cardgen.__file__); "
        f"from cardgen.cli import main; main({call})"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith(str(site))
    assert (tmp_path / "a.pdf").read_bytes().startswith(b"%PDF")
