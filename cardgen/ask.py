"""Questions that print no sheet: which sounds there are, which words suit them, what any word begins with."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.request import Accent, Paper
from cardgen.sheets.formats import pieces_on, size_on
from cardgen.sheets.layout import KINDS
from cardgen.sources import dictionary, own_report, pictures
from cardgen.sources import layouts as formats
from cardgen.sources.bank_file import read_bank, read_contrasts, read_sounds
from cardgen.sources.lesson_file import LessonTable, read_lesson
from cardgen.sources.own_pictures import open_own
from cardgen.sources.own_report import FileLine
from cardgen.sources.own_words import Known
from cardgen.words.bank import Word
from cardgen.words.case import Fit
from cardgen.words.cautions import Verdict, judge, judge_known
from cardgen.words.contrast import contrasts
from cardgen.words.key_pictures import key_pictures
from cardgen.words.set_rule import misleading_name
from cardgen.words.sounds import Sound, SoundTable

FEW = 6  # words; fewer make no game of their own (common practice, no source)


@dataclass(frozen=True, slots=True)
class SoundLine:
    """One letter-sound: how many picture words it has (`good` ones among them), and what stands in its way."""

    sound: Sound
    words: int
    good: int
    in_the_way: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WordLine:
    """One word of the bank under a key; `left_out` says why no game takes it, empty when games do."""

    word: str
    key: str
    picture: str | None
    verdict: Verdict
    is_key_picture: bool
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WordsAnswer:
    """The words for some keys, the sounds themselves, and what to look out for when they are taught together."""

    sounds: tuple[Sound, ...]
    words: tuple[WordLine, ...]
    look_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WordAnswer:
    """The answer about any word; `verdict` None when it is not known, and then `why` says so.

    `at_end` tells that the key is one heard at the end of words.
    """

    word: str
    key: str | None
    verdict: Verdict | None
    why: str = ""
    at_end: bool = False


def sounds(accent: Accent = Accent.US, keys: tuple[str, ...] = ()) -> tuple[SoundLine, ...]:
    """Return some letter-sounds, or without `keys` every one in the order of the table; TeacherError for an unknown."""
    table = read_sounds()
    chosen = table.several(keys) if keys else table.sounds
    return tuple(_sound_line(sound, table, accent) for sound in chosen)


def _sound_line(sound: Sound, table: SoundTable, accent: Accent) -> SoundLine:
    ready = [word for word in read_bank().words_for(sound.key) if _is_ready(word)]
    fits = [judge_known(word, sound, table, accent).verdict for word in ready]
    usable, good = sum(fit is not Fit.WRONG for fit in fits), fits.count(Fit.GOOD)
    return SoundLine(sound, usable, good, tuple(_obstacles(sound, table, usable, good)))


def _obstacles(sound: Sound, table: SoundTable, words: int, good: int) -> list[str]:
    alike = [other.key for other in table.sounds if other.name == sound.name and other.key != sound.key]
    written = [other.key for other in table.sounds if other.letter == sound.letter and other.key != sound.key]
    found = []
    if sound.end:
        found.append("at the end of words: a game of its own")
    if words < FEW:
        found.append("few picture words" if words else "no picture words yet")
    if words and not good:
        found.append("none without a caution")
    if alike:
        found.append(f"same sound as {', '.join(alike)}")
    if written:
        found.append(f"same letter as {', '.join(written)}")
    return found


def _is_ready(word: Word) -> bool:
    """Return whether games may take the word: its picture is there and shows a thing."""
    return word.picture is not None and not word.is_action and pictures.exists(word.picture)


def words(keys: Sequence[str], accent: Accent = Accent.US, *, home_language: str | None = None) -> WordsAnswer:
    """Return the words for some keys played together, with those that no game takes and the reason why.

    A first language adds what is hard for its speakers and may change key pictures. TeacherError for an unknown key or
    first language.
    """
    in_use = key_pictures(
        read_sounds(), tuple(keys), read_bank(), read_contrasts(), home_language, pictures.exists, accent
    )
    table = in_use.sounds
    chosen = table.several(tuple(keys))
    lines = [line for sound in chosen for line in _word_lines(sound, chosen, table, accent)]
    close = contrasts(table, read_contrasts(), tuple(keys), home_language)
    return WordsAnswer(chosen, tuple(lines), (*(contrast.text for contrast in close), *in_use.notes))


def _word_lines(sound: Sound, game: tuple[Sound, ...], table: SoundTable, accent: Accent) -> list[WordLine]:
    """Return the words that serve a key, and those that only look as if they did."""
    lines = []
    for word in read_bank():
        spelled = word.word.endswith(sound.spellings) if sound.end else word.word.startswith(sound.spellings)
        serves = sound.key in word.keys
        if not (serves or spelled):
            continue
        verdict = judge_known(word, sound, table, accent)
        if not serves and verdict.verdict is not Fit.WRONG:
            continue
        why = _why_left_out(word, sound, game, verdict, accent)
        is_key_picture = word.word == sound.key_picture
        lines.append(WordLine(word.word, sound.key, word.picture, verdict, is_key_picture, tuple(why)))
    return sorted(lines, key=lambda line: (bool(line.left_out), line.verdict.verdict is not Fit.GOOD))


def _why_left_out(word: Word, sound: Sound, game: tuple[Sound, ...], verdict: Verdict, accent: Accent) -> list[str]:
    if verdict.verdict is Fit.WRONG:
        return list(verdict.cautions)
    found = []
    if word.is_action:
        found.append(f"It shows something being done: ask “{word.cue}” and show it yourself.")
    elif not _is_ready(word):
        found.append("There is no picture of it yet.")
    misleading = misleading_name(word, sound, game, accent)
    if misleading:
        name, other = misleading
        found.append(f"A child may say {name.text}, which begins with the sound of {other.key}.")
    return found


def word(
    names: Sequence[str], key: str | None = None, accent: Accent = Accent.US, *, any_spelling: bool = False
) -> tuple[WordAnswer, ...]:
    """Return the first sound of any words and their verdict for a key (None: that of their own first letters).

    The dictionary is opened only for a word that is not in the bank. TeacherError for an unknown key.
    """
    table, bank = read_sounds(), read_bank()
    if key is not None:
        table.get(key)
    found = []
    for name in names:
        verdict = judge(name, key, bank, table, dictionary.readings, accent, any_spelling=any_spelling)
        why = "" if verdict else "It is in neither the bank nor the dictionary: check the spelling."
        at_end = verdict is not None and verdict.key in table and table.get(verdict.key).end
        found.append(WordAnswer(name, verdict.key if verdict else key, verdict, why, at_end))
    return tuple(found)


def own_pictures(folder: str, key: str | None = None, accent: Accent = Accent.US) -> tuple[FileLine, ...]:
    """Return how every file of a teacher's own folder stands, those of other sounds than `key` left out.

    TeacherError for a folder without pictures, a damaged list of words, an unknown key.
    """
    table = read_sounds()
    if key is not None:
        table.get(key)
    own = open_own(folder, Known(table, read_bank(), dictionary.readings, accent))
    return tuple(own_report.report(own, key))


@dataclass(frozen=True, slots=True)
class LayoutLine:
    """One format of cards or boards: the size of a piece, and how many go on a sheet of A4 and of Letter."""

    name: str
    kind: str
    size: str
    a4: int
    letter: int


def layouts(names: Sequence[str] = ()) -> list[LayoutLine]:
    """Return the formats of that name or file, or all of ours; TeacherError for one that is not there or damaged."""
    lines = []
    for name in names or formats.names():
        form = formats.find(name)
        kind = next(kind for kind, made in KINDS.items() if isinstance(form, made))
        sizes = dict.fromkeys(size_on(form, paper) for paper in Paper)
        lines.append(LayoutLine(form.name, kind, "; on Letter ".join(sizes), *(pieces_on(form, p) for p in Paper)))
    return lines


def lesson_file(path: str) -> tuple[LessonTable, ...]:
    """Return the tables of a lesson file, its head first; TeacherError naming file and line if it is none."""
    return read_lesson(path)


def empty_tables(names: Sequence[str]) -> tuple[LessonTable, ...]:
    """Return the tables of a lesson that asks for those sheets without any option of their own."""
    return tuple(LessonTable(name, 1, (), {}) for name in names)
