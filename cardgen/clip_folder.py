"""What is done with a teacher's recordings beside the printed list: names, a test, listening pages."""

import csv
import random
from base64 import b64encode
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from cardgen.errors import TeacherError
from cardgen.games.pieces import Clip
from cardgen.listening import pages as page_of
from cardgen.listening import pictures as inline
from cardgen.listening import style
from cardgen.paper.whole_file import whole_file
from cardgen.paper.whole_folder import write_folder
from cardgen.recipes.clips import to_record
from cardgen.recipes.library import LEARNING_FONT, Library, open_library
from cardgen.recipes.sheets import LANGUAGES
from cardgen.request import ClipListRequest, Ink
from cardgen.sheets.marks import Photo
from cardgen.sources import clip_files, clip_report, shelf
from cardgen.sources.clip_files import ClipFile, ClipFolder
from cardgen.sources.clip_report import ClipLine, State
from cardgen.sources.clip_site import open_site
from cardgen.sources.clips import bare_copy
from cardgen.words.clip_names import FAMILY, clip_name


def listed(request: ClipListRequest) -> tuple[Clip, ...]:
    """Return the recordings that a request asks for, in the order of its list; TeacherError for an unknown sound."""
    return _listed(request, _library(request))


def _listed(request: ClipListRequest, library: Library) -> tuple[Clip, ...]:
    return to_record(request, library, random.Random(request.seed))[0].clips


def _library(request: ClipListRequest) -> Library:
    return open_library(request.pictures, request.accent, open_pictures=request.open_pictures)


def write_csv(request: ClipListRequest, path: str) -> None:
    """Write the list as a table for a spreadsheet: number, file, sound, letter, what to say, how."""
    text = StringIO()
    rows = csv.writer(text)
    rows.writerow(("number", "file", "sound", "letter", "say", "how"))
    for clip in listed(request):
        rows.writerow((clip.number, f"{clip.name}.m4a", clip.key or clip.language, clip.letter, clip.say, clip.how))
    with whole_file(path) as part:
        # The mark at the start tells spreadsheets that it is UTF-8.
        part.write_bytes(text.getvalue().encode("utf-8-sig"))


@dataclass(frozen=True, slots=True)
class Naming:
    """Which recording gets which name; `say` is what should be heard in each. `mixed` tells of an order in doubt."""

    folder: ClipFolder
    renames: tuple[tuple[ClipFile, str], ...]
    say: tuple[str, ...]
    mixed: bool

    def carry_out(self) -> None:
        """Rename the files, all or none; TeacherError if one cannot be renamed."""
        clip_files.rename(self.folder, self.renames)


def naming(folder: str, request: ClipListRequest) -> Naming:
    """Return which name every recording of a folder gets that has none yet; TeacherError where they do not match."""
    opened, library = clip_files.open_clips(folder), _library(request)
    clips = _listed(request, library)
    named = {clip_name(key) for key in library.sounds.keys}
    named |= {clip_name(key, word.word) for word in library.bank for key in word.keys}
    named |= {name for name in opened.by_name if name.startswith(f"{FAMILY}-")}
    renames = clip_files.new_names(opened, [clip.name for clip in clips], frozenset(named))
    say = {clip.name: clip.say for clip in clips}
    heads = {clip_files.natural(file.path.name)[0][:1] for file, _ in renames}
    words = {head for head in heads if head and head[0][0] == 1}
    return Naming(opened, renames, tuple(say[Path(name).stem] for _, name in renames), len(words) > 1)


def test(folder: str, request: ClipListRequest | None) -> tuple[ClipLine, ...]:
    """Return how every recording of a folder stands, and which of the request's are missing.

    TeacherError for a folder without recordings, or an unknown sound.
    """
    wanted = [clip.name for clip in listed(request)] if request else []
    return tuple(clip_report.report(clip_files.open_clips(folder), wanted))


@dataclass(frozen=True, slots=True)
class Written:
    """What was written: the lesson's page, how many pages of recordings there are, and what to look out for."""

    lesson: Path
    pages: int
    look_out: tuple[str, ...]


