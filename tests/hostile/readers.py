"""Hostile files for every reader, called as the commands call it."""

import os
import socket
from collections.abc import Callable
from contextlib import suppress
from functools import cache
from pathlib import Path
from random import Random

from cardgen import ask
from cardgen.cli import load
from cardgen.cli.lesson import from_file
from cardgen.errors import TeacherError
from cardgen.paper.embedding import check_own
from cardgen.paper.fonts import Fonts
from cardgen.recipes.lesson import CONTENTS, own_files
from cardgen.request import Ink
from cardgen.sources import clip_files, clip_report, codes, layouts, own_folder, own_pictures, own_report
from cardgen.sources.clip_site import open_site
from cardgen.sources.clips import bare_copy, read_clip
from cardgen.sources.lesson_file import read_lesson
from cardgen.sources.link_list import read_links
from cardgen.sources.own_font import read_font
from cardgen.sources.own_pictures import open_own
from cardgen.sources.own_words import Known, words_from
from cardgen.words import links
from tests.hostile import corpus, mutate, nasty
from tests.hostile.watch import Trial
from tests.sources import own_samples

MANY = 10_000


@cache
def known() -> Known:
    """Return the few words by which own words are judged here."""
    return own_samples.known()


def lesson(rng: Random, folder: Path) -> Trial:
    """A lesson file: its tables alone, or every request it makes."""
    path = _text(corpus.LESSON, rng, folder / "week.toml")
    if rng.random() < 0.5:
        return Trial("lesson", _about(path), lambda: read_lesson(str(path)), (path.name,))
    params = load("lesson").make_context("lesson", [str(path)]).params
    options = {
        name: value for name, value in params.items() if name not in ("keys", "new", "dry_run", "quiet_warnings")
    }
    return Trial("lesson", _about(path), lambda: from_file((str(path),), options))


def layout(rng: Random, folder: Path) -> Trial:
    """A layout file, and how many pieces go on a sheet by it."""
    path = _text(rng.choice(corpus.LAYOUTS), rng, folder / "mine.toml")

    def call() -> None:
        layouts.find(str(path))
        with suppress(TeacherError):  # of what does not fit the paper: no fault of the file's form
            ask.layouts([str(path)])

    return Trial("layout", _about(path), call, (path.name,))


def words(rng: Random, folder: Path) -> Trial:
    """A teacher's list of words, alone or beside her pictures."""
    path = _text(corpus.WORDS, rng, folder / own_folder.WORD_LIST)
    if rng.random() < 0.7:
        with suppress(UnicodeDecodeError):
            text = path.read_bytes().decode("utf-8")
            return Trial("words", _about(path), lambda: words_from(text, known()), (path.name,))
    (folder / "moon.svg").write_text(corpus.SVG[0], "utf-8")
    return Trial("words", _about(path), lambda: open_own(str(folder), known()).bank, (path.name,))


def picture(rng: Random, folder: Path) -> Trial:
    """A damaged picture of pixels."""
    suffix = rng.choice((".png", ".png", ".jpg", ".webp"))
    path = folder / f"moon{suffix}"
    path.write_bytes(mutate.damaged(rng.choice(corpus.pictures()[suffix]), rng))
    return Trial("picture", _about(path), _read_picture(folder, rng), (path.name,))


def svg(rng: Random, folder: Path) -> Trial:
    """A damaged drawing."""
    path = folder / "moon.svg"
    data = rng.choice(corpus.SVG).encode()
    if rng.random() < 0.5:
        path.write_bytes(mutate.damaged(data, rng))
    else:
        text = data.decode()
        for _ in range(rng.choice((1, 2, 5))):  # other values of attributes, other data of paths
            parts = text.split('"')
            at = rng.randrange(len(parts))
            digits = "".join(rng.choice("0123456789.-") if letter.isdigit() else letter for letter in parts[at])
            others = (nasty.number(rng), nasty.text(rng), parts[at] * 2, parts[at] * 500)
            parts[at] = digits if rng.random() < 0.5 else rng.choice(others)
            text = '"'.join(parts)
        path.write_bytes(text.encode("utf-8", "surrogatepass"))
    return Trial("svg", _about(path), _read_picture(folder, rng), (path.name,))


