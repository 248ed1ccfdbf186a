"""The bank against two outside judges of how words are said: CMUdict and espeak-ng.

Neither is infallible; every word on which they disagree with the bank stands in a table with the reason.
"""

import re
import subprocess
from collections.abc import Sequence

import pytest

from cardgen.request import Accent
from cardgen.sources import bank_file, dictionary, shelf
from cardgen.words.first_sound import parts, pronounce_known
from cardgen.words.sounds import Phones, plain

SOUNDS = bank_file.read_sounds()
BANK = bank_file.read_bank()
VOICES = {Accent.US: "en-us", Accent.GB: "en-gb"}

# IPA as espeak-ng writes it, longest first, and the ARPABET it stands for.
IPA = {
    "tʃ": "CH", "dʒ": "JH", "aɪ": "AY", "aʊ": "AW", "ɔɪ": "OY", "eɪ": "EY", "oʊ": "OW", "əʊ": "OW", "iː": "IY",
    "uː": "UW", "ɑː": "AA", "ɔː": "AO", "oː": "AO", "ɜː": "ER", "eə": "EH", "iə": "IH", "ɪə": "IH", "æ": "AE",
    "a": "AE", "ɛ": "EH", "ɪ": "IH", "i": "IH", "ɒ": "AA", "ɑ": "AA", "ɔ": "AO", "ʌ": "AH", "ə": "AH0",
    "ɐ": "AH0", "ʊ": "UH", "ɚ": "ER", "θ": "TH", "ð": "DH", "ʃ": "SH", "ʒ": "ZH", "ŋ": "NG", "ɹ": "R", "j": "Y",
    "ɡ": "G", "h": "HH", "w": "W", "b": "B", "d": "D", "f": "F", "k": "K", "l": "L", "m": "M", "n": "N",
    "p": "P", "s": "S", "t": "T", "v": "V", "z": "Z",
}  # fmt: skip
FIRST_IPA = re.compile("|".join(sorted(IPA, key=len, reverse=True)))

# Words whose first sound the synthesiser says otherwise, and why the bank stands.
ESPEAK_DISAGREES: dict[tuple[str, Accent], str] = {
    ("envelope", Accent.US): "both onvelope and envelope are said; the dictionary has the second, as spelled",
    ("oboe", Accent.US): "the synthesiser's mistake: every dictionary has long o",
    ("oboe", Accent.GB): "the synthesiser's mistake: every dictionary has long o",
    ("on", Accent.US): "o or aw, by accent: the dictionary has both, and the bank tells it as a caution",
    ("ostrich", Accent.US): "o or aw, by accent: the bank has the dictionary's aw, and the rules make it a caution",
}
# Words whose first sound no reading of the dictionary begins with, and why the bank stands.
CMU_DISAGREES = {
    "awning": "the merged vowel only: taught with aw, as it is spelled; the bank says why it stands",
    "iguana": "long i only: taught with short i; the bank says why it stands",
}
# Words that the dictionary does not know: here, too, the synthesiser alone is asked.
WORDS_NOT_IN_CMU = {"inchworm", "omelette", "toucan"}
# Other names that the dictionary does not know: here the synthesiser alone is asked.
NOT_IN_CMU = {
    "aeroplane", "beetroot", "cockerel", "courgette", "dungarees", "nought", "serviette", "settee", "spaceman",
    "sweetcorn", "toadstool",
}  # fmt: skip
# Words of which the dictionary has readings with other first sounds beside the bank's.
CMU_HAS_MORE = {
    "on": "aw as well, which the bank tells as a caution",
    "engine": "short i as well, which the bank tells as a caution",
    "umbrella": "a weak first vowel, listed first; the bank says why it stands",
}


def spoken(words: Sequence[str], accent: Accent) -> list[str]:
    """The words in IPA, without stress marks, by espeak-ng (Debian package espeak-ng)."""
    command = ["espeak-ng", "-q", "--ipa", "-v", VOICES[accent]]
    try:
        done = subprocess.run(command, input="\n\n".join(words), capture_output=True, text=True, check=True)
    except FileNotFoundError:
        pytest.fail("espeak-ng is missing: apt-get install espeak-ng")
    lines = [re.sub("[ˈˌ]", "", line).strip() for line in done.stdout.splitlines() if line.strip()]
    assert len(lines) == len(words)
    return lines


def first_phone(ipa: str) -> str:
    found = FIRST_IPA.match(ipa)
    assert found, f"no sound is known for {ipa}"
    return IPA[found[0]]


@pytest.mark.parametrize("accent", list(Accent))
def test_espeak_begins_every_word_of_the_bank_with_the_same_sound(accent: Accent) -> None:
    heard = spoken([word.word for word in BANK], accent)
    different = {
        (word.word, accent): ipa
        for word, ipa in zip(BANK, heard, strict=True)
        if first_phone(ipa) != plain(pronounce_known(word, accent).readings[0])[0]
    }
    expected = {key for key in ESPEAK_DISAGREES if key[1] is accent}
    assert set(different) == expected, different


def test_espeak_ends_the_words_of_the_end_sounds_with_them() -> None:
    ends = {"x": "ks", "ng": "ŋ"}
    for key, ending in ends.items():
        words = [word.word for word in BANK.words_for(key)]
        for accent in Accent:
            assert all(ipa.endswith(ending) for ipa in spoken(words, accent)) if words else True


def dictionary_first(name: str) -> list[str]:
    readings = dictionary.readings(name) or dictionary.readings(parts(name)[0])
    assert readings, f"{name} is not in the dictionary"
    return list(dict.fromkeys(SOUNDS.first_sound(phones) for phones in readings))


def test_cmudict_begins_every_word_of_the_bank_with_the_same_sound() -> None:
    other, more = {}, {}
    for word in BANK:
        if word.word in WORDS_NOT_IN_CMU:
            continue
        own, theirs = SOUNDS.first_sound(word.phones), dictionary_first(word.word)
        if own not in theirs:
            other[word.word] = theirs
        elif len(theirs) > 1:
            more[word.word] = theirs
    assert set(other) == set(CMU_DISAGREES), other
    assert set(more) == set(CMU_HAS_MORE), more


def test_cmudict_has_the_banks_phones() -> None:
    """The whole reading, not only its first sound; the override says its own."""
    for word in BANK:
        readings = dictionary.readings(word.word)
        if readings and not word.reason:
            assert word.phones in readings, word.word


def test_other_names_begin_as_the_bank_says() -> None:
    tables = shelf.read_toml(bank_file.WORDS_FILE)
    for first, names in tables["names"].items():
        phones: Phones = tuple(first.split())
        for name in bank_file.listed("names", names):
            if name in NOT_IN_CMU:
                assert {first_phone(ipa) for accent in Accent for ipa in spoken([name], accent)} == {phones[0]}
            else:
                assert SOUNDS.first_sound(phones) in dictionary_first(name), name


def test_key_pictures_begin_with_their_sound() -> None:
    for sound in SOUNDS.sounds:
        if sound.key_picture and not sound.end:
            part = parts(sound.key_picture)[0]
            assert any(sound.is_heard_in(phones) for phones in dictionary.readings(part)), sound.key_picture
            assert part.startswith(sound.spellings), sound.key_picture
