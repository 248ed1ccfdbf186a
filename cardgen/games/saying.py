"""How the sounds of a game are said, for the teacher's sheets."""

from collections.abc import Sequence

from cardgen.games.pieces import SayLine
from cardgen.words.sounds import Sound


def say_lines(sounds: Sequence[Sound]) -> tuple[SayLine, ...]:
    """Return how every sound of the game is said, in the order of the sounds."""
    return tuple(
        SayLine(s.key, s.letter, s.say, s.held, s.mouth, ", ".join(f"not {wrong}" for wrong in s.avoid)) for s in sounds
    )