def _read_picture(folder: Path, rng: Random) -> Callable[[], object]:
    ink, decode = rng.choice(list(Ink)), rng.random() < 0.5

    def call() -> None:
        opened = own_folder.open_folder(str(folder))
        own_pictures.measure(opened, opened.files[0], decode=decode)
        own_pictures.read(opened, opened.files[0], "moon", ink)

    return call


def recording(rng: Random, folder: Path) -> Trial:
    """A damaged recording, at times under the name of another kind."""
    suffix = rng.choice(sorted(corpus.recordings()))
    name = f"sn-m-moon{suffix if rng.random() < 0.8 else '.m4a'}"
    data = mutate.damaged(corpus.recordings()[suffix], rng)
    (folder / name).write_bytes(data)
    call: Callable[[], object] = lambda: read_clip(data, name)  # noqa: E731
    if rng.random() < 0.3:
        call = lambda: bare_copy(data, name)  # noqa: E731
    return Trial("recording", f"{name} {data[:40]!r}", call, (name,))


def link_table(rng: Random, folder: Path) -> Trial:
    """A table of links."""
    path = _text(corpus.LINKS, rng, folder / "links.csv")
    return Trial("links", _about(path), lambda: read_links(str(path)), (path.name,))


def address(rng: Random, _folder: Path) -> Trial:
    """An address, and the code that would be printed for it."""
    text = list(rng.choice(corpus.ADDRESSES))
    for _ in range(rng.choice((0, 1, 3))):
        at = rng.randrange(len(text))
        text[at : at + rng.choice((0, 1, 9))] = nasty.text(rng) if rng.random() < 0.5 else rng.choice(":/?#[]@%.-\\ ")
    typed = "".join(text) if rng.random() < 0.8 else nasty.text(rng)

    def call() -> None:
        codes.modules(links.check_address(typed))
        codes.modules(links.address_of(links.check_folder(typed), "sn-m-moon"))

    return Trial("address", repr(typed[:100]), call)


def font(rng: Random, folder: Path) -> Trial:
    """A damaged typeface, made ready to be put into a PDF."""
    path = folder / "mine.ttf"
    path.write_bytes(mutate.damaged(corpus.font(), rng))
    call = lambda: check_own(Fonts(corpus.font(), read_font(str(path))), path.name)  # noqa: E731
    return Trial("font", _about(path), call, (path.name,))


def older_run(rng: Random, folder: Path) -> Trial:
    """What an older lesson, or older listening pages, left in the folder."""
    if rng.random() < 0.5:
        path = folder / CONTENTS
        text = mutate.rewritten(corpus.CONTENTS.replace(", ", ",\n"), rng)
        path.write_bytes(mutate.damaged(text.encode("utf-8", "replace"), rng))
        return Trial("older run", _about(path), lambda: own_files(folder))
    (folder / "index.html").write_bytes(mutate.damaged(b"<!-- cardgen --><title>a</title>", rng))
    return Trial("older run", "pages", lambda: open_site(str(folder), "index.html", "<!-- cardgen", "/* cardgen"))


def odd_folder(rng: Random, folder: Path) -> Trial:
    """A folder of pictures or recordings with odd names and what is no file: links out, devices, pipes, folders."""
    sounds = rng.random() < 0.4
    suffix, data = (".wav", corpus.recordings()[".wav"]) if sounds else (".png", corpus.pictures()[".png"][0])
    inside, made = folder / "mine", []
    inside.mkdir()
    for _ in range(rng.randint(1, 6)):
        name = nasty.file_name(rng, suffix if rng.random() < 0.8 else suffix.upper())
        path = os.fsencode(inside) + b"/" + name
        if not os.path.lexists(path):
            made.append(_odd_entry(path, data, rng))
    if rng.random() < 0.2:
        _odd_entry(os.fsencode(inside / own_folder.WORD_LIST), b"[[word]]\nword = 'moon'\n", rng)

    def call() -> None:
        if sounds:
            list(clip_report.report(clip_files.open_clips(str(inside)), ("sn-m-moon",)))
        else:
            list(own_report.report(open_own(str(inside), known())))

    return Trial("folder", f"{'sounds' if sounds else 'pictures'}: {', '.join(made)}", call)


