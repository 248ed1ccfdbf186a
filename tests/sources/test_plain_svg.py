"""Plain SVG as drawing programs write it: what is understood, what is refused, and that it looks like the source."""

from io import BytesIO

import numpy as np
import pytest
import resvg_py
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from cardgen.errors import TeacherError
from cardgen.sheets.marks import Shape
from cardgen.sources.plain_svg import MOST_LETTERS, is_role_picture, parse_svg, read_plain_svg
from tests.sources.own_samples import SVG


def shapes(inside: str) -> tuple[Shape, ...]:
    return whole(SVG.format(inside))


def whole(text: str) -> tuple[Shape, ...]:
    return read_plain_svg(parse_svg(text, "moon.svg"), "moon.svg")


def refusal(text: str) -> str:
    with pytest.raises(TeacherError) as caught:
        whole(text)
    assert caught.value.message.startswith("moon.svg")
    assert caught.value.message.endswith(".")
    assert caught.value.hint
    return caught.value.message


def test_a_shape_has_one_fill_and_one_stroke() -> None:
    (shape,) = shapes('<rect x="10" y="20" width="30" height="40" fill="red" stroke="#0f0" stroke-width="4"/>')
    path = (("M", 10, 20), ("L", 40, 20), ("L", 40, 60), ("L", 10, 60), ("Z",))
    assert shape == Shape(path, "#FF0000", "#00FF00", 4)


def test_what_is_not_said_is_as_svg_has_it() -> None:
    # SVG 1.1, 11.3 and 11.4: black, no stroke, width 1, nonzero.
    assert shapes('<path d="M0 0h9v9z"/>')[0].fill == "#000000"
    assert shapes('<path d="M0 0h9v9z"/>')[0].stroke is None
    (stroked,) = shapes('<path d="M0 0h9v9z" fill="none" stroke="black"/>')
    assert (stroked.fill, stroked.width, stroked.even_odd) == (None, 1, False)


@pytest.mark.parametrize(
    ("told", "fill"),
    [
        ('fill="#abc"', "#AABBCC"),
        ('fill="tomato"', "#FF6347"),
        ('fill="rgb(1, 2, 3)"', "#010203"),
        ('fill="rgb(100%,0%,0%)"', "#FF0000"),
        ('fill="currentColor"', "#000000"),
        ('style="fill:#123456;-inkscape-stroke:none"', "#123456"),
        ('fill="red" style="fill: #00F !important"', "#0000FF"),
        ('fill="inherit"', "#FF00FF"),
        ("", "#FF00FF"),
    ],
)
def test_colours(told: str, fill: str) -> None:
    assert shapes(f'<g fill="magenta"><circle r="9" {told}/></g>')[0].fill == fill


@pytest.mark.parametrize(
    "nothing",
    [
        '<path d="M0 0h9" fill="none"/>',
        '<path d="M0 0h9" fill="transparent"/>',
        '<path d="M0 0h9" style="display:none"/>',
        '<g display="none"><path d="M0 0h9"/></g>',
        '<path d="M0 0h9" visibility="hidden"/>',
        '<path d=""/>',
        '<circle r="0"/>',
        '<rect width="0" height="9"/>',
        '<defs><linearGradient id="a"/><path d="M0 0h9"/></defs>',
        "<title>moon</title><desc>a moon</desc><metadata/>",
        '<n:view xmlns:n="http://example.org/notes"><path d="M0 0h9"/></n:view>',
    ],
)
def test_what_draws_nothing_is_passed_over(nothing: str) -> None:
    assert shapes(nothing) == ()


def test_any_box_is_fitted_into_the_middle_of_ours() -> None:
    square = '<rect x="-10" y="5" width="200" height="100"/>'
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="-10,5 200 100">{square}</svg>'
    assert whole(svg)[0].path[0] == ("M", 0, 25)
    assert whole(svg)[0].path[2] == ("L", 100, 75)
    sized = '<svg xmlns="http://www.w3.org/2000/svg" width="50px" height="200"><path d="M0 0L50 200"/></svg>'
    assert whole(sized)[0].path == (("M", 37.5, 0), ("L", 62.5, 100))


