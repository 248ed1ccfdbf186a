"""What the running order says of every step of a lesson: when it comes, what to do, what it practises.

The standards' codes are those of the Common Core State Standards for English Language Arts (2010), Kindergarten: RF,
foundational skills (1d letters, 2d first sounds, 3a sound of a letter); L, language (1a printing, 2c letter for a
sound). England: National Curriculum 2014, Year 1, word reading.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """One kind of sheet in a lesson: the day it comes on, what to do with it, what it practises and which standards."""

    day: int
    head: str
    do: str
    practises: str
    standards: str


# In the order of a week; common practice, no source.
STEPS: Mapping[str, Step] = {
    "clips list": Step(0, "Record", "Record your voice, a line at a time, before you print codes.", "", ""),
    "cards": Step(
        1,
        "Show",
        "Show letter and pictures; the children say the sound and name them.",
        "letter to sound, first sounds",
        "RF.K.1d, RF.K.3a",
    ),
    "trace": Step(
        1, "Write", "A finger, then a crayon on the big letter; then the rows.", "forming the letters", "L.K.1a"
    ),
    "match": Step(
        2,
        "Pair",
        "Find what belongs together; its page says how.",
        "capital with small letter, or letter with first sound",
        "RF.K.1d, RF.K.3a",
    ),
    "sort": Step(
        2,
        "Sort",
        "Two children a mat: name the picture, say its first sound, lay it down.",
        "hearing first sounds",
        "RF.K.2d, L.K.2c",
    ),
    "bingo": Step(
        3,
        "Play",
        "Call from the list; its page says what is called and covered.",
        "first sounds, or letters",
        "RF.K.2d, RF.K.3a",
    ),
    "check": Step(
        4, "Check", "Read the script; mark with the answers on it.", "who has it, who needs more", "RF.K.1d, RF.K.3a"
    ),
    "pack": Step(5, "Take home", "One pack a child; the family cuts and plays.", "the same at home", "RF.K.3a"),
}
ENGLAND = "England: National Curriculum 2014, Year 1, word reading."
US = "Codes: Common Core State Standards, English Language Arts, Kindergarten."


def day(number: int) -> str:
    """Return the day as it is printed: what comes before the first day is preparation."""
    return f"Day {number}" if number else "Before"
