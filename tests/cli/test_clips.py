"""The teacher's voice from the command line: what to record, names, the test, the pages."""

import builtins
import csv
import json
import os
from pathlib import Path
from typing import Any

import pypdf
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from cardgen.cli import overview
from cardgen.sources.clip_files import MOST_FILES
from cardgen.words.clip_names import clip_name
from tests.sources.clip_samples import clip, folder, tone, wav
from tests.sources.test_clips import WORDS, full_of_secrets

CLIP = clip()


def run(*args: str | Path, answer: str | None = None) -> Result:
    return CliRunner().invoke(overview, ["clips", *map(str, args)], input=answer)


def names(*keys: str, path: Path) -> list[str]:
    """What the list of these keys asks for, in its order, from its CSV."""
    made = run("list", *keys, "--out", path / "l.pdf", "--csv", path / "l.csv")
    assert made.exit_code == 0, made.output
    with (path / "l.csv").open(encoding="utf-8-sig", newline="") as file:
        return [row["file"].removesuffix(".m4a") for row in csv.DictReader(file)]


def held(path: Path) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in path.iterdir() if p.is_file()}


def voice(path: Path, *stems: str, data: bytes = CLIP) -> Path:
    return folder(path / "voice", {f"{stem}.m4a": data for stem in stems})


# The list


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_list_pdf_csv_and_plan_agree(tmp_path: Path, paper: str) -> None:
    options = ("--words", "3", "--family", "es,uk", "--paper", paper)
    where = ("--out", tmp_path / "x.pdf", "--csv", tmp_path / "x.csv", "--plan", tmp_path / "x.json")
    made = run("list", "m", "sh", *options, *where)
    assert made.exit_code == 0, made.output
    assert "10 recordings" in made.output
    plan: dict[str, Any] = json.loads((tmp_path / "x.json").read_text("utf-8"))
    assert [c["name"] for c in plan["clips"]][-2:] == ["family-es", "family-uk"]
    assert [c["name"] for c in plan["clips"] if "word" in c] == [
        clip_name(word["key"], word["word"]) for word in plan["words"]
    ]
    with (tmp_path / "x.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["file"] for row in rows] == [f"{c['name']}.m4a" for c in plan["clips"]]
    assert [row["say"] for row in rows] == [c["say"] for c in plan["clips"]]
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "x.pdf").pages)
    for row in rows:
        assert row["file"] in text
    assert "lips closed, voice on; not em, not muh" in text
    command = next(line for line in text.splitlines() if "clips name FOLDER" in line)
    assert "--in-order m sh --words 3 --family es,uk --seed 1" in command
    assert "--paper" not in command


def test_the_same_request_asks_for_the_same_words(tmp_path: Path) -> None:
    for name in ("a", "b"):
        assert (
            run("list", "m", "s", "--out", tmp_path / f"{name}.pdf", "--csv", tmp_path / f"{name}.csv").exit_code == 0
        )
    assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()
    assert (tmp_path / "a.csv").read_bytes() == (tmp_path / "b.csv").read_bytes()


def test_a_dry_run_writes_nothing(tmp_path: Path) -> None:
    made = run("list", "m", "--dry-run", "--out", tmp_path / "x.pdf", "--csv", tmp_path / "x.csv")
    assert made.exit_code == 0
    assert not held(tmp_path)


@pytest.mark.parametrize(
    ("args", "message"),
    [
        (("mm",), 'no sound "mm"'),
        (("m", "m"), "named twice"),
        (("m", "--words", "21"), "21 words"),
        (("m", "--family", "Spanish!"), "not a language"),
        (("m", "--family", "es,es"), "named twice"),
        (("m", "--csv", "x.pdf"), "does not end in .csv"),
        (("m", "--out", "x.csv"), "does not end in .pdf"),
        (("m", "--seed", "-1"), "out of range"),
    ],
)
def test_lists_that_cannot_be_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, args: tuple[str, ...], message: str
) -> None:
    monkeypatch.chdir(tmp_path)
    made = run("list", *args)
    assert made.exit_code == 1
    assert message in made.output
    assert not held(tmp_path)


