"""What there is to say of a teacher's own pictures: file by file, or what to look out for when they are printed."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing, Photo
from cardgen.sources.inks import inks
from cardgen.sources.own_folder import WORD_LIST, OwnFile, picture_name, twins
from cardgen.sources.own_pictures import OwnPictures, measure
from cardgen.sources.own_words import verdict_on
from cardgen.sources.photos import DPI, LEAST_PX, MOST_PX, sharp_mm
from cardgen.words.case import Fit
from cardgen.words.cautions import judge_known
from cardgen.words.first_sound import own_key
from cardgen.words.sounds import Sound


class State(Enum):
    """How a file stands: the first four are used."""

    FINE = "fine"
    SMALL = "too small"
    CAUTION = "caution"
    ACTION = "an action"
    TWICE = "two for one word"
    OTHER_SOUND = "another sound"
    UNKNOWN = "unknown word"
    NAMELESS = "named after no word"
    UNREADABLE = "cannot be read"
    NO_PICTURE = "no picture"

    @property
    def is_wrong(self) -> bool:
        """Whether there is something to mend before the picture can be used."""
        return self not in (State.FINE, State.SMALL, State.CAUTION, State.ACTION)


@dataclass(frozen=True, slots=True)
class FileLine:
    """One file: its word, the key it is used for, how it stands and why, and its size in pixels (None for an SVG)."""

    file: str
    word: str
    key: str | None
    state: State
    text: str = ""
    size_px: tuple[int, int] | None = None

    @property
    def sharp_mm(self) -> int | None:
        """The width in mm up to which it is printed sharp, 90 at most; None for an SVG, which always is."""
        return sharp_mm(min(max(self.size_px), MOST_PX)) if self.size_px else None


@dataclass(frozen=True, slots=True)
class _Finding:
    key: str | None
    state: State
    text: str = ""


def report(own: OwnPictures, key: str | None = None) -> Iterator[FileLine]:
    """Yield a line for every file, and for every word of the list without picture; `key` leaves out other sounds'."""
    sound = None if key is None else own.known.sounds.get(key)
    for file in own.folder.files:
        if sound is None or not file.word or _concerns(own, file, sound):
            yield _line(own, file, sound)
    for word in own.listed:
        if not (own.file(word.word) or own.known.bank.get(word.word)) and (key is None or key in word.keys):
            text = f"There is no file {word.picture}.png (or .jpg, .webp, .svg) in the folder."
            yield FileLine(WORD_LIST, word.word, word.keys[0], State.NO_PICTURE, text)


def _concerns(own: OwnPictures, file: OwnFile, sound: Sound) -> bool:
    record = own.records.get(file.picture)
    spelled = file.word.endswith(sound.spellings) if sound.end else file.word.startswith(sound.spellings)
    return spelled or (record is not None and sound.key in record.keys)


def _line(own: OwnPictures, file: OwnFile, sound: Sound | None) -> FileLine:
    try:
        size = measure(own.folder, file, decode=True)
    except TeacherError as error:
        return FileLine(file.name, file.word, None, State.UNREADABLE, f"{error.message} {error.hint}")
    found = _about(own, file, sound)
    state, text = found.state, found.text
    if size and max(size) < LEAST_PX and not state.is_wrong:
        text = f"{small(max(size))} {text}".strip()
        state = State.SMALL
    return FileLine(file.name, file.word, found.key, state, text, size)


def small(longer_side_px: int) -> str:
    """Return the sentence about a picture of too few pixels."""
    return f"It is {longer_side_px} pixels long: sharp up to {sharp_mm(longer_side_px)} mm ({DPI} dpi)."


