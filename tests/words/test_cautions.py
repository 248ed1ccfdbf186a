from collections.abc import Callable

import pronouncing
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.request import Accent
from cardgen.sources import bank_file, dictionary
from cardgen.words.bank import Bank
from cardgen.words.case import Fit, Rule
from cardgen.words.cautions import Verdict, judge, judge_known
from cardgen.words.sounds import Phones, SoundTable

Judge = Callable[..., Verdict]
WEIGHTS = {Fit.GOOD: 0, Fit.CAUTION: 1, Fit.WRONG: 2}


def test_the_verdict_names_everything(verdict: Judge) -> None:
    found = verdict("giraffe", "g")
    assert (found.word, found.key, found.verdict, found.first_sound) == ("giraffe", "g", Fit.WRONG, "j")
    assert found.readings == (("JH", "ER0", "AE1", "F"),)
    assert found.reasons == ("giraffe begins with the sound of j, not g.",)


def test_readings_that_disagree_are_a_caution_and_all_are_shown(verdict: Judge) -> None:
    found = verdict("herb", "h")
    assert found.verdict is Fit.CAUTION
    assert len(found.readings) == 2
    assert "er or h" in found.reasons[0]


def test_readings_that_are_all_wrong_stay_wrong(verdict: Judge) -> None:
    assert verdict("this", "t").verdict is Fit.WRONG


def test_a_likely_other_name_is_a_caution_an_unlikely_one_a_remark(verdict: Judge) -> None:
    mitten, mouse = verdict("mitten", "m"), verdict("mouse", "m")
    assert (mitten.verdict, mitten.cautions) == (Fit.CAUTION, ("Children may well say glove for mitten.",))
    assert (mouse.verdict, mouse.cautions) == (Fit.GOOD, ())
    assert "rat" in mouse.reasons[0]


def test_a_name_with_the_same_first_sound_does_not_matter(verdict: Judge) -> None:
    assert verdict("hippo", "h").verdict is Fit.GOOD


def test_names_and_cautions_go_by_the_accent(verdict: Judge) -> None:
    assert verdict("sofa", "s").verdict is Fit.CAUTION
    assert verdict("sofa", "s", Accent.GB).verdict is Fit.GOOD


def test_a_word_may_serve_two_keys(verdict: Judge) -> None:
    assert verdict("fox", "f").verdict is Fit.GOOD
    assert verdict("fox", "x").verdict is Fit.GOOD
    assert verdict("fox", "x").first_sound == "f"
    assert verdict("socks", "x").verdict is Fit.WRONG


def test_an_override_shows_its_reason_and_an_unstressed_vowel_stays_a_caution(verdict: Judge) -> None:
    found = verdict("iguana", "i")
    assert found.verdict is Fit.CAUTION
    assert any("short i" in reason for reason in found.reasons)


def test_a_name_that_only_begins_like_a_bank_word_does_not_get_its_other_names(verdict: Judge) -> None:
    found = verdict("mitten box", "m")
    assert not [finding for finding in found.findings if finding.rule is Rule.OTHER_NAME]


def test_an_unknown_word_is_none(bank: Bank, sounds: SoundTable) -> None:
    assert judge("blorf", None, bank, sounds, dictionary.readings) is None


def test_no_dictionary_is_needed_for_the_bank(bank: Bank, sounds: SoundTable) -> None:
    def never(word: str) -> tuple[Phones, ...]:
        raise AssertionError(word)

    for word in bank:
        for key in word.keys:
            asked = judge(word.word, key, bank, sounds, never)
            assert asked == judge_known(word, sounds.get(key), sounds)
            assert asked.verdict is not Fit.WRONG, (word.word, key, asked.reasons)


@pytest.mark.parametrize("accent", list(Accent))
@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_reasons_carry_the_verdict(accent: Accent, data: st.DataObject) -> None:
    bank, sounds = bank_file.read_bank(), bank_file.read_sounds()
    word = data.draw(st.sampled_from(bank.words))
    sound = data.draw(st.sampled_from(sounds.sounds))
    found = judge_known(word, sound, sounds, accent)
    weights = [WEIGHTS[finding.weight] for finding in found.findings]
    assert max(weights, default=0) == WEIGHTS[found.verdict]
    assert weights == sorted(weights, reverse=True)
    assert bool(found.cautions) == (found.verdict is not Fit.GOOD)
    if found.verdict is not Fit.WRONG:
        assert sound.is_heard_in(word.phones) or word.word.startswith("wh")


def test_every_word_of_the_dictionary_has_a_verdict(bank: Bank, sounds: SoundTable) -> None:
    pronouncing.init_cmu()
    words = sorted({word for word, _ in pronouncing.pronunciations})[::250]
    for word in words:
        for accent in Accent:
            found = judge(word, None, bank, sounds, dictionary.readings, accent)
            assert found, word
            assert found.first_sound
            assert max((WEIGHTS[finding.weight] for finding in found.findings), default=0) == WEIGHTS[found.verdict]