def _odd_entry(path: bytes, data: bytes, rng: Random) -> str:
    """Make an entry of a folder that is, more often than not, no file; return what it is."""
    match rng.randrange(12):
        case 0:
            os.symlink(b"../outside", path)  # noqa: PTH211
            return "link out"
        case 1:
            os.symlink(path, path)  # noqa: PTH211
            return "link to itself"
        case 2:
            os.symlink(b"/dev/zero", path)  # noqa: PTH211
            return "link to a device"
        case 3:
            os.mkfifo(path)
            return "pipe"
        case 4:
            os.mkdir(path)  # noqa: PTH102
            return "folder"
        case 5:
            os.symlink(b"nothing", path)  # noqa: PTH211
            return "link to nothing"
        case 6:
            if len(path) < 100:
                with socket.socket(socket.AF_UNIX) as door:
                    door.bind(path)
            return "socket"
        case 7:
            Path(os.fsdecode(path)).write_bytes(b"")
            return "empty file"
        case 8:
            with suppress(OSError):
                os.mknod(path, 0o20666, os.makedev(1, 5))  # /dev/zero; only root may
            return "device"
        case _:
            Path(os.fsdecode(path)).write_bytes(data)
            return "file"


def special_file(rng: Random, folder: Path) -> Trial:
    """A pipe, a device, a folder, a link to itself, much too long a file, where one with data is expected."""
    name, call = rng.choice(
        (
            ("week.toml", lambda path: read_lesson(path)),
            ("mine.toml", lambda path: layouts.find(path)),
            ("links.csv", lambda path: read_links(path)),
            ("mine.ttf", lambda path: read_font(path)),
            (CONTENTS, lambda path: own_files(Path(path).parent)),
        )
    )
    path = folder / name
    kind = rng.choice(("pipe", "device", "folder", "link", "large", "none", "zero byte"))
    match kind:
        case "pipe":
            os.mkfifo(path)
        case "device":
            path.symlink_to("/dev/zero")
        case "folder":
            path.mkdir()
        case "link":
            path.symlink_to(path)
        case "large":
            with path.open("wb") as file:
                file.truncate(1 << 40)
        case "zero byte":
            return Trial("special", f"{name}: NUL in its name", lambda: call(str(folder / f"a\0{name}")))
    return Trial("special", f"{name}: {kind}", lambda: call(str(path)), (name,))


def many(rng: Random, folder: Path) -> Trial:
    """Files with ten thousand entries, and folders of as many files."""
    numbers = range(MANY)
    kind = rng.choice(("words", "links", "lesson", "layout", "folder"))
    if kind == "folder":
        for number in numbers:
            (folder / f"{number}.png").touch()
        return Trial("many", kind, lambda: open_own(str(folder), known()))
    made: dict[str, tuple[str, str, Callable[[Path], object]]] = {
        "words": ("words.toml", "".join(f'[[word]]\nword = "mum{"a" * (n % 20)}"\n' for n in numbers),
                  lambda path: words_from(path.read_text(), known())),
        "links": ("links.csv", "".join(f"w{n},http://a.example/{n}\n" for n in numbers),
                  lambda path: read_links(str(path))),
        "lesson": ("week.toml", "".join(f"a{n} = {n}\n" for n in numbers), lambda path: read_lesson(str(path))),
        "layout": ("mine.toml", "".join(f"a{n}=1\n" for n in numbers), lambda path: layouts.find(str(path))),
    }  # fmt: skip
    name, text, call = made[kind]
    path = folder / name
    path.write_text(text)
    return Trial("many", kind, lambda: call(path))


def _text(text: str, rng: Random, path: Path) -> Path:
    """Write a text with changed lines, and at times with damaged bytes or in another encoding."""
    changed = mutate.rewritten(text, rng)
    data = changed.encode("utf-8", "surrogatepass")
    if rng.random() < 0.2:
        data = mutate.damaged(data, rng)
    elif rng.random() < 0.05:
        data = changed.encode(rng.choice(("utf-16", "cp1252", "utf-8-sig", "utf-7")), "replace")
    path.write_bytes(data)
    return path


def _about(path: Path) -> str:
    return f"{path.name} {path.read_bytes()[:60]!r}"


# How often each is tried, out of a hundred or so.
READERS: tuple[tuple[int, Callable[[Random, Path], Trial]], ...] = (
    (18, lesson), (12, layout), (12, words), (14, picture), (14, svg), (6, recording), (8, link_table), (10, address),
    (2, font), (3, older_run), (4, odd_folder), (3, special_file),
)  # fmt: skip
