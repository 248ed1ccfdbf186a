"""How the pages look: ink on white, large letters, a ring round what the keyboard is at. No file but this is loaded."""

# Contrast of ink on white by the WCAG 2.2 formula: 14.2; text 8.4. There are no other colours beside the pictures.
INK, TEXT, PAPER = "#2A2A35", "#4A4D59", "#FFFFFF"

MARK = "/* cardgen clip pages */"

_RULES = f"""
:root {{ color-scheme: light; }}
* {{ box-sizing: border-box; }}
[hidden] {{ display: none !important; }}
body {{ margin: 0 auto; max-width: 44rem; padding: 1rem; background: {PAPER}; color: {INK};
  font: 1.125rem/1.5 system-ui, sans-serif; text-align: center; }}
h1, h2 {{ margin: 0.5rem 0; font-weight: 700; line-height: 1.2; }}
.letter, .word {{ font-family: "Card letters", system-ui, sans-serif; font-weight: 400; }}
.letter {{ font-size: min(34vw, 9rem); line-height: 1.1; }}
.word {{ font-size: min(12vw, 3.5rem); line-height: 1.3; }}
.pair {{ display: flex; flex-wrap: wrap; justify-content: center; align-items: center; gap: 1rem 2rem; }}
.picture {{ width: min(60vw, 15rem); height: auto; }}
button {{ display: inline-flex; align-items: center; gap: 1rem; margin: 1rem; padding: 1.25rem 3rem; border: 0;
  border-radius: 1.25rem; background: {INK}; color: {PAPER}; font: inherit; font-size: 2rem; cursor: pointer; }}
button svg {{ width: 2.5rem; height: 2.5rem; fill: {PAPER}; }}
audio {{ display: block; width: 100%; max-width: 26rem; margin: 1rem auto; }}
p {{ margin: 0.75rem 0; }}
.small {{ color: {TEXT}; font-size: 1rem; }}
a {{ color: {INK}; }}
nav a {{ display: inline-block; margin: 0.25rem; padding: 0.5rem 1rem; }}
ul {{ display: flex; flex-wrap: wrap; justify-content: center; gap: 0.75rem; margin: 1rem 0; padding: 0;
  list-style: none; }}
li {{ display: flex; }}
li a {{ display: flex; flex-direction: column; justify-content: center; min-width: 8rem; padding: 0.75rem;
  border: 2px solid {INK}; border-radius: 1rem; text-decoration: none; }}
li .picture {{ display: block; width: 6rem; margin: 0 auto; }}
li .letter {{ font-size: 4rem; }}
li .word {{ font-size: 1.75rem; }}
:focus-visible {{ outline: 4px solid {INK}; outline-offset: 4px; }}
"""


def style_sheet(font: str) -> str:
    """Return the style sheet of all pages; `font` is the letters' TrueType file in base64.

    The letters lie in the sheet itself: a browser that opens pages from a stick may refuse a font beside them.
    """
    face = f'@font-face {{ font-family: "Card letters"; src: url("data:font/ttf;base64,{font}") format("truetype"); }}'
    return f"{MARK}\n{face}{_RULES}"
