"""The shipped sounds and bank, and short ways to ask about a word."""

from collections.abc import Callable

import pytest

from cardgen.request import Accent
from cardgen.sources import bank_file, dictionary
from cardgen.words.bank import Bank
from cardgen.words.cautions import Verdict, judge
from cardgen.words.contrast import Contrasts
from cardgen.words.sounds import SoundTable

Judge = Callable[..., Verdict]


@pytest.fixture(scope="session")
def sounds() -> SoundTable:
    return bank_file.read_sounds()


@pytest.fixture(scope="session")
def bank() -> Bank:
    return bank_file.read_bank()


@pytest.fixture(scope="session")
def known() -> Contrasts:
    return bank_file.read_contrasts()


@pytest.fixture(scope="session")
def verdict(sounds: SoundTable, bank: Bank) -> Judge:
    """Judge a word that must be known: `verdict("giraffe", "g")`."""

    def ask(word: str, key: str | None = None, accent: Accent = Accent.US, *, any_spelling: bool = False) -> Verdict:
        found = judge(word, key, bank, sounds, dictionary.readings, accent, any_spelling=any_spelling)
        assert found is not None, f"{word} is not known"
        return found

    return ask
