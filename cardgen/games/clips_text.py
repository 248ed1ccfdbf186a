"""What the recording list says to the teacher."""

from collections.abc import Sequence

from cardgen.games.pieces import Clip
from cardgen.words.clip_names import family_name

TITLE = "What to record"
SECONDS_A_CLIP = 15  # to read the line, record, and stop; a rule of thumb


def how_to_record(languages: Sequence[str], naming: str) -> tuple[str, ...]:
    """Return how to record, in a few sentences for the list's head; `naming` is the command that names the files."""
    record = (
        "Use the phone's own recorder, in a quiet room, a hand's width from your mouth. One recording a line, in this "
        "order: wait a moment, say it twice, stop. Tick the line."
    )
    names = f"Copy all recordings into one FOLDER. This gives them the names on the right: {naming}"
    never = "Record yourself, never a child: a child's voice is personal. Say no names."
    if not languages:
        return record, names, never
    listed = ", ".join(map(family_name, languages))
    family = (
        f"{listed}: tell the family how to play, in their language: look at the picture, say its first sound, lay it "
        "on the letter. One minute at most."
    )
    return record, family, names, never


def summary(clips: Sequence[Clip], pages: int) -> str:
    """Return the line that is read before anything is written."""
    minutes = max(1, round(len(clips) * SECONDS_A_CLIP / 60))
    recordings = "1 recording" if len(clips) == 1 else f"{len(clips)} recordings"
    sheets = "1 page" if pages == 1 else f"{pages} pages"
    return f"{recordings}, about {minutes} {'minute' if minutes == 1 else 'minutes'} of work; the list has {sheets}."
