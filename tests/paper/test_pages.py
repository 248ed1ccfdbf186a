"""What belongs to what: tags, artifacts and the order of reading."""

from typing import Any

import pikepdf
import pytest

from cardgen.sheets.marks import Code, Group, Item, Line, Outline, Panel, Picture, Role
from cardgen.units import Box, Typeface
from tests.paper.reading import Tag, drawn, opened, tree
from tests.paper.samples import INK, label, one_page, sample, written

MOON = Picture("moon", Box(20, 20, 30, 30), "a moon")


def shape(*items: Item) -> str:
    return tree(opened(written(one_page(*items)))).shape


def test_the_tree_of_a_whole_document() -> None:
    found = tree(opened(written(sample())))
    row = "TR(TD TD(Figure) TD)"
    first = f"Sect(H1 P H2 Table(TR(TH TH TH) {row} {row} {row}) Figure P Figure)"
    assert found.shape == f"Document({first} Sect(Figure P Figure P Figure))"


def test_a_label_in_no_group_is_a_paragraph() -> None:
    assert shape(label(10, 10, "moon")) == "Document(Sect(P))"
    assert shape(label(10, 10, "moon"), label(10, 20, "sun")) == "Document(Sect(P P))"


def test_labels_of_one_group_are_one_element() -> None:
    assert shape(Group(Role.TEXT, (label(10, 10, "moon"), label(10, 20, "sun")))) == "Document(Sect(P))"
    assert shape(Group(Role.SECTION, (label(10, 10, "moon"),))) == "Document(Sect(Sect(P)))"


def test_a_picture_and_a_code_are_figures() -> None:
    pdf = opened(written(one_page(MOON, Code("https://example.org", Box(60, 20, 25, 25), "code of moon"))))
    figures = [tag for tag in tree(pdf).all() if tag.role == "Figure"]
    assert [figure.alt for figure in figures] == ["a moon", "code of moon"]
    # x 20 to 50 mm from the left, y 20 to 50 mm from the top of 297 mm
    assert figures[0].bbox == pytest.approx([56.693, 700.157, 141.732, 785.197], abs=0.001)


def test_a_figure_holds_all_that_is_in_it() -> None:
    items = (Panel(Box(20, 20, 40, 30), 2, None, INK, 1), label(30, 30, "m"), Group(Role.TEXT, (MOON,)))
    data = written(one_page(Group(Role.FIGURE, items, alt="m and moon")))
    pdf = opened(data)
    assert tree(pdf).shape == "Document(Sect(Figure))"
    assert {thing.owner for thing in drawn(data)} == {"Figure 0"}
    (figure,) = (tag for tag in tree(pdf).all() if tag.role == "Figure")
    assert figure.bbox == pytest.approx([20 * 72 / 25.4, 247 * 72 / 25.4, 60 * 72 / 25.4, 277 * 72 / 25.4], abs=0.001)


def test_lines_outside_figures_running_feet_and_cut_marks_are_artifacts() -> None:
    things = drawn(written(sample()), 1)
    assert [thing.owner for thing in things[-3:]] == ["Artifact Page"] * 3  # the cut marks, last
    assert things[-4].owner == "Artifact Pagination"
    outline = Outline((("M", 0.0, 0.0), ("L", 9.0, 9.0)), None, INK, 1)
    line, panel = Line(0, 0, 9, 9, 1, INK), Panel(Box(0, 0, 9, 9), 0, INK)
    data = written(one_page(line, Group(Role.TEXT, (panel, label(9, 9, "m"), outline))))
    assert [thing.owner for thing in drawn(data)] == ["Artifact Layout", "Artifact Layout", "P 0", "Artifact Layout"]


def test_a_running_foot_inside_a_figure_stays_an_artifact() -> None:
    foot = label(10, 30, "page 1", decoration=True)
    data = written(one_page(Group(Role.FIGURE, (MOON, foot, label(10, 40, "m")), alt="moon")))
    assert [thing.owner for thing in drawn(data)] == ["Figure 0", "Artifact Pagination", "Figure 1"]


