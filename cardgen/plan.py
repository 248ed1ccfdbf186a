"""The plan file: everything decided, as JSON, so that a curious user or a test can check the sheets against it.

Sizes are mm from the page's top-left corner, rounded to 0.001. Keys that do not apply to a game are absent.
"""

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from cardgen.games.pieces import BingoGame, Card, CardFace, PaperUse, Spread
from cardgen.request import Backs, SheetRequest
from cardgen.sheets.marks import Code, Page, marks_of
from cardgen.units import Box
from cardgen.words.pool import Pool

Plan = dict[str, Any]


def to_json(plan: Mapping[str, Any]) -> bytes:
    """Return the plan as UTF-8 JSON, one key a line at the top, the same bytes for the same plan."""
    lines = [f"{json.dumps(key)}: {json.dumps(value, ensure_ascii=False)}" for key, value in plan.items()]
    return ("{\n" + ",\n".join(lines) + "\n}\n").encode("utf-8")


def head(request: SheetRequest, game: str) -> Plan:
    """Return what every plan begins with: the game, its sounds, and how it is printed."""
    plan: Plan = {"game": game, "sounds": list(request.all_keys)}
    if request.review:
        plan["review"] = list(request.review)
    plan |= {
        "seed": request.seed,
        "accent": request.accent.value,
        "ink": request.ink.value,
        "paper": request.paper.value,
    }
    return plan


def bingo_plan(
    request: SheetRequest, game: BingoGame, pool: Pool, cards: Sequence[Card], use: PaperUse, pages: Iterable[Page]
) -> Plan:
    """Return the plan of a class set of bingo with all its pages."""
    faces = list(dict.fromkeys(board.face.value for board in game.boards))
    balance = game.balance
    plan = head(request, "bingo")
    plan |= {
        "show": faces[0] if len(faces) == 1 else faces,
        "call": game.call.value,
        "goal": game.goal.value,
        "free": game.free,
        "words": _words(game, pool),
        "boards": [
            {"number": board.number, "face": board.face.value, "cells": _rows(board.cells, board.columns)}
            for board in game.boards
        ],
        "calls": [call.item for call in game.calls],
    }
    if any(call.say != call.item for call in game.calls):
        plan["say"] = [{"item": call.item, "say": call.say} for call in game.calls]
    plan |= {
        "winners": [{"call": call.number, "boards": list(call.winners)} for call in game.calls if call.winners],
        "balance": {
            "frequency": list(balance.frequency),
            "frequency_by_key": {key: list(spread) for key, spread in balance.frequency_by_key},
            "positions": list(balance.positions),
            "q": balance.q,
            "q_bound": balance.q_bound,
            "equal_lines": balance.equal_lines,
        },
        "length": {
            "method": "exact" if game.length.first.games is game.length.last.games is None else "simulated",
            "first_line" if game.goal.value == "line" else "first_board": _spread(game.length.first),
            "last_board": _spread(game.length.last),
        },
        "cards": cards_plan(cards),
    }
    return plan | paper_plan(use, pages)


def backs_plan(backs: Backs, shift: tuple[float, float]) -> Plan:
    """Return how the backs get onto the paper: the edge on which sheets are turned, and how far backs are moved."""
    if backs in (Backs.DUPLEX_LONG, Backs.DUPLEX_SHORT):
        return {"flip": backs.value.removeprefix("duplex-"), "back_shift_mm": list(shift)}
    return {"flip": backs.value} if backs is Backs.FOLD else {}


def paper_plan(use: PaperUse, pages: Iterable[Page]) -> Plan:
    """Return what printing takes, and where everything lies."""
    return {
        "sheets": use.sheets,
        "cuts": use.cuts,
        "minutes": use.minutes,
        "ink_share": round(use.ink, 3),
        "pages": [page_plan(page) for page in pages],
    }


def _words(game: BingoGame, pool: Pool) -> list[Plan]:
    if game.boards[0].face.is_letter:
        return [{"word": item.id, "key": item.key, "verdict": "good", "cautions": []} for item in game.items]
    return [
        {
            "word": entry.word.word,
            "key": entry.key,
            "verdict": entry.verdict.verdict.value,
            "cautions": list(entry.verdict.cautions),
        }
        for entry in pool.entries
    ]


def _rows(cells: Sequence[str | None], columns: int) -> list[list[str | None]]:
    return [list(cells[start : start + columns]) for start in range(0, len(cells), columns)]


def _spread(spread: Spread) -> Plan:
    plan: Plan = {"mean": round(float(spread.mean), 6), "p10": spread.p10, "p50": spread.p50, "p90": spread.p90}
    if spread.games is not None:
        plan["games"] = spread.games
    return plan


def cards_plan(cards: Iterable[Card]) -> list[Plan]:
    """Return what is on the fronts and backs of cards."""
    return [
        {"id": card.id, "front": _face(card.front)} | ({"back": back} if (back := _face(card.back)) else {})
        for card in cards
    ]


def _face(face: CardFace) -> Plan:
    values = {
        "picture": face.picture,
        "word": face.word,
        "letter": face.letter or (face.pair and "".join(face.pair)),
        "sign": face.sign and face.sign.value,
        "pattern": face.pattern,
        "code": face.code and face.code.address,
    }
    return {name: value for name, value in values.items() if value is not None}


def page_plan(page: Page) -> Plan:
    """Return where everything lies on one page: places, cells, cuts and codes."""
    plan: Plan = {
        "number": page.number,
        "side": page.side.value,
        "width_mm": _mm(page.size.w),
        "height_mm": _mm(page.size.h),
        "places": [
            {"id": place.id, "face": place.face}
            | ({} if place.pack is None else {"pack": place.pack})
            | _box(place.box)
            | {"turned": place.turned}
            for place in page.places
        ],
    }
    if page.cells:
        plan["cells"] = [
            {"board": cell.board, "row": cell.row, "column": cell.column, "word": cell.word} | _box(cell.box)
            for cell in page.cells
        ]
    plan["cuts"] = [[_mm(cut.x1), _mm(cut.y1), _mm(cut.x2), _mm(cut.y2)] for cut in page.cuts]
    codes = [mark for mark in marks_of(page.items) if isinstance(mark, Code)]
    if codes:
        plan["codes"] = [{"text": code.text} | _box(page.on_paper(code.box)) for code in codes]
    return plan


def _mm(length: float) -> float:
    return round(length, 3)


def _box(box: Box) -> Plan:
    return {"x_mm": _mm(box.x), "y_mm": _mm(box.y), "w_mm": _mm(box.w), "h_mm": _mm(box.h)}
