"""The command that makes the same sheets again: everything that decides what is on them."""

import re
from dataclasses import fields
from enum import Enum
from typing import Any

from cardgen import __version__
from cardgen.request import CardsRequest, SheetRequest

# Written first (the sounds stand without an option), last, or not at all: which pieces are printed is asked anew.
_APART = {"keys", "seed", "only"}
# Told always: what they are by themselves depends on other options.
_TOLD = {"boards", "grid"}
# Paths and what she writes to families are hers: they are not printed here.
_PATHS = {"pictures": "FOLDER", "clips": "FOLDER", "links": "FILE.csv", "font": "FILE.ttf", "text": "TEXT"}


def command(request: SheetRequest, name: str) -> str:
    """Return the command, with every option that is not as it is by itself and the seed."""
    parts = [f"cardgen {name}", *request.keys]
    for field in fields(request):
        value = getattr(request, field.name)
        if field.name in _APART or (value == field.default and field.name not in _TOLD):
            continue
        option = f"--{field.name.replace('_', '-')}"
        if value is True:
            parts.append(option)
        elif value is False:
            parts.append(option.replace("--", "--no-", 1))
        else:
            parts.append(f"{option} {_PATHS.get(field.name) or _without_folder(typed(value))}")
    return " ".join([*parts, f"--seed {request.seed}"])


def _without_folder(text: str) -> str:
    """Return a file of hers as its kind only."""
    return "FILE.toml" if text.lower().endswith(".toml") else text


def typed(value: Any) -> str:
    """Return a value as it is typed on the command line."""
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, tuple):
        separator = "-" if all(isinstance(part, int) for part in value) else ","
        return separator.join(map(typed, value))
    if isinstance(value, float):
        return f"{value:g}"
    return str(getattr(value, "typed", value))


def once_more(request: SheetRequest, name: str, card: str = "") -> tuple[str, ...]:
    """Return what the teacher's page says under "Once more": the command, and that another version may differ.

    `card` is the id of a card of the deck, by which it tells how one that is lost is printed again.
    """
    typed_again = command(request, name)
    paths = " FOLDER or FILE stands for yours: paths are not printed."
    hers = paths if re.search(r" (FOLDER|FILE\.)", typed_again) else ""
    lost: tuple[str, ...] = ()
    if isinstance(request, CardsRequest) and card:
        lost = (f"One lost card: --only {f'2,{card} ({card} of set 2)' if request.sets > 1 else card}",)
    return (typed_again, *lost, f"Made with cardgen {__version__}; another version may know other words.{hers}")
