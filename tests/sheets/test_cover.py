"""The cover: everything on it, nothing in the way of anything else, whatever the sounds, the link and the text."""

from itertools import combinations

import pytest

from cardgen.games.pieces import Cover, Ink, Link, SayLine
from cardgen.paper.extent import extent
from cardgen.recipes.library import open_library
from cardgen.sheets import cover
from cardgen.sheets.codes import quiet_box
from cardgen.sheets.marks import Code, Group, Item, Label, marks_of
from cardgen.sheets.style import Style
from cardgen.sources import codes
from cardgen.units import Box, Typeface, Widths

CARD = Box(20.0, 30.0, 63.0, 88.0)
SAYS = tuple(
    SayLine(key, key, key * 3, True, "", f"not {key}ee, not {key}uh")
    for key in ("m", "s", "sh", "qu", "b", "d", "air", "ow")
)
TEXT = "Please play with these cards for five minutes each evening. Thank you!"


@pytest.fixture(scope="module")
def real_widths() -> Widths:
    return open_library().widths


def link_of(letters: int) -> Link:
    address = "https://example.org/" + "/abcdefghi" * (letters // 10)
    return Link(address[:letters], codes.modules(address[:letters]), address[8:letters])


LINKS = {"none": None, "short": link_of(30), "long": link_of(100), "longest": link_of(200)}


def drawn(told: Cover, widths: Widths) -> list[Item]:
    return cover.draw(told, CARD, 1.0, Style.of(Ink.LINE), widths)


def meet(a: Box, b: Box, air: float = 0.0) -> bool:
    return a.x < b.right - air and b.x < a.right - air and a.y < b.bottom - air and b.y < a.bottom - air


@pytest.mark.parametrize("link", LINKS)
@pytest.mark.parametrize("sounds", [1, 2, 3, 4, 5, 8])
@pytest.mark.parametrize("text", ["", TEXT])
def test_nothing_is_in_the_way(link: str, sounds: int, text: str, real_widths: Widths) -> None:
    told = Cover(LINKS[link], "code to hear", SAYS[:sounds], text)
    if text and not cover.fits(told, real_widths):
        return  # it gets a page of its own
    things = [
        (item, extent(marks_of(item.items) if isinstance(item, Group) else [item], real_widths))
        for item in drawn(told, real_widths)
    ]
    for item, box in things:
        assert CARD.x + 4.5 <= box.x, item
        assert box.right <= CARD.right - 4.5, item
        assert CARD.y + 5 <= box.y, item
        assert box.bottom <= CARD.bottom - 4.5, item
    for (one, a), (other, b) in combinations(things, 2):
        # The boxes of two lines of print may touch, their letters do not.
        air = 1.3 if isinstance(one, Label) and isinstance(other, Label) else 0.05
        assert not meet(a, b, air), (one, other)


@pytest.mark.parametrize("letters", [25, 60, 100, 150, 200])
def test_nothing_enters_the_quiet_zone(letters: int, real_widths: Widths) -> None:
    told = Cover(link_of(letters), "code to hear", SAYS[:2])
    items = drawn(told, real_widths)
    (code,) = [mark for mark in marks_of(tuple(items)) if isinstance(mark, Code)]
    quiet = quiet_box(code.box, codes.modules(code.text))
    assert CARD.x <= quiet.x
    assert CARD.y <= quiet.y
    for mark in marks_of(tuple(items)):
        assert mark is code or not meet(quiet, extent([mark], real_widths)), mark
    assert code.box.w / codes.modules(code.text) == pytest.approx(cover.module(told, real_widths))


def test_the_childs_part_has_no_words(real_widths: Widths) -> None:
    told = Cover(None, "", SAYS[:2])
    labels = [mark for mark in marks_of(tuple(drawn(told, real_widths))) if isinstance(mark, Label)]
    assert [label.text for label in labels] == ["m", "mmm, not mee, not muh", "s", "sss, not see, not suh"]
    assert min(label.size_pt for label in labels) >= 9
    assert min(label.y for label in labels) > CARD.y + 70
    figures = [item.alt for item in drawn(told, real_widths) if isinstance(item, Group)]
    assert figures == ["look", "say", "lay"]


def test_a_text_that_is_too_long_does_not_fit(real_widths: Widths) -> None:
    assert cover.fits(Cover(None, "", SAYS[:2], TEXT), real_widths)
    assert not cover.fits(Cover(None, "", SAYS[:2], TEXT * 6), real_widths)


def test_her_text_is_set_in_her_typeface(real_widths: Widths) -> None:
    widths = Widths(dict(real_widths.glyphs) | {Typeface.OWN: real_widths.glyphs[Typeface.BOLD]})
    labels = drawn(Cover(None, "", SAYS[:1], "hello", own_face=True), widths)
    assert [mark.text for mark in labels if isinstance(mark, Label) and mark.face is Typeface.OWN] == ["hello"]
