from itertools import combinations

import pytest

from cardgen.games.pieces import Ink, StripField
from cardgen.paper.extent import extent
from cardgen.recipes.library import open_library
from cardgen.sheets.marks import Label, Picture
from cardgen.sheets.pack import strip
from cardgen.sheets.style import Style
from cardgen.units import Box

BOX = Box(10.0, 20.0, 190.0, 62.0)
LETTERS = (("M", "m"), ("Sh", "sh"), ("Qu", "qu"), ("T", "t"))


@pytest.mark.parametrize("sides", [2, 3, 4])
@pytest.mark.parametrize("picture", ["moon", None])
def test_every_side_of_a_strip_has_its_own_field(sides: int, picture: str | None) -> None:
    fields = tuple(StripField(pair[1], pair, picture, "a picture") for pair in LETTERS[:sides])
    widths = open_library().widths
    drawn = strip(fields, BOX, Style.of(Ink.LINE), widths)
    boxes = [extent([item], widths) for item in drawn]  # type: ignore[list-item]
    for one, other in combinations(boxes, 2):
        apart = one.right <= other.x or other.right <= one.x or one.bottom <= other.y or other.bottom <= one.y
        assert apart
    assert all(BOX.x <= box.x and box.right <= BOX.right for box in boxes)
    assert all(BOX.y <= box.y and box.bottom <= BOX.bottom for box in boxes)
    labels = [item for item in drawn if isinstance(item, Label)]
    assert [label.text for label in labels] == [" ".join(pair) for pair in LETTERS[:sides]]
    assert len({label.size_pt for label in labels}) == 1
    assert labels[0].size_pt >= 20.5
    pictures = [item for item in drawn if isinstance(item, Picture)]
    assert all(item.box.w >= 25 for item in pictures)
    assert len(pictures) == (sides if picture else 0)
