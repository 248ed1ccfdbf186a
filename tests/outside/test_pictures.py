"""Every picture in the folder: our reader against independent renderers, and the measures of the house style.

The reader's drawing is compared, in all three inks, with the source expanded by a few lines of this file's own and
rendered by resvg; and once more as a PDF page rendered by PDFium, which is what the teacher's printer will see.
Margins, sizes and shares of ink are our own choice (no source); the rest of the style is looked at, not measured.
"""

import io
import tomllib
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
import resvg_py
from fontTools.pens.boundsPen import BoundsPen
from numpy.typing import NDArray
from PIL import Image
from reportlab.pdfgen.canvas import FILL_NON_ZERO, Canvas

from cardgen.request import Ink
from cardgen.sheets.marks import Drawing
from cardgen.sources import pictures, shelf

ART = Path(str(shelf.folder("art")))
NAMES = sorted(file.stem for file in (ART / "pictures").glob("*.svg"))
COLOURS: dict[str, str] = tomllib.loads((ART / "colours.toml").read_text(encoding="utf-8"))["colours"]

PIXELS = 100  # a side
PDF_PIXELS = 200  # PDFium moves the edges of upright rectangles to whole pixels: those of half units fall on them here
Pixels = NDArray[np.float64]


def luminance(image: Image.Image) -> Pixels:
    """0 (black) to 255 (white), a number for every pixel."""
    return np.asarray(image.convert("L"), dtype=np.float64)


def rendered(shapes: str, pixels: int = PIXELS) -> Pixels:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">'
        f'<g stroke-linecap="round" stroke-linejoin="round">{shapes}</g></svg>'
    )
    png = resvg_py.svg_to_bytes(svg_string=svg, width=pixels, height=pixels, background="#FFFFFF")
    return luminance(Image.open(io.BytesIO(bytes(png))))


# --- the independent expander: the roles once more, in the words of SVG


def shade(colour: str, ink: Ink) -> str:
    if ink is Ink.LINE:
        return COLOURS["ink"] if colour == "ink" else "#FFFFFF"
    if ink is Ink.COLOUR:
        return COLOURS[colour]
    channels = np.array([int(COLOURS[colour][place : place + 2], 16) / 255 for place in (1, 3, 5)])
    linear = np.where(channels > 0.04045, ((channels + 0.055) / 1.055) ** 2.4, channels / 12.92)
    level = float(linear @ [0.2126, 0.7152, 0.0722])
    level = 1.055 * level ** (1 / 2.4) - 0.055 if level > 0.0031308 else 12.92 * level
    return f"rgb({round(level * 255)},{round(level * 255)},{round(level * 255)})"


def expanded(element: ET.Element, ink: Ink, merge: int | None = None) -> str:
    """The element as plain SVG; `merge` is 0 for the silhouette of a merged group and 1 for the colour in it."""
    tag = element.tag.split("}")[1]
    if tag in ("svg", "g"):
        passes = (0, 1) if element.get("class") == "m" else (merge,)
        inside = "".join(expanded(child, ink, each) for each in passes for child in element)
        return f'<g transform="{element.get("transform", "")}">{inside}</g>'
    if tag == "title":
        return ""
    role, colour = (*element.attrib["class"].split(), "white")[:2]
    own, black, width = shade(colour, ink), shade("ink", ink), float(element.get("stroke-width", 0))
    line = ink is Ink.LINE
    roles: dict[str, list[tuple[str, str, float]]] = {
        "a": [(own, black, width or 3)],
        "p": [("none", black, width + 6), ("none", own, width)],
        "d": [("none", black, width or 2.4)],
        "k": [(black, "none", 0)],
        "w": [("#FFFFFF", "none", 0)],
        "b": [("#FFFFFF", black, 1.6)] if line else [(own, "none", 0)],
        "t": [] if line else [(own, "none", 0)],
        "c": [] if line else [("none", own, width)],
        "e": [("none", black, 1.6)] if line else [("none", own, width)],
    }
    brushes = roles[role]
    if merge is not None:
        brushes = [brushes[merge] if role == "p" else ((black, black, 6), (own, "none", 0))[merge]]
    kept = "".join(f' {key}="{value}"' for key, value in element.attrib.items() if key not in ("class", "stroke-width"))
    return "".join(
        f'<{tag}{kept} fill="{fill}" stroke="{stroke}" stroke-width="{wide}"/>' for fill, stroke, wide in brushes
    )


@cache
def expected(name: str, ink: Ink, pixels: int = PIXELS) -> Pixels:
    return rendered(expanded(ET.parse(ART / "pictures" / f"{name}.svg").getroot(), ink), pixels)  # noqa: S314  our own


# --- our drawing, rendered


