"""The running order of a lesson."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One sheet in the running order: when it is used, what is done with it, and how it is printed.

    `file` is its name in the folder, `times` and `paper` tell how often it is printed and what that takes, `sheets`,
    `cuts` and `minutes` the same in numbers.
    """

    when: str
    head: str
    do: str
    practises: str
    standards: str
    file: str
    times: str
    paper: str
    sheets: int
    cuts: int
    minutes: int


@dataclass(frozen=True, slots=True)
class ContentsLine:
    """One file of the lesson's folder: its name, its title, its number of pages."""

    file: str
    title: str
    pages: int
