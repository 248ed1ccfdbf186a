"""Step 1, the request: what the teacher asked for, checked as far as it can be without looking at any word.

One module a command; what they share is in `common`.
"""

from cardgen.request.bingo import BingoRequest as BingoRequest
from cardgen.request.bingo import Grid as Grid
from cardgen.request.bingo import Show as Show
from cardgen.request.common import Accent as Accent
from cardgen.request.common import Call as Call
from cardgen.request.common import CatalogueRequest as CatalogueRequest
from cardgen.request.common import Cut as Cut
from cardgen.request.common import Face as Face
from cardgen.request.common import Goal as Goal
from cardgen.request.common import Ink as Ink
from cardgen.request.common import Paper as Paper
from cardgen.request.common import SheetRequest as SheetRequest
