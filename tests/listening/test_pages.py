import re
from html.parser import HTMLParser

import html5lib
import pytest

from cardgen.listening.pages import ClipPage, Lesson, clip_page, index_page, lesson_of, lesson_page
from cardgen.listening.pictures import svg
from cardgen.listening.style import INK, PAPER, TEXT, style_sheet
from cardgen.request import Ink
from cardgen.sources import pictures

MOON = pictures.drawing("moon", Ink.COLOUR)
PICTURE = svg(MOON.shapes, MOON.box, "A moon")
LESSON = Lesson("lesson-m-s.html", "Sounds m, s")
WORD = ClipPage(name="m-moon", audio="m-moon.m4a", say="moon", key="m", letters="M m", word="moon", picture=PICTURE)
SOUND = ClipPage(name="m", audio="m.m4a", say="mmm", key="m", letters="M m", picture=PICTURE, hint="How to say it: mmm")
FAMILY = ClipPage(name="family-es", audio="family-es.mp3", say="how to play", language="es")
NASTY = ClipPage(
    name="m-x",
    audio='m".m4a',
    say="<script>alert(1)</script>",
    key="x",
    letters='"><b>',
    word="a & b",
    hint="</main>",
    credit="R&D <x>",
)
PAGES = {
    **{page.name: clip_page(page, LESSON, "en-US") for page in (WORD, SOUND, FAMILY, NASTY)},
    "lesson": lesson_page(LESSON, (SOUND, WORD, FAMILY, NASTY), "en-GB"),
    "index": index_page((LESSON, Lesson("lesson-t.html", "Sounds t")), "en-US"),
}


class Tags(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.found if name == tag]


@pytest.mark.parametrize("name", PAGES)
def test_pages_parse_strictly(name: str) -> None:
    html5lib.HTMLParser(strict=True).parse(PAGES[name])


@pytest.mark.parametrize("name", PAGES)
def test_everything_a_page_names_lies_beside_it(name: str) -> None:
    """No address of another place, no folder, nothing that begins with a protocol."""
    tags = Tags(PAGES[name])
    named = [value for _, attributes in tags.found for key, value in attributes.items() if key in ("src", "href")]
    assert named
    for value in named:
        assert value is not None
        assert value == "data:," or re.fullmatch(r"[a-z0-9-]+\.(html|css|m4a|mp3)", value) or name in ("m-x", "lesson")
    assert not re.search(r"https?:|//|cookie|localStorage|fetch\(|XMLHttp|import", PAGES[name].replace("</", ""))


@pytest.mark.parametrize("name", PAGES)
def test_a_screen_reader_finds_its_way(name: str) -> None:
    tags = Tags(PAGES[name])
    assert [attributes["lang"] for attributes in tags.all("html")] in (["en-US"], ["en-GB"])
    assert len(tags.all("h1")) == len(tags.all("main")) == len(tags.all("title")) == 1
    for attributes in tags.all("svg"):
        assert attributes.get("aria-label") or attributes.get("aria-hidden") == "true"
    for attributes in tags.all("button") + tags.all("audio") + tags.all("nav"):
        assert attributes["aria-label"]
    assert not [attributes for _, attributes in tags.found if "tabindex" in attributes or "autoplay" in attributes]


def test_without_script_the_player_is_there_and_the_button_is_not() -> None:
    tags = Tags(PAGES["m-moon"])
    (audio,), (button,) = tags.all("audio"), tags.all("button")
    assert "controls" in audio
    assert audio["src"] == "m-moon.m4a"
    assert "hidden" in button
    assert button["aria-label"] == "Play: moon"
    assert [attributes.get("src") for attributes in tags.all("script")] == [None]


def test_a_home_language_is_spoken_in_it() -> None:
    (audio,) = Tags(PAGES["family-es"]).all("audio")
    assert audio["lang"] == "es"
    assert "How to play" in PAGES["family-es"]


def test_nothing_written_into_a_page_becomes_markup() -> None:
    page = PAGES["m-x"]
    assert "<script>alert" not in page
    assert page.count("<script>") == 1
    assert len(Tags(page).all("b")) == 0
    assert "R&amp;D &lt;x&gt;" in page


def test_lessons_are_named_after_their_sounds() -> None:
    assert lesson_of(("m", "long-i"), ("m", "i")) == Lesson("lesson-m-long-i.html", "Sounds m, i")
    assert lesson_of(("i", "m", "long-i"), ("i", "m", "i")).title == "Sounds i, m, long-i"
    many = [f"long-{n}" for n in range(46)]
    long = lesson_of(many, many)
    assert len(long.file) < 200
    assert long.file.endswith("-and-34-more.html")
    assert long.title.endswith("and 34 more")


def test_the_lesson_links_every_page_under_its_sound() -> None:
    tags = Tags(PAGES["lesson"])
    assert [link["href"] for link in tags.all("a")] == [
        "m.html",
        "m-moon.html",
        "family-es.html",
        "m-x.html",
        "index.html",
    ]
    assert len(tags.all("ul")) == 3
    assert [link["href"] for link in Tags(PAGES["index"]).all("a")] == ["lesson-m-s.html", "lesson-t.html"]


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, contrast ratio."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_seven_to_one() -> None:
    assert contrast("#595959", "#FFFFFF") == pytest.approx(7.005, abs=0.001)  # published values, WCAG 2.2 formula
    assert contrast("#5A5A5A", "#FFFFFF") == pytest.approx(6.897, abs=0.001)
    assert min(contrast(INK, PAPER), contrast(TEXT, PAPER)) >= 7
    used = set(re.findall(r"#[0-9A-Fa-f]{3,8}\b", style_sheet("")))
    assert used == {INK, TEXT, PAPER}


def test_the_style_sheet_loads_nothing_and_shows_where_the_keyboard_is() -> None:
    sheet = style_sheet("QUJD")
    assert re.findall(r"url\(([^)]*)\)", sheet) == ['"data:font/ttf;base64,QUJD"']
    assert "@import" not in sheet
    assert re.search(r":focus-visible \{ outline: 4px solid", sheet)
    assert "outline: none" not in sheet
    assert "outline: 0" not in sheet


def test_a_picture_is_the_same_paths_as_on_paper() -> None:
    found = re.findall(r'<path d="([^"]*)" fill="([^"]*)"', PICTURE)
    assert [fill for _, fill in found] == [shape.fill or "none" for shape in MOON.shapes]
    for (data, _), shape in zip(found, MOON.shapes, strict=True):
        numbers = [float(number) for number in re.findall(r"-?[\d.]+", data)]
        meant = [number for _, *numbers_ in shape.path for number in numbers_]
        assert numbers == pytest.approx(meant, abs=0.006)
        assert re.findall("[A-Z]", data) == [command for command, *_ in shape.path]
    assert 'aria-hidden="true"' in svg(MOON.shapes, MOON.box, "")
