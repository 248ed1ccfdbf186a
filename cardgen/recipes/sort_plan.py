"""The plan of a sorting game: its mats with every place, and the cards in drawing order."""

from collections.abc import Sequence
from typing import Any

from cardgen import plan
from cardgen.games.pieces import PaperUse, SortGame
from cardgen.games.sorting_words import Foil
from cardgen.plan import Plan
from cardgen.request import SortRequest
from cardgen.sheets.cards import CardSheets
from cardgen.sheets.marks import Page
from cardgen.sheets.mat_layout import MatSheet, MatSide
from cardgen.units import Box
from cardgen.words.pool import Pool


def game_plan(request: SortRequest, game: SortGame, pool: Pool, foils: Sequence[Foil]) -> Plan:
    """Return what is decided before anything has a place on paper; the key of a foil is null.

    "neither" tells of each foil its own sound and, where it is hard on purpose, the sound it is close to.
    """
    made = plan.head(request, "sort")
    made["words"] = [
        {
            "word": entry.word.word,
            "key": entry.key,
            "verdict": entry.verdict.verdict.value,
            "cautions": list(entry.verdict.cautions),
        }
        for entry in pool.entries
    ]
    made["items"] = [{"word": item.word, "key": item.key} for item in game.items]
    if foils:
        made["neither"] = [
            {"word": foil.word.word, "sound": foil.sound.key} | ({"beside": foil.beside} if foil.beside else {})
            for foil in foils
        ]
    made["key_pictures"] = {side.key: side.picture for side in game.sides if side.key and side.picture}
    return made


def sort_plan(
    request: SortRequest,
    game: SortGame,
    pool: Pool,
    foils: Sequence[Foil],
    mats: Sequence[MatSheet],
    deck: CardSheets,
    use: PaperUse,
    pages: Sequence[Page],
) -> Plan:
    """Return the plan with all mats (as they lie on paper, one entry a kind of mat), cards and pages."""
    made = game_plan(request, game, pool, foils)
    made["mat"] = request.mat.value
    made["sets"] = request.sets
    made["mats"] = [
        {
            "keys": [side.side.key for side in sheet.sides if side.side.key],
            "width_mm": round(sheet.size.w, 3),
            "height_mm": round(sheet.size.h, 3),
            "sides": [_side(side) for side in sheet.sides],
        }
        for sheet in mats
    ]
    made["cards"] = plan.cards_plan(game.cards)
    return made | plan.backs_plan(deck.backs, deck.shift) | plan.paper_plan(use, pages)


def _side(side: MatSide) -> Plan:
    return {
        "key": side.side.key,
        "sign": side.side.sign.value,
        "frame": _box(side.frame),
        "places": [_box(place) for place in side.places],
    }


def _box(box: Box) -> dict[str, Any]:
    return {"x_mm": round(box.x, 3), "y_mm": round(box.y, 3), "w_mm": round(box.w, 3), "h_mm": round(box.h, 3)}
