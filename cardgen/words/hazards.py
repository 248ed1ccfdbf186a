"""What can stand between a word and a letter-sound: one small rule each, over spelling and phones.

Every rule answers for one reading of one word under one key, with a sentence for the teacher or None. The rules are
our own, from the ways in which first sounds mislead beginning readers; common practice, no source, unless said.
"""

import re
from collections.abc import Callable

from cardgen.words.case import Case, Fit, Reason, Rule
from cardgen.words.first_sound import BREAK, is_murmured
from cardgen.words.sounds import SCHWA, Phones, is_vowel

Check = Callable[[Case], Reason | None]

# A first letter that may be silent, and a second letter that may belong to the first sound: its spelling, that sound,
# and the phones that the second letter would have if it were said (swan says its w, sword does not).
SILENT_FIRST = ("kn", "gn", "wr", "ps", "pt", "pn", "mn", "ts", "h")
SILENT_SECOND = {
    "rh": ("R", ()),
    "sc": ("S", ("K",)),
    "sw": ("S", ("W",)),
    "gh": ("G", ()),
    "gu": ("G", ("W",)),
    "tw": ("T", ("W",)),
}
# Spellings of one sound by two letters: the first letter alone is not what is heard.
DIGRAPHS = ("sh", "ch", "th", "wh", "ph", "qu")
LETTER_NAMES = {
    name: tuple(phones.split())
    for name, phones in {
        "a": "EY", "b": "B IY", "c": "S IY", "d": "D IY", "e": "IY", "f": "EH F", "g": "JH IY", "h": "EY CH",
        "i": "AY", "j": "JH EY", "k": "K EY", "l": "EH L", "m": "EH M", "n": "EH N", "o": "OW", "p": "P IY",
        "q": "K Y UW", "r": "AA R", "s": "EH S", "t": "T IY", "u": "Y UW", "v": "V IY", "x": "EH K S", "y": "W AY",
        "z": "Z IY",
    }.items()
}  # fmt: skip


# --- the sound and its letter ----------------------------------------------------------------------------------------
def other_sound(case: Case) -> Reason | None:
    """Flag a word that does not begin (or end) with the sound at all."""
    if case.is_heard or _is_qu_under_k(case):
        return None
    if case.sound.end:
        return Reason(Rule.OTHER_SOUND, Fit.WRONG, f"{case.word} does not end with the sound of {case.sound.key}.")
    heard = case.sounds.first_sound(case.phones)
    return Reason(Rule.OTHER_SOUND, Fit.WRONG, f"{case.word} begins with the sound of {heard}, not {case.sound.key}.")


def letter_mismatch(case: Case) -> Reason | None:
    """Flag a sound that is there but not spelled with the key's letter: phone for f, giraffe for j, onion for u."""
    if not case.is_heard or is_spelled(case) or _is_qu_under_k(case):
        return None
    where = "ends" if case.sound.end else "begins"
    text = f"{case.word} {where} with the sound of {case.sound.key}, but it is spelled otherwise."
    return Reason(Rule.LETTER_MISMATCH, Fit.WRONG, text)


def is_spelled(case: Case) -> bool:
    """Return whether the word is written with the key's letters where its sound is heard (wh words count for w)."""
    if case.sound.end:
        return case.written.endswith(case.sound.spellings)
    pair = case.written[:2]
    if pair in DIGRAPHS:
        return pair in case.sound.spellings or (pair == "wh" and case.sound.key == "w")
    return case.written.startswith(case.sound.spellings)


def silent_first(case: Case) -> Reason | None:
    """Flag a first letter that is not heard: knee, gnome, wrist, psalm, hour."""
    if case.sound.end or not case.written.startswith(SILENT_FIRST):
        return None
    if case.sounds.get(case.written[0]).is_heard_in(case.phones):
        return None
    return Reason(Rule.SILENT_FIRST, Fit.WRONG, f"The {case.written[0]} of {case.word} is silent.")


def silent_second(case: Case) -> Reason | None:
    """Flag a second letter that belongs to the first sound: scissors, sword, ghost, guitar, rhino, two."""
    phone, said = SILENT_SECOND.get(case.written[:2], ("", ()))
    if case.sound.end or case.first != phone or case.second in said:
        return None
    if case.written.startswith("gu") and case.written[2:3] not in tuple("aeiouy"):
        return None  # gum: here u is the vowel itself
    return Reason(
        Rule.SILENT_SECOND, Fit.CAUTION, f"{case.word} is spelled with {case.written[:2]}, a silent second letter."
    )


def x_at_the_start(case: Case) -> Reason | None:
    """Flag a word that begins with the letter x: xylophone says z, x-ray says the letter's name."""
    if case.sound.key != "x" or case.is_heard or not case.word.lower().startswith("x"):
        return None
    return Reason(
        Rule.X, Fit.WRONG, "x is taught at the end of words (fox, box); at the start it is z or its own name."
    )


