"""What a bingo plan says of itself, worked out again from the boards alone, in the plainest way.

Nothing here knows the program that wrote the plan: only the keys of the plan file.
"""

from collections import Counter
from itertools import combinations
from math import comb
from typing import Any

Plan = dict[str, Any]
LETTER_FACES = ("lowercase", "capital", "letters")


def recompute(plan: Plan) -> Plan:
    """Return "balance" and (where the plan has calls) "winners" as they should stand in the plan."""
    found: Plan = {"balance": balance(plan)}
    if "calls" in plan:
        found["winners"] = winners(plan)
    return found


def disagreements(plan: Plan) -> list[str]:
    """Return a sentence for everything in the plan that is not as its boards and calls have it."""
    found = recompute(plan)
    wrong = [
        f"balance.{name}: the plan says {plan['balance'].get(name)}, the boards say {value}"
        for name, value in found["balance"].items()
        if plan["balance"].get(name) != value
    ]
    if "winners" in found and plan["winners"] != found["winners"]:
        wrong.append(f"winners: the plan says {plan['winners']}, the boards say {found['winners']}")
    return wrong


def balance(plan: Plan) -> Plan:
    """Return the measures of the class set; "q_bound" only where every item stands at most once on a board."""
    boards = [[cell for row in board["cells"] for cell in row if cell is not None] for board in plan["boards"]]
    key_of = {word["word"]: word["key"] for word in plan["words"]}
    frequency = {item: sum(board.count(item) for board in boards) for item in key_of}
    cells = range(len(boards[0]))
    positions = [sum(board[cell] == item for board in boards) for item in key_of for cell in cells]
    meetings = {pair: sum(set(pair) <= set(board) for board in boards) for pair in combinations(sorted(key_of), 2)}
    lines = Counter(tuple(sorted(line)) for board in plan["boards"] for line in lines_of(board["cells"]))
    found = {
        "frequency": [min(frequency.values()), max(frequency.values())],
        "frequency_by_key": {
            key: [f(frequency[item] for item in key_of if key_of[item] == key) for f in (min, max)]
            for key in dict.fromkeys(key_of.values())
        },
        "positions": [min(positions), max(positions)],
        "q": sum(comb(count, 2) for count in meetings.values()),
        "equal_lines": sum(comb(count, 2) for count in lines.values()),
    }
    if all(len(set(board)) == len(board) for board in boards):
        found["q_bound"] = least_q(plan, boards, key_of, frequency)
    return found


def lines_of(cells: list[list[str | None]]) -> list[list[str]]:
    """Return what stands in each row, column and (on squares) diagonal, the free centre left out."""
    rows, columns = len(cells), len(cells[0])
    lines = [list(row) for row in cells]
    lines += [[cells[row][column] for row in range(rows)] for column in range(columns)]
    if rows == columns:
        lines.append([cells[place][place] for place in range(rows)])
        lines.append([cells[place][-1 - place] for place in range(rows)])
    return [[cell for cell in line if cell is not None] for line in lines]


def least_q(plan: Plan, boards: list[list[str]], key_of: dict[str, str], frequency: dict[str, int]) -> int:
    """Return the least Σ C(λ,2) of boards with these frequencies and, on boards of words, these shares of the keys."""
    by_boards = evenly(sum(comb(count, 2) for count in frequency.values()), comb(len(boards), 2))
    blocks: dict[bool | str, list[int]] = {}
    shares = plan["boards"][0]["face"] not in LETTER_FACES
    for one, two in combinations(sorted(key_of), 2):
        block = key_of[one] if shares and key_of[one] == key_of[two] else False
        total = blocks.setdefault(block, [0, 0])
        total[0] += sum(one in board and two in board for board in boards)
        total[1] += 1
    return max(by_boards, sum(evenly(total, pairs) for total, pairs in blocks.values()))


def evenly(total: int, parts: int) -> int:
    """Return Σ C(x,2) when `total` is handed out one by one to `parts` in turn."""
    return sum(comb(total // parts + (place < total % parts), 2) for place in range(parts))


def winners(plan: Plan) -> list[Plan]:
    """Return, for every call on which a board reaches the goal for the first time, that call and those boards.

    Where a sound is called over pictures, or a letter stands more than once, a child covers one cell at each call and
    chooses which; only the full board can then be followed, and it is full when every kind was called often enough.
    """
    kind_of = {word["word"]: word["word"] for word in plan["words"]}
    if not set(plan["calls"]) <= set(kind_of):
        kind_of = {word["word"]: word["key"] for word in plan["words"]}
    won: set[int] = set()
    found = []
    called: Counter[str] = Counter()
    for call, item in enumerate(plan["calls"], 1):
        called[item] += 1
        new = [
            board["number"]
            for board in plan["boards"]
            if board["number"] not in won and any(need <= called for need in needs(plan["goal"], board, kind_of))
        ]
        won.update(new)
        if new:
            found.append({"call": call, "boards": new})
    return found


def needs(goal: str, board: Plan, kind_of: dict[str, str]) -> list[Counter[str]]:
    """Return what must have been called, and how often, for each way to reach the goal."""
    whole = [[cell for row in board["cells"] for cell in row if cell is not None]]
    ways = [Counter(kind_of[cell] for cell in way) for way in (lines_of(board["cells"]) if goal == "line" else whole)]
    if goal == "line" and any(max(way.values()) > 1 for way in ways):
        raise ValueError("nobody can know who has a line when a child may choose the cell")
    return ways
