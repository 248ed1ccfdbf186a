"""What games are made of, as plain data. The sheets read nothing else of the games.

The request's enums are handed on from here, because the sheets look no further than this page.
"""

from cardgen.games.pieces.bingo import Balance as Balance
from cardgen.games.pieces.bingo import BingoGame as BingoGame
from cardgen.games.pieces.bingo import Board as Board
from cardgen.games.pieces.bingo import CallStep as CallStep
from cardgen.games.pieces.bingo import Length as Length
from cardgen.games.pieces.bingo import Spread as Spread
from cardgen.games.pieces.catalogue import CatalogueEntry as CatalogueEntry
from cardgen.games.pieces.catalogue import CataloguePart as CataloguePart
from cardgen.games.pieces.common import Block as Block
from cardgen.games.pieces.common import Card as Card
from cardgen.games.pieces.common import Imprint as Imprint
from cardgen.games.pieces.common import Item as Item
from cardgen.games.pieces.common import PaperUse as PaperUse
from cardgen.games.pieces.common import SayLine as SayLine
from cardgen.request import Call as Call
from cardgen.request import Cut as Cut
from cardgen.request import Face as Face
from cardgen.request import Goal as Goal
from cardgen.request import Ink as Ink
from cardgen.request import Paper as Paper
