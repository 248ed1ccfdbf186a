"""Which drawing stands before which row: a child finds the row by it, because many cannot read numerals."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.words.sounds import Phones, Sound


@dataclass(frozen=True, slots=True)
class SignName:
    """A row sign: what it is called, and how its name and others a child may say for it begin (ARPABET)."""

    name: str
    begins: tuple[Phones, ...]

    def begins_with(self, sound: Sound) -> bool:
        """Return whether any of its names begins with a sound; it is nothing a check of that sound should show."""
        return any(map(sound.is_heard_in, self.begins))


def signs_for(
    rows: Sequence[int], signs: Sequence[SignName], asked: Sequence[Sound], beside: Sequence[Sound]
) -> list[list[str]]:
    """Return the signs of every part with so many rows, none twice in a part, other ones in the next part.

    Signs whose names begin with no sound of the check (`asked`, and `beside` as wrong choices) come in their order, and
    round again when all are used. Only where they are too few for one part are those of other sounds added, at the last
    even of asked ones.
    """

    def rank(sign: SignName) -> int:
        return 2 * any(map(sign.begins_with, asked)) + any(map(sign.begins_with, beside))

    ranked = sorted(signs, key=rank)
    clear = sum(rank(sign) == 0 for sign in signs)
    usable = [sign.name for sign in ranked[: max(clear, *rows)]]
    found, start = [], 0
    for count in rows:
        found.append([usable[(start + row) % len(usable)] for row in range(count)])
        start += count
    return found
