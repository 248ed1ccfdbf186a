"""One page's drawing operators, in points from the lower left; what is in force already is not set again."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from cardgen.paper.extent import start_of
from cardgen.paper.operators import ROUND_PEN, number, numbers, paint, path_operators, rectangle, rgb
from cardgen.sheets.marks import Label, Line, Outline, Panel, Path
from cardgen.units import POINTS_PER_MM, Box, Size, Typeface, Widths, points_of_mm

# Turns text into runs of (name of the embedded font, its string as a PDF string object).
Setter = Callable[[str, Typeface], Sequence[tuple[str, str]]]


class Form(NamedTuple):
    """A drawing that is stored once: the name by which pages draw it, and its side in units of its own."""

    name: str
    units: float


class Content:
    """What is drawn on a page of `size` mm, as lines of operators in `code`; see `marks.Page` for `turned` and `shift`.

    `close` ends it.
    """

    def __init__(
        self,
        size: Size,
        widths: Widths,
        setter: Setter,
        *,
        turned: bool = False,
        shift: tuple[float, float] = (0.0, 0.0),
    ) -> None:
        self.code: list[str] = [ROUND_PEN]
        self._moved = turned or shift != (0.0, 0.0)
        if self._moved:
            dx, dy = points_of_mm(shift[0]), -points_of_mm(shift[1])
            if turned:
                self.code.append(f"q -1 0 0 -1 {numbers(points_of_mm(size.w) + dx, points_of_mm(size.h) + dy)} cm")
            else:
                self.code.append(f"q 1 0 0 1 {numbers(dx, dy)} cm")
        self._top = points_of_mm(size.h)
        self._widths = widths
        self._setter = setter
        self._in_force: dict[str, str] = {}

    def close(self) -> None:
        """End what was drawn."""
        if self._moved:
            self.code.append("Q")

    def line(self, line: Line) -> None:
        """Draw a line."""
        self._pen(line.colour, line.weight_pt, line.dash_mm)
        start, end = self._place(line.x1, line.y1), self._place(line.x2, line.y2)
        self.code.append(f"{start} m {end} l S")

    def panel(self, panel: Panel) -> None:
        """Draw a rectangle."""
        self._paint(rectangle(panel.box, panel.radius), panel.fill, panel.stroke, panel.weight_pt, None)

    def outline(self, outline: Outline) -> None:
        """Draw a path."""
        self._paint(outline.path, outline.fill, outline.stroke, outline.weight_pt, outline.dash_mm)

    def form(self, form: Form, box: Box) -> None:
        """Place a stored drawing so that it fills the square box."""
        if "d" in self._in_force:
            self._set("d", "[] 0")  # a stored drawing would take over the dashes of the last line
        scale = f"{points_of_mm(box.w) / form.units:.6f}"
        self.code.append(f"q {scale} 0 0 {scale} {self._place(box.x, box.bottom)} cm /{form.name} Do Q")

    def label(self, label: Label) -> None:
        """Set a line of text."""
        self._set("rg", rgb(label.colour))
        before = start_of(label, self._widths)
        if label.turn == 90:
            place = f"0 1 -1 0 {self._place(label.x, label.y + before)} Tm"
        else:
            place = f"{self._place(label.x - before, label.y)} Td"
        self.code.append(f"BT {place}")
        for font, text in self._setter(label.text, label.face):
            self._set("Tf", f"/{font} {number(label.size_pt)}")
            self.code.append(f"{text} Tj")
        self.code.append("ET")

    def _paint(
        self,
        path: Path,
        fill: str | None,
        stroke: str | None,
        weight_pt: float,
        dash_mm: tuple[float, float] | None,
    ) -> None:
        if fill:
            self._set("rg", rgb(fill))
        if stroke:
            self._pen(stroke, weight_pt, dash_mm)
        self.code.append(f"{path_operators(path, POINTS_PER_MM, self._top)} {paint(fill, stroke)}")

    def _pen(self, colour: str, weight_pt: float, dash_mm: tuple[float, float] | None) -> None:
        self._set("RG", rgb(colour))
        self._set("w", number(weight_pt))
        self._set("d", f"[{numbers(*map(points_of_mm, dash_mm or ()))}] 0")

    def _set(self, operator: str, operands: str) -> None:
        if self._in_force.get(operator) != operands:
            self._in_force[operator] = operands
            self.code.append(f"{operands} {operator}")

    def _place(self, x: float, y: float) -> str:
        return f"{number(points_of_mm(x))} {number(self._top - points_of_mm(y))}"
