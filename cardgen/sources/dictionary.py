"""The pronouncing dictionary (CMUdict), loaded only when a word outside the bank is asked for."""

from functools import cache

from cardgen.words.sounds import Phones


@cache
def readings(word: str) -> tuple[Phones, ...]:
    """Return every reading of a word in the dictionary's order, as ARPABET; empty if it is not there.

    The first call loads the dictionary, which costs about a third of a second.
    """
    import pronouncing

    found = (_phones(text) for text in pronouncing.phones_for_word(word.lower()))
    return tuple(dict.fromkeys(found))


def _phones(text: str) -> Phones:
    """Split an entry into phones; some entries keep a comment behind a #."""
    return tuple(text.partition("#")[0].split())
