"""Documents to write in tests: every kind of mark and every role once, with a stand-in for the learning typeface."""

from functools import cache
from importlib.resources import files
from io import BytesIO

from cardgen.paper.fonts import Fonts
from cardgen.paper.operators import Matrix
from cardgen.paper.pdf import write
from cardgen.sheets.marks import (
    Align,
    Code,
    Document,
    Drawing,
    Group,
    Item,
    Label,
    Line,
    Outline,
    Page,
    Panel,
    Picture,
    Place,
    Role,
    Shape,
    Side,
)
from cardgen.units import Box, Size, Typeface

INK, GREY = "#2A2A35", "#7A808C"
A4, LETTER_WIDE = Size(210, 297), Size(279.4, 215.9)
LINKS = ("https://example.org/clips/m-moon.m4a", "https://example.org/clips/s-sun.m4a")


@cache
def fonts() -> Fonts:
    """Vera Oblique in place of the learning typeface: another name than the other two, the same letters."""
    return Fonts((files("reportlab") / "fonts" / "VeraIt.ttf").read_bytes())


def drawing(name: str) -> Drawing:
    """A filled and outlined square with a line through it; its shade tells names apart."""
    fill = f"#{sum(name.encode()) % 200 + 40:02X}DD88"
    square = (("M", 10.0, 10.0), ("L", 90.0, 10.0), ("L", 90.0, 90.0), ("L", 10.0, 90.0), ("Z",))
    curve = (("M", 10.0, 50.0), ("C", 30.0, 20.0, 70.0, 80.0, 90.0, 50.0))
    return Drawing(name, (Shape(square, fill, INK, 3.0), Shape(curve, None, INK, 3.0)))


def code(text: str) -> Matrix:
    """The modules of a code, made by a library that the program itself does not use."""
    import segno

    return tuple(tuple(bool(module) for module in row) for row in segno.make_qr(text, error="m").matrix)


def label(x: float, y: float, text: str, size_pt: float = 10, face: Typeface = Typeface.TEXT, **more: object) -> Label:
    return Label(x, y, text, size_pt, face, INK, **more)  # type: ignore[arg-type]


def foot(number: int, of: int, page: Size) -> Label:
    text = f"bingo · m, s · seed 7 · page {number} of {of}"
    return label(page.w - 15, page.h - 8, text, 9, align=Align.RIGHT, decoration=True)


def table(rows: int) -> Group:
    """A caller's list: a head row, then number, picture and word, letter."""
    lines: list[Item] = [
        Group(Role.ROW, tuple(Group(Role.HEAD, (label(x, 50, text, face=Typeface.BOLD),)) for x, text in HEADS))
    ]
    for row in range(1, rows + 1):
        y = 50.0 + 10 * row
        number = Group(Role.CELL, (label(22, y, str(row), align=Align.RIGHT), Line(15, y + 3, 100, y + 3, 0.5, GREY)))
        word = Group(Role.CELL, (Picture("moon", Box(30, y - 6, 8, 8), "a moon"), label(45, y, "moon … moon")))
        letter = Group(Role.CELL, (label(85, y, "m", 16, Typeface.LEARNING),))
        lines.append(Group(Role.ROW, (number, word, letter)))
    return Group(Role.TABLE, tuple(lines))


HEADS = ((15.0, "call"), (45.0, "say"), (85.0, "letter"))


def teacher_page() -> Page:
    """A page of text: title, two-line paragraph, table, figure of many marks, turned text."""
    wave = (("M", 25.0, 130.0), ("C", 30.0, 135.0, 35.0, 145.0, 45.0, 150.0))
    items: tuple[Item, ...] = (
        Group(Role.TITLE, (label(15, 19, "24 boards, 3 × 3 – the full board wins", 16, Typeface.BOLD),)),
        Group(
            Role.TEXT,
            (label(15, 27, "Say “mmm” (lips closed) \\ not em; a line may end with a hy-"), label(15, 32, "phen.")),
        ),
        Group(Role.HEADING, (label(15, 42, "Calls", 12, Typeface.BOLD),)),
        table(3),
        Group(
            Role.FIGURE,
            (
                Panel(Box(20, 120, 40, 40), 5, "#EEF1F5", INK, 1.25),
                Outline(wave, None, GREY, 2, (0, 2.4)),
                Group(Role.TEXT, (label(40, 145, "M m", 30, Typeface.LEARNING, align=Align.CENTRE),)),
            ),
            alt="the letter m, big and small",
        ),
        Line(80, 120, 120, 120, 2.5, GREY, (0, 4)),
        label(10, 250, "naïve café", 9, turn=90),
        Code(LINKS[0], Box(150, 120, 25, 25), "code that plays moon"),
        foot(1, 2, A4),
    )
    return Page(1, A4, items)


def card_page() -> Page:
    """A landscape page of two cards with cut marks."""
    places = tuple(Place(f"card {i}", "front", Box(30 + 63 * i, 40, 63, 88)) for i in range(2))
    pictures = tuple(
        Picture(name, Box(35 + 63 * i, 57.5, 53, 53), f"a {name}") for i, name in enumerate(("moon", "sun"))
    )
    words = tuple(
        label(61.5 + 63 * i, 120, word, 28, Typeface.LEARNING, align=Align.CENTRE)
        for i, word in enumerate(("moon", "sun"))
    )
    cuts = tuple(Line(30 + 63 * i, 32, 30 + 63 * i, 37, 0.25, INK) for i in range(3))
    items = (pictures[0], words[0], pictures[1], words[1], Code(LINKS[1], Box(180, 40, 20, 20), "code that plays sun"))
    return Page(2, LETTER_WIDE, (*items, foot(2, 2, LETTER_WIDE)), Side.FRONT, places, (), cuts)


def sample() -> Document:
    return Document("Bingo & more: m, s – “fünf”", "en-GB", (teacher_page(), card_page()))


def one_page(*items: Item) -> Document:
    return Document("A page", "en-US", (Page(1, A4, items),))


def written(document: Document) -> bytes:
    """The document as the bytes of a PDF."""
    file = BytesIO()
    write(document, drawing, code, fonts(), file)
    return file.getvalue()
