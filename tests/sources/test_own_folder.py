"""The folder of a teacher's own pictures: names, kinds, and what leads out of it."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.sources.own_folder import MOST_BYTES, MOST_FILES, OwnFolder, open_folder, picture_name, shown, word_of
from tests.sources.own_samples import folder


@pytest.mark.parametrize(
    ("stem", "word", "picture"),
    [
        ("moon", "moon", "moon"),
        ("Moon", "moon", "moon"),
        ("Ice Cream", "ice-cream", "ice-cream"),
        ("ice_cream", "ice-cream", "ice-cream"),
        ("  ice - cream ", "ice-cream", "ice-cream"),
        ("Café", "café", "cafe"),
        ("Cafe\u0301", "café", "cafe"),  # as macOS writes it
        ("jack-o'lantern", "jack-o'lantern", "jack-o'lantern"),
        ("jack-o’lantern", "jack-o'lantern", "jack-o'lantern"),
        ("ｍoon", "moon", "moon"),
    ],
)
def test_a_file_is_named_after_its_word(stem: str, word: str, picture: str) -> None:
    assert word_of(stem) == word
    assert picture_name(word) == picture


@pytest.mark.parametrize(
    "stem", ["", "IMG_1234", "moon (1)", "moon2", "..", "a/b", "..\\moon", "moon\x00", "moon\u202egnp", "-", "m" * 41]
)
def test_other_names_are_no_words(stem: str) -> None:
    assert word_of(stem) == ""


@given(st.text(max_size=50))
def test_no_name_breaks_the_reading_of_names(stem: str) -> None:
    word = word_of(stem)
    assert not set(word) & set("/\\.:\x00")
    assert shown(stem).isprintable()
    assert word == "" or word_of(word) == word


def words_in(found: OwnFolder) -> list[str]:
    return [file.word for file in found.files]


def test_pictures_are_listed_in_the_order_of_their_names(tmp_path: Path) -> None:
    folder(tmp_path, sun_png="", moon_JPG="", map_webp="", milk_jpeg="", mop_svg="", notes_txt="", words_toml="")
    (tmp_path / ".mum.png").touch()
    (tmp_path / "sub").mkdir()
    found = open_folder(str(tmp_path))
    assert words_in(found) == ["map", "milk", "moon", "mop", "sun"]
    found.check_no_twins()


def refusal(path: Path | str) -> str:
    with pytest.raises(TeacherError) as caught:
        open_folder(str(path))
    assert caught.value.hint
    return caught.value.message


def test_a_folder_that_is_none_is_named(tmp_path: Path) -> None:
    (tmp_path / "moon.png").touch()
    assert refusal(tmp_path / "nowhere").startswith("There is no folder ")
    assert refusal(tmp_path / "moon.png").endswith("moon.png is a file, not a folder.")
    assert refusal("") == "There is no folder ."
    assert "no folder" in refusal("a\x00b") or "cannot be opened" in refusal("a\x00b")
    assert "\n" not in refusal("a\nb")


def test_an_empty_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").touch()
    assert "There is no picture in the folder" in refusal(tmp_path)


def test_a_folder_of_everything_is_not_read(tmp_path: Path) -> None:
    for number in range(MOST_FILES + 1):
        (tmp_path / f"{number}.txt").touch()
    assert "more than 1000 files" in refusal(tmp_path)


def test_two_files_for_one_word_are_both_named(tmp_path: Path) -> None:
    folder(tmp_path, moon_png="", sun_png="")
    (tmp_path / "Moon.jpg").touch()
    with pytest.raises(TeacherError, match=r"Moon\.jpg and moon\.png are pictures for the same word, moon\."):
        open_folder(str(tmp_path)).check_no_twins()
    (tmp_path / "moon.png").rename(tmp_path / "moon.heic")  # of these two only one can be read
    open_folder(str(tmp_path)).check_no_twins()


def opened(path: Path, name: str) -> bytes:
    found = open_folder(str(path))
    file = next(file for file in found.files if file.path.name == name)
    with found.open(file) as stream:
        return stream.read()


def test_links_out_of_the_folder_are_not_followed(tmp_path: Path) -> None:
    secret = tmp_path / "secret.png"
    secret.write_text("secret")
    inside = folder(tmp_path / "pictures", moon_png="moon")
    (inside / "sun.png").symlink_to(secret)
    (inside / "map.png").symlink_to("../secret.png")
    (inside / "mop.png").symlink_to("moon.png")
    (inside / "milk.png").symlink_to("/dev/zero")
    (inside / "mat.png").symlink_to("mat.png")
    assert opened(inside, "mop.png") == b"moon"
    for name in ("sun", "map", "milk"):
        with pytest.raises(TeacherError, match=rf"{name}\.png is a link that leads out of the folder"):
            opened(inside, f"{name}.png")
    with pytest.raises(TeacherError, match=r"mat\.png "):
        opened(inside, "mat.png")
    (inside / "words.toml").symlink_to(secret)
    with pytest.raises(TeacherError, match=r"words\.toml is a link"):
        open_folder(str(inside)).word_list()


def test_a_folder_may_be_a_link_itself(tmp_path: Path) -> None:
    folder(tmp_path / "pictures", moon_png="moon")
    (tmp_path / "link").symlink_to("pictures")
    assert opened(tmp_path / "link", "moon.png") == b"moon"


def test_what_is_no_file_or_too_large_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "sun.png").mkdir()
    os.mkfifo(tmp_path / "map.png")
    with (tmp_path / "moon.png").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    for name, said in (("sun", "is not a file"), ("map", "is not a file"), ("moon", "is larger than 20 MB")):
        with pytest.raises(TeacherError, match=rf"{name}\.png {said}"):
            opened(tmp_path, f"{name}.png")


def test_a_file_name_that_no_screen_can_show_is_shown_all_the_same(tmp_path: Path) -> None:
    (tmp_path / os.fsdecode(b"m\xffoon.png")).touch()
    (tmp_path / "moon\n\x1b[31m.png").touch()
    for file in open_folder(str(tmp_path)).files:
        assert file.name.isprintable()
        assert "?" in file.name
        assert file.word == ""


def test_the_list_of_words_is_read_as_text(tmp_path: Path) -> None:
    folder(tmp_path, moon_png="")
    assert open_folder(str(tmp_path)).word_list() is None
    folder(tmp_path, words_toml="\ufeff# mine")
    assert open_folder(str(tmp_path)).word_list() == "# mine"
    folder(tmp_path, words_toml=b"\xff\xfe")
    with pytest.raises(TeacherError, match=r"words\.toml is not UTF-8"):
        open_folder(str(tmp_path)).word_list()
    folder(tmp_path, words_toml="#" * 300_000)
    with pytest.raises(TeacherError, match=r"words\.toml is longer"):
        open_folder(str(tmp_path)).word_list()
