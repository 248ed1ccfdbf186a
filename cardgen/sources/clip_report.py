"""What there is to say of every recording: whether it is there, can be heard, or tells too much."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.sources.clip_files import ClipFile, ClipFolder, twins
from cardgen.sources.clips import (
    CLIPPED_SHARE,
    LONGEST,
    LONGEST_FAMILY,
    M4A,
    OGG,
    QUIET_DB,
    SHORTEST,
    SILENT_DB,
    Clip,
    read_clip,
)
from cardgen.words.clip_names import FAMILY


class State(Enum):
    """How a recording stands: the first two are used as they are."""

    FINE = "fine"
    LOOK_OUT = "look out"
    MISSING = "missing"
    TWICE = "twice"
    UNREADABLE = "cannot be read"
    UNPLAYABLE = "not played everywhere"
    SILENT = "silent"
    SHORT = "too short"
    LONG = "too long"
    QUIET = "too quiet"
    CLIPPED = "too loud"

    @property
    def is_wrong(self) -> bool:
        """Whether there is something to mend."""
        return self not in (State.FINE, State.LOOK_OUT)


@dataclass(frozen=True, slots=True)
class ClipLine:
    """One recording: its file (empty if it is missing), the name it goes by, how it stands and why.

    `listed` tells that the list wants it. `clip` is what was read, None where nothing could be.
    """

    file: str
    name: str
    state: State
    text: str = ""
    listed: bool = False
    clip: Clip | None = None


def report(folder: ClipFolder, wanted: Sequence[str]) -> Iterator[ClipLine]:
    """Yield a line for every wanted name, in their order, then one for every other recording of the folder."""
    for name in wanted:
        files = folder.by_name.get(name, ())
        if not files:
            yield ClipLine("", name, State.MISSING, f"Record it, and call the file {name}.m4a.", listed=True)
        for file in files:
            yield _line(folder, file, listed=True)
    for file in folder.files:
        if file.stem not in wanted:
            yield _line(folder, file, listed=False)


def _line(folder: ClipFolder, file: ClipFile, *, listed: bool) -> ClipLine:
    try:
        clip = read_clip(folder.read(file), file.name)
    except TeacherError as error:
        return ClipLine(file.name, file.stem, State.UNREADABLE, f"{error.message} {error.hint}", listed)
    state, text = faults(clip, LONGEST_FAMILY if file.stem.startswith(f"{FAMILY}-") else LONGEST)
    same = folder.by_name[file.stem]
    if len(same) > 1:
        double = twins(same)
        state, text = State.TWICE, f"{double.message} {double.hint}"
    notes = list(_notes(file, clip))
    if notes and state is State.FINE:
        state = State.LOOK_OUT
    return ClipLine(file.name, file.stem, state, " ".join(filter(None, [text, *notes])), listed, clip)


def faults(clip: Clip, longest: float = LONGEST) -> tuple[State, str]:
    """Return the worst that is wrong with a recording, and what to do about it."""
    if not clip.is_playable:
        return (
            State.UNPLAYABLE,
            f"Not every browser plays {clip.codec} in {clip.kind.name}: save it as M4A (AAC) or MP3.",
        )
    if clip.seconds > longest:
        return (
            State.LONG,
            f"It lasts {clip.seconds:.0f} seconds: cut it, or record it again; {longest:.0f} are the most.",
        )
    if clip.loudest_db < SILENT_DB:
        return State.SILENT, "Nothing is to be heard: record it again."
    if clip.seconds < SHORTEST:
        return State.SHORT, f"It lasts {clip.seconds:.2f} seconds: record it again, with a moment before and after."
    if clip.clipped > CLIPPED_SHARE:
        return State.CLIPPED, "It was too loud for the microphone and crackles: hold the phone further away."
    if clip.loudest_db < QUIET_DB:
        return State.QUIET, "It is hard to hear: hold the phone nearer, a hand's width away."
    return State.FINE, ""


def _notes(file: ClipFile, clip: Clip) -> Iterator[str]:
    """Yield what is not wrong, but good to know before the file is handed on."""
    if file.suffix != clip.kind.suffix and not _says_the_same(file.suffix, clip):
        yield f"It is called {file.suffix}, but is {clip.kind.name}: call it {file.path.stem}{clip.kind.suffix}."
    if file.path.stem != file.stem:
        yield f"Write its name in small letters, {file.stem}: a web space minds."
    if clip.kind is OGG:
        yield "Older iPhones do not play OGG; M4A and MP3 play everywhere."
    if clip.tags.places:
        yield f"Its tags tell a place ({', '.join(clip.tags.places)})."
    if clip.tags.names:
        yield f"Its tags may hold a name ({', '.join(clip.tags.names)})."


def _says_the_same(suffix: str, clip: Clip) -> bool:
    return (clip.kind is M4A and suffix == ".mp4") or (clip.kind is OGG and suffix in (".oga", ".opus"))
