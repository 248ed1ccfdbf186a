"""Makes the numbered sheets for naming pictures blind: 25 mm wide, in grey, shuffled, without a name anywhere.

    python -m tests.outside.naming.sheets RUN SHEETS_FOLDER KEY.csv

The key, which number is which picture, goes to a place of its own, out of the namers' sight.
"""

import csv
import random
import sys
from io import BytesIO
from pathlib import Path

import resvg_py
from PIL import Image, ImageDraw

from cardgen.request import Ink
from cardgen.sheets.marks import Drawing
from cardgen.sources.bank_file import read_bank
from cardgen.sources.pictures import drawing, exists

PIXELS = 148  # 25 mm at 150 dpi
COLUMNS, ROWS, GAP, LABEL = 6, 4, 40, 34


def as_svg(picture: Drawing) -> str:
    """The drawing as plain SVG paths."""
    paths = []
    for shape in picture.shapes:
        data = " ".join(f"{step[0]}{','.join(f'{value:.3f}' for value in step[1:])}" for step in shape.path)
        paths.append(
            f'<path d="{data}" fill="{shape.fill or "none"}" stroke="{shape.stroke or "none"}" '
            f'stroke-width="{shape.width}" stroke-linecap="round" stroke-linejoin="round"/>'
        )
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">{"".join(paths)}</svg>'


def raster(name: str, pixels: int = PIXELS, ink: Ink = Ink.GREY) -> Image.Image:
    """The picture as an image."""
    data = resvg_py.svg_to_bytes(
        svg_string=as_svg(drawing(name, ink)), width=pixels, height=pixels, background="#FFFFFF"
    )
    return Image.open(BytesIO(bytes(data))).convert("RGB")


def make(run: int, folder: Path, key: Path, names: list[str]) -> None:
    """Write the sheets of one run, and its key."""
    names = random.Random(run).sample(names, len(names))
    folder.mkdir(parents=True, exist_ok=True)
    a_sheet = COLUMNS * ROWS
    for start in range(0, len(names), a_sheet):
        sheet = Image.new("RGB", (COLUMNS * (PIXELS + GAP) + GAP, ROWS * (PIXELS + GAP + LABEL) + GAP), "white")
        draw = ImageDraw.Draw(sheet)
        for place, name in enumerate(names[start : start + a_sheet]):
            x = GAP + place % COLUMNS * (PIXELS + GAP)
            y = GAP + place // COLUMNS * (PIXELS + GAP + LABEL)
            draw.text((x, y), str(start + place + 1), fill="black", font_size=24)
            sheet.paste(raster(name), (x, y + LABEL))
        sheet.save(folder / f"sheet-{start // a_sheet + 1:02}.png")
    with key.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows(enumerate(names, 1))


if __name__ == "__main__":
    drawn = sorted({word.picture for word in read_bank() if word.picture and exists(word.picture)})
    make(int(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]), drawn)
