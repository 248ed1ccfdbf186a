"""The pages: one a recording with its picture, letter and play button, one a lesson, and one for all lessons.

They set no cookie, count nobody and load nothing but the recording and the style sheet that lie beside them. Without
script the browser's own player does what the large button does.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

MARK = '<meta name="generator" content="cardgen clip pages">'
STYLE_FILE, INDEX_FILE = "style.css", "index.html"
MOST_NAMED = 12  # sounds in the name of a lesson's page

_SCRIPT = """<script>
const audio = document.querySelector("audio"), button = document.querySelector("button");
button.hidden = false;
button.addEventListener("click", () => { audio.currentTime = 0; audio.play(); });
</script>"""
_TRIANGLE = '<svg viewBox="0 0 24 24" aria-hidden="true"><path d="M6 3 21 12 6 21Z"/></svg>'


@dataclass(frozen=True, kw_only=True, slots=True)
class ClipPage:
    """One recording: the `name` of its page, the `audio` file beside it, and what stands above the button.

    `key` names the sound, `letters` are its letters ("M m"), `word` its picture word, `picture` an SVG element (empty:
    none), `hint` how the sound is said. `language` tells that it is "how to play" in that home language. `credit`
    names who drew the picture, where that must be told.
    """

    name: str
    audio: str
    say: str
    key: str = ""
    letters: str = ""
    word: str | None = None
    picture: str = ""
    hint: str = ""
    language: str = ""
    credit: str = ""

    @property
    def file(self) -> str:
        """The file of the page."""
        return f"{self.name}.html"


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson's page: its file, and its title as it is linked."""

    file: str
    title: str


def lesson_of(keys: Sequence[str], letters: Sequence[str]) -> Lesson:
    """Return the lesson of some sounds: its page is named after their keys, its title after their letters."""
    rest = len(keys) - MOST_NAMED
    # Two sounds may have one letter: short i and long i.
    named = [letter if letters.count(letter) == 1 else key for key, letter in zip(keys, letters, strict=True)]
    more = [f"and-{rest}-more"] if rest > 0 else []
    return Lesson(
        f"lesson-{'-'.join([*keys[:MOST_NAMED], *more])}.html",
        f"Sounds {', '.join(named[:MOST_NAMED])}{f' and {rest} more' if rest > 0 else ''}",
    )


def clip_page(page: ClipPage, lesson: Lesson, language: str) -> str:
    """Return the page of one recording; `language` is that of the lesson (BCP 47)."""
    if page.language:
        head = f"<h1>How to play <span>({escape(page.language)})</span></h1>"
        title, spoken = f"How to play ({page.language})", page.language
    else:
        letter = f'<h1 class="letter">{escape(page.letters)}</h1>'
        word = f'<p class="word">{escape(page.word)}</p>' if page.word else ""
        head = f'<div class="pair">{letter}{page.picture}</div>{word}'
        title, spoken = f"{page.say} · {page.letters}", language
    label = escape(page.say)
    body = f"""<main>
{head}
<button type="button" hidden aria-label="Play: {label}">{_TRIANGLE}Play</button>
<audio controls preload="auto" src="{escape(page.audio)}" lang="{escape(spoken)}" aria-label="Recording: {label}">
<a href="{escape(page.audio)}">Open the recording: {label}</a></audio>
{_small(page.hint)}{_small(page.credit)}</main>
<nav aria-label="Other recordings"><a href="{escape(lesson.file)}">All recordings: {escape(lesson.title)}</a></nav>
{_SCRIPT}"""
    return _document(title, language, body)


def lesson_page(lesson: Lesson, pages: Sequence[ClipPage], language: str) -> str:
    """Return the page of a lesson: every recording with its picture, in the order of the list."""
    parts = [[page for page in pages if page.key == key] for key in dict.fromkeys(page.key for page in pages)]
    lists = "\n".join(map(_list, parts))
    named = "".join(map(_small, dict.fromkeys(page.credit for page in pages)))
    body = f"""<main>
<h1>{escape(lesson.title)}</h1>
{lists}
{named}</main>
<nav aria-label="Other lessons"><a href="{INDEX_FILE}">All lessons</a></nav>"""
    return _document(lesson.title, language, body)


def index_page(lessons: Sequence[Lesson], language: str) -> str:
    """Return the first page: a link to every lesson."""
    items = "\n".join(f'<li><a href="{escape(lesson.file)}">{escape(lesson.title)}</a></li>' for lesson in lessons)
    return _document("Listen", language, f"<main>\n<h1>Listen</h1>\n<ul>\n{items}\n</ul>\n</main>")


def _list(pages: Sequence[ClipPage]) -> str:
    items = "\n".join(f"<li>{_link(page)}</li>" for page in pages)
    return f"<ul>\n{items}\n</ul>"


def _link(page: ClipPage) -> str:
    if page.language:
        inside = f"How to play ({escape(page.language)})"
    elif page.word:
        # The word says what the picture shows.
        inside = f'<span aria-hidden="true">{page.picture}</span><span class="word">{escape(page.word)}</span>'
    else:
        inside = f'<span class="letter">{escape(page.letters)}</span><span class="small">{escape(page.say)}</span>'
    return f'<a href="{escape(page.file)}">{inside}</a>'


def _small(text: str) -> str:
    return f'<p class="small">{escape(text)}</p>\n' if text else ""


def _document(title: str, language: str, body: str) -> str:
    # The empty icon keeps the browser from asking for one that is not there.
    return f"""<!DOCTYPE html>
<html lang="{escape(language)}">
<head>
<meta charset="utf-8">
{MARK}
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<meta name="referrer" content="no-referrer">
<title>{escape(title)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="{STYLE_FILE}">
</head>
<body>
{body}
</body>
</html>
"""
