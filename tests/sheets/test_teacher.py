import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.pieces import Block, Face, Imprint, Paper, SayLine
from cardgen.sheets.marks import Group, Label, Line, Page, Role, marks_of
from cardgen.sheets.teacher import KindLine, TeacherPage, teacher_pages
from cardgen.units import Glyph, Typeface, Widths

WIDTHS = Widths({face: {chr(code): Glyph(0.5, 0.05, 0.45) for code in range(32, 9000)} for face in Typeface})


def says(count: int) -> tuple[SayLine, ...]:
    return tuple(SayLine(f"k{i}", "m", "mmm", True, f"mouth{i}", "not em") for i in range(count))


def made(blocks: tuple[Block, ...], sounds: int = 2, paper: Paper = Paper.A4) -> tuple[Page, ...]:
    content = TeacherPage("Bingo", "24 boards", says(sounds), blocks, (KindLine(Face.WORD, "1 to 3: words"),))
    imprint = Imprint("bingo", ("m", "s"), 7)
    return teacher_pages(content, paper.size, imprint=imprint, widths=WIDTHS, first_page=1)


def words(pages: tuple[Page, ...]) -> list[str]:
    return " ".join(m.text for p in pages for m in marks_of(p.items) if isinstance(m, Label)).split()


@given(
    st.lists(st.lists(st.integers(3, 300), min_size=1, max_size=4), min_size=1, max_size=9),
    st.integers(1, 14),
    st.sampled_from(list(Paper)),
)
@settings(max_examples=60, deadline=None)
def test_every_word_is_printed_above_the_scale_bar(lengths: list[list[int]], sounds: int, paper: Paper) -> None:
    blocks = tuple(
        Block(f"head{i}", tuple("x" * (n % 9 + 1) + f" w{i}" * (n // 9) for n in counts))
        for i, counts in enumerate(lengths)
    )
    pages = made(blocks, sounds, paper)
    shown = words(pages)
    for i, block in enumerate(blocks):
        assert f"head{i}" in shown
        assert shown.count(f"w{i}") == sum(paragraph.split().count(f"w{i}") for paragraph in block.paragraphs)
    for page in pages:
        low = [m.y for m in marks_of(page.items) if isinstance(m, Label) and not m.decoration]
        assert max(low) <= paper.size.h - 15
        assert min(m.y for m in marks_of(page.items) if isinstance(m, Label)) >= 15


def test_the_bar_is_100_mm_long() -> None:
    (page,) = made((Block("How to play", ("Say it twice.",)),))
    bars = [m for m in marks_of(page.items) if isinstance(m, Line) and m.y1 == m.y2 and m.x2 - m.x1 == 100]
    assert len(bars) == 1


def test_up_to_six_sounds_have_their_mouth_more_stand_side_by_side() -> None:
    blocks = (Block("How to play", ("Say it twice.",)),)
    assert "mouth5; not" not in words(made(blocks, 6))
    assert "mouth5;" in words(made(blocks, 6))
    assert "mouth5;" not in words(made(blocks, 7))


@pytest.mark.parametrize("sounds", [2, 12])
def test_the_title_comes_first_and_blocks_are_headings(sounds: int) -> None:
    (page,) = made((Block("How to play", ("Say it twice.",)), Block("On the boards", ())), sounds)
    roles = [item.role for item in page.items if isinstance(item, Group)]
    assert roles[0] is Role.TITLE
    assert roles.count(Role.HEADING) == 2
    assert "words" in words((page,))
