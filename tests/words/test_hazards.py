"""Every hazard with the words that fall into it and words that do not."""

from collections.abc import Callable
from itertools import pairwise

import pytest

from cardgen.request import Accent
from cardgen.words.case import Fit, Rule
from cardgen.words.cautions import Verdict
from cardgen.words.hazards import CHECKS

GOOD, CAUTION, WRONG = Fit.GOOD, Fit.CAUTION, Fit.WRONG

# Rule, its weight, words that are flagged, words that are good. `word:key` names the key, else the first letters do.
ROWS = [
    (Rule.OTHER_SOUND, WRONG, "giraffe city phone one onion eight:b x-ray:r", "goat cat fish"),
    (
        Rule.LETTER_MISMATCH,
        WRONG,
        "giraffe:j city:s phone:f one:w onion:u eight:long-a x-ray:e chorus:c thomas:t",
        "goat cat",
    ),
    (Rule.SILENT_FIRST, WRONG, "knee gnome wrist psychologist hour knife:n psalm heir", "sheep kite gum"),
    (Rule.SILENT_SECOND, CAUTION, "scissors sword ghost guitar rhino two", "sun gum"),
    (Rule.LONG_VOWEL, WRONG, "ice ivy acorn apron ocean unicorn eat:e", "igloo apple"),
    (Rule.Y_GLIDE, WRONG, "unicorn ewe europe", "umbrella unicorn:long-u"),
    (Rule.DIPHTHONG, WRONG, "owl:o oil:o", "octopus owl"),
    (Rule.R_COLOUR, WRONG, "orange:o ear:e arm:a arrow:a earth:e", "ear earth ornament"),
    (Rule.SCHWA, WRONG, "about asleep eraser eleven antenna", "umbrella balloon"),
    (Rule.SECOND_STRESS, GOOD, "avocado", ""),
    (Rule.NG_RAISE, CAUTION, "ink ankle anchor", "inch igloo"),
    (Rule.NASAL, CAUTION, "ant ambulance engine envelope", "apple elbow"),
    (Rule.EG_RAISE, CAUTION, "egg exit eggplant", "elephant"),
    (Rule.COT_CAUGHT, CAUTION, "ostrich off office", "otter olive"),
    (Rule.TRIPHTHONG, CAUTION, "iron:long-i hour:ow", "island:long-i"),
    (Rule.DARK_L, GOOD, "elf elbow eel owl", ""),
    (Rule.AFFRICATED, CAUTION, "truck drum dress string", "top dog"),
    (Rule.BLEND, CAUTION, "snake star grapes three", "sun goat queen music"),
    (Rule.QU, CAUTION, "queen:k quilt:c", "kite queen question"),
    (Rule.WH, CAUTION, "whale wheel whale:w", "web"),
    (Rule.VOICED_TH, WRONG, "this that", "thumb"),
    (Rule.X, WRONG, "xylophone x-ray", "fox:x box:x six:x"),
    (Rule.LETTER_NAME, GOOD, "elephant envelope seal jeep cake", ""),
    (Rule.ACCENT, CAUTION, "orange", "ornament"),
    (Rule.LONG_WORD, GOOD, "alligator avocado thermometer", ""),
    (Rule.VARIANTS, CAUTION, "herb economics", "cat"),
    (Rule.OTHER_NAME, CAUTION, "rabbit jet", ""),
    (Rule.CURATED, GOOD, "bat saw watch nail", ""),
    (Rule.CURATED, CAUTION, "vest pants jelly football ladybug zucchini ham witch", ""),
]
FLAGGED = [(rule, weight, word) for rule, weight, words, _ in ROWS for word in words.split()]
FINE = [(rule, word) for rule, _, _, words in ROWS for word in words.split()]
Judge = Callable[..., Verdict]
WEIGHTS = {GOOD: 0, CAUTION: 1, WRONG: 2}


def test_every_rule_has_a_row() -> None:
    assert {rule for rule, *_ in ROWS} == set(Rule)


@pytest.mark.parametrize(("rule", "weight", "asked"), FLAGGED, ids=[f"{rule.name}-{word}" for rule, _, word in FLAGGED])
def test_what_a_rule_flags(verdict: Judge, rule: Rule, weight: Fit, asked: str) -> None:
    word, _, key = asked.partition(":")
    found = verdict(word, key or None)
    weights = [reason.weight for reason in found.findings if reason.rule is rule]
    assert weights, found.reasons
    assert max(weights, key=WEIGHTS.__getitem__) is weight
    assert WEIGHTS[found.verdict] >= WEIGHTS[weight]


@pytest.mark.parametrize(("rule", "asked"), FINE, ids=[f"{rule.name}-{word}" for rule, word in FINE])
def test_what_a_rule_lets_pass(verdict: Judge, rule: Rule, asked: str) -> None:
    word, _, key = asked.partition(":")
    found = verdict(word, key or None)
    assert not [reason for reason in found.findings if reason.rule is rule], found.reasons
    assert found.verdict is GOOD, found.reasons


@pytest.mark.parametrize("word", ["orange", "arrow", "off", "herb"])
def test_words_that_two_accents_begin_differently_are_never_good(verdict: Judge, word: str) -> None:
    assert verdict(word).verdict is not GOOD


@pytest.mark.parametrize(
    ("word", "key", "fit"),
    [
        ("ostrich", "o", GOOD),
        ("off", "o", GOOD),
        ("orange", "o", CAUTION),
        ("orange", "or", WRONG),
        ("arrow", "a", CAUTION),
        ("herb", "h", GOOD),
        ("tube", "t", CAUTION),
        ("answer", "a", WRONG),
        ("ladybug", "l", CAUTION),
        ("zip", "z", GOOD),
        ("sofa", "s", GOOD),
    ],
)
def test_british_verdicts(verdict: Judge, word: str, key: str, fit: Fit) -> None:
    assert verdict(word, key, Accent.GB).verdict is fit


def test_by_ear_alone_the_spelling_does_not_count(verdict: Judge) -> None:
    assert verdict("giraffe", "j", any_spelling=True).verdict is GOOD
    assert verdict("phone", "f", any_spelling=True).verdict is GOOD
    assert verdict("giraffe", "g", any_spelling=True).verdict is WRONG


def test_no_two_checks_say_the_same_sentence(verdict: Judge) -> None:
    for word in ["ice", "unicorn", "arrow", "hour", "eraser", "truck", "x-ray"]:
        assert all(one != other for one, other in pairwise(sorted(verdict(word).reasons)))


def test_every_check_is_named_once() -> None:
    assert len(set(CHECKS)) == len(CHECKS) == 25