def _about(own: OwnPictures, file: OwnFile, sound: Sound | None) -> _Finding:
    """Return what is to be said of a file's word: whom it stands for, or why it does not."""
    if not file.word:
        return _Finding(None, State.NAMELESS, "Name the file after its word, for example moon.png.")
    files = own.folder.by_picture[file.picture]
    if len(files) > 1:
        error = twins(files)
        return _Finding(None, State.TWICE, f"{error.message} {error.hint}")
    record, known = own.records.get(file.picture), own.known
    if record is None:
        return _unused(own, file.word, sound)
    wanted = sound or known.sounds.get(record.keys[0])
    verdict = judge_known(record, wanted, known.sounds, known.accent)
    if verdict.verdict is Fit.WRONG:
        return _Finding(wanted.key, State.OTHER_SOUND, " ".join(verdict.cautions))
    if wanted.key not in record.keys:
        return _Finding(wanted.key, State.OTHER_SOUND, f"{record.word} is used for {' and '.join(record.keys)}.")
    if record.is_action:
        return _Finding(wanted.key, State.ACTION, "Games take no picture of something being done.")
    state = State.FINE if verdict.verdict is Fit.GOOD else State.CAUTION
    return _Finding(wanted.key, state, " ".join(verdict.cautions))


def _unused(own: OwnPictures, word: str, sound: Sound | None) -> _Finding:
    """Return why a word in neither list is not used, and what to write into the list of words."""
    known = own.known
    verdict = verdict_on(word, sound.key if sound else None, known)
    if verdict is None:
        likely = own_key(word, known.sounds)
        return _Finding(
            None, State.UNKNOWN, f"No dictionary has it. {_entry(word, likely.key if likely else '…', True)}"
        )
    text = " ".join(verdict.cautions) if verdict.verdict is Fit.WRONG else "Its first letters stand for another sound."
    first = verdict.first_sound
    fitting = verdict_on(word, first, known) if first in known.sounds else None
    if fitting and fitting.verdict is not Fit.WRONG:
        text += f" To use it for {first}: {_entry(word, first, False)}"
    return _Finding(verdict.key, State.OTHER_SOUND, text)


def _entry(word: str, key: str, phones: bool) -> str:
    sounds = ' | phones = "M AH1 M" (for mum)' if phones else ""
    return f'write into {WORD_LIST}, a line each: [[word]] | word = "{word}" | keys = "{key}"{sounds}'


def look_out(
    own: OwnPictures, printed: Mapping[str, Drawing | Photo], keys: tuple[str, ...], ink: Ink
) -> Iterator[str]:
    """Yield what the teacher should know before these pictures are printed in a game with these keys.

    Pictures too small to be sharp, those that have no version in lines, files that cannot be used.
    """
    hers = {name: drawing for name, drawing in printed.items() if own.file(name)}
    for name, drawing in hers.items():
        file = own.file(name)
        if file and isinstance(drawing, Photo) and max(drawing.width_px, drawing.height_px) < LEAST_PX:
            yield f"{file.name} is too small. {small(max(drawing.width_px, drawing.height_px))}"
    if ink is Ink.LINE and (shaded := [name for name, drawing in hers.items() if _has_greys(drawing)]):
        greys = ", ".join(shaded)
        yield f"Your own pictures have no version in lines and are printed in greys: {greys}; --ink colour shows them."
    used = set(map(picture_name, printed))
    for file in own.folder.files:
        if file.word and file.picture not in used:
            yield from _left_out(own, file, keys)
    if nameless := [file.name for file in own.folder.files if not file.word]:
        more = f" and {len(nameless) - 1} more files are" if len(nameless) > 1 else " is"
        yield f"{nameless[0]}{more} named after no word and left out."


def _has_greys(drawing: Drawing | Photo) -> bool:
    if isinstance(drawing, Photo):
        return True
    plain = {None, "#000000", "#FFFFFF", inks().colours["ink"]}
    return any(colour not in plain for shape in drawing.shapes for colour in (shape.fill, shape.stroke))


def _left_out(own: OwnPictures, file: OwnFile, keys: tuple[str, ...]) -> Iterator[str]:
    """Yield why a file can never be used: it cannot be read, or its word only looks as if it belonged to the game."""
    try:
        measure(own.folder, file)
    except TeacherError as error:
        yield f"{error.message} It is left out. {error.hint}"
        return
    likely = own_key(file.word, own.known.sounds)
    if likely and likely.key in keys and (found := _about(own, file, None)).state.is_wrong:
        yield f"{file.name} is left out ({found.state.value}). {found.text}"
