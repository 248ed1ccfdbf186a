import os
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.sources import clip_files
from cardgen.sources.clip_files import MOST_BYTES, ClipFolder, natural, new_names, open_clips, rename
from cardgen.sources.clips import missing
from tests.sources.clip_samples import folder

SOUND = b"a recording"


def made(path: Path, *names: str) -> Path:
    return folder(path, {name: name.encode() for name in names})


# How phones and recorders call what they record, first to last: seen on devices, from memory.
@pytest.mark.parametrize(
    "names",
    [
        ["New Recording.m4a", "New Recording 2.m4a", "New Recording 10.m4a"],
        ["Recording (1).m4a", "Recording (2).m4a", "Recording (11).m4a"],
        ["Voice 001.m4a", "Voice 002.m4a", "Voice 010.m4a", "Voice 100.m4a"],
        ["20261125 091502.m4a", "20261125 101500.m4a", "20261126 080000.m4a"],
        ["Recording 2026-11-25 9.05.11.mp3", "Recording 2026-11-25 10.04.09.mp3"],
        ["3.wav", "20.wav", "100.wav"],
        ["Elm Street.m4a", "Elm Street 2.m4a", "Elm Street 3.m4a"],
    ],
)
def test_recordings_stand_in_the_order_in_which_they_were_made(tmp_path: Path, names: list[str]) -> None:
    mixed = Random(3).sample(names, len(names))
    assert [file.name for file in open_clips(str(made(tmp_path / "f", *mixed))).files] == names


@given(st.lists(st.text(min_size=1, max_size=30), max_size=8))
def test_any_names_can_be_sorted(names: list[str]) -> None:
    backwards = names[::-1]
    assert sorted(backwards, key=natural) == sorted(names, key=natural)


def test_they_get_the_names_of_the_list_and_keep_their_kind(tmp_path: Path) -> None:
    path = made(tmp_path / "f", "New Recording.m4a", "New Recording 2.MP3", "New Recording 10.m4a", "notes.txt")
    opened = open_clips(str(path))
    rename(opened, new_names(opened, ["m", "m-moon", "s"], frozenset()))
    assert {p.name: p.read_text() for p in path.iterdir()} == {
        "m.m4a": "New Recording.m4a",
        "m-moon.mp3": "New Recording 2.MP3",
        "s.m4a": "New Recording 10.m4a",
        "notes.txt": "notes.txt",
    }


def test_what_has_its_name_keeps_it(tmp_path: Path) -> None:
    path = made(tmp_path / "f", "M.m4a", "t-top.m4a", "New Recording 4.m4a", "New Recording 5.m4a")
    opened = open_clips(str(path))
    renames = new_names(opened, ["m", "m-moon", "s"], frozenset({"t-top"}))
    assert [(file.name, name) for file, name in renames] == [
        ("New Recording 4.m4a", "m-moon.m4a"),
        ("New Recording 5.m4a", "s.m4a"),
    ]


@pytest.mark.parametrize("names", [["a 1.m4a"], ["a 1.m4a", "a 2.m4a", "a 3.m4a"], ["m.m4a", "s.m4a", "m-moon.m4a"]])
def test_they_must_be_as_many_as_the_list_wants(tmp_path: Path, names: list[str]) -> None:
    opened = open_clips(str(made(tmp_path / "f", *names)))
    with pytest.raises(TeacherError) as found:
        new_names(opened, ["m", "m-moon"] + (["s"] if "m.m4a" in names else []), frozenset())
    assert found.value.hint
    assert found.value.message.startswith(("There is 1 recording to", "There are 3 recordings", "Every recording"))


def test_nothing_is_overwritten_and_nothing_half_done(tmp_path: Path) -> None:
    path = made(tmp_path / "f", *(f"New Recording {n}.m4a" for n in range(1, 6)))
    opened = open_clips(str(path))
    renames = new_names(opened, ["m", "m-moon", "s", "s-sun", "t"], frozenset())
    (path / "s-sun.m4a").write_text("came meanwhile")
    before = {p.name: p.read_text() for p in path.iterdir()}
    with pytest.raises(TeacherError, match="nothing was changed"):
        rename(opened, renames)
    assert {p.name: p.read_text() for p in path.iterdir()} == before