def test_a_document_type_without_contents_is_passed_over() -> None:
    head = '<?xml version="1.0"?>\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/svg11.dtd">'
    assert whole(head + SVG.format('<circle r="5"/>'))


PICTURES = {
    "transforms": '<g transform="translate(50 50) rotate(30)"><rect x="-30" y="-10" width="60" height="20" fill="teal" '
    'transform="skewX(20) scale(1.2 .8)"/></g><path d="M10 10h20v20h-20z" transform="matrix(1 .2 -.2 1 5 60)"/>',
    "stroke grows": '<g transform="scale(4)"><path d="M4 4C10 4 20 10 20 20" fill="none" stroke="navy" '
    'stroke-width="2" stroke-linecap="round"/></g>',
    "even odd": '<path fill-rule="evenodd" d="M10 10h80v80h-80zM30 30h40v40h-40z"/>',
    "nonzero": '<path d="M10 10h80v80h-80zM30 30h40v40h-40z" fill="olive"/>',
    "arcs": '<path d="M10 80A40 25-30 0150 50a30 20 0 1 1 40 20" fill="orange"/>',
    "curves": '<path d="M10 50Q30 10 50 50T90 50V90H10Z" fill="purple"/><path d="M10 20c5-20 20-20 25 0s20 20 25 0"/>',
    "shapes": '<ellipse cx="50" cy="30" rx="40" ry="20" fill="gold"/><polygon points="10,90 50,60 90 90" fill="red"/>'
    '<rect x="5" y="60" width="30" height="20" rx="8" fill="green"/><circle cx="80" cy="70" r="9"/>'
    '<polyline points="5 5 20 20 5 20" stroke="blue" fill="none" stroke-width="3"/>'
    '<line x1="60" y1="5" x2="95" y2="20" stroke="black" stroke-width="3"/>',
    "one after the other": '<circle cx="40" cy="50" r="30" fill="red"/><circle cx="60" cy="50" r="30" fill="blue"/>',
}


def rendered(svg: str) -> np.ndarray[tuple[int, ...], np.dtype[np.int16]]:
    png = resvg_py.svg_to_bytes(svg_string=svg, width=200, height=200, background="#FFFFFF")
    return np.asarray(Image.open(BytesIO(bytes(png))).convert("RGB"), dtype=np.int16)


@pytest.mark.parametrize("name", PICTURES)
def test_it_looks_like_its_source(name: str) -> None:
    """An independent renderer (resvg) draws the source and what we made of it."""
    source = SVG.format(f'<g stroke-linecap="round" stroke-linejoin="round">{PICTURES[name]}</g>')
    ours = "".join(
        f'<path d="{" ".join(" ".join(map(str, segment)) for segment in shape.path)}" fill="{shape.fill or "none"}" '
        f'stroke="{shape.stroke or "none"}" stroke-width="{shape.width}" stroke-linecap="round" '
        f'stroke-linejoin="round" fill-rule="{"evenodd" if shape.even_odd else "nonzero"}"/>'
        for shape in shapes(PICTURES[name])
    )
    one, other = rendered(source), rendered(SVG.format(ours))
    assert (one < 250).any()
    assert float(np.mean(np.abs(one - other).max(axis=2) > 40)) < 0.002


