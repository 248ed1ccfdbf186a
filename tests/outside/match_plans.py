"""What must hold of a matching game's plan, worked out again from the plan and the data files in the plainest way.

Nothing here knows the program that wrote the plan: only the keys of the plan file, and the tables of words and sounds.
"""

import tomllib
from collections import Counter
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any

ART = Path(__file__).parent.parent.parent / "art"
Plan = dict[str, Any]
LEAST_SLOPE = 9.0  # mm that a line must rise or fall at least


def listed(value: str | list[str]) -> list[str]:
    text = value if isinstance(value, str) else ", ".join(value)
    return [part.strip() for part in text.split(",") if part.strip()]


@cache
def sounds() -> dict[str, Any]:
    return {sound["key"]: sound for sound in tomllib.loads((ART / "sounds.toml").read_text("utf-8"))["sound"]}


@cache
def words() -> dict[str, Any]:
    return {word["word"]: word for word in tomllib.loads((ART / "words.toml").read_text("utf-8"))["word"]}


@cache
def said() -> dict[str, list[str]]:
    """How every name begins: the words of the bank with all their phones, other names with the first ones."""
    table = tomllib.loads((ART / "words.toml").read_text("utf-8"))
    begins = {name: phones.split() for phones, names in table["names"].items() for name in listed(names)}
    begins |= {word["word"]: word["phones"].split() for word in table["word"]}
    return {name: [phone if phone == "AH0" else phone.rstrip("012") for phone in begins[name]] for name in begins}


def names(word: str, *fields: str, accent: str) -> list[str]:
    """Everything that those fields of a word's record name in an accent, without the mark of the accent."""
    found = []
    for field in fields:
        for name in listed(words()[word].get(field, "")):
            mark, _, rest = name.rpartition(":")
            if mark in ("", accent):
                found.append(rest)
    return found


def letter_of(key: str) -> str:
    return str(sounds()[key].get("letter", key))


@cache
def goes_with(key: str, name: str) -> bool:
    """Whether a name begins (for an end sound: ends) with the sound of a key; a vowel before r is another sound."""
    heard, sound = said()[name], sounds()[key]
    for own in (phones.split() for phones in sound["phones"]):
        if sound.get("at") == "end":
            if heard[len(heard) - len(own) :] == own:
                return True
        elif heard[: len(own)] == own and not (
            own[-1][0] in "AEIOU" and own != ["ER"] and heard[len(own) :][:1] == ["R"]
        ):
            return True
    return False


def faults(plan: Plan) -> list[str]:
    """Return a sentence for every pair that is not one, and for everything that could be paired otherwise too."""
    found = {"letters": letter_faults, "pictures": picture_faults, "words": word_faults}[plan["match"]](plan)
    return found + (page_faults(plan) if plan["form"] == "page" else piece_faults(plan))


def letter_faults(plan: Plan) -> list[str]:
    found = [f"{one} and {other} are no pair" for one, other in plan["pairs"] if one.lower() != other or one == other]
    wanted = [letter_of(key) for key in plan["sounds"]]
    if [other for _, other in plan["pairs"]] != wanted or len(set(wanted)) < len(wanted):
        found.append("not one pair for every letter")
    return found


def picture_faults(plan: Plan) -> list[str]:
    keys, accent = plan["sounds"], plan["accent"]
    found = []
    if len({letter_of(key) for key in keys}) < len(keys):
        found.append("two sounds are written alike")
    for letter, word in plan["pairs"]:
        fitting = [key for key in keys if goes_with(key, word)]
        if [letter_of(key) for key in fitting] != [letter]:
            found.append(f"{word} goes with {fitting}, its letter is {letter}")
            continue
        for name in names(word, "also", "also_weak", "shows", accent=accent):
            starts = [key for key in keys if sounds()[key].get("at") != "end"]
            other = [key for key in starts if goes_with(key, name) and not goes_with(fitting[0], name)]
            found += [f"{word} may be called {name}, which goes with {key}" for key in other]
    return found + clashes([word for _, word in plan["pairs"]], accent)


def word_faults(plan: Plan) -> list[str]:
    found = [f"{one} and {other} are no pair" for one, other in plan["pairs"] if one != other]
    return found + clashes([word for word, _ in plan["pairs"]], plan["accent"])


def clashes(chosen: list[str], accent: str) -> list[str]:
    """Return the pictures that may be called by one name, or are known to be mixed up."""
    called = {word: {word, *names(word, "also", "also_weak", accent=accent)} for word in chosen}
    shown = {word: set(names(word, "shows", accent=accent)) for word in chosen}
    found = [f"{word} comes twice" for word, count in Counter(chosen).items() if count > 1]
    for a, b in combinations(sorted(set(chosen)), 2):
        alike = b in listed(words()[a].get("looks_like", "")) or a in listed(words()[b].get("looks_like", ""))
        if alike or called[a] & called[b] or called[a] & shown[b] or shown[a] & called[b]:
            found.append(f"{a} and {b} may be mixed up")
    return found


def piece_faults(plan: Plan) -> list[str]:
    """Return what is wrong with the cards: each pair is there, each card once, signs and curves tell the pairs."""
    ids = [card["id"] for card in plan["cards"]]
    found = [f"{name} is there {count} times" for name, count in Counter(ids).items() if count > 1]
    shown = [bare(name, plan) for name in ids]
    if sorted(shown) != sorted(name for pair in plan["pairs"] for name in pair):
        found.append("the cards are not those of the pairs")
    marks = [tuple(curve) for curve in plan.get("curves", []) if curve]
    kinds = [pair[1] if plan["match"] == "words" else pair[0].lower() for pair in plan["pairs"]]
    if marks and not len(set(marks)) == len(set(kinds)) == len(set(zip(marks, kinds, strict=True))):
        found.append("a curve fits halves that are no pair")
    return found


def page_faults(plan: Plan) -> list[str]:
    """Return the lines that would run straight across, and everything with no line or a wrong one."""
    mates = {(one.lower() if plan["match"] == "letters" else one, other) for one, other in plan["pairs"]}
    found = []
    pages = [page for page in plan["pages"] if page["places"]]
    # After the pages come their keys, with the same places.
    for order, page, key in zip(plan["orders"], pages, pages[len(pages) // 2 :], strict=False):
        if page["places"] != key["places"]:
            found.append(f"page {order['page']} is not like its key")
        middle = {(place["id"], place["face"]): place["y_mm"] + place["h_mm"] / 2 for place in page["places"]}
        for left, right in order["lines"]:
            slope = abs(middle[left, "left"] - middle[right, "right"])
            if slope < LEAST_SLOPE:
                found.append(f"page {order['page']}: {left} and {right} stand straight across")
            pair = (bare(left, plan), right.lower() if plan["match"] == "letters" else bare(right, plan))
            if pair not in mates:
                found.append(f"page {order['page']}: {left} and {right} are no pair")
        if sorted(right for _, right in order["lines"]) != sorted(name for name in order["right"] if name):
            found.append(f"page {order['page']}: something on the right has no line, or two")
        if {left for left, _ in order["lines"]} != {name for name in order["left"] if name}:
            found.append(f"page {order['page']}: something on the left has no line")
    return found


def bare(name: str, plan: Plan) -> str:
    """The word of a picture's id (m-moon), the letter of a numbered letter card (m-2), else the name itself."""
    for word in plan.get("words", []):
        if name == f"{word['key']}-{word['word']}":
            return str(word["word"])
    first, _, rest = name.partition("-")
    return first if rest.isdecimal() else name
