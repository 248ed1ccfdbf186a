"""The plan of a matching game: its words, its pairs, and the orders on pages to draw lines on."""

from collections.abc import Sequence

from cardgen import plan
from cardgen.games.pieces import LinePage, Pair
from cardgen.plan import Plan
from cardgen.request import Backs, MatchForm, MatchRequest, PairKind
from cardgen.words.pool import Pool


def match_plan(
    request: MatchRequest, kind: PairKind, pool: Pool, pairs: Sequence[Pair], pages: Sequence[LinePage]
) -> Plan:
    """Return what is decided before anything has a place on paper.

    A pair of letters is capital and small letter; other pairs are letter and word, or twice the word.
    """
    made = plan.head(request, "match") | {"match": kind.value, "form": request.form.value}
    if pool.entries:
        made["words"] = [
            {
                "word": entry.word.word,
                "key": entry.key,
                "verdict": entry.verdict.verdict.value,
                "cautions": list(entry.verdict.cautions),
            }
            for entry in pool.entries
        ]
    made["pairs"] = [_pair(pair, kind) for pair in pairs]
    if request.form is MatchForm.PAGE:
        return made | {"orders": [_order(page) for page in pages]}
    made |= {"cards": plan.cards_plan([card for pair in pairs for card in pair.cards]), "sets": request.sets}
    if request.form is MatchForm.HALVES:
        return made | {"curves": [list(pair.curve) for pair in pairs]}
    if request.self_check:
        backs = request.backs or Backs.DUPLEX_LONG
        made |= plan.backs_plan(backs, (request.back_shift.x, request.back_shift.y))
    return made


def _pair(pair: Pair, kind: PairKind) -> list[str]:
    if kind is PairKind.LETTERS:
        return [pair.other.id, pair.one.id]
    word = pair.word or ""
    return [word if kind is PairKind.WORDS else pair.one.front.letter or "", word]


def _order(page: LinePage) -> Plan:
    """Return what stands on one page from top to bottom; null is the example."""
    return {
        "page": page.number,
        "left": [card and card.id for card in page.left],
        "right": [card and card.id for card in page.right],
        "lines": [[one.id, other.id] for a, b in page.lines if (one := page.left[a]) and (other := page.right[b])],
    }
