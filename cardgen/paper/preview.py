"""Pictures of the pages of a PDF, to look at before printing."""

from collections.abc import Sequence
from math import ceil
from pathlib import Path

import pypdfium2 as pdfium
from PIL import Image

from cardgen.paper.whole_file import whole_file

_POINTS_PER_INCH = 72
_COLUMNS = 5
_THUMBNAIL_PX, _GAP_PX = 300, 16
_GLANCE_DPI = 60
_TABLE_TOP = "#C9CCD3"


def preview(pdf_path: Path | str, dpi: float = 100) -> list[Path]:
    """Write NAME-p01.png … and one contact sheet NAME-contact.png beside NAME.pdf; return their paths in that order."""
    path = Path(pdf_path)
    pdf = pdfium.PdfDocument(path)
    digits = max(2, len(str(len(pdf))))
    written, thumbnails = [], []
    for number, page in enumerate(pdf, start=1):
        picture = page.render(scale=dpi / _POINTS_PER_INCH).to_pil()
        written.append(_save(picture, path.with_name(f"{path.stem}-p{number:0{digits}}.png")))
        picture.thumbnail((_THUMBNAIL_PX, _THUMBNAIL_PX))
        thumbnails.append(picture)
        page.close()
    pdf.close()
    written.append(_save(_contact_sheet(thumbnails), path.with_name(f"{path.stem}-contact.png")))
    return written


def contact(pdf_path: Path | str) -> Path:
    """Write NAME.png beside NAME.pdf, all its pages at a glance; return its path."""
    path = Path(pdf_path)
    pdf = pdfium.PdfDocument(path)
    thumbnails = []
    for page in pdf:
        picture = page.render(scale=_GLANCE_DPI / _POINTS_PER_INCH).to_pil()
        picture.thumbnail((_THUMBNAIL_PX, _THUMBNAIL_PX))
        thumbnails.append(picture)
        page.close()
    pdf.close()
    return _save(_contact_sheet(thumbnails).quantize(128), path.with_suffix(".png"))


def _contact_sheet(thumbnails: Sequence[Image.Image]) -> Image.Image:
    """Return all pages side by side, in rows of five, as if laid out on a table."""
    columns = min(_COLUMNS, len(thumbnails))
    pitch = _THUMBNAIL_PX + _GAP_PX
    rows = ceil(len(thumbnails) / columns)
    sheet = Image.new("RGB", (columns * pitch + _GAP_PX, rows * pitch + _GAP_PX), _TABLE_TOP)
    for place, picture in enumerate(thumbnails):
        row, column = divmod(place, columns)
        x = _GAP_PX + column * pitch + (_THUMBNAIL_PX - picture.width) // 2
        y = _GAP_PX + row * pitch + (_THUMBNAIL_PX - picture.height) // 2
        sheet.paste(picture, (x, y))
    return sheet


def _save(picture: Image.Image, path: Path) -> Path:
    with whole_file(path) as part:
        picture.save(part, format="PNG")
    return path
