"""The picture library on paper."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CatalogueEntry:
    """A picture of the library under one of its sounds; `cautions` are empty for a good word."""

    word: str
    picture: str
    alt: str
    cautions: tuple[str, ...]
    is_key_picture: bool


@dataclass(frozen=True, slots=True)
class CataloguePart:
    """All pictures of one sound, with its letters as printed and how it is said."""

    key: str
    letters: str
    say: str
    entries: tuple[CatalogueEntry, ...]
