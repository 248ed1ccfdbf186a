from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.pieces import Paper
from cardgen.sheets.block import CardBlock, card_block
from cardgen.sheets.layout import CardFormat
from cardgen.sources.layouts import card_format
from cardgen.units import Size


def of(w: float, h: float, **more: object) -> CardFormat:
    return CardFormat("mine", Size(w, h), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "a4", "letter"),
    [
        ("week-deck", 24, 24),
        ("cards", 9, 9),
        # 2.5 × 3.5 inches at a margin of a quarter inch: 3 × 3.5 + 2 × 0.25 is exactly the 11 inches of Letter, which
        # a plain floor of floats takes for too much.
        ("cards-inch", 9, 9),
        ("cards-big", 12, 12),
        ("cards-bank", 10, 9),  # upright on A4, across on Letter
        ("cards-quarter", 4, 4),
        ("cards-half", 2, 2),
        ("pairs", 8, 8),
        ("counters", 24, 24),
    ],
)
def test_so_many_pieces_go_on_a_sheet(name: str, a4: int, letter: int) -> None:
    assert [card_block(card_format(name), paper).places for paper in Paper] == [a4, letter]


def test_an_exact_fit_is_not_lost_to_rounding() -> None:
    # 0.1 mm cannot be written in binary: 9 gaps and 10 cards that fill the room to the last hundredth.
    width = (210 - Fraction(128, 10) - 9 * Fraction(1, 10)) / 10
    block = card_block(of(float(width), 20.0), Paper.A4, gap=0.1)
    assert block.columns == 10


lengths = st.decimals(15, 200, places=2).map(float)


@given(lengths, lengths, st.sampled_from(Paper), st.decimals(0, 20, places=2).map(float), st.booleans(), st.booleans())
def test_cards_never_overlap_nor_leave_the_margins(
    w: float, h: float, paper: Paper, gap: float, fold: bool, laminate: bool
) -> None:
    try:
        block = card_block(of(w, h), paper, fold=fold, gap=gap, laminate=laminate)
    except TeacherError:
        # Only where it is too large both ways round.
        longer, shorter = paper.size.h - 12.8, paper.size.w - 12.8
        rooms = (
            ((shorter + 12.8) / 2 - 9.4, longer),
            ((longer + 12.8) / 2 - 9.4, shorter),
        ) if fold else ((shorter, longer), (longer, shorter))  # fmt: skip
        assert all(w > room_w or h > room_h for room_w, room_h in rooms)
        return
    boxes = [block.box(slot) for slot in range(block.places)]
    air = 6.0 if laminate else gap
    for a in boxes:
        for b in boxes:
            if a is not b:
                apart_x = max(b.x - a.right, a.x - b.right)
                apart_y = max(b.y - a.bottom, a.y - b.bottom)
                assert max(apart_x, apart_y) >= air - 1e-9
    assert min(box.x for box in boxes) >= 6.4 - 1e-9
    assert min(box.y for box in boxes) >= 6.4 - 1e-9
    right = block.sheet.w / 2 - 3 if fold else block.sheet.w - 6.4
    assert max(box.right for box in boxes) <= right + 1e-9
    assert max(box.bottom for box in boxes) <= block.sheet.h - 6.4 + 1e-9
    # Not one more column or row would fit.
    assert (block.columns + 1) * w + block.columns * air > right - 6.4 - 1e-9
    assert (block.rows + 1) * h + block.rows * air > block.sheet.h - 12.8 - 1e-9


@given(lengths, lengths, st.sampled_from(Paper))
def test_the_other_way_round_never_takes_more(w: float, h: float, paper: Paper) -> None:
    counts = []
    for sheet in (None, "portrait", "landscape"):
        try:
            counts.append(card_block(of(w, h, sheet=sheet), paper).places)
        except TeacherError:
            counts.append(0)
    assert counts[0] == max(counts[1:])


def test_every_front_has_its_back_across_the_middle() -> None:
    for name in ("week-deck", "cards-bank", "cards-half"):
        block = card_block(card_format(name), Paper.A4)
        backs = {(round(b.x, 6), round(b.y, 6)) for b in map(block.back_box, range(block.places))}
        assert backs == {(round(b.x, 6), round(b.y, 6)) for b in map(block.box, range(block.places))}
        for slot in range(block.places):
            front, back = block.box(slot), block.back_box(slot)
            assert front.cx + back.cx == pytest.approx(block.sheet.w)
            assert front.y == back.y


def test_a_folded_sheet_has_half_as_many_cards_beside_their_backs() -> None:
    block = card_block(card_format("cards"), Paper.A4, fold=True)
    assert (block.sheet, block.places) == (Size(297.0, 210.0), 4)
    assert all(block.back_box(slot).x >= block.sheet.w / 2 + 3 - 1e-9 for slot in range(block.places))


def test_where_the_sheet_ends_there_is_nothing_to_cut() -> None:
    block = card_block(card_format("cards-quarter"), Paper.A4)
    assert (block.xs, block.ys) == ([105.0], [148.5])
    assert card_block(card_format("cards-half"), Paper.LETTER).xs == [139.7]


@pytest.mark.parametrize(
    ("form", "more", "hint"),
    [
        (of(300, 300), {}, "197.2 × 284.2"),
        (of(60, 60), {"margin": 90.0}, "30.0 × 117.0"),
        (of(190, 60), {"fold": True}, "would"),
        (of(190, 60, margin_mm=150.0), {}, "0.0 × 0.0"),
    ],
)
def test_what_does_not_fit_is_told_with_what_would(form: CardFormat, more: dict[str, object], hint: str) -> None:
    with pytest.raises(TeacherError, match="does not fit on a4") as caught:
        card_block(form, Paper.A4, **more)  # type: ignore[arg-type]
    assert "card_mm" in caught.value.message
    assert hint in caught.value.hint


def test_cuts_with_a_gap_are_two_between_two_cards() -> None:
    block = CardBlock(Size(210, 297), 2, 1, Size(60, 80), 6.0, 42, 100)
    assert block.xs == [42, 102, 108, 168]
    assert block.ys == [100, 180]
    assert block.cuts == 6
