from collections import Counter
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.layout import lay_out


@settings(max_examples=120, deadline=None)
@given(data=st.data())
def test_any_boards_at_all_can_be_laid_out_evenly(data: st.DataObject) -> None:
    # Not only dealt boards: the theorem asks nothing of what stands on them, not even that symbols differ.
    boards, cells = data.draw(st.integers(1, 40)), data.draw(st.integers(1, 25))
    pool = data.draw(st.integers(cells, 75))
    symbols = [data.draw(st.integers(0, pool)) if data.draw(st.booleans()) else item for item in range(pool)]
    rng = Random(data.draw(st.integers(0, 999)))
    sets = [set(rng.sample(range(pool), cells)) for _ in range(boards)]
    rows = lay_out(sets, symbols, cells, rng)
    assert [set(row) for row in rows] == sets
    places = Counter(symbols[item] for row in rows for item in row)
    in_cell = Counter((symbols[item], cell) for row in rows for cell, item in enumerate(row))
    for symbol, count in places.items():
        times = [in_cell[symbol, cell] for cell in range(cells)]
        assert min(times) >= count // cells
        assert max(times) <= -(-count // cells)


def test_the_order_on_a_board_is_left_to_chance() -> None:
    sets = [set(range(9))] * 9
    assert lay_out(sets, range(9), 9, Random(1)) != lay_out(sets, range(9), 9, Random(2))
    assert lay_out(sets, range(9), 9, Random(1)) == lay_out(sets, range(9), 9, Random(1))
