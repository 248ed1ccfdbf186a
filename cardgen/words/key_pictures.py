"""Key pictures: the one picture that stands for a sound all year.

Each is fixed in the table of sounds. For learners with a given first language another one may serve better: when they
mix two sounds up, a bear may as well be a pear.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cardgen.request import Accent
from cardgen.words.bank import Bank, Word
from cardgen.words.case import Fit, Rule
from cardgen.words.cautions import judge_known
from cardgen.words.contrast import Contrasts, HomeNote, home_notes, home_sentence
from cardgen.words.set_rule import clash, labels, misleading_name, other_names
from cardgen.words.sounds import Phones, Sound, SoundTable, plain


@dataclass(frozen=True, slots=True)
class KeyPictures:
    """The key pictures of one game.

    `words` are pairs of a key and its word, drawn ones only; `sounds` is the table of sounds with these key pictures;
    `notes` tell the teacher which are not the usual ones and why.
    """

    sounds: SoundTable
    words: tuple[tuple[str, Word], ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Game:
    """What a key picture stands in: the sounds of the game, the other key pictures beside it, and whose English."""

    table: SoundTable
    sounds: tuple[Sound, ...]
    beside: tuple[Word, ...] = ()
    accent: Accent = Accent.US


def key_pictures(
    sounds: SoundTable,
    keys: tuple[str, ...],
    bank: Bank,
    known: Contrasts,
    home_language: str | None,
    drawable: Callable[[str], bool],
    accent: Accent = Accent.US,
) -> KeyPictures:
    """Return the key pictures of some sounds played together; TeacherError for an unknown key or first language."""
    chosen = sounds.several(keys)
    usual = {sound.key: word for sound in chosen if (word := bank.get(sound.key_picture or ""))}
    found: dict[str, Word] = {}
    notes = []
    for sound in chosen:
        beside = tuple(word for key, word in (usual | found).items() if key != sound.key)
        game = Game(sounds, chosen, beside, accent)
        word, note = key_picture(sound, bank, known, home_language, drawable, game)
        if word:
            found[sound.key] = word
        if note:
            notes.append(note)
    return KeyPictures(_with(sounds, found), tuple(found.items()), tuple(notes))


def _with(sounds: SoundTable, found: dict[str, Word]) -> SoundTable:
    own = tuple(
        replace(sound, key_picture=found[sound.key].word) if sound.key in found else sound for sound in sounds.sounds
    )
    return sounds if own == sounds.sounds else replace(sounds, sounds=own)


def key_picture(
    sound: Sound,
    bank: Bank,
    known: Contrasts,
    home_language: str | None,
    drawable: Callable[[str], bool],
    game: Game,
) -> tuple[Word | None, str]:
    """Return the key picture of a sound, None if it has none drawn, and a note where it is not the usual one.

    The usual one is passed over when speakers of the first language mix the sound up with another, and with that other
    sound it would be another word of the bank, or has that other sound in it too. Then the next good word of the sound
    takes its place: none that is mixed up in the same way or serves another sound; rather one of another group than the
    key pictures beside it, and without other names. Where there is none it stays, and the note says so. TeacherError
    for a first language without notes. Choosing by first language: our own rule, no source.
    """
    usual = bank.get(sound.key_picture or "")
    if sound.key_picture and not usual:
        return _in_its_place(sound, bank, drawable, game)
    if not usual or not _is_drawn(usual, drawable):
        return None, ""
    if home_language is None:
        return usual, ""
    hard = [note for note in home_notes(known, home_language) if len(note.keys) > 1 and sound.name in note.keys]
    said = {plain(word.phones): word.word for word in bank}
    mixed = _mixed_up(usual, sound, hard, said, game)
    if mixed is None:
        return usual, ""
    note, why = mixed
    others = [
        word
        for word in bank.words_for(sound.key)
        if _is_drawn(word, drawable)
        and is_good(word, sound, game.table, game.accent)
        and _goes_with(word, sound, game)
        and _mixed_up(word, sound, hard, said, game) is None
    ]
    instead = _best(others, game)
    if instead is None:
        text = f"Key picture for {sound.key}: {usual.word}, though {why}: no other good word of {sound.key} fits."
    else:
        text = f"Key picture for {sound.key}: {instead.word} instead of {usual.word}, for {why}."
    return instead or usual, f"{text} {home_sentence(note)}"


def _in_its_place(sound: Sound, bank: Bank, drawable: Callable[[str], bool], game: Game) -> tuple[Word | None, str]:
    """Return a key picture for a sound whose usual one she avoids, and a note; None where there is no other."""
    others = [
        word
        for word in bank.words_for(sound.key)
        if _is_drawn(word, drawable) and is_good(word, sound, game.table, game.accent) and _goes_with(word, sound, game)
    ]
    instead = _best(others, game)
    if instead is None:
        return None, f"There is no key picture for {sound.key} without {sound.key_picture}."
    return instead, f"Key picture for {sound.key}: {instead.word} instead of {sound.key_picture}."


def _best(words: Sequence[Word], game: Game) -> Word | None:
    """Return the word that is told apart best from the key pictures beside it: another group, no other names."""
    groups = {word.group for word in game.beside}
    return min(words, key=lambda word: (word.group in groups, bool(other_names(word, game.accent))), default=None)


def is_good(word: Word, sound: Sound, sounds: SoundTable, accent: Accent = Accent.US) -> bool:
    """Return whether a word may be a key picture: a thing, without a caution.

    That wh sounds like w to most people is no caution here: it is true of every word with wh.
    """
    findings = judge_known(word, sound, sounds, accent).findings
    cautions = {finding.rule for finding in findings if finding.weight is not Fit.GOOD}
    return not word.is_action and cautions <= ({Rule.WH} if sound.key == "wh" else set())


def _is_drawn(word: Word, drawable: Callable[[str], bool]) -> bool:
    return bool(word.picture and drawable(word.picture))


def _goes_with(word: Word, sound: Sound, game: Game) -> bool:
    """Return whether a word may take the usual one's place: free, and told apart from the key pictures beside it."""
    if any(word.word == other.key_picture for other in game.table.sounds):
        return False
    if misleading_name(word, sound, game.sounds, game.accent):
        return False
    own = labels(word, game.accent)
    return not any(clash(own, labels(other, game.accent)) for other in game.beside)


