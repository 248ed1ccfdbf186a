"""From what the teacher asks to the finished file: six steps, one way. Read `build` first.

1 request · 2 words · 3 games · 4 sheets · 5 paper · 6 proof: each step is a room of the same name, and hands plain
data to the next.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cardgen import plan
from cardgen.paper import pdf, preview
from cardgen.paper.fonts import Fonts
from cardgen.paper.proof import prove
from cardgen.paper.whole_file import whole_file
from cardgen.request import BingoRequest, SheetRequest
from cardgen.sheets.marks import Document
from cardgen.sources import codes, letterforms, pictures
from cardgen.words.vocabulary import Vocabulary

Proof = Callable[[Path, Document], None]


@dataclass(frozen=True, slots=True)
class Output:
    """Where the sheets go: one file, or (`split`) a folder of the same name with one file a piece."""

    path: Path
    split: bool = False
    plan: Path | None = None
    preview: bool = False


def build(
    request: SheetRequest,
    output: Output,
    agree: Callable[[Sequence[str], Sequence[str]], bool] = lambda summary, warnings: True,
    proof: Proof | None = prove,
) -> tuple[Path, ...]:
    """Return the files written for a request, complete and proven; none of them if `agree` says no.

    `agree` is shown the summary lines and the warnings before anything is written. TeacherError where the request
    cannot be met, or a file cannot be written; whatever stood there before still stands then.
    """
