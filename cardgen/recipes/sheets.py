"""What a recipe hands on: finished pages, the words for the teacher before anything is written, and the plan."""

from dataclasses import dataclass

from cardgen.plan import Plan
from cardgen.request import Accent
from cardgen.sheets.marks import Document

LANGUAGES = {Accent.US: "en-US", Accent.GB: "en-GB"}


@dataclass(frozen=True, slots=True)
class Sheets:
    """The documents of a request by name (the name counts only when they are split), and what is told of them.

    `for_you` pages at the front are the teacher's; where they are not counted apart it is 0.
    """

    documents: tuple[tuple[str, Document], ...]
    summary: tuple[str, ...]
    warnings: tuple[str, ...]
    plan: Plan
    for_you: int = 0
