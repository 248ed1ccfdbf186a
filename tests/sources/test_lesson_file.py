from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.sources.lesson_file import read_lesson

LESSON = """# our week
title = "Week 9"
sounds = ["h", "f"]
class = 24

[trace]
words = 1

[bingo]
grid = "3x3"   # small
free = true
show = ["picture:20", "word:4"]
"""


def written(folder: Path, text: str | bytes) -> str:
    file = folder / "week.toml"
    file.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    return str(file)


def test_tables_come_in_the_order_of_the_file_with_their_lines(tmp_path: Path) -> None:
    head, trace, bingo = read_lesson(written(tmp_path, LESSON))
    assert (head.name, head.options[1], head.lines["class"]) == ("", ("sounds", ("h", "f")), 4)
    assert (trace.name, trace.line, trace.options) == ("trace", 6, (("words", (1,)),))
    assert (bingo.name, bingo.line) == ("bingo", 9)
    assert dict(bingo.options) == {"grid": ("3x3",), "free": (True,), "show": ("picture:20", "word:4")}
    assert bingo.lines == {"grid": 10, "free": 11, "show": 12}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("title = ", "week.toml: Invalid value"),
        ("title = 1979-05-27", "week.toml, line 1: title cannot be 'datetime"),
        ("class = 2\ntitle = [['x']]", "week.toml, line 2: title cannot be"),
        ("[bingo]\n[bingo.grid]\nx = 1", "week.toml, line 1: grid cannot be"),
        ('title = """two\nlines"""', "week.toml, line 1: title cannot be"),
        ("a = 1\na = 2", "week.toml: Cannot overwrite"),
        (b"\xff\xfe\x00", "week.toml is not a text file"),
        ("x = " + "[" * 5000, "week.toml"),
        ("#" * 300_000, "week.toml is too large"),
    ],
)
def test_what_is_no_lesson_is_told_with_file_and_line(text: str | bytes, told: str, tmp_path: Path) -> None:
    with pytest.raises(TeacherError) as caught:
        read_lesson(written(tmp_path, text))
    assert told[:30] in caught.value.message
    assert len(caught.value.message) < 220
    assert caught.value.hint


@pytest.mark.parametrize("name", ["none.toml", ".", "a\0b.toml"])
def test_a_file_that_is_not_there_is_told(name: str, tmp_path: Path) -> None:
    with pytest.raises(TeacherError):
        read_lesson(str(tmp_path / name) if "\0" not in name else name)
