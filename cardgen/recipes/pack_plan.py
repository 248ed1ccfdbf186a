"""The plan of take-home packs."""

from collections.abc import Iterable, Sequence

from cardgen import plan
from cardgen.games.pieces import PaperUse
from cardgen.recipes.pack_paper import PackPaper
from cardgen.request import PackRequest
from cardgen.sheets.marks import Page
from cardgen.words.pool import PoolWord


def pack_plan(
    request: PackRequest,
    comebacks: tuple[str, ...],
    words: Iterable[PoolWord],
    paper: PackPaper,
    use: PaperUse,
    pages: Sequence[Page],
) -> plan.Plan:
    """Return the plan: what is in every pack, and where it lies; `comebacks` are the earlier sounds that play along."""
    made = plan.head(request, "pack") | {"sounds": list(request.keys + comebacks)}
    if request.review:
        made["review"] = list(comebacks)
    book = paper.book
    made |= {
        "children": request.children,
        "show": request.show.value,
        "words": [
            {
                "word": entry.word.word,
                "key": entry.key,
                "verdict": entry.verdict.verdict.value,
                "cautions": list(entry.verdict.cautions),
            }
            for entry in words
        ],
        "cards": plan.cards_plan(paper.every_card),
        "packs": [
            {"number": number + 1, "cards": [card.id for card in book.cards_of(number)]} for number in range(book.sets)
        ],
    }
    return made | plan.backs_plan(book.backs, book.shift) | plan.paper_plan(use, pages)