# Names


def test_the_table_is_shown_and_a_no_changes_nothing(tmp_path: Path) -> None:
    wanted = names("m", path=tmp_path)
    path = voice(tmp_path, "New Recording", *(f"New Recording {n}" for n in range(2, len(wanted) + 1)))
    before = held(path)
    said = run("name", path, "--in-order", "m", answer="n\n")
    assert said.exit_code == 0
    assert f"New Recording {len(wanted)}.m4a" in said.output
    assert f"{wanted[-1]}.m4a" in said.output
    assert "Nothing was changed." in said.output
    assert held(path) == before
    assert run("name", path, "--in-order", "m", answer="").exit_code != 0  # nobody there to ask
    assert held(path) == before
    assert run("name", path, "--in-order", "m", answer="y\n").exit_code == 0
    assert sorted(held(path)) == sorted(f"{name}.m4a" for name in wanted)
    again = run("name", path, "--in-order", "m", "--yes")
    assert again.exit_code == 1
    assert "is there already" in again.output


def test_recordings_of_another_lesson_keep_their_names(tmp_path: Path) -> None:
    wanted = names("m", path=tmp_path)
    path = voice(tmp_path, "t", "t-tent", "family-es", *(f"Voice {n}" for n in range(len(wanted))))
    assert run("name", path, "--in-order", "m", "--yes").exit_code == 0
    assert set(held(path)) == {f"{name}.m4a" for name in ("t", "t-tent", "family-es", *wanted)}


@pytest.mark.parametrize(
    ("args", "message"),
    [
        (("m",), "Only the order tells"),
        (("--in-order", "m"), "There are 2 recordings"),
        (("--in-order", "zz"), "no sound"),
    ],
)
def test_names_that_cannot_be_given(tmp_path: Path, args: tuple[str, ...], message: str) -> None:
    path = voice(tmp_path, "a 1", "a 2")
    before = held(path)
    made = run("name", path, *args, "--yes")
    assert made.exit_code == 1
    assert message in made.output
    assert held(path) == before


def test_names_of_two_sorts_are_pointed_out(tmp_path: Path) -> None:
    wanted = names("m", path=tmp_path)
    path = voice(tmp_path, *(f"Voice {n}" for n in range(len(wanted) - 1)), "Elm Street")
    assert "not all named in the same way" in run("name", path, "--in-order", "m", answer="n\n").output


# The test


def test_all_is_well(tmp_path: Path) -> None:
    path = voice(tmp_path, *names("m", path=tmp_path))
    made = run("test", path, "m")
    assert made.exit_code == 0
    assert "recordings are usable" in made.output
    assert run("test", path).exit_code == 0


def test_all_that_is_wrong_is_told_at_once(tmp_path: Path) -> None:
    wanted = names("m", path=tmp_path)
    path = voice(tmp_path, *wanted[2:])
    folder(
        path, {f"{wanted[1]}.m4a": b"Dear parents", "x.wav": wav(tone(level=0)), "m-odd\x1b\u202e.wav": wav(tone(0.1))}
    )
    made = run("test", path, "m", "--json")
    assert made.exit_code == 1
    lines = {line["file"] or line["name"]: line for line in map(json.loads, made.output.splitlines())}
    assert lines["m"]["state"] == "missing"
    assert lines[f"{wanted[1]}.m4a"]["state"] == "cannot be read"
    assert lines["x.wav"]["state"] == "silent"
    assert lines["m-odd??.wav"]["state"] == "too short"
    assert sum(line["wrong"] for line in lines.values()) == 4
    fine = lines[f"{wanted[2]}.m4a"]
    assert (fine["state"], fine["format"], fine["seconds"]) == ("fine", "M4A (aac)", pytest.approx(0.81, abs=0.02))
    table = run("test", path, "m")
    assert table.exit_code == 1
    assert "4 to mend" in table.output


