"""Nothing tells who made a lesson, where, on which machine, or of whom her photos are."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from tests.hostile.kills import ROOT
from tests.hostile.secrets_in import found_in
from tests.sources import own_samples

SECRETS = {
    "user": "uma-quillfeather", "home": "homestead-of-uma", "folder": "folder-of-class-2b",
    "temporary": "tempest-folder", "host": "hostelry-17", "child": "Zebediah Quux",
    "file of hers": "lesson-plan-of-uma",
    "pictures": "snapshots-2b", "links": "linktable-2b",
}  # fmt: skip
FILES = {"01-running-order.pdf", "contents.json"}


def photo_of_a_child() -> bytes:
    exif = Image.Exif()
    exif[0x010E] = exif[0x013B] = f"{SECRETS['child']} by {SECRETS['user']}"
    exif[0x8825] = {1: "N", 2: (52.0, 30.0, 0.0)}
    return own_samples.saved(own_samples.noise(600, 400), "JPEG", exif=exif, comment=SECRETS["child"].encode())


def drawing_of_a_child() -> bytes:
    note = PngInfo()
    for kind in (note.add_text, note.add_itxt):
        kind("Author", SECRETS["child"], zip=True)
    return own_samples.saved(own_samples.noise(500, 500), "PNG", pnginfo=note)


@pytest.fixture(scope="module")
def lesson(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lesson from a file of hers, with her pictures, her links, a preview beside it; all have telling names."""
    home = tmp_path_factory.mktemp("a") / SECRETS["home"]
    folder = home / SECRETS["folder"]
    (home / SECRETS["temporary"]).mkdir(parents=True)
    own_samples.folder(home / "p").rename(home / SECRETS["pictures"])
    (home / SECRETS["pictures"] / "moon.jpg").write_bytes(photo_of_a_child())
    (home / SECRETS["pictures"] / "sun.png").write_bytes(drawing_of_a_child())
    svg = own_samples.SVG.format(
        f"<title>{SECRETS['child']}</title><circle r='40' cx='50' cy='50' id='Zebediah Quux'/>"
    )
    (home / SECRETS["pictures"] / "map.svg").write_text(f"<!-- {SECRETS['child']} -->{svg}")
    folder.mkdir()
    links = folder / f"{SECRETS['links']}.csv"
    links.write_text("moon,https://clips.example.org/moon\n")
    (folder / f"{SECRETS['file of hers']}.toml").write_text(
        f'sounds = ["m", "s"]\nclass = 2\nseed = 3\npictures = "{home / SECRETS["pictures"]}"\n'
        f'out = "week"\nprefer = ["moon", "sun", "map"]\n[bingo]\nboards = 2\n[sort]\n[trace]\n[cards]\n'
        f'links = "{links}"\n'
    )
    env = dict.fromkeys(("USER", "LOGNAME", "USERNAME"), SECRETS["user"]) | {
        "HOME": str(home), "TMPDIR": str(home / SECRETS["temporary"]), "HOSTNAME": SECRETS["host"],
        "PYTHONPATH": str(ROOT), "PATH": os.environ["PATH"],
    }  # fmt: skip
    code = "from cardgen.cli import main; main()"
    for args in (
        ["lesson", str(folder / f"{SECRETS['file of hers']}.toml")],
        ["bingo", "m", "s", "--boards=2", "--preview", f"--pictures={home / SECRETS['pictures']}",
         "--out=week/bingo.pdf", f"--plan={folder / 'week' / 'bingo.json'}"],
    ):  # fmt: skip
        run = subprocess.run(
            [*_other_host(), sys.executable, "-c", code, *args],
            cwd=folder, env=env, capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert run.returncode == 0, run.stderr
    return folder / "week"


def _other_host() -> list[str]:
    """Return what gives a process a host name of its own, where that is allowed."""
    alone = ["unshare", "--uts", "sh", "-c", f'hostname {SECRETS["host"]} && exec "$@"', "sh"]
    there = (
        shutil.which("unshare") and not subprocess.run([*alone, "true"], check=False, capture_output=True).returncode
    )
    return alone if there else []


def test_no_file_tells_who_and_where(lesson: Path) -> None:
    files = sorted(path for path in lesson.rglob("*") if path.is_file())
    assert {path.name for path in files} > FILES
    assert {path.suffix for path in files} == {".pdf", ".json", ".png"}
    assert [line for path in files for line in found_in(path, SECRETS)] == []


def test_no_file_tells_of_this_machine(lesson: Path) -> None:
    here = {"root of the project": str(ROOT), "home": str(Path.home()), "python": sys.prefix}
    real = {what: text for what, text in here.items() if len(text) > 5}
    assert [line for path in lesson.rglob("*.*") for line in found_in(path, real)] == []


def test_the_search_finds_what_is_there(tmp_path: Path) -> None:
    """In the title, in a stream, in a note of a PNG, in the name of a file."""
    pdf = pikepdf.new()
    pdf.docinfo["/Title"] = "für Zebediah Quux"
    pdf.Root.Note = pikepdf.Array([pikepdf.String("by uma-quillfeather ✓")])
    pdf.Root.Data = pdf.make_stream(b"on HOSTELRY-17")
    pdf.save(tmp_path / "a.pdf", compress_streams=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    (tmp_path / "tempest-folder.png").write_bytes(drawing_of_a_child())
    found = [line for path in sorted(tmp_path.iterdir()) for line in found_in(path, SECRETS)]
    assert found == [
        "user in a.pdf", "host in a.pdf", "child in a.pdf", "temporary in tempest-folder.png",
        "child in tempest-folder.png",
    ]  # fmt: skip
