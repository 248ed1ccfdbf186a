"""Step 1, the request: what the teacher asked for, checked as far as it can be without looking at any word.

One module a command; what they share is in `common`.
"""

from cardgen.request.bingo import BingoRequest as BingoRequest
from cardgen.request.bingo import Grid as Grid
from cardgen.request.bingo import Show as Show
from cardgen.request.check import CheckRequest as CheckRequest
from cardgen.request.check import PartKind as PartKind
from cardgen.request.clips import ClipListRequest as ClipListRequest
from cardgen.request.common import Accent as Accent
from cardgen.request.common import Backs as Backs
from cardgen.request.common import Call as Call
from cardgen.request.common import CardsRequest as CardsRequest
from cardgen.request.common import CatalogueRequest as CatalogueRequest
from cardgen.request.common import Codes as Codes
from cardgen.request.common import Cut as Cut
from cardgen.request.common import Face as Face
from cardgen.request.common import Goal as Goal
from cardgen.request.common import Ink as Ink
from cardgen.request.common import Paper as Paper
from cardgen.request.common import SheetRequest as SheetRequest
from cardgen.request.common import Shift as Shift
from cardgen.request.flashcards import FlashcardsRequest as FlashcardsRequest
from cardgen.request.layouts import LayoutsRequest as LayoutsRequest
from cardgen.request.lesson import LessonPart as LessonPart
from cardgen.request.lesson import LessonRequest as LessonRequest
from cardgen.request.match import CutLine as CutLine
from cardgen.request.match import MatchForm as MatchForm
from cardgen.request.match import MatchRequest as MatchRequest
from cardgen.request.match import PairKind as PairKind
from cardgen.request.pack import PackRequest as PackRequest
from cardgen.request.pack import ReviewMode as ReviewMode
from cardgen.request.ruler import RulerRequest as RulerRequest
from cardgen.request.sort import Mat as Mat
from cardgen.request.sort import SortRequest as SortRequest
from cardgen.request.trace import LetterCase as LetterCase
from cardgen.request.trace import TraceRequest as TraceRequest