def test_tags_are_told_but_are_not_wrong(tmp_path: Path) -> None:
    path = voice(tmp_path, "m", data=full_of_secrets("m4a"))
    made = run("test", path)
    assert made.exit_code == 0
    assert "tell a place" in made.output
    assert "Ann Teacher" not in made.output
    (line,) = map(json.loads, run("test", path, "--json").output.splitlines())
    assert "location" in line["places_in_tags"]
    assert "artist" in line["names_in_tags"]


def test_bad_folders(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "file").write_bytes(b"")
    for path, message in (("empty", "no recording in"), ("none", "no folder"), ("file", "is a file")):
        for command in (("test",), ("name", "--in-order", "--yes"), ("pages", "--out", tmp_path / "site")):
            made = run(command[0], tmp_path / path, *command[1:], "m")
            assert made.exit_code == 1
            assert message in made.output
    assert not (tmp_path / "site").exists()


def test_thousands_of_files(tmp_path: Path) -> None:
    path = tmp_path / "many"
    path.mkdir()
    for number in range(MOST_FILES + 1):
        (path / f"{number}.m4a").touch()
    for command in (("test",), ("name", "--in-order", "--yes"), ("pages", "--out", tmp_path / "site")):
        made = run(command[0], path, *command[1:], "m")
        assert made.exit_code == 1
        assert "holds more than" in made.output


def test_two_gigabytes_links_and_folders_are_told(tmp_path: Path) -> None:
    path = voice(tmp_path, "m", "s")
    os.truncate(path / "m.m4a", 2 * 1024**3)
    (tmp_path / "secret.m4a").write_bytes(CLIP)
    (path / "t.m4a").symlink_to(tmp_path / "secret.m4a")
    (path / "v.m4a").mkdir()
    lines = {line["file"]: line["text"] for line in map(json.loads, run("test", path, "--json").output.splitlines())}
    assert "larger than 50 MB" in lines["m.m4a"]
    assert "leads out of the folder" in lines["t.m4a"]
    assert "not a file" in lines["v.m4a"]
    assert lines["s.m4a"] == ""


def test_without_the_extra_it_is_said_how_to_install_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = voice(tmp_path, "m")
    real = builtins.__import__

    def no_audio(name: str, *args: Any, **more: Any) -> Any:
        if name.startswith(("av", "mutagen")):
            raise ImportError(name)
        return real(name, *args, **more)

    monkeypatch.setattr(builtins, "__import__", no_audio)
    made = run("test", path)
    assert made.exit_code == 1
    assert 'pip install "cardgen[clips]"' in made.output


# The pages


def pages(path: Path, *args: str) -> Result:
    return run("pages", path / "voice", "--out", path / "site", *args)


def test_a_page_for_every_recording_and_none_for_what_is_missing(tmp_path: Path) -> None:
    wanted = names("m", path=tmp_path)
    voice(tmp_path, *wanted[:-1])
    made = pages(tmp_path, "m")
    assert made.exit_code == 0, made.output
    assert f"There is no recording {wanted[-1]}" in made.output
    meant = {f"{name}.{suffix}" for name in wanted[:-1] for suffix in ("m4a", "html")}
    assert set(held(tmp_path / "site")) == meant | {"index.html", "lesson-m.html", "style.css"}
    word = (tmp_path / "site" / f"{wanted[1]}.html").read_text("utf-8")
    assert f'src="{wanted[1]}.m4a"' in word
    assert "<path d=" in word


def test_no_name_and_no_place_is_copied(tmp_path: Path) -> None:
    kinds = {"m": "m4a", "s": "mp3", "t": "ogg", "b": "flac", "d": "wav"}
    folder(tmp_path / "voice", {f"{key}.{kind}": full_of_secrets(kind) for key, kind in kinds.items()})
    made = pages(tmp_path, *kinds, "--words", "0")
    assert made.exit_code == 0, made.output
    written = held(tmp_path / "site")
    assert {f"{key}.{kind}" for key, kind in kinds.items()} <= set(written)
    for name, data in written.items():
        assert not [word for word in WORDS if word in data], name


def test_the_suffix_is_that_of_the_content(tmp_path: Path) -> None:
    folder(tmp_path / "voice", {"m.m4a": clip("mp3")})
    assert pages(tmp_path, "m", "--words", "0").exit_code == 0
    assert "m.mp3" in held(tmp_path / "site")
    assert 'src="m.mp3"' in (tmp_path / "site" / "m.html").read_text("utf-8")


