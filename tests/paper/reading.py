"""Reads a finished PDF back with pikepdf: what is drawn where on a page, and the tree of its tags."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from io import BytesIO
from typing import Any

import pikepdf

MM = 25.4 / 72
IDENTITY: tuple[float, ...] = (1, 0, 0, 1, 0, 0)


@dataclass
class Drawn:
    """One thing that is painted: places in mm from the page's top left, and what it belongs to."""

    kind: str  # "text", "form" or "path"
    places: list[tuple[float, float]]
    owner: str  # "Figure 3" (role and number of the content) or "Artifact Layout"
    state: dict[str, tuple[float, ...]]
    name: str = ""
    string: bytes = b""
    scale: float = 1.0
    turn: tuple[float, ...] = (1, 0, 0, 1)


@dataclass
class Tag:
    """One element of the structure tree."""

    role: str
    alt: str
    kids: "list[Tag | int]" = field(default_factory=list)
    scope: str = ""
    bbox: tuple[float, ...] = ()
    page: pikepdf.Object | None = None

    def all(self) -> "Iterator[Tag]":
        yield self
        for kid in self.kids:
            if isinstance(kid, Tag):
                yield from kid.all()

    @property
    def shape(self) -> str:
        """The roles below as text: `Table(TR(TH TH))`."""
        inner = " ".join(kid.shape for kid in self.kids if isinstance(kid, Tag))
        return f"{self.role}({inner})" if inner else self.role


def opened(data: bytes) -> pikepdf.Pdf:
    return pikepdf.open(BytesIO(data))


def tree(pdf: pikepdf.Pdf) -> Tag:
    return _tag(pdf.Root.StructTreeRoot.K)


def _tag(element: pikepdf.Object) -> Tag:
    attributes = element.get("/A", pikepdf.Dictionary())
    tag = Tag(
        str(element.S).removeprefix("/"),
        str(element.get("/Alt", "")),
        scope=str(attributes.get("/Scope", "")).removeprefix("/"),
        bbox=tuple(float(edge) for edge in attributes.get("/BBox", [])),
        page=element.get("/Pg"),
    )
    kids: list[Any] = list(element.K)
    tag.kids += [int(kid) if isinstance(kid, int) else _tag(kid) for kid in kids]
    return tag


def drawn(data: bytes, index: int = 0) -> list[Drawn]:
    """What a page of a file paints, in order."""
    with opened(data) as pdf:
        return _drawn(pdf.pages[index])


def _drawn(page: pikepdf.Page) -> list[Drawn]:
    """AssertionError for an operator that the writer is not known to use."""
    height = float(page.mediabox[3])
    found: list[Drawn] = []
    state: dict[str, tuple[float, ...]] = {}
    kept: list[tuple[tuple[float, ...], dict[str, tuple[float, ...]]]] = []
    matrix = IDENTITY
    text: tuple[float, ...] = ()
    owner, path = "", []

    def mm(x: float, y: float) -> tuple[float, float]:
        return (x * MM, (height - y) * MM)

    for step in pikepdf.parse_content_stream(page):
        operands, name = list[Any](step.operands), str(step.operator)
        values = tuple(float(value) for value in operands if isinstance(value, int | Decimal))
        match name:
            case "q":
                kept.append((matrix, dict(state)))
            case "Q":
                matrix, state = kept.pop()
            case "cm":
                assert matrix == IDENTITY, "transformations are not nested"
                matrix = values
            case "BDC":
                assert owner == "", "marked content is not nested"
                detail = str(operands[1].get("/MCID", operands[1].get("/Type", ""))).removeprefix("/")
                owner = f"{str(operands[0]).removeprefix('/')} {detail}"
            case "EMC":
                assert owner != "", "what ends has begun"
                owner = ""
            case "BT":
                text = IDENTITY
            case "Td":
                text = (*text[:4], *values)
            case "Tm":
                text = values
            case "Tf":
                state["Tf"] = values
                state["font"] = (hash(str(operands[0])),)
            case "Tj":
                string = bytes(operands[0])
                found.append(Drawn("text", [mm(*text[4:])], owner, dict(state), string=string, turn=text[:4]))
            case "Do":
                place = mm(matrix[4], matrix[5])
                found.append(Drawn("form", [place], owner, dict(state), name=str(operands[0]), scale=matrix[0] * MM))
            case "m" | "l" | "c":
                path.append(mm(*values[-2:]))
            case "f" | "S" | "B":
                found.append(Drawn("path", path, owner, dict(state), name=name))
                path = []
            case "n":
                path = []
            case "d":
                state["d"] = tuple(float(length) for length in operands[0])
            case "J" | "j" | "w" | "rg" | "RG":
                state[name] = values
            case "ET" | "h":
                pass
            case _:
                raise AssertionError(f"unknown operator {name}")
    assert not kept
    assert owner == ""
    return found
