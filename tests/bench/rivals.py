"""The same pages written by others: Typst, WeasyPrint and fpdf2, each as its manual shows, tagged where it can.

What they are given is made beforehand and costs them nothing: pictures as SVG files, pages as source text or calls.
"""

import atexit
import shutil
import tempfile
from collections.abc import Callable, Iterator
from functools import cache
from html import escape
from importlib import import_module
from importlib.resources import files
from pathlib import Path
from typing import Any

from cardgen.games.pieces import Ink
from cardgen.paper.extent import start_of
from cardgen.recipes.library import LEARNING_FONT
from cardgen.sheets.marks import Document, Label, Line, Mark, Page, Picture, marks_of
from cardgen.sources import pictures, shelf
from cardgen.units import POINTS_PER_MM, Typeface
from tests.bench.jobs import fonts

Work = Callable[[Path], None]


def font_file(face: Typeface) -> Path:
    """Return the file of a typeface."""
    if face is Typeface.LEARNING:
        return Path(str(shelf.folder("art"))).parent / LEARNING_FONT
    name = "VeraBd.ttf" if face is Typeface.BOLD else "Vera.ttf"
    return Path(str(files("reportlab"))) / "fonts" / name


@cache
def picture_file(name: str) -> Path:
    """Return a picture as an SVG file with plain paint, which all of them read."""
    shapes = []
    for shape in pictures.drawing(name, Ink.COLOUR).shapes:
        outline = " ".join(" ".join(map(str, segment)) for segment in shape.path)
        rule = "evenodd" if shape.even_odd else "nonzero"
        shapes.append(
            f'<path d="{outline}" fill="{shape.fill or "none"}" fill-rule="{rule}" stroke="{shape.stroke or "none"}" '
            f'stroke-width="{shape.width}" stroke-linecap="round" stroke-linejoin="round"/>'
        )
    file = _pictures() / f"{name}.svg"
    file.write_text(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">{"".join(shapes)}</svg>', "utf-8")
    return file


@cache
def _pictures() -> Path:
    folder = tempfile.mkdtemp()
    atexit.register(shutil.rmtree, folder)
    return Path(folder)


def marks(page: Page) -> Iterator[tuple[Mark, bool]]:
    """Yield every mark of a page, and whether it is decoration."""
    for mark in marks_of(page.items):
        yield mark, isinstance(mark, Line) or (isinstance(mark, Label) and mark.decoration)
    for cut in page.cuts:
        yield cut, True


def left(label: Label) -> float:
    """Return where a label begins, in mm."""
    return label.x - (start_of(label, fonts().widths) if not label.turn else 0.0)


_TYPST = """#set document(title: "Packs of cards")
#set page(width: 210mm, height: 297mm, margin: 0pt)
#set text(lang: "en", top-edge: "baseline", bottom-edge: "baseline")
#let pic(name, x, y, side, words) = place(dx: x * 1mm, dy: y * 1mm, image(name, width: side * 1mm, alt: words))
#let word(x, y, size, font, ink, words) = place(dx: x * 1mm, dy: y * 1mm,
  text(font: font, size: size * 1pt, fill: rgb(ink), words))
#let rule(x1, y1, x2, y2, weight, ink) = pdf.artifact(place(line(start: (x1 * 1mm, y1 * 1mm),
  end: (x2 * 1mm, y2 * 1mm), stroke: (paint: rgb(ink), thickness: weight * 1pt, cap: "round"))))
"""
_FAMILIES = {Typeface.LEARNING: "Cardgen Infant", Typeface.TEXT: "Bitstream Vera Sans"}


def typst(document: Document) -> Work:
    """Return the work of the Typst compiler, through its Python binding: a source text into a PDF/UA-1 file."""
    binding: Any = import_module("typst")
    source = (_TYPST + "#pagebreak()\n".join(map(_typst_page, document.pages))).encode("utf-8")
    folders = sorted({str(font_file(face).parent) for face in _FAMILIES})

    def work(target: Path) -> None:
        binding.compile(
            source,
            output=str(target),
            root="/",
            font_paths=folders,
            ignore_system_fonts=True,
            pdf_standards=["ua-1"],
            timestamp=0,
        )

    return work


def _typst_page(page: Page) -> str:
    lines = []
    for mark, decoration in marks(page):
        match mark:
            case Picture(box=box):
                lines.append(f'#pic("{picture_file(mark.name)}", {box.x:.3f}, {box.y:.3f}, {box.w:.3f}, "{mark.alt}")')
            case Label():
                place = f"{left(mark):.3f}, {mark.y:.3f}, {mark.size_pt:.3f}"
                text = f'word({place}, "{_FAMILIES[mark.face]}", "{mark.colour}", "{mark.text}")'
                lines.append(f"#pdf.artifact({text})" if decoration else f"#{text}")
            case Line():
                ends = f"{mark.x1:.3f}, {mark.y1:.3f}, {mark.x2:.3f}, {mark.y2:.3f}"
                lines.append(f'#rule({ends}, {mark.weight_pt}, "{mark.colour}")')
    return "\n".join(lines) + "\n"


_STYLE = """@page { size: 210mm 297mm; margin: 0 }
body { margin: 0 }
section { position: relative; width: 210mm; height: 297mm; break-after: page }
section > * { position: absolute; white-space: pre }
"""


def weasyprint(document: Document) -> Work:
    """Return the work of WeasyPrint: HTML and CSS into a PDF/UA-1 file."""
    library: Any = import_module("weasyprint")
    faces = "".join(
        f"@font-face {{ font-family: {face.value}; src: url({font_file(face).as_uri()}) }}\n" for face in _FAMILIES
    )
    body = "".join(f"<section>{''.join(_html(mark) for mark, _ in marks(page))}</section>" for page in document.pages)
    page = (
        f"<!doctype html><html lang=en><title>Packs of cards</title><style>{faces}{_STYLE}</style>"
        f"<body>{body}</body></html>"
    )

    def work(target: Path) -> None:
        library.HTML(string=page).write_pdf(target, pdf_variant="pdf/ua-1")

    return work


def _html(mark: Mark) -> str:
    match mark:
        case Picture(box=box):
            place = f"left:{box.x:.3f}mm;top:{box.y:.3f}mm;width:{box.w:.3f}mm"
            return f'<img src="{picture_file(mark.name).as_uri()}" alt="{mark.alt}" style="{place}">'
        case Label():
            # With lines of no height the middle of the letters lies at the top, a third of their size above the base.
            top = mark.y - mark.size_pt / POINTS_PER_MM / 3
            place = f"left:{left(mark):.3f}mm;top:{top:.3f}mm;color:{mark.colour}"
            return f'<p style="{place};margin:0;font:{mark.size_pt}pt/0 {mark.face.value}">{escape(mark.text)}</p>'
        case Line():
            wide, high = abs(mark.x2 - mark.x1), abs(mark.y2 - mark.y1)
            place = f"left:{min(mark.x1, mark.x2):.3f}mm;top:{min(mark.y1, mark.y2):.3f}mm"
            size = f"width:max({wide:.3f}mm,{mark.weight_pt}pt);height:max({high:.3f}mm,{mark.weight_pt}pt)"
            return f'<div style="{place};{size};background:{mark.colour}"></div>'
    raise TypeError(f"no page has a {mark}")


def fpdf2(document: Document) -> Work:
    """Return the work of fpdf2: calls, with pictures as SVG files. It tags pictures, and no text."""
    library: Any = import_module("fpdf")

    def work(target: Path) -> None:
        pdf = library.FPDF(unit="mm", format="A4")
        pdf.set_auto_page_break(False)
        for face in _FAMILIES:
            pdf.add_font(face.value, fname=font_file(face))
        for page in document.pages:
            pdf.add_page()
            for mark, _ in marks(page):
                match mark:
                    case Picture(box=box):
                        pdf.image(picture_file(mark.name), box.x, box.y, box.w, box.h, alt_text=mark.alt)
                    case Label():
                        pdf.set_font(mark.face.value, size=mark.size_pt)
                        pdf.set_text_color(mark.colour)
                        pdf.text(left(mark), mark.y, mark.text)
                    case Line():
                        pdf.set_draw_color(mark.colour)
                        pdf.set_line_width(mark.weight_pt / POINTS_PER_MM)
                        pdf.line(mark.x1, mark.y1, mark.x2, mark.y2)
        pdf.output(str(target))

    return work
