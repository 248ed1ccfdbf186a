"""The verdict on a word for a letter-sound: good, caution or wrong, with the reasons in a teacher's words."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from cardgen.request import Accent
from cardgen.words.bank import Bank, Name, Remark, Word
from cardgen.words.case import Case, Fit, Reason, Rule
from cardgen.words.first_sound import (
    Dictionary,
    Pronunciation,
    first_sounds,
    in_bank,
    own_key,
    parts,
    pronounce,
    pronounce_known,
)
from cardgen.words.hazards import reasons_for
from cardgen.words.sounds import Phones, Sound, SoundTable

WEIGHT = {Fit.GOOD: 0, Fit.CAUTION: 1, Fit.WRONG: 2}


@dataclass(frozen=True, slots=True)
class Verdict:
    """How well a word suits a key.

    `first_sound` names the sound the word begins with, `readings` are all ways it may be said, `findings` what the
    rules found, the weightiest first; those lighter than the verdict are remarks.
    """

    word: str
    key: str
    verdict: Fit
    first_sound: str
    readings: tuple[Phones, ...]
    findings: tuple[Reason, ...]

    @property
    def reasons(self) -> tuple[str, ...]:
        """What was found in sentences for the teacher, each once; of a wrong word only what makes it wrong."""
        return self.cautions if self.verdict is Fit.WRONG else _sentences(self.findings)

    @property
    def cautions(self) -> tuple[str, ...]:
        """The sentences that carry a verdict of caution or wrong; empty for a good word."""
        return () if self.verdict is Fit.GOOD else _sentences(r for r in self.findings if r.weight is self.verdict)


def _sentences(findings: Iterable[Reason]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(finding.text for finding in findings))


def judge(
    word: str,
    key: str | None,
    bank: Bank,
    sounds: SoundTable,
    dictionary: Dictionary,
    accent: Accent = Accent.US,
    *,
    any_spelling: bool = False,
) -> Verdict | None:
    """Return the verdict on any word for a key (None: the key of its own first letters).

    `any_spelling` leaves the letter out of it (giraffe for j). None when neither bank nor dictionary know the word,
    or no key is written with its first letter. TeacherError for an unknown key.
    """
    wanted = sounds.get(key) if key is not None else None
    at_end = wanted is not None and wanted.end
    said = pronounce(word, bank, dictionary, accent, at_end=at_end)
    if said is None:
        return None
    sound = wanted or own_key(word, sounds, said.readings)
    if sound is None:
        return None
    return _verdict(word, said, in_bank(word, bank), sound, sounds, accent, any_spelling=any_spelling)


def judge_known(
    word: Word, sound: Sound, sounds: SoundTable, accent: Accent = Accent.US, *, any_spelling: bool = False
) -> Verdict:
    """Return the verdict on a word of the bank for a sound; needs no dictionary."""
    said = pronounce_known(word, accent)
    return _verdict(word.word, said, word, sound, sounds, accent, any_spelling=any_spelling)


def _verdict(
    word: str,
    said: Pronunciation,
    record: Word | None,
    sound: Sound,
    sounds: SoundTable,
    accent: Accent,
    *,
    any_spelling: bool,
) -> Verdict:
    name = " ".join(word.split())
    written = parts(name)[-1 if sound.end else 0]
    judged = [
        reasons_for(Case(name, written, phones, sound, sounds, said.is_curated), any_spelling=any_spelling)
        for phones in said.readings
    ]
    fit = _common_fit([_heaviest(reasons) for reasons in judged])
    found = _variants(name, said, sounds, fit) + [_capped(reason, fit) for reasons in judged for reason in reasons]
    if record is not None:
        found += _curated(record, sound, accent)
    elif said.reason:
        found.append(Reason(Rule.CURATED, Fit.GOOD, said.reason))
    fit = max(fit, _heaviest(tuple(found)), key=WEIGHT.__getitem__)
    return Verdict(name, sound.key, fit, _first_sound(said, sound, sounds), said.readings, _in_order(found))


def _first_sound(said: Pronunciation, sound: Sound, sounds: SoundTable) -> str:
    """Return the name of the first sound: the key's own where it is heard, else that of the first reading."""
    if not sound.end and any(map(sound.is_heard_in, said.readings)):
        return sounds.first_sound(sound.phones[0])
    return sounds.first_sound(said.readings[0])


def _heaviest(reasons: tuple[Reason, ...]) -> Fit:
    return max((reason.weight for reason in reasons), key=WEIGHT.__getitem__, default=Fit.GOOD)


def _common_fit(fits: list[Fit]) -> Fit:
    """Return what all readings agree on, else caution: never silently the first reading."""
    return fits[0] if len(set(fits)) == 1 else Fit.CAUTION


def _variants(name: str, said: Pronunciation, sounds: SoundTable, fit: Fit) -> list[Reason]:
    firsts = list(first_sounds(said, sounds))
    if len(firsts) < 2:
        return []
    text = f"{name} is said in more than one way, beginning with {_or(firsts)}: go by your own accent."
    return [Reason(Rule.VARIANTS, fit if fit is Fit.WRONG else Fit.CAUTION, text)]


def _capped(reason: Reason, fit: Fit) -> Reason:
    """Return the reason with no more weight than all readings together give it."""
    return replace(reason, weight=fit) if WEIGHT[reason.weight] > WEIGHT[fit] else reason


def _curated(word: Word, sound: Sound, accent: Accent) -> list[Reason]:
    """Return what the bank says of a word: other names that begin otherwise, cautions, notes, why it is overruled."""
    found = []
    strong = _misleading(word.strong_names(accent), sound)
    if strong:
        text = f"Children may well say {_or(strong)} for {word.word}."
        found.append(Reason(Rule.OTHER_NAME, Fit.CAUTION, text, tuple(strong)))
    weak = _misleading(word.weak_names(accent), sound)
    if weak:
        text = f"Some children say {_or(weak)} for {word.word}."
        found.append(Reason(Rule.OTHER_NAME, Fit.GOOD, text, tuple(weak)))
    found += [Reason(Rule.CURATED, Fit.CAUTION, text) for text in _texts(word.cautions, accent)]
    found += [Reason(Rule.CURATED, Fit.GOOD, text) for text in _texts(word.notes, accent)]
    if word.reason:
        found.append(Reason(Rule.CURATED, Fit.GOOD, word.reason))
    return found


def _misleading(names: tuple[Name, ...], sound: Sound) -> list[str]:
    """Return the names that do not begin with the sound; for an end sound every other name misleads."""
    return [name.text for name in names if sound.end or not sound.is_heard_in(name.phones)]


def _texts(remarks: tuple[Remark, ...], accent: Accent) -> list[str]:
    return [remark.text for remark in remarks if remark.accent in (None, accent)]


def _or(names: list[str]) -> str:
    return " or ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else names[0]


def _in_order(reasons: list[Reason]) -> tuple[Reason, ...]:
    """Return the reasons, each once, the weightiest first."""
    return tuple(sorted(dict.fromkeys(reasons), key=lambda reason: -WEIGHT[reason.weight]))