def qu_as_k(case: Case) -> Reason | None:
    """Flag a qu word under c or k: it begins with that sound, but its letters are qu."""
    if not _is_qu_under_k(case):
        return None
    return Reason(Rule.QU, Fit.CAUTION, f"{case.word} belongs to qu, which is taught as one; q never stands alone.")


def _is_qu_under_k(case: Case) -> bool:
    return case.heard[:2] == ("K", "W") and case.written.startswith("qu") and case.sound.key in ("c", "k")


def wh_digraph(case: Case) -> Reason | None:
    """Flag a word spelled with wh: two letters, and some speakers blow an h first."""
    said = case.first == "W" or case.heard[:2] == ("HH", "W")
    if case.sound.end or not said or not case.written.startswith("wh"):
        return None
    return Reason(Rule.WH, Fit.CAUTION, f"{case.word} is spelled with wh, and some people say it with an h in front.")


def voiced_th(case: Case) -> Reason | None:
    """Flag a word that begins with the th of this: nothing to draw."""
    if case.sound.key != "th" or case.first != "DH":
        return None
    return Reason(Rule.VOICED_TH, Fit.WRONG, f"The th of {case.word} has the voice on; no picture word begins with it.")


# --- vowels ----------------------------------------------------------------------------------------------------------
def long_vowel(case: Case) -> Reason | None:
    """Flag a long vowel under a short vowel's key: ice, apron, ocean, unicorn."""
    name = case.sounds.first_sound(case.phones)
    if not case.sound.is_short_vowel or not name.startswith("long-"):
        return None
    return Reason(Rule.LONG_VOWEL, Fit.WRONG, f"{case.word} begins with a long vowel: it belongs to {name}.")


def y_glide(case: Case) -> Reason | None:
    """Flag a vowel letter that begins with y's sound: unicorn, Europe, ewe."""
    if case.sound.key not in ("u", "e") or case.first != "Y" or case.second not in ("UW", "UH"):
        return None
    return Reason(Rule.Y_GLIDE, Fit.WRONG, f"{case.word} begins with y and a long oo.")


def diphthong(case: Case) -> Reason | None:
    """Flag ow or oy under short o: owl, oil."""
    if case.sound.key != "o" or case.first not in ("AW", "OY"):
        return None
    name = case.sounds.first_sound(case.phones)
    return Reason(Rule.DIPHTHONG, Fit.WRONG, f"{case.word} begins with {name}, not with short o.")


def vowel_with_r(case: Case) -> Reason | None:
    """Flag a vowel with r under a vowel's letter: orange, ear, arm; it fits only its own r-key."""
    with_r = case.first == "ER" or (case.begins_with_vowel and case.second == "R")
    if case.sound.end or not with_r or case.sound.has_r:
        return None
    return Reason(Rule.R_COLOUR, Fit.WRONG, f"The r after the first vowel of {case.word} makes it another sound.")


def murmured(case: Case) -> Reason | None:
    """Flag an unstressed first vowel: about, eraser, antenna; a caution where a person chose the reading."""
    if case.sound.end or not is_murmured(case.phones):
        return None
    weight = Fit.CAUTION if case.curated else Fit.WRONG
    return Reason(Rule.SCHWA, weight, f"The first vowel of {case.word} is unstressed and hard to hear.")


def second_stress(case: Case) -> Reason | None:
    """Flag a first vowel with the lesser stress: avocado."""
    if case.sound.end or not case.phones[0].endswith("2"):
        return None
    return Reason(Rule.SECOND_STRESS, Fit.GOOD, f"{case.word} is stressed more strongly later in the word.")


def before_ng(case: Case) -> Reason | None:
    """Flag a, i or e before ng: ink, ankle, anchor."""
    if case.first not in ("AE", "IH", "EH") or case.second != "NG":
        return None
    return Reason(Rule.NG_RAISE, Fit.CAUTION, f"The ng sound shifts the first vowel of {case.word} in many accents.")


def before_nasal(case: Case) -> Reason | None:
    """Flag a or e before n or m: ant, ambulance, envelope."""
    if case.first not in ("AE", "EH") or case.second not in ("N", "M"):
        return None
    return Reason(
        Rule.NASAL, Fit.CAUTION, f"The {case.second.lower()} shifts the first vowel of {case.word} in many accents."
    )


def before_g(case: Case) -> Reason | None:
    """Flag e or a before g: egg, exit."""
    if case.first not in ("AE", "EH") or case.second != "G":
        return None
    return Reason(Rule.EG_RAISE, Fit.CAUTION, f"Some people say {case.word} as if it began with long a.")