def test_everything_drawn_has_an_owner_and_every_number_leads_back_to_its_element() -> None:
    data = written(sample())
    pdf = opened(data)
    parents: list[Any] = list(pdf.Root.StructTreeRoot.ParentTree.Nums)
    for index, page in enumerate(pdf.pages):
        assert page.obj.StructParents == index == parents[2 * index]
        owners = list(parents[2 * index + 1])
        seen = list(dict.fromkeys(thing.owner for thing in drawn(data, index)))
        marked = [owner for owner in seen if not owner.startswith("Artifact")]
        assert "" not in seen
        assert [owner.split()[1] for owner in marked] == [str(number) for number in range(len(owners))]
        for owner, element in zip(marked, owners, strict=True):
            assert str(element.S) == "/" + owner.split()[0]
            assert int(owner.split()[1]) in [int(kid) for kid in element.K if not isinstance(kid, pikepdf.Dictionary)]
            assert element.Pg.objgen == page.obj.objgen


def test_each_element_knows_its_parent() -> None:
    def check(element: pikepdf.Object) -> None:
        for kid in element.K:
            if isinstance(kid, pikepdf.Dictionary):
                assert kid.P.objgen == element.objgen
                check(kid)

    pdf = opened(written(sample()))
    root = pdf.Root.StructTreeRoot
    assert root.K.P.objgen == root.objgen
    check(root.K)


def heads(*rows: tuple[Role, ...]) -> list[str]:
    lines = tuple(
        Group(Role.ROW, tuple(Group(role, (label(10 + 30 * x, 10 + 10 * y, "m"),)) for x, role in enumerate(row)))
        for y, row in enumerate(rows)
    )
    found: list[Tag] = list(tree(opened(written(one_page(Group(Role.TABLE, lines))))).all())
    return [tag.scope for tag in found if tag.role == "TH"]


def test_heads_say_whether_they_head_columns_or_a_row() -> None:
    assert heads((Role.HEAD, Role.HEAD), (Role.CELL, Role.CELL)) == ["Column", "Column"]
    assert heads((Role.HEAD, Role.CELL), (Role.HEAD, Role.CELL)) == ["Row", "Row"]


def test_a_heading_without_a_title_before_it_is_the_title() -> None:
    heading, title = Group(Role.HEADING, (label(10, 10, "Calls"),)), Group(Role.TITLE, (label(10, 20, "Bingo"),))
    assert shape(heading) == "Document(Sect(H1))"
    assert shape(title, heading) == "Document(Sect(H1 H2))"
    assert shape(heading, heading) == "Document(Sect(H1 H2))"


@pytest.mark.parametrize(
    "items",
    [
        (Group(Role.TABLE, (label(10, 10, "m"),)),),
        (Group(Role.TABLE, (Group(Role.CELL, (label(10, 10, "m"),)),)),),
        (Group(Role.TABLE, (Group(Role.ROW, (MOON,)),)),),
        (Group(Role.TABLE, (Group(Role.ROW, (Group(Role.TEXT, (label(10, 10, "m"),)),)),)),),
        (Group(Role.ROW, ()),),
        (Group(Role.CELL, (label(10, 10, "m"),)),),
    ],
)
def test_tables_hold_rows_and_rows_hold_cells(items: tuple[Item, ...]) -> None:
    with pytest.raises(ValueError, match="cannot stand directly in"):
        written(one_page(*items))


def test_a_figure_says_what_it_shows() -> None:
    with pytest.raises(ValueError, match="alt text"):
        written(one_page(Picture("moon", Box(20, 20, 30, 30), "")))
    with pytest.raises(ValueError, match="alt text"):
        written(one_page(Group(Role.FIGURE, (label(10, 10, "m", face=Typeface.LEARNING),))))