@pytest.mark.parametrize(
    ("inside", "said"),
    [
        ("<script>alert(1)</script>", "holds a program"),
        ("<defs><script/></defs>", "holds a program"),
        ('<circle r="5" onclick="alert(1)"/>', "holds a program"),
        ("<foreignObject/>", "holds a program"),
        ('<image href="http://example.org/a.png"/>', "links to another file"),
        ('<image xmlns:x="http://www.w3.org/1999/xlink" x:href="file:///etc/passwd"/>', "links to another file"),
        ('<circle r="5" fill="url(http://example.org/a.svg#b)"/>', "links to another file"),
        ('<circle r="5" style="fill:url(\'../a.svg#b\')"/>', "links to another file"),
        ('<linearGradient id="a"/><circle r="5" fill="url(#a)"/>', "gradient"),
        ('<defs><style>.a{fill:red}</style></defs><circle class="a" r="5" fill="red"/>', "style sheet"),
        ('<text x="5" y="5">moon</text>', "<text>"),
        ('<use href="#a"/>', "<use>"),
        ('<svg viewBox="0 0 5 5"/>', "<svg>"),
        ('<g opacity="0.5"><circle r="5"/></g>', "see-through"),
        ('<circle r="5" style="fill-opacity:0.2"/>', "see-through"),
        ('<circle r="5" fill="#FF000080"/>', "see-through"),
        ('<circle r="5" stroke-dasharray="2 2"/>', "dashed"),
        ('<circle r="5" clip-path="url(#a)"/>', "clipping path"),
        ('<circle r="5" filter="url(#a)"/>', "filter"),
        ('<circle r="5" mask="url(#a)"/>', "mask"),
        ('<circle r="5" fill="reddish"/>', "colour that is not known"),
        ('<circle r="5cm"/>', "cannot be read"),
        ('<circle r="1e999"/>', "cannot be read"),
        ('<circle r="1e99"/>', "far outside"),
        ('<path d="M0 0L5"/>', "path"),
        ('<path d="L5 5"/>', "path"),
        ('<path d="M0 0 5 x"/>', "path"),
        ('<path d="M0 0A5 5"/>', "path"),
        ('<path d="M0 0H1e9"/>', "far outside"),
        ('<circle r="5" transform="perspective(3)"/>', "moved"),
        ('<circle r="5" transform="rotate(1 2)"/>', "moved by rotate"),
        ("<g>" * 60 + "</g>" * 60, "nested deeper"),
    ],
)
def test_more_than_plain_shapes_is_refused(inside: str, said: str) -> None:
    assert said in refusal(SVG.format(inside))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "not a well-formed"),
        ("moon", "not a well-formed"),
        ("<svg>", "not a well-formed"),
        ("<html/>", "is no SVG"),
        ("<svg viewBox='0 0 9 9'/>", "is no SVG"),
        ('<svg xmlns="http://www.w3.org/2000/svg"/>', "cannot be read"),
        ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 0 5"/>', "how large"),
        ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 5"/>', "how large"),
        ('<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><svg>&b;</svg>', "not allowed"),
        ('<!doctype svg [<!entity a SYSTEM "file:///etc/passwd">]><svg>&a;</svg>', "not allowed"),
        ('<?xml-stylesheet href="a.css"?>' + SVG.format(""), "not allowed"),
        (SVG.format("<path d='" + "M0 0" * (MOST_LETTERS // 4) + "'/>"), "longer than 512 kB"),
    ],
)
def test_what_is_no_harmless_svg_is_refused(text: str, said: str) -> None:
    assert said in refusal(text)


def test_a_picture_in_roles_is_told_from_a_plain_one() -> None:
    assert is_role_picture(parse_svg(SVG.format('<circle r="5" class="a red"/>'), "a"))
    assert not is_role_picture(parse_svg(SVG.format('<circle r="5"/>'), "a"))
    assert not is_role_picture(parse_svg(SVG.format('<circle r="5" class="a" fill="red"/>'), "a"))


NUMBER = st.floats(-200, 200, width=32).map(lambda number: f"{number:.3g}") | st.sampled_from(["1e40", ".5.5", "-", ""])
DATA = st.lists(st.sampled_from("MmLlHhVvCcSsQqTtAaZz") | NUMBER, max_size=14).map(" ".join)


@given(DATA | st.text(max_size=30), st.text(max_size=20), st.text(max_size=20))
@settings(max_examples=200, deadline=None)
def test_any_attributes_are_drawn_or_refused(data: str, transform: str, style: str) -> None:
    from xml.sax.saxutils import quoteattr

    element = f"<path d={quoteattr(data)} transform={quoteattr(transform)} style={quoteattr(style)}/>"
    try:
        drawn = shapes(element)
    except TeacherError as error:
        refused = error
    else:
        for shape in drawn:
            assert all(abs(number) <= 1000 for _, *numbers in shape.path for number in numbers)
            assert shape.path[0][0] == "M"
        return
    assert refused.hint