def write_pages(folder: str, request: ClipListRequest, out: str) -> Written:
    """Write the listening pages of a request's recordings into the folder `out`, all or none.

    What is missing gets no page, and is told; TeacherError where a recording cannot be played, or others' files are in
    the way. Pages of other lessons that were written there stay: cards that lead to them are in use.
    """
    library, site = _library(request), open_site(out, page_of.INDEX_FILE, page_of.MARK, style.MARK)
    clips = {clip.name: clip for clip in _listed(request, library)}
    opened = clip_files.open_clips(folder)
    lines = [line for line in clip_report.report(opened, tuple(clips)) if line.listed]
    files: dict[str, bytes] = {}
    pages: list[page_of.ClipPage] = []
    look_out: list[str] = []
    for line in lines:
        look_out += _told(line)
        if line.clip:
            clip, name = clips[line.name], f"{line.name}{line.clip.kind.suffix}"
            files[name] = bare_copy(opened.read(opened.by_name[line.name][0]), line.file)
            pages.append(_page(clip, name, library))
            look_out += _not_shown(clip, library)
    if not pages:
        raise TeacherError(
            f"None of the recordings of this list is in {folder}.",
            "`cardgen clips list` says what to record, `cardgen clips name` gives the files their names.",
        )
    sounds, language = library.sounds.several(request.all_keys), LANGUAGES[request.accent]
    lesson = page_of.lesson_of(request.all_keys, [sound.letter for sound in sounds])
    lessons = (site.lessons() if site else {}) | {lesson.file: lesson.title}
    every = [page_of.Lesson(file, lessons[file]) for file in sorted(lessons)]
    texts = {page.file: page_of.clip_page(page, lesson, language) for page in pages}
    texts[lesson.file] = page_of.lesson_page(lesson, pages, language)
    texts[page_of.STYLE_FILE] = style.style_sheet(b64encode(shelf.read_bytes(LEARNING_FONT)).decode("ascii"))
    # A recording is known as ours by its page, so that goes first: should the run be killed, the next one can go on.
    files = {name: text.encode("utf-8") for name, text in texts.items()} | files
    files[page_of.INDEX_FILE] = page_of.index_page(every, language).encode("utf-8")  # the mark of a finished folder
    write_folder(out, files, site.ours(files) if site else ())
    return Written(Path(out) / lesson.file, len(pages), tuple(look_out))


def _told(line: ClipLine) -> Iterator[str]:
    """Yield what to look out for in a recording; TeacherError if no page can be made of it."""
    if line.state is State.MISSING:
        yield f"There is no recording {line.name}: it gets no page."
    elif line.state in (State.UNREADABLE, State.UNPLAYABLE, State.TWICE):
        text = line.text if line.file in line.text else f"{line.file}: {line.text}"
        raise TeacherError(text, "Nothing was written. `cardgen clips test` looks all recordings through.")
    elif line.state.is_wrong:
        yield f"{line.file} is {line.state.value}. {line.text}"


def _page(clip: Clip, audio: str, library: Library) -> page_of.ClipPage:
    if not clip.key:
        return page_of.ClipPage(name=clip.name, audio=audio, say=clip.say, language=clip.language)
    sound = library.sounds.get(clip.key)
    picture = _picture_name(clip, library)
    return page_of.ClipPage(
        name=clip.name,
        audio=audio,
        say=clip.say,
        key=clip.key,
        letters=sound.letter if sound.end else f"{sound.capital} {sound.letter}",
        word=clip.word,
        picture=_svg(picture, library),
        hint=f"How to say it: {sound.say_line}" if clip.word is None else "",
        credit=_credit(picture, library),
    )


def _picture_name(clip: Clip, library: Library) -> str:
    """Return the name of the picture for a page: that of the word, or the sound's key picture; empty if none."""
    word = library.bank.get(clip.word or library.sounds.get(clip.key).key_picture or "")
    return word.picture if word and word.picture and library.is_drawn(word.picture) else ""


def _svg(picture: str, library: Library) -> str:
    drawing = library.drawing(picture, Ink.COLOUR) if picture else None
    if drawing is None or isinstance(drawing, Photo):
        return ""
    word = next((word for word in library.bank if word.picture == picture), None)
    return inline.svg(drawing.shapes, drawing.box, word.alt if word and word.alt else picture)


def _not_shown(clip: Clip, library: Library) -> Sequence[str]:
    """Say that a photo of hers stays off the pages: who has the link can see them."""
    picture = _picture_name(clip, library) if clip.word else ""
    if picture and isinstance(library.drawing(picture, Ink.COLOUR), Photo):
        return (f"Your photo of {clip.word} is not put on its page: a page can be seen by all who have its link.",)
    return ()


def _credit(picture: str, library: Library) -> str:
    if not (library.open and picture and library.is_open(picture)):
        return ""
    found = library.open
    return f"Picture: {found.name} ({found.site}), {found.licence}, {found.terms}"