def as_svg(drawing: Drawing) -> str:
    return "".join(
        f'<path d="{" ".join(" ".join(map(str, segment)) for segment in shape.path)}" fill="{shape.fill or "none"}" '
        f'stroke="{shape.stroke or "none"}" stroke-width="{shape.width}"/>'
        for shape in drawing.shapes
    )


def as_pdf(drawing: Drawing) -> bytes:
    written = io.BytesIO()
    canvas = Canvas(written, pagesize=(100, 100))
    canvas.transform(1, 0, 0, -1, 0, 100)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    for shape in drawing.shapes:
        path = canvas.beginPath()
        draw = {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo, "Z": path.close}
        for command, *numbers in shape.path:
            draw[command](*numbers)
        canvas.setFillColor(shape.fill or "#000000")
        canvas.setStrokeColor(shape.stroke or "#000000")
        canvas.setLineWidth(shape.width)
        canvas.drawPath(path, stroke=bool(shape.stroke), fill=bool(shape.fill), fillMode=FILL_NON_ZERO)
    canvas.save()
    return written.getvalue()


def printed(drawing: Drawing) -> Pixels:
    with pypdfium2.PdfDocument(as_pdf(drawing)) as document:
        return luminance(document[0].render(scale=PDF_PIXELS / 100).to_pil())


def differing(one: Pixels, other: Pixels) -> float:
    """The share of the pixels that differ by more than 64 of 255 in luminance."""
    return float(np.mean(np.abs(one - other) > 64))


@pytest.mark.parametrize("name", NAMES)
def test_our_drawing_looks_like_the_source(name: str) -> None:
    for ink in Ink:
        drawing = pictures.drawing(name, ink)
        assert differing(rendered(as_svg(drawing)), expected(name, ink)) <= 0.001, ink
    on_paper = printed(pictures.drawing(name, Ink.COLOUR))
    assert differing(on_paper, expected(name, Ink.COLOUR, PDF_PIXELS)) <= 0.001


# --- the measures of the house style


# Pictures are measured on a proof of a quarter of a unit to the pixel when they are drawn.
PROOF = 0.2


def extent(drawing: Drawing) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of everything painted, in units of the box."""
    edges = []
    for shape in drawing.shapes:
        pen = BoundsPen(None)
        for command, *numbers in shape.path:
            points = list(zip(numbers[::2], numbers[1::2], strict=True))
            {"M": pen.moveTo, "L": pen.lineTo, "C": pen.curveTo, "Z": pen.closePath}[command](*points)
        left, top, right, bottom = pen.bounds
        reach = shape.width / 2
        edges.append((left - reach, top - reach, right + reach, bottom + reach))
    return (
        min(edge[0] for edge in edges),
        min(edge[1] for edge in edges),
        max(edge[2] for edge in edges),
        max(edge[3] for edge in edges),
    )


def share_of_ink(name: str, ink: Ink) -> float:
    """The mean darkness of the picture's box, 0 to 1."""
    return float(1 - expected(name, ink).mean() / 255)


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_keeps_its_margins_and_fills_its_box(name: str) -> None:
    left, top, right, bottom = extent(pictures.drawing(name, Ink.COLOUR))
    assert min(left, top, 100 - right, 100 - bottom) >= 3 - PROOF
    assert 80 - PROOF <= max(right - left, bottom - top) <= 94.2 + PROOF


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_is_neither_dark_nor_busy(name: str) -> None:
    assert share_of_ink(name, Ink.COLOUR) <= 0.34
    assert share_of_ink(name, Ink.LINE) <= 0.22


@pytest.mark.parametrize(("ink", "most"), [(Ink.COLOUR, 0.25), (Ink.LINE, 0.16)])
def test_pictures_leave_air_on_the_whole(ink: Ink, most: float) -> None:
    assert np.mean([share_of_ink(name, ink) for name in NAMES]) <= most


def test_line_ink_has_ink_and_white_alone_and_grey_ink_has_no_colour() -> None:
    for name in NAMES:
        line, grey = (
            {colour for shape in pictures.drawing(name, ink).shapes for colour in (shape.fill, shape.stroke) if colour}
            for ink in (Ink.LINE, Ink.GREY)
        )
        assert line <= {COLOURS["ink"], "#FFFFFF"}
        assert all(colour[1:3] == colour[3:5] == colour[5:7] for colour in grey)


def test_a_comparison_can_fail() -> None:
    """One picture is not another, and a drawing without its outlines is not the drawing."""
    assert differing(expected("cup", Ink.COLOUR), expected("moon", Ink.COLOUR)) > 0.1
    bare = tuple(replace(shape, stroke=None) for shape in pictures.drawing("cup", Ink.COLOUR).shapes)
    assert differing(rendered(as_svg(Drawing("cup", bare))), expected("cup", Ink.COLOUR)) > 0.01