def o_or_aw(case: Case) -> Reason | None:
    """Flag a word under short o that many Americans begin with aw: ostrich, off."""
    if case.sound.key != "o" or case.first != "AO" or case.second == "R":
        return None
    return Reason(Rule.COT_CAUGHT, Fit.CAUTION, f"Many people begin {case.word} with aw, not with short o.")


def triphthong(case: Case) -> Reason | None:
    """Flag a gliding vowel that runs into another: iron, hour."""
    if case.sound.end or case.first not in ("AY", "AW", "OY") or case.second not in ("ER", "AH", SCHWA):
        return None
    return Reason(Rule.TRIPHTHONG, Fit.CAUTION, f"The first vowel of {case.word} runs into the next one.")


def before_l(case: Case) -> Reason | None:
    """Flag a vowel before a final l or l and consonant: elf, elbow, owl."""
    third_is_vowel = len(case.phones) > 2 and is_vowel(case.phones[2])
    if case.sound.end or not case.begins_with_vowel or case.second != "L" or third_is_vowel:
        return None
    return Reason(Rule.DARK_L, Fit.GOOD, f"The l darkens the first vowel of {case.word}.")


# --- consonants ------------------------------------------------------------------------------------------------------
def affricated(case: Case) -> Reason | None:
    """Flag tr, dr, str (and British tube): heard as ch or j by many children."""
    onset = " ".join(case.onset)
    if case.sound.end or not onset.startswith(("T R", "D R", "S T R", "T Y", "D Y")):
        return None
    like = "j" if case.onset[0] == "D" else "ch"
    return Reason(
        Rule.AFFRICATED, Fit.CAUTION, f"Many children hear {like} at the start of {case.word}: not for first lessons."
    )


def blend(case: Case) -> Reason | None:
    """Flag two or three consonants together: snake, grapes, three; for later lessons."""
    onset = case.onset
    taught_as_one = onset[:2] in (("K", "W"), ("HH", "W")) or onset[1:2] == ("Y",)
    if case.sound.end or len(onset) < 2 or taught_as_one:
        return None
    return Reason(
        Rule.BLEND, Fit.CAUTION, f"{case.word} begins with a blend, {_letters_of(onset, case)}: for later lessons."
    )


def _letters_of(onset: Phones, case: Case) -> str:
    """Return the consonant letters that begin the word."""
    found = re.match(r"[^aeiouy]+", case.written)
    return found[0] if found else "-".join(onset).lower()


def letter_name(case: Case) -> Reason | None:
    """Flag a word that begins with the name of another letter: elephant (l), seal (c), jeep (g)."""
    if case.sound.end:
        return None
    heard = case.heard
    for name, phones in LETTER_NAMES.items():
        if name not in case.sound.letter and heard[: len(phones)] == phones:
            text = f"{case.word} begins like the name of the letter {name}: a child may write that."
            return Reason(Rule.LETTER_NAME, Fit.GOOD, text)
    return None


def accent_shift(case: Case) -> Reason | None:
    """Flag r between two vowels: orange begins with or in American English, with short o in British English."""
    before_vowel = len(case.phones) > 2 and is_vowel(case.phones[2])
    american = case.first == "AO" and case.second == "R" and before_vowel
    british = case.second == BREAK
    if case.sound.end or not (american or british):
        return None
    text = f"{case.word} begins with a short vowel in British English, with a vowel and r in American English."
    return Reason(Rule.ACCENT, Fit.CAUTION, text)


def long_word(case: Case) -> Reason | None:
    """Flag four syllables or more: alligator, thermometer."""
    vowels = sum(map(is_vowel, case.phones))
    if vowels < 4:
        return None
    return Reason(Rule.LONG_WORD, Fit.GOOD, f"{case.word} is a long word: {vowels} syllables.")


CHECKS: tuple[Check, ...] = (
    other_sound, letter_mismatch, silent_first, silent_second, x_at_the_start, qu_as_k, wh_digraph, voiced_th,
    long_vowel, y_glide, diphthong, vowel_with_r, murmured, second_stress, before_ng, before_nasal, before_g, o_or_aw,
    triphthong, before_l, affricated, blend, letter_name, accent_shift, long_word,
)  # fmt: skip


def reasons_for(case: Case, *, any_spelling: bool = False) -> tuple[Reason, ...]:
    """Return every reason against (or worth saying about) one reading of a word under one key.

    `any_spelling` leaves the letter out of it, for games by ear alone: giraffe is then a word for j.
    """
    checks = [check for check in CHECKS if not (any_spelling and check in (letter_mismatch, qu_as_k))]
    found = [reason for check in checks if (reason := check(case)) is not None]
    wrong = [reason for reason in found if reason.weight is Fit.WRONG]
    # That it is another sound goes without saying where a rule says why.
    return tuple(reason for reason in found if len(wrong) == 1 or reason.rule is not Rule.OTHER_SOUND)