def _mixed_up(
    word: Word, sound: Sound, hard: Sequence[HomeNote], said: Mapping[Phones, str], game: Game
) -> tuple[HomeNote, str] | None:
    """Return the first note by which a word does not serve as key picture, and why; None if it serves.

    `said` are the words of the bank by how they sound.
    """
    for note in hard:
        partner = game.table.get(next(key for key in note.keys if key != sound.name))
        for phones in _swapped(word, sound, partner):
            if phones in said:
                return note, f"{word.word} may be taken for {said[phones]}"
        if _is_inside(partner, word):
            return note, f"{word.word} has the sound of {partner.key} in it too"
    return None


def _swapped(word: Word, sound: Sound, partner: Sound) -> Iterator[Phones]:
    """Yield how a word sounds with the other sound in the place of its own."""
    heard = plain(word.phones)
    for own in sound.phones:
        for other in partner.phones:
            if sound.end and heard[-len(own) :] == own:
                yield heard[: -len(own)] + other
            elif not sound.end and heard[: len(own)] == own:
                yield other + heard[len(own) :]


def _is_inside(partner: Sound, word: Word) -> bool:
    """Return whether a sound is heard anywhere in a word; er has r in it (ladder)."""
    heard = tuple(part for phone in plain(word.phones) for part in (("ER", "R") if phone == "ER" else (phone,)))
    return any(partner.is_heard_in(heard[place:]) for place in range(len(heard)))
