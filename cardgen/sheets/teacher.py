"""The teacher's page: how to play, how long, how fair, what to look out for, on one side of paper."""

from dataclasses import dataclass

from cardgen.games.pieces import Block, Face, Imprint, SayLine
from cardgen.sheets import signs
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Page, Role
from cardgen.sheets.say_head import say_head
from cardgen.sheets.style import HEAD_PT, INK, PAGE_MARGIN, RUNNING_PT, TEXT, TITLE_PT, wrap
from cardgen.units import Size, Typeface, Widths

TEXT_AT, PITCH, SIGN_PITCH, MOST_GAP, LEAST_GAP = 38.0, 5.2, 6.8, 6.0, 2.0


@dataclass(frozen=True, slots=True)
class KindLine:
    """A kind of board and what to say of it, beside its sign."""

    face: Face
    text: str


@dataclass(frozen=True, slots=True)
class TeacherPage:
    """What a teacher's page says. `kinds` stand after the block `kinds_after`, each with its sign."""

    title: str
    right: str
    says: tuple[SayLine, ...]
    blocks: tuple[Block, ...]
    kinds: tuple[KindLine, ...] = ()


def teacher_pages(
    content: TeacherPage, paper: Size, *, imprint: Imprint, widths: Widths, first_page: int
) -> tuple[Page, ...]:
    """Return the teacher's page; where it would run over, gaps shrink first, then whole blocks move to the next."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn: list[Item] = [
        Group(Role.TITLE, (Label(left, 19, content.title, TITLE_PT, Typeface.BOLD, INK),)),
        Label(right, 19, content.right, RUNNING_PT, Typeface.TEXT, TEXT, Align.RIGHT),
    ]
    head, y = say_head(content.says, left, 30, right - left)
    drawn += head
    drawn.append(Line(left, y + 3, right, y + 3, 1.0, INK))
    y += 11
    blocks = [_Set(block, widths, right - left - TEXT_AT, content.kinds) for block in content.blocks]
    bottom = paper.h - 24
    bodies: list[list[Item]] = []
    while blocks:
        fitting = len(blocks)
        while fitting > 1 and y + sum(b.height for b in blocks[:fitting]) + LEAST_GAP * (fitting - 1) > bottom:
            fitting -= 1
        now, blocks = blocks[:fitting], blocks[fitting:]
        room = bottom - y - sum(block.height for block in now)
        gap = min(MOST_GAP, room / max(1, len(now) - 1))
        for block in now:
            drawn += block.draw(left, y)
            y += block.height + gap
        bodies.append(drawn)
        drawn, y = [], 24.0
    return signs.bound(bodies, paper, f"{signs.imprint_text(imprint, 110, widths)} · teacher's page", first_page)


class _Set:
    """One block, broken into lines."""

    def __init__(self, block: Block, widths: Widths, width: float, kinds: tuple[KindLine, ...]) -> None:
        self.head = block.head
        self.lines = [wrap(paragraph, width, RUNNING_PT, widths) for paragraph in block.paragraphs]
        self.kinds = () if block.paragraphs else kinds
        self.height = PITCH * sum(map(len, self.lines)) + SIGN_PITCH * len(self.kinds)

    def draw(self, x: float, y: float) -> list[Item]:
        at = x + TEXT_AT
        drawn: list[Item] = [Group(Role.HEADING, (Label(x, y, self.head, HEAD_PT, Typeface.BOLD, INK),))]
        for lines in self.lines:
            labels = [Label(at, y + PITCH * i, line, RUNNING_PT, Typeface.TEXT, INK) for i, line in enumerate(lines)]
            drawn.append(Group(Role.TEXT, tuple(labels)))
            y += PITCH * len(lines)
        for kind in self.kinds:
            drawn.append(signs.kind_sign(at + signs.KIND_BOX, y - 1.3, kind.face))
            drawn.append(Label(at + 11, y, kind.text, RUNNING_PT, Typeface.TEXT, INK))
            y += SIGN_PITCH
        return drawn