@pytest.mark.parametrize("error", [OSError("full"), KeyboardInterrupt()])
def test_a_rename_that_stops_half_way_is_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    path = made(tmp_path / "f", *(f"New Recording {n}.m4a" for n in range(1, 6)))
    opened = open_clips(str(path))
    before = {p.name: p.read_text() for p in path.iterdir()}
    real, calls = Path.replace, []

    def replace(self: Path, target: Path) -> Path:
        calls.append(target)
        if len(calls) == 4:
            raise error
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises((TeacherError, KeyboardInterrupt)):
        rename(opened, new_names(opened, ["m", "m-moon", "s", "s-sun", "t"], frozenset()))
    assert {p.name: p.read_text() for p in path.iterdir()} == before


def test_links_are_not_renamed_and_not_followed_out(tmp_path: Path) -> None:
    (tmp_path / "secret.m4a").write_bytes(SOUND)
    path = made(tmp_path / "f", "New Recording 1.m4a")
    (path / "New Recording 2.m4a").symlink_to(tmp_path / "secret.m4a")
    (path / "New Recording 3.m4a").symlink_to("New Recording 3.m4a")
    opened = open_clips(str(path))
    for number in (1, 2):
        alone = ClipFolder(path, (opened.files[number],))
        with pytest.raises(TeacherError, match="not a file of its own"):
            new_names(alone, ["m"], frozenset())
    for number, why in ((1, "leads out of the folder"), (2, "cannot be read|not a file")):
        with pytest.raises(TeacherError, match=why):
            opened.read(opened.files[number])


def test_a_huge_file_is_refused_before_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = made(tmp_path / "f", "m.m4a", "s.m4a")
    os.truncate(path / "m.m4a", 2 * 1024**3)
    monkeypatch.setattr(Path, "read_bytes", lambda _: pytest.fail("it was read"))
    opened = open_clips(str(path))
    with pytest.raises(TeacherError, match="larger than 50 MB"):
        opened.read(opened.files[0])
    os.truncate(path / "m.m4a", MOST_BYTES + 1)
    with pytest.raises(TeacherError, match="larger than 50 MB"):
        opened.read(opened.files[0])


def test_folders_in_place_of_files_and_empty_files(tmp_path: Path) -> None:
    path = folder(tmp_path / "f", {"m.m4a": b""})
    (path / "s.m4a").mkdir()
    opened = open_clips(str(path))
    for file, why in zip(opened.files, ("is empty", "is not a file"), strict=True):
        with pytest.raises(TeacherError, match=why):
            opened.read(file)


@pytest.mark.parametrize("name", ["", "nowhere", "f/m.m4a", "a\0b", "x" * 5000])
def test_what_is_no_folder_is_refused(tmp_path: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    made(tmp_path / "f", "m.m4a")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(TeacherError):
        open_clips(name)


def test_a_folder_without_recordings_is_refused(tmp_path: Path) -> None:
    made(tmp_path / "f", "notes.txt", ".m.m4a")
    with pytest.raises(TeacherError, match="no recording in the folder"):
        open_clips(str(tmp_path / "f"))


def test_ten_thousand_files_are_refused_at_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made(tmp_path / "f", *(f"{n}.m4a" for n in range(12)))
    monkeypatch.setattr(clip_files, "MOST_FILES", 11)
    with pytest.raises(TeacherError, match="more than 11 files"):
        open_clips(str(tmp_path / "f"))


def test_missing_tells_which_names_have_no_recording(tmp_path: Path) -> None:
    made(tmp_path / "f", "M.M4A", "s-sun.wav", "s.txt")
    assert missing(str(tmp_path / "f"), ["m", "s", "s-sun", "s-sock"]) == ("s", "s-sock")
    (tmp_path / "empty").mkdir()
    assert missing(str(tmp_path / "empty"), ["m"]) == ("m",)
    with pytest.raises(TeacherError):
        missing(str(tmp_path / "none"), ["m"])
