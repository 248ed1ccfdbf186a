"""A teacher's own pictures from the command line to the finished file."""

import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import page as page_validation
import pikepdf
import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from cardgen.cli import overview
from cardgen.recipes.library import open_library
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing, Photo
from cardgen.units import points_of_mm
from tests.sources.own_samples import SVG, corner, folder, noise, saved
from tests.sources.test_photos import SECRETS, full_of_secrets

PHOTO = saved(noise(600, 400), "JPEG")


def run(*args: str | Path) -> Result:
    return CliRunner().invoke(overview, list(map(str, args)))


def bingo(path: Path, *args: str) -> Result:
    """Boards for m and s with the pictures in `path`/own, as `path`/x.pdf with its plan."""
    where = ("--pictures", path / "own", "--out", path / "x.pdf", "--plan", path / "x.json")
    return run("bingo", "m", "s", "--boards", "2", "--seed", "5", "--call", "word", *where, *args)


def plan(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((path / "x.json").read_text(encoding="utf-8"))
    return found


@pytest.fixture
def words(tmp_path: Path) -> list[str]:
    """The words that stand on the boards of this seed, whoever drew their pictures."""
    assert run("bingo", "m", "s", "--boards", "2", "--seed", "5", "--call", "word", "--out", tmp_path / "y.pdf",
               "--plan", tmp_path / "y.json").exit_code == 0  # fmt: skip
    cells = json.loads((tmp_path / "y.json").read_text(encoding="utf-8"))["boards"][0]["cells"]
    return [word for row in cells for word in row]


def images(path: Path) -> list[tuple[str, bytes]]:
    with pikepdf.open(path / "x.pdf") as pdf:
        streams = [o for o in pdf.objects if isinstance(o, pikepdf.Stream) and o.get("/Subtype") == "/Image"]
        return [(str(stream.ColorSpace), stream.read_raw_bytes()) for stream in streams]


@pytest.mark.parametrize("ink", ["colour", "grey", "line"])
def test_her_pictures_go_before_ours_and_are_stored_once(tmp_path: Path, words: list[str], ink: str) -> None:
    hers = {f"{words[0]}_jpg": PHOTO, f"{words[1]}_png": saved(corner(900, 900))}
    folder(tmp_path / "own", **hers)
    shown = bingo(tmp_path, "--ink", ink)
    assert shown.exit_code == 0, shown.output
    assert ("no version in lines" in shown.stdout) == (ink == "line")
    kept = images(tmp_path)
    assert len(kept) == 2
    space = "/DeviceRGB" if ink == "colour" else "/DeviceGray"
    assert {colours for colours, _ in kept} == {space}
    boards = [word for board in plan(tmp_path)["boards"] for row in board["cells"] for word in row]
    assert set(words[:2]) < set(boards)  # the same game as without her pictures


def cell(path: Path, word: str) -> np.ndarray[Any, Any]:
    """The middle of a word's cell on the first board, as PDFium renders it."""
    with pdfium.PdfDocument(path / "x.pdf") as pdf:
        for number, told in enumerate(plan(path)["pages"]):
            for place in told.get("cells", ()):
                if place["board"] == 1 and place["word"] == word:
                    image = pdf[number].render(scale=4).to_pil().convert("RGB")
                    left, top = (int(points_of_mm(place[edge]) * 4) for edge in ("x_mm", "y_mm"))
                    side = int(points_of_mm(place["w_mm"]) * 4)
                    return np.asarray(image.crop((left, top, left + side, top + side)), dtype=np.int16)
    raise AssertionError(word)


def test_what_is_printed_is_her_picture(tmp_path: Path, words: list[str]) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # to be turned clockwise: its blue corner is top right then
    folder(tmp_path / "own", **{f"{words[0]}_jpg": saved(corner(800, 400), "JPEG", exif=exif, quality=95)})
    assert bingo(tmp_path).exit_code == 0
    seen = cell(tmp_path, words[0])
    side = len(seen)
    middle, quarter = side // 2, int(side * 0.2)

    def near(x: int, y: int, colour: tuple[int, int, int]) -> bool:
        return bool(np.abs(seen[y, x] - colour).max() < 12)

    assert near(middle + 8, quarter, (30, 30, 200))
    assert near(middle - 8, quarter, (200, 30, 30))
    assert near(middle + 8, side - quarter, (200, 30, 30))
    assert near(quarter, middle, (255, 255, 255))  # half as wide as high, and not stretched


def test_no_word_of_the_file_survives(tmp_path: Path, words: list[str]) -> None:
    names = dict(zip(words, ("JPEG", "WEBP", "PNG"), strict=False))
    own = folder(tmp_path / "own")
    for word, kind in names.items():
        (own / f"{word.upper()}.{kind}").write_bytes(full_of_secrets(kind))
    assert bingo(tmp_path).exit_code == 0
    with pikepdf.open(tmp_path / "x.pdf") as pdf:
        held = []
        for thing in pdf.objects:
            held.append(thing.unparse() if isinstance(thing, pikepdf.Object) else b"")
            if isinstance(thing, pikepdf.Stream):
                held.append(thing.read_raw_bytes() if thing.get("/Subtype") == "/Image" else thing.read_bytes())
    everything = b"\n".join(held)
    assert len(images(tmp_path)) == 3
    assert words[0].encode() in everything  # what is looked for would be found
    foreign = [secret for secret in SECRETS if secret != b"xmp"]  # the file has an XMP record of its own
    for secret in (*foreign, bytes(tmp_path), *(f"{word.upper()}".encode() for word in names)):
        assert secret not in everything, secret


def test_the_file_is_as_sound_as_any(tmp_path: Path, words: list[str]) -> None:
    own = folder(tmp_path / "own", **{f"{words[0]}_jpg": PHOTO})
    (own / f"{words[1]}.svg").write_text(SVG.format('<circle r="40" fill="red"/>'))
    assert bingo(tmp_path).exit_code == 0
    report = page_validation.validate_pdf_bytes((tmp_path / "x.pdf").read_bytes(), profile="ua1")
    assert not report.failures
    if not shutil.which("qpdf"):
        pytest.fail("qpdf is missing: apt-get install qpdf")
    subprocess.run(["qpdf", "--check", tmp_path / "x.pdf"], check=True, capture_output=True)
    first = (tmp_path / "x.pdf").read_bytes()
    assert bingo(tmp_path).exit_code == 0
    assert (tmp_path / "x.pdf").read_bytes() == first


def test_her_picture_is_described_by_its_word(tmp_path: Path, words: list[str]) -> None:
    folder(tmp_path / "own", **{f"{words[0]}_jpg": PHOTO})
    assert bingo(tmp_path).exit_code == 0
    with pikepdf.open(tmp_path / "x.pdf") as pdf:
        alts = [str(o.Alt) for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and o.get("/S") == "/Figure"]
    assert words[0] in alts


def test_words_of_her_own_come_into_the_game(tmp_path: Path) -> None:
    # Words that nobody else has: more than the bank has for this sound, so that some must be taken.
    fresh = [f"z{vowel}{end}" for vowel in "aeiou" for end in ("mp", "rb", "lk", "nd")]
    own = folder(tmp_path / "own", **{f"{word}_png": PHOTO for word in fresh})
    records = [f'[[word]]\nword = "{word}"\nkeys = "z"\nphones = "Z AE1 M P"\n' for word in fresh]
    (own / "words.toml").write_text("\n".join(records))
    where = ("--pictures", own, "--out", tmp_path / "x.pdf", "--plan", tmp_path / "x.json")
    shown = run("bingo", "z", "--boards", "2", "--grid", "2x2", "--pool", "20", "--show", "picture-word", *where)
    assert shown.exit_code == 0, shown.output
    told = {entry["word"]: entry for entry in plan(tmp_path)["words"]}
    used = set(told) & set(fresh)
    assert used
    assert all(told[word]["key"] == "z" for word in used)
    with pdfium.PdfDocument(tmp_path / "x.pdf") as pdf:
        text = "".join(page.get_textpage().get_text_bounded() for page in pdf)
    assert all(word in text for word in used)
    assert run("pictures", "test", own).exit_code == 0


def test_a_word_that_only_the_dictionary_knows_stands_for_its_first_letter(tmp_path: Path) -> None:
    own = folder(tmp_path / "own", mackerel_png=PHOTO, knee_png=PHOTO)
    library = open_library(str(own))
    word = library.bank.get("mackerel")
    assert word is not None
    assert (word.keys, word.alt) == (("m",), "mackerel")
    assert library.is_drawn("mackerel")
    assert library.is_drawn("moon")
    assert not library.is_drawn("mimblewimp")
    assert isinstance(library.drawing("mackerel", Ink.COLOUR), Photo)
    assert isinstance(library.drawing("moon", Ink.COLOUR), Drawing)


@pytest.mark.parametrize("data", [b"hello", PHOTO[:5000], b""], ids=["text", "cut short", "empty"])
def test_a_damaged_picture_stops_the_run_only_where_it_would_be_printed(
    tmp_path: Path, words: list[str], data: bytes
) -> None:
    own = folder(tmp_path / "own", **{f"{words[0]}_jpg": data})
    shown = bingo(tmp_path)
    assert shown.exit_code == 1
    assert shown.stderr.startswith(f"Error: {words[0]}.jpg is ")
    assert shown.stderr.count("\n") == 2
    assert not (tmp_path / "x.pdf").exists()
    (own / f"{words[0]}.jpg").rename(own / "zebra.jpg")
    shown = bingo(tmp_path)
    assert shown.exit_code == 0
    assert ("zebra.jpg is not a picture" in shown.stdout) == (data != PHOTO[:5000])


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda _: None, "There is no folder"),
        (lambda own: own.write_text("hello"), "is a file, not a folder"),
        (lambda own: own.mkdir(), "There is no picture in the folder"),
        (lambda own: folder(own, moon_png=PHOTO, moon_jpg=PHOTO), "moon.jpg and moon.png are pictures for the same"),
        (lambda own: folder(own, moon_png=PHOTO, words_toml="[[word]]\nkeys = 'm'"), "words.toml, line 1: the word"),
        (lambda own: folder(own, moon_png=PHOTO, words_toml="a = "), "words.toml cannot be read"),
    ],
)
def test_a_bad_folder_is_one_clear_sentence(tmp_path: Path, make: Any, said: str) -> None:
    make(tmp_path / "own")
    shown = bingo(tmp_path)
    assert shown.exit_code == 1
    assert said in shown.stderr
    assert shown.stderr.startswith("Error: ")
    assert not (tmp_path / "x.pdf").exists()
    if "same" not in said:  # the table shows these line by line
        assert said in run("pictures", "test", tmp_path / "own").stderr


