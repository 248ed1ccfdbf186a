"""The file beneath the pages, read back by a library that did not write it."""

from io import BytesIO

import pikepdf
import pypdf
from hypothesis import given
from hypothesis import strategies as st

from cardgen.paper.pdf import write
from cardgen.paper.pdf_file import PdfFile, text_string
from cardgen.sheets.marks import Document, Page
from tests.paper.reading import opened
from tests.paper.samples import A4, code, drawing, fonts, label, sample, written


def finished(*contents: str, late: bool = False) -> pikepdf.Pdf:
    """A file of some objects in a list, told in order or from the last to the first."""
    target = BytesIO()
    file = PdfFile(target)
    numbers = [file.reserve() for _ in contents]
    told = list(zip(numbers, contents, strict=True))
    for number, content in reversed(told) if late else told:
        file.tell(number, content)
    things = " ".join(f"{number} 0 R" for number in numbers)
    pages = file.add("<</Type/Pages/Count 0/Kids[]>>")
    file.finish(file.add(f"<</Type/Catalog/Pages {pages} 0 R/Things[{things}]>>"), file.add("<</Title(x)>>"))
    return opened(target.getvalue())


@given(st.integers(0, 450), st.booleans())
def test_every_object_comes_back_in_whatever_order_it_was_told(count: int, late: bool) -> None:
    with finished(*(f"<</N {n}>>" for n in range(count)), late=late) as pdf:
        assert [int(thing.N) for thing in pdf.Root.Things] == list(range(count))
        assert pdf.get_warnings() == []


def test_the_table_says_which_place_an_object_has_in_its_stream() -> None:
    # ISO 32000-1, table 18: the third field of an entry of type 2.
    reader = pypdf.PdfReader(BytesIO(written(sample())))
    assert len(reader.xref_objStm) > 40
    for number, (stream, place) in reader.xref_objStm.items():
        packed = reader.get_object(stream)
        assert isinstance(packed, pypdf.generic.StreamObject)
        assert packed.get_data().split()[2 * place] == str(number).encode()


@given(st.text())
def test_texts_come_back(text: str) -> None:
    with finished(f"<</T{text_string(text)}>>") as pdf:
        assert str(pdf.Root.Things[0].T) == text


def test_streams_come_back() -> None:
    target = BytesIO()
    file = PdfFile(target)
    data = bytes(range(256)) * 50
    plain, packed = file.stream("/N 1", data), file.deflated("/N 2", data)
    pages = file.add("<</Type/Pages/Count 0/Kids[]>>")
    file.finish(
        file.add(f"<</Type/Catalog/Pages {pages} 0 R/Things[{plain} 0 R {packed} 0 R]>>"), file.add("<</Title(x)>>")
    )
    assert len(target.getvalue()) < 1.2 * len(data)
    with opened(target.getvalue()) as pdf:
        assert [(int(thing.N), thing.read_bytes()) for thing in pdf.Root.Things] == [(1, data), (2, data)]


def test_many_pages_hang_on_a_tree_of_two_levels() -> None:
    pages = tuple(Page(n, A4, (label(10, 10, str(n)),)) for n in range(1, 151))
    with opened(written(Document("x", "en-US", pages))) as pdf:
        assert [int(node.Count) for node in pdf.Root.Pages.Kids] == [64, 64, 22]
        shown = [page.Contents.read_bytes() for page in pdf.pages]
    assert all(f"({n}) Tj".encode() in content for n, content in enumerate(shown, 1))


def test_a_page_is_in_the_file_before_the_next_begins() -> None:
    target, sizes = BytesIO(), list[int]()
    pages = tuple(Page(n, A4, (label(10, 10, str(n)),)) for n in range(1, 6))
    write(Document("x", "en-US", pages), drawing, code, fonts(), target, lambda: sizes.append(target.tell()))
    assert len(sizes) == 5
    assert sizes == sorted(set(sizes))
