from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.sources.link_list import LARGEST_FILE, read_links


def listed(folder: Path, text: str | bytes, name: str = "links.csv") -> str:
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    return str(path)


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("head", ["", "word{0}link\r\n", "Wort{0}URL\r\n"])
def test_a_table_from_any_spreadsheet(delimiter: str, head: str, tmp_path: Path) -> None:
    text = head + "Moon{0}https://example.org/1\r\n\r\nm-mouse {0} https://example.org/2{0}{0}\r\n"
    found = read_links(listed(tmp_path, ("\ufeff" + text).format(delimiter)))
    assert found == {"moon": "https://example.org/1", "m-mouse": "https://example.org/2"}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("moon,https://example.org/1\nmoon,https://example.org/2", "line 2"),
        ("moon,https://example.org/1\nmap", "line 2"),
        ("moon,https://example.org/1\n,https://example.org/2", "line 2"),
        ("moon,https://example.org/1\nmap,javascript:x", "line 2"),
        ("moon,https://example.org/1,more", "line 1"),
        ("", "no link"),
        ("word,link\n", "no link"),
        (b"moon,https://example.org/\xff", "UTF-8"),
        ("x" * (LARGEST_FILE + 1), "too large"),
        ('moon,"https://example.org' + "a" * 200_000, "links.csv"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(text: str | bytes, said: str, tmp_path: Path) -> None:
    with pytest.raises(TeacherError) as caught:
        read_links(listed(tmp_path, text))
    assert said in caught.value.message
    assert caught.value.hint
    assert str(tmp_path) not in caught.value.message + caught.value.hint


def test_only_a_csv_file_that_is_there(tmp_path: Path) -> None:
    for file in (listed(tmp_path, "moon,https://example.org/1", "links.xlsx"), str(tmp_path / "none.csv")):
        with pytest.raises(TeacherError):
            read_links(file)
    (tmp_path / "folder.csv").mkdir()
    with pytest.raises(TeacherError):
        read_links(str(tmp_path / "folder.csv"))
