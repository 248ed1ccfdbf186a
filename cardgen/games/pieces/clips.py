"""Recordings to make: a sound, a word, or how to play in a home language."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Clip:
    """One recording: the `name` of its file without suffix, and what is said in it.

    `number` counts from 1 in the order of recording. `how` helps to say a sound right. `key` is empty for how to play
    in a home language (`language`, a BCP 47 tag); `word` is None unless a picture word is said.
    """

    number: int
    name: str
    say: str
    how: str = ""
    key: str = ""
    letter: str = ""
    word: str | None = None
    language: str = ""


@dataclass(frozen=True, slots=True)
class ClipList:
    """Every recording in the order in which to make them, and the sentences for the head of the printed list."""

    clips: tuple[Clip, ...]
    notes: tuple[str, ...]
