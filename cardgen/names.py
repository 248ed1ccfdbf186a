"""The names a teacher can type, read straight from the data: the Tab key must not wait for all the rest."""

from cardgen.sources import shelf


def sounds() -> dict[str, str]:
    """Return every key with how its sound is said, in the order of the file."""
    return {sound["key"]: sound["say"] for sound in shelf.read_toml("art/sounds.toml")["sound"]}


def layouts() -> tuple[str, ...]:
    """Return the names of all our formats, in the order of the index."""
    return tuple(shelf.read_toml("layouts/index.toml")["layouts"])
