"""The plan of a check: every row with its choices, every part with its mark, and where all lies on paper."""

from collections.abc import Iterable, Sequence

from cardgen.games.pieces import CheckVersion, QuickCheck
from cardgen.plan import Plan, head, page_plan
from cardgen.request import CheckRequest
from cardgen.sheets.marks import Page, Side
from cardgen.words.pool import PoolWord


def check_plan(
    request: CheckRequest, check: QuickCheck, words: Sequence[PoolWord], sheets: int, pages: Iterable[Page]
) -> Plan:
    """Return the plan of a check with its pages; `sheets` of paper serve two children."""
    plan = head(request, "check")
    pages = tuple(pages)
    if any(page.side is Side.BACK for page in pages):
        plan["flip"] = "short"
    if request.versions:
        plan["versions"] = list(request.versions)
    plan["words"] = [
        {
            "word": entry.word.word,
            "key": entry.key,
            "verdict": entry.verdict.verdict.value,
            "cautions": list(entry.verdict.cautions),
        }
        for entry in words
    ]
    if check.parts:
        plan["parts"] = [
            {
                "kind": part.kind.value,
                "items": len(part.tasks),
                "choices": part.choices,
                "pass_mark": part.pass_mark,
                "guess": round(float(part.guess), 4),
                "guess_exact": f"{part.guess.numerator}/{part.guess.denominator}",
            }
            for part in check.parts
        ]
        plan["tasks"] = [task for version in check.versions for task in tasks(version)]
    if check.oral:
        plan["oral"] = {"letters": list(check.oral.letters), "columns": check.oral.columns}
    if check.show_me:
        game = check.show_me
        plan["show_me"] = {
            "cards": list(game.cards),
            "calls": [{"say": call.word, "key": call.key, "answer": call.letter} for call in game.calls],
            "pass_mark": game.pass_mark,
            "guess": round(float(game.guess), 4),
            "guess_exact": f"{game.guess.numerator}/{game.guess.denominator}",
        }
    cut = 1 if check.parts else 0
    return plan | {"sheets": sheets, "cuts": cut, "minutes": cut, "pages": [page_plan(page) for page in pages]}


def tasks(version: CheckVersion) -> list[Plan]:
    """Return every row of a version in the order of the script; "key" is the letter-sound asked for."""
    return [
        ({"version": version.name} if version.name else {})
        | {
            "part": part.number,
            "kind": part.kind.value,
            "sign": task.sign,
            "key": task.key,
            "say": task.said,
            "choices": [choice.text for choice in task.choices],
            "keys": [choice.key for choice in task.choices],
            "answer": task.answer.text,
        }
        for part in version.parts
        for task in part.tasks
    ]
