"""What is wrong with a sorting plan, found from the plan and the data files alone.

Nothing here knows the program that wrote the plan: only the keys of the plan file, `art/words.toml` and
`art/sounds.toml`, read in the plainest way.
"""

import tomllib
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

Plan = dict[str, Any]
ART = Path(__file__).parent.parent.parent / "art"
VOWEL_LETTERS = "AEIOU"


def _read(name: str) -> dict[str, Any]:
    return tomllib.loads((ART / name).read_text("utf-8"))


SOUNDS = {sound["key"]: sound for sound in _read("sounds.toml")["sound"]}
_BANK = _read("words.toml")
WORDS = {word["word"]: word for word in _BANK["word"]}


def _listed(value: str | list[str]) -> list[str]:
    lines = [value] if isinstance(value, str) else value
    return [name.strip() for line in lines for name in line.split(",") if name.strip()]


NAMES = {name: phones.split() for phones, names in _BANK["names"].items() for name in _listed(names)}


def bare(phones: list[str]) -> list[str]:
    """Return phones without stress, but that the murmur AH0 is no AH."""
    return [phone if phone == "AH0" else phone.rstrip("012") for phone in phones]


@cache
def said(name: str) -> list[str]:
    """Return how a word of the bank, or the beginning of another name, is said."""
    word = WORDS.get(name) or WORDS.get(name.replace(" ", "-"))
    return bare(word["phones"].split() if word else NAMES[name])


@cache
def names(word: str, accent: str, *kinds: str) -> list[str]:
    """Return the other names of a word's picture that are said in an accent."""
    found = []
    for name in [name for kind in kinds for name in _listed(WORDS[word].get(kind, []))]:
        whose, mark, rest = name.partition(":")
        if not mark or whose == accent:
            found.append(rest.strip() if mark else name)
    return found


def begins(phones: list[str], key: str) -> bool:
    """Return whether what is said begins (for x and ng: ends) with the sound of a key."""
    for written in SOUNDS[key]["phones"]:
        own = written.split()
        if SOUNDS[key].get("at") == "end":
            if phones[-len(own) :] == own:
                return True
        elif phones[: len(own)] == own:
            short = own[-1][0] in VOWEL_LETTERS and own != ["ER"]
            if not (short and phones[len(own) : len(own) + 1] == ["R"]):
                return True
    return False


def faults(plan: Plan) -> Iterator[str]:
    """Yield a sentence for everything that is unfair or ambiguous."""
    keys = plan["sounds"]
    ends = any(SOUNDS[key].get("at") == "end" for key in keys)
    items = plan["items"]
    counts = Counter(item["key"] for item in items)
    if len({counts[key] for key in keys}) > 1 or not all(counts[key] for key in keys):
        yield f"not the same number a sound: {counts}"
    if len({item["word"] for item in items}) < len(items):
        yield "a word comes twice"
    for item in items:
        word, key = item["word"], item["key"]
        if word in plan["key_pictures"].values():
            yield f"{word} is a key picture of the game"
        heard = [other for other in keys if begins(said(word), other)]
        if heard != ([key] if key else []):
            yield f"{word} is heard under {heard}, and lies under {key}"
        every = names(word, plan["accent"], "also", "also_weak", "shows") if not ends else []
        for name in every:
            wrong = [other for other in keys if other != key and begins(said(name), other)]
            if wrong and not (key and SOUNDS[key]["phones"] == SOUNDS[wrong[0]]["phones"]):
                yield f"{word} may be called {name}, which begins with {wrong[0]}"
    yield from _mixed_up([item["word"] for item in items], list(plan["key_pictures"].values()), plan["accent"])
    yield from _order([item["key"] for item in items])


def _mixed_up(words: list[str], on_mat: list[str], accent: str) -> Iterator[str]:
    """Yield pairs that could be called by one name, or are known to be mixed up by sight."""
    for place, one in enumerate(words):
        for other in words[place + 1 :] + on_mat:
            looks = other in _listed(WORDS[one].get("looks_like", []))
            if looks or one in _listed(WORDS[other].get("looks_like", [])):
                yield f"{one} looks like {other}"
            called = [{word, *names(word, accent, "also", "also_weak")} for word in (one, other)]
            if other in called[0] or one in called[1]:
                yield f"{one} and {other} can have one name"


def _order(kinds: list[str | None]) -> Iterator[str]:
    if any(a == b == c for a, b, c in zip(kinds, kinds[1:], kinds[2:], strict=False)):
        yield "three of one side in a row"
    sides = len(set(kinds))
    if len(kinds) >= 2 * sides and all(kinds[i] == kinds[i % sides] for i in range(len(kinds))):
        yield "the sides go by turns from end to end"
