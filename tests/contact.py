"""Contact sheets of the pictures in three inks, to look at them side by side.

python -m tests.contact FOLDER            all pictures: FOLDER/contact-colour.png, -grey.png, -line.png
python -m tests.contact FOLDER moon sun   only these
"""

import sys
from pathlib import Path

from PIL import Image

from cardgen.request import Ink
from tests.outside.naming.sheets import raster

PIXELS, GAP, COLUMNS = 56, 8, 24
ART = Path(__file__).parent.parent / "art" / "pictures"


def contact(names: list[str], ink: Ink) -> Image.Image:
    """The pictures row by row, in one ink."""
    columns = min(COLUMNS, len(names))
    rows = -(-len(names) // columns)
    pitch = PIXELS + GAP
    sheet = Image.new("RGB", (columns * pitch + GAP, rows * pitch + GAP), "white")
    for place, name in enumerate(names):
        row, column = divmod(place, columns)
        sheet.paste(raster(name, PIXELS, ink), (GAP + column * pitch, GAP + row * pitch))
    return sheet.quantize(128)


if __name__ == "__main__":
    folder = Path(sys.argv[1])
    folder.mkdir(exist_ok=True)
    chosen = sys.argv[2:] or sorted(path.stem for path in ART.glob("*.svg"))
    for each in Ink:
        contact(chosen, each).save(folder / f"contact-{each.value}.png", optimize=True)
