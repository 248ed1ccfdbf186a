"""A picture as SVG that stands in a page itself: nothing to load, and sharp at every size."""

from collections.abc import Sequence
from html import escape
from typing import Protocol

Path = Sequence[tuple[str, *tuple[float, ...]]]


class Shape(Protocol):
    """A painted path: filled and/or stroked, colours as #RRGGBB, lengths in units of the drawing's box."""

    @property
    def path(self) -> Path:
        """Its commands: M, L, C, Z, in absolute coordinates."""

    @property
    def fill(self) -> str | None:
        """The colour inside."""

    @property
    def stroke(self) -> str | None:
        """The colour of its line."""

    @property
    def width(self) -> float:
        """The width of its line."""

    @property
    def even_odd(self) -> bool:
        """Whether it is filled by the even-odd rule."""


def svg(shapes: Sequence[Shape], box: float, alt: str) -> str:
    """Return the element of a drawing in a square of `box` units; `alt` says what it shows, empty for decoration."""
    name = f'role="img" aria-label="{escape(alt)}"' if alt else 'aria-hidden="true"'
    head = f'<svg class="picture" viewBox="0 0 {_number(box)} {_number(box)}" {name}>'
    return head + "".join(map(_element, shapes)) + "</svg>"


def _element(shape: Shape) -> str:
    data = "".join(command + " ".join(map(_number, numbers)) for command, *numbers in shape.path)
    look = f'fill="{shape.fill or "none"}"'
    if shape.fill and shape.even_odd:
        look += ' fill-rule="evenodd"'
    if shape.stroke:
        look += f' stroke="{shape.stroke}" stroke-width="{_number(shape.width)}"'
        look += ' stroke-linecap="round" stroke-linejoin="round"'
    return f'<path d="{data}" {look}/>'


def _number(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
