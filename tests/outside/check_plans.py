"""What must hold of a check's plan, worked out again from the plan and the data files in the plainest way.

Nothing here knows the program that wrote the plan: only the keys of the plan file, and the tables of words and sounds.
"""

import tomllib
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Any

ART = Path(__file__).parent.parent.parent / "art"
Plan = dict[str, Any]
LETTER_PARTS = ("hear-letter", "see-capital", "see-small")
WORD_PARTS = ("hear-letter", "see-capital", "see-small", "hear-picture")


def listed(value: str | list[str]) -> list[str]:
    text = value if isinstance(value, str) else ", ".join(value)
    return [part.strip() for part in text.split(",") if part.strip()]


@cache
def sounds() -> dict[str, Any]:
    table = tomllib.loads((ART / "sounds.toml").read_text("utf-8"))["sound"]
    return {sound["key"]: sound for sound in table}


@cache
def words() -> dict[str, Any]:
    table = tomllib.loads((ART / "words.toml").read_text("utf-8"))
    return {word["word"]: word for word in table["word"]}


@cache
def first_phones() -> dict[str, list[str]]:
    """How every name begins: the words of the bank with all their phones, other names with the first."""
    table = tomllib.loads((ART / "words.toml").read_text("utf-8"))
    begins = {word["word"]: word["phones"].split() for word in table["word"]}
    for phones, names in table["names"].items():
        for name in listed(names):
            begins.setdefault(name, phones.split())
    return begins


def bare(phones: list[str]) -> list[str]:
    return [phone if phone == "AH0" else phone.rstrip("012") for phone in phones]


def begins(phones: list[str], key: str) -> bool:
    """Whether a name said so begins (ends, for end sounds) with the sound of a key; a vowel before r is another one."""
    heard = bare(phones)
    for own in (text.split() for text in sounds()[key]["phones"]):
        if sounds()[key].get("at") == "end":
            if heard[-len(own) :] == own:
                return True
        elif heard[: len(own)] == own:
            vowel = own[-1][0] in "AEIOU" and own != ["ER"]
            if not (vowel and heard[len(own) : len(own) + 1] == ["R"]):
                return True
    return False


def all_names(word: str, accent: str) -> list[str]:
    """Everything a child may say for a picture in one accent."""
    other = {"us": "gb:", "gb": "us:"}[accent]
    record = words()[word]
    found = [word]
    for field in ("also", "also_weak", "shows"):
        found += [
            name.removeprefix(f"{accent}:") for name in listed(record.get(field, "")) if not name.startswith(other)
        ]
    return found


def letter(key: str) -> str:
    return str(sounds()[key].get("letter", key))


def ambiguous(plan: Plan) -> list[str]:
    """Return a sentence for every wrong choice that is not wrong by all names and letters, or not of the check."""
    found = []
    for task in plan["tasks"]:
        kind, asked = task["kind"], task["key"]
        wrong = [(t, k) for t, k in zip(task["choices"], task["keys"], strict=True) if t != task["answer"]]
        if len(wrong) != len(task["choices"]) - 1:
            found.append(f"{task}: the answer stands there twice")
        found += [f"{task}: {key} was not taught" for _, key in wrong if key not in plan["sounds"]]
        if kind in LETTER_PARTS:
            for text, key in wrong:
                names = [task["say"]] if kind == "hear-letter" else all_names(task["say"], plan["accent"])
                found += [f"{task}: {name} fits {text}" for name in names if name in first_phones() and fits(name, key)]
                spelled = str.endswith if sounds()[key].get("at") == "end" else str.startswith
                if spelled(task["say"], letter(key)):
                    found.append(f"{task}: spelled with {text}")
                if text.lower() == letter(asked):
                    found.append(f"{task}: the same letter twice")
        else:
            for text, key in wrong:
                names = all_names(text, plan["accent"])
                found += [f"{task}: {text} is also {name}" for name in names if fits(name, asked)]
                if not fits(text, key):
                    found.append(f"{task}: {text} is no {key} word")
            found += [f"{task}: {a} and {b} are mixed up" for a, b in mixed_up(task["choices"], plan["accent"])]
        found += alike(task)
    return found


def fits(name: str, key: str) -> bool:
    """Whether a name is heard with a key's sound. Of end sounds only whole words can tell."""
    if sounds()[key].get("at") == "end" and name not in words():
        return False
    return begins(first_phones()[name], key)


def mixed_up(row: list[str], accent: str) -> list[tuple[str, str]]:
    """Return the pairs of pictures in a row that look alike, or that share a name."""
    found = []
    for place, a in enumerate(row):
        for b in row[place + 1 :]:
            look = b in listed(words()[a].get("looks_like", "")) or a in listed(words()[b].get("looks_like", ""))
            if look or a in all_names(b, accent) or b in all_names(a, accent):
                found.append((a, b))
    return found


def alike(task: Plan) -> list[str]:
    """Return a sentence for every two choices of a row that begin with one sound."""
    pairs = [(a, b) for a in task["keys"] for b in task["keys"] if a < b]
    own = {key: [text.split() for text in sounds()[key]["phones"]] for key in task["keys"]}
    return [f"{task}: {a} and {b} sound alike" for a, b in pairs if any(begins(phones, a) for phones in own[b])
            or any(begins(phones, b) for phones in own[a])]  # fmt: skip


def unfair(plan: Plan) -> list[str]:
    """Return a sentence for everything else that must hold of the rows of each part and version."""
    found = []
    by_part = groupby(plan["tasks"], key=lambda task: (task.get("version", ""), task["part"]))
    for (version, number), group in by_part:
        tasks = list(group)
        part = plan["parts"][number - 1]
        choices = part["choices"]
        where = f"version {version}, part {number}"
        places = [task["choices"].index(task["answer"]) for task in tasks]
        counts = [places.count(place) for place in range(choices)]
        if max(counts) - min(counts) > 1 or {len(task["choices"]) for task in tasks} != {choices}:
            found.append(f"{where}: places {counts}")
        for what, row in (("places", places), ("answers", [task["key"] for task in tasks])):
            if max(len(list(run)) for _, run in groupby(row)) > 2:
                found.append(f"{where}: more than two alike running in the {what} {row}")
        asked = [task["say"] for task in tasks if task["kind"] in WORD_PARTS]
        asked += [task["answer"] for task in tasks if task["kind"] not in LETTER_PARTS]
        if len(set(asked)) < len(asked):
            found.append(f"{where}: a word twice in {asked}")
        key_pictures = {sounds()[key].get("key_picture") for key in plan["sounds"]}
        shown = {text for task in tasks if task["kind"] not in LETTER_PARTS for text in task["choices"]}
        if key_pictures & (set(asked) | shown):
            found.append(f"{where}: a key picture in {asked}")
        signs = [task["sign"] for task in tasks]
        if len(set(signs)) < len(signs):
            found.append(f"{where}: a sign twice in {signs}")
    return found