def test_the_table_and_its_json(tmp_path: Path) -> None:
    own = folder(tmp_path / "own", moon_jpg=PHOTO, milk_png=saved(corner(120, 80)), soap_png="hello", moon_webp=PHOTO)
    shown = run("pictures", "test", own)
    assert shown.exit_code == 1
    assert max(map(len, shown.stdout.splitlines())) <= 100
    assert re.search(r"^milk\.png +milk +m +too small", shown.stdout, re.MULTILINE)
    assert re.search(r"^moon\.jpg +moon +two for one word", shown.stdout, re.MULTILINE)
    records = [json.loads(line) for line in run("pictures", "test", own, "--json").stdout.splitlines()]
    assert [record["file"] for record in records] == ["milk.png", "moon.jpg", "moon.webp", "soap.png"]
    assert records[0] | {"text": ""} == {
        "file": "milk.png",
        "word": "milk",
        "key": "m",
        "state": "too small",
        "wrong": False,
        "text": "",
        "size_px": [120, 80],
        "sharp_mm": 10,
    }
    assert [record["wrong"] for record in records] == [False, True, True, True]


def test_the_table_of_one_sound(tmp_path: Path) -> None:
    own = folder(tmp_path / "own", moon_jpg=PHOTO, soap_png="hello")
    shown = run("pictures", "test", own, "--for", "m")
    assert shown.exit_code == 0
    assert "soap" not in shown.stdout
    assert run("pictures", "test", own, "--for", "t").stdout.startswith("There is no picture for t in ")
    assert run("pictures", "test", own, "--for", "mm").exit_code == 1


def test_help_shows_an_example() -> None:
    for args in (("pictures",), ("pictures", "test")):
        assert "Example:" in run(*args, "--help").output
    assert "--pictures FOLDER" in run("bingo", "--help").output
