from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.recipes.again import command
from cardgen.recipes.links import check_clips, fine_codes, open_links
from cardgen.request import Codes, PackRequest

BASE = "https://clips.example.org/year1"


def request_of(**options: object) -> PackRequest:
    return PackRequest(keys=("m", "s"), seed=1, **options)  # type: ignore[arg-type]


def test_without_a_link_there_are_no_codes() -> None:
    assert open_links(request_of(), Codes.PACK) is None
    assert open_links(request_of(link=BASE, codes=Codes.NONE), Codes.PACK) is None
    assert check_clips(None, request_of()) == ()


def test_a_code_leads_to_the_page_of_its_recording() -> None:
    links = open_links(request_of(link=BASE + "/"), Codes.CARD)
    assert links
    found = [links.of_clip("m"), links.of_clip("m", "moon"), links.of_pack(), links.of_pack("family-es")]
    assert [link.address for link in found if link] == [
        f"{BASE}/m.html",
        f"{BASE}/m-moon.html",
        f"{BASE}/index.html",
        f"{BASE}/family-es.html",
    ]
    # ISO/IEC 18004 at M: version 3 (29 modules) holds 42 bytes, version 4 (33 modules) 62.
    assert [len(link.address) for link in found if link] == [38, 43, 42, 46]
    assert [link.modules for link in found if link] == [29, 33, 29, 33]
    assert found[2]
    assert found[2].shown == "clips.example.org/year1"


def test_her_table_goes_before_the_link(tmp_path: Path) -> None:
    table = tmp_path / "links.csv"
    table.write_text("Moon,https://example.org/1\nm,https://example.org/2\n", "utf-8")
    links = open_links(request_of(links=str(table)), Codes.CARD)
    assert links
    found = links.of_clip("m", "moon"), links.of_clip("m"), links.of_clip("s"), links.of_pack()
    assert [link.address if link else None for link in found] == ["https://example.org/1", "https://example.org/2"] + [
        None
    ] * 2
    (line,) = check_clips(links, request_of(links=str(table)))
    assert line == "No link, so no code, for s, index."


def test_a_recording_that_is_missing_is_refused_unless_she_says_so(tmp_path: Path) -> None:
    (tmp_path / "m.m4a").write_bytes(b"x")
    (tmp_path / "m-moon.m4a").write_bytes(b"x")
    request = request_of(link=BASE, clips=str(tmp_path))
    links = open_links(request, Codes.CARD)
    assert links
    links.of_clip("m")
    links.of_clip("m", "moon")
    links.of_pack()
    assert check_clips(links, request) == ()
    links.of_clip("s")
    links.of_clip("s", "sun")
    with pytest.raises(TeacherError) as caught:
        check_clips(links, request)
    assert "s, s-sun" in caught.value.message
    assert "--codes-anyway" in caught.value.hint
    anyway = request_of(link=BASE, clips=str(tmp_path), codes_anyway=True)
    (line,) = check_clips(links, anyway)
    assert "s, s-sun" in line


def test_the_finest_code_is_warned_of() -> None:
    links = open_links(request_of(link=BASE), Codes.CARD)
    link = links.of_clip("m") if links else None
    assert link
    assert fine_codes([]) == fine_codes([(link, 0.5), (link, 0.8)]) == ()
    (line,) = fine_codes([(link, 0.8), (link, 0.45)])
    assert "0.45 mm" in line


@pytest.mark.parametrize(
    "options",
    [{"codes": Codes.CARD}, {"clips": "folder"}, {"link": BASE, "codes_anyway": True}, {"family": "es"}],
)
def test_options_that_need_each_other(options: dict[str, object]) -> None:
    with pytest.raises(TeacherError) as caught:
        request_of(**options)
    assert caught.value.hint


def test_the_link_is_printed_as_given_and_no_path_is() -> None:
    request = request_of(
        link=BASE, links="/home/ann/links.csv", clips="/home/ann/clips", text="Dear Ann", font="/a.ttf"
    )
    shown = command(request, "pack")
    assert f"--link {BASE} " in shown
    assert "ann" not in shown.lower()
    assert "--links FILE.csv" in shown
    assert "--clips FOLDER" in shown
    assert "--text TEXT" in shown