def test_earlier_lessons_stay_and_are_listed(tmp_path: Path) -> None:
    voice(tmp_path, "m", "s", "t")
    assert pages(tmp_path, "m", "s", "--words", "0").exit_code == 0
    (tmp_path / "site" / "holiday.jpg").write_bytes(b"theirs")
    assert pages(tmp_path, "t", "m", "--words", "0").exit_code == 0
    written = held(tmp_path / "site")
    assert {"m.html", "s.html", "s.m4a", "t.html", "lesson-m-s.html", "lesson-t-m.html", "holiday.jpg"} <= set(written)
    index = written["index.html"].decode()
    assert 'href="lesson-m-s.html">Sounds m, s<' in index
    assert 'href="lesson-t-m.html">Sounds t, m<' in index
    before = held(tmp_path / "site")
    assert pages(tmp_path, "t", "m", "--words", "0").exit_code == 0
    assert held(tmp_path / "site") == before


def test_a_folder_of_others_is_not_touched(tmp_path: Path) -> None:
    voice(tmp_path, "m")
    folder(tmp_path / "site", {"index.html": b"<html>my own page</html>", "m.html": b"mine"})
    before = held(tmp_path / "site")
    made = pages(tmp_path, "m", "--words", "0")
    assert made.exit_code == 1
    assert "holds other files" in made.output
    assert held(tmp_path / "site") == before


def test_a_file_of_others_among_ours_is_not_overwritten(tmp_path: Path) -> None:
    voice(tmp_path, "m", "s")
    assert pages(tmp_path, "m", "--words", "0").exit_code == 0
    (tmp_path / "site" / "s.m4a").write_bytes(b"theirs")
    before = held(tmp_path / "site")
    made = pages(tmp_path, "s", "--words", "0")
    assert made.exit_code == 1
    assert "s.m4a is there already" in made.output
    assert held(tmp_path / "site") == before


@pytest.mark.parametrize("data", [b"Dear parents", CLIP[:2000], b""])
def test_a_recording_that_cannot_be_read_leaves_no_folder(tmp_path: Path, data: bytes) -> None:
    voice(tmp_path, "m")
    folder(tmp_path / "voice", {"s.m4a": data})
    made = pages(tmp_path, "m", "s", "--words", "0")
    assert made.exit_code == 1
    assert "s.m4a" in made.output
    assert not (tmp_path / "site").exists()


def test_her_own_voice_may_lie_in_the_folder_of_the_pages(tmp_path: Path) -> None:
    """The folder of recordings as goal: its recordings are not ours to replace."""
    path = voice(tmp_path, "m")
    made = run("pages", path, "--out", path, "m", "--words", "0")
    assert made.exit_code == 1
    assert set(held(path)) == {"m.m4a"}


def test_what_is_hard_to_hear_is_told(tmp_path: Path) -> None:
    voice(tmp_path, "m", data=clip("m4a", tone(level=0.01)))
    made = pages(tmp_path, "m", "--words", "0")
    assert made.exit_code == 0
    assert "m.m4a is too quiet" in made.output


def test_a_photo_of_hers_stays_off_the_pages(tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    Image.new("RGB", (400, 400), (200, 30, 30)).save(tmp_path / "own" / "mop.png")
    wanted = ("m", "--words", "20", "--pictures", str(tmp_path / "own"))
    voice(tmp_path, "m", "m-mop")
    made = pages(tmp_path, *wanted)
    assert made.exit_code == 0, made.output
    assert "Your photo of mop is not put on its page" in made.output
    page = (tmp_path / "site" / "m-mop.html").read_text("utf-8")
    assert "mop</p>" in page
    assert 'class="picture"' not in page
    assert "data:image" not in page


def test_every_command_has_an_example() -> None:
    for command in ((), ("list",), ("name",), ("test",), ("pages",)):
        made = run(*command, "--help")
        assert made.exit_code == 0
        assert "Example:  cardgen clips" in made.output
