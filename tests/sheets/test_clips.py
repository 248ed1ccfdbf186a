from itertools import pairwise

import pytest

from cardgen.games.pieces import Clip, ClipList, Imprint, Paper
from cardgen.sheets.clips import clip_pages
from cardgen.sheets.marks import Label, Line, Panel, marks_of
from cardgen.units import Typeface, Widths

EDGE = 6.4


def listed(sounds: int, words: int, name: str = "word") -> ClipList:
    clips: list[Clip] = []
    for sound in range(sounds):
        key = f"k{sound}"
        clips.append(Clip(len(clips) + 1, key, "mmm", "lips closed, voice on; not em, not muh", key, "m"))
        for word in range(words):
            clips.append(Clip(len(clips) + 1, f"{key}-{name}{word}", f"{name}{word}", "", key, "m", f"{name}{word}"))
    clips.append(Clip(len(clips) + 1, "family-es", "how to play", "in the family's language (es)", language="es"))
    return ClipList(tuple(clips), ("How to record. " * 12, "And the names."))


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize(("sounds", "words"), [(1, 0), (2, 6), (4, 6), (30, 6), (46, 20)])
def test_every_recording_has_its_line_on_the_page(
    paper: Paper, sounds: int, words: int, widths: Widths, imprint: Imprint
) -> None:
    content = listed(sounds, words)
    pages = clip_pages(content, paper.size, imprint=imprint, widths=widths)
    texts: list[str] = []
    ticks = 0
    for page in pages:
        for mark in marks_of(page.items):
            if isinstance(mark, Label):
                texts.append(mark.text)
                assert mark.size_pt >= 9
                assert EDGE <= mark.y <= paper.size.h - EDGE
            if isinstance(mark, Label) and not mark.decoration:
                assert mark.y <= paper.size.h - 15
                # The letters of the stand-in are half an em wide, some wider than real ones.
                assert mark.x + widths.mm(mark.text, mark.size_pt, Typeface.TEXT) <= paper.size.w + 10
            ticks += isinstance(mark, Panel)
    assert ticks == len(content.clips)
    for clip in content.clips:
        assert f"{clip.name}.m4a" in "".join(texts)
    numbers = [int(text) for text in texts if text.isdecimal()]
    assert numbers == list(range(1, len(content.clips) + 1))


def test_no_sound_stands_alone_at_the_foot_of_a_page(widths: Widths, imprint: Imprint) -> None:
    for words in range(1, 9):
        pages = clip_pages(listed(20, words), Paper.A4.size, imprint=imprint, widths=widths)
        for page in pages[:-1]:
            files = [m.text for m in marks_of(page.items) if isinstance(m, Label) and m.text.endswith(".m4a")]
            assert "-" in files[-1]


def test_lines_of_a_page_do_not_run_into_each_other(widths: Widths, imprint: Imprint) -> None:
    (page,) = clip_pages(listed(3, 5), Paper.LETTER.size, imprint=imprint, widths=widths)
    boxes = [mark.box for mark in marks_of(page.items) if isinstance(mark, Panel)]
    assert all(below.y - above.bottom >= 1 for above, below in pairwise(boxes))
    rules = [mark.y1 for mark in marks_of(page.items) if isinstance(mark, Line)]
    assert len(rules) == 4
    assert not [box for box in boxes for y in rules if box.y - 1.5 <= y <= box.bottom + 2.5]


def test_the_longest_name_of_a_file_is_broken_after_a_hyphen(widths: Widths, imprint: Imprint) -> None:
    content = ClipList((Clip(1, "soft-g-" + "gigantic-" * 5 + "gem", "gem", "", "soft-g", "g", "gem"),), ())
    (page,) = clip_pages(content, Paper.A4.size, imprint=imprint, widths=widths)
    parts = [m for m in marks_of(page.items) if isinstance(m, Label) and ("gigantic" in m.text or m.text[-3:] == "m4a")]
    assert len(parts) > 1
    assert "".join(part.text for part in parts) == content.clips[0].name + ".m4a"
    assert all(part.text.endswith("-") for part in parts[:-1])
    assert all(part.x + widths.mm(part.text, part.size_pt, Typeface.TEXT) <= 210 - 15 for part in parts)
