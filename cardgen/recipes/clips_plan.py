"""The plan of a recording list."""

from collections.abc import Iterable

from cardgen.games.pieces import ClipList
from cardgen.plan import Plan, head, page_plan
from cardgen.request import ClipListRequest
from cardgen.sheets.marks import Page
from cardgen.words.pool import Pool


def clips_plan(request: ClipListRequest, listed: ClipList, pool: Pool, pages: Iterable[Page]) -> Plan:
    """Return the plan: the words in the order of choice, every recording with its name, and the pages."""
    plan = head(request, "clips list")
    plan["words"] = [
        {
            "word": entry.word.word,
            "key": entry.key,
            "verdict": entry.verdict.verdict.value,
            "cautions": list(entry.verdict.cautions),
        }
        for entry in pool.entries
    ]
    plan["clips"] = [
        {"number": clip.number, "name": clip.name, "say": clip.say}
        | ({"key": clip.key} if clip.key else {"language": clip.language})
        | ({} if clip.word is None else {"word": clip.word})
        for clip in listed.clips
    ]
    plan["pages"] = [page_plan(page) for page in pages]
    return plan
